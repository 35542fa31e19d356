#include "ui/shell/serial_port.h"

#include "ui/shell/port_reader.h"

#include <fmt/format.h>

#include <array>
#include <atomic>
#include <cerrno>
#include <chrono>
#include <cstring>
#include <fcntl.h>
#include <mutex>
#include <poll.h>
#include <string>
#include <sys/ioctl.h>
#include <termios.h>
#include <thread>
#include <unistd.h>
#include <utility>

namespace mellowbin::ui {
namespace {

constexpr int look_again = 1000; // ms

double now() {
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

/// A file that is closed with its scope.
class OpenFile {
public:
    OpenFile() = default;
    explicit OpenFile(int number) : number_(number) {}
    ~OpenFile() { close(); }
    OpenFile(const OpenFile&) = delete;
    OpenFile& operator=(const OpenFile&) = delete;
    void take(int number) {
        close();
        number_ = number;
    }
    void close() {
        if (number_ >= 0)
            ::close(std::exchange(number_, -1));
    }
    [[nodiscard]] int number() const { return number_; }
    [[nodiscard]] bool is_open() const { return number_ >= 0; }

private:
    int number_ = -1;
};

speed_t speed_of(int baud) {
    switch (baud) {
    case 19200:
        return B19200;
    case 38400:
        return B38400;
    case 57600:
        return B57600;
    case 115200:
        return B115200;
    default:
        return B9600;
    }
}

/// Bytes as they are, eight bits, no echo, nothing of it a signal.
bool set_raw(int file, int baud) {
    termios how{};
    if (::tcgetattr(file, &how) != 0)
        return false;
    ::cfmakeraw(&how);
    how.c_cflag |= CLOCAL | CREAD;
    how.c_cc[VMIN] = 1; // nothing there is told from hung up
    how.c_cc[VTIME] = 0;
    ::cfsetispeed(&how, speed_of(baud));
    ::cfsetospeed(&how, speed_of(baud));
    return ::tcsetattr(file, TCSANOW, &how) == 0;
}

std::string why_not_opened(const std::string& path, int fault) {
    switch (fault) {
    case ENOENT:
    case ENXIO:
    case ENODEV:
        return path + " is not there: plug the scanner in, or mend its path";
    case EACCES:
    case EPERM:
        return path + " may not be read by this person: they need to be of its group (dialout)";
    case EBUSY:
        return path + " is in use by another program";
    case ENOTTY:
        return path + " is no serial port";
    default:
        return fmt::format("{} cannot be opened: {}", path, std::strerror(fault));
    }
}

/// The error that stands against it; 0: it is open, and nobody else gets it.
int open_port(const app::ScannerPort& port, OpenFile& file) {
    file.take(::open(port.path.c_str(), O_RDWR | O_NOCTTY | O_NONBLOCK | O_CLOEXEC));
    if (!file.is_open())
        return errno;
    const bool is_ours = ::isatty(file.number()) != 0 && ::ioctl(file.number(), TIOCEXCL) == 0 &&
                         set_raw(file.number(), port.baud);
    if (!is_ours) {
        const int fault = errno == 0 ? ENOTTY : errno;
        file.close();
        return fault;
    }
    ::tcflush(file.number(), TCIFLUSH); // what lay there is of an earlier hour
    return 0;
}

} // namespace

class SerialPort::Listener {
public:
    Listener(app::ScannerPort port, std::function<void()> wake)
        : port_(std::move(port)), wake_(std::move(wake)) {
        int ends[2];
        if (::pipe2(ends, O_CLOEXEC) != 0)
            return; // then it cannot be stopped, and must not be started
        stop_read_.take(ends[0]);
        stop_write_.take(ends[1]);
        thread_ = std::thread([this] { listen(); });
    }
    ~Listener() {
        if (!thread_.joinable())
            return;
        is_stopped_ = true;
        stop_write_.close();
        thread_.join();
    }
    Listener(const Listener&) = delete;
    Listener& operator=(const Listener&) = delete;

    std::vector<app::Scanned> take_scans() {
        const std::lock_guard lock(guard_);
        return std::exchange(scans_, {});
    }
    std::optional<app::TellOfPort> take_news() {
        const std::lock_guard lock(guard_);
        return std::exchange(news_, {});
    }

private:
    void listen() {
        while (!is_stopped_) {
            if (!file_.is_open())
                try_to_open();
            wait();
        }
    }
    void try_to_open() {
        const int fault = open_port(port_, file_);
        if (fault == 0)
            tell(
                {was_lost_ ? port_.path + " is there again" : "listening at " + port_.path, true, was_lost_});
        else if (!was_lost_) // which was told already
            tell({why_not_opened(port_.path, fault), false, false});
        was_lost_ = was_lost_ && fault != 0;
    }
    /// Until bytes come, a pause ends a scan, it is time to look for the port, or this is to stop.
    void wait() {
        std::array<pollfd, 2> files{pollfd{stop_read_.number(), POLLIN, 0},
                                    pollfd{file_.number(), POLLIN, 0}};
        const int pause = static_cast<int>(PortReader::pause * 1000) + 10;
        ::poll(files.data(), files.size(), !file_.is_open() ? look_again : reader_.is_waiting() ? pause : -1);
        if (is_stopped_ || !file_.is_open())
            return;
        if (files[1].revents != 0)
            read();
        reader_.wait_until(now());
        hand_over();
    }
    void read() {
        std::array<char, 512> bytes;
        const auto count = ::read(file_.number(), bytes.data(), bytes.size());
        if (count > 0)
            return reader_.take({bytes.data(), static_cast<std::size_t>(count)}, now());
        if (count < 0 && (errno == EAGAIN || errno == EINTR))
            return;
        file_.close();
        reader_ = {}; // half a scan is none
        was_lost_ = true;
        tell({port_.path + " was unplugged: plug the scanner in again", false, true});
    }
    void hand_over() {
        auto scans = reader_.take_scans();
        if (reader_.take_endless())
            tell({port_.path +
                      " sends without end: set the scanner to end a scan with CR, and look at the speed",
                  false, true});
        if (scans.empty())
            return;
        {
            using Scanned = app::Scanned;
            const std::lock_guard lock(guard_);
            for (auto& scan : scans)
                scans_.push_back({std::move(scan.bytes),
                                  Scanned::Way::port,
                                  scan.ended_by_line ? Scanned::End::line : Scanned::End::pause,
                                  {}});
        }
        wake_();
    }
    void tell(app::TellOfPort news) {
        {
            const std::lock_guard lock(guard_);
            if (last_words_ == news.words && !news.is_news)
                return;
            last_words_ = news.words;
            news_ = std::move(news);
        }
        wake_();
    }

    const app::ScannerPort port_;
    const std::function<void()> wake_;
    OpenFile stop_read_, stop_write_, file_;
    PortReader reader_;
    bool was_lost_ = false;
    std::atomic<bool> is_stopped_ = false;
    std::mutex guard_; ///< of the three below
    std::vector<app::Scanned> scans_;
    std::optional<app::TellOfPort> news_;
    std::string last_words_;
    std::thread thread_;
};

SerialPort::SerialPort(std::function<void()> wake) : wake_(std::move(wake)) {}
SerialPort::~SerialPort() = default;

void SerialPort::listen_at(const app::ScannerPort& port) {
    if (was_set_ && port == port_)
        return;
    was_set_ = true;
    port_ = port;
    listener_.reset();
    if (!port.path.empty())
        listener_ = std::make_unique<Listener>(port, wake_);
}

std::vector<app::Scanned> SerialPort::take_scans() {
    return listener_ ? listener_->take_scans() : std::vector<app::Scanned>();
}

std::optional<app::TellOfPort> SerialPort::take_news() {
    return listener_ ? listener_->take_news() : std::nullopt;
}

} // namespace mellowbin::ui
