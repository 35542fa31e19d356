#include "support/catch.h"
#include "support/temporary_folder.h"
#include "ui/shell/port_reader.h"
#include "ui/shell/serial_port.h"

#include <atomic>
#include <chrono>
#include <fcntl.h>
#include <filesystem>
#include <pty.h>
#include <string>
#include <thread>
#include <unistd.h>

using namespace mellowbin;
using namespace std::chrono_literals;
using Catch::Matchers::Contains;
using ui::PortReader;
using ui::SerialPort;

namespace {

const std::string label = "]C1010952123454321310FL-240917A\x1d"
                          "15270531";

/// A scanner at the other end of a pseudo terminal, and the path at which it is plugged in.
class PluggedIn {
public:
    explicit PluggedIn(std::filesystem::path at) : at_(std::move(at)) {
        char name[256];
        REQUIRE(::openpty(&scanner_, &other_, name, nullptr, nullptr) == 0);
        std::filesystem::remove(at_);
        std::filesystem::create_symlink(name, at_);
    }
    ~PluggedIn() { unplug(); }
    PluggedIn(const PluggedIn&) = delete;
    PluggedIn& operator=(const PluggedIn&) = delete;

    void send(const std::string& bytes) const {
        REQUIRE(::write(scanner_, bytes.data(), bytes.size()) == static_cast<ssize_t>(bytes.size()));
    }
    void unplug() {
        if (scanner_ < 0)
            return;
        std::filesystem::remove(at_);
        ::close(other_);
        ::close(std::exchange(scanner_, -1));
    }

private:
    std::filesystem::path at_;
    int scanner_ = -1, other_ = -1;
};

/// A port of a window that is not there.
struct Listening {
    tests::TemporaryFolder folder;
    std::string path = (folder / "scanner").string();
    std::atomic<int> woken = 0;
    SerialPort port{[this] { ++woken; }};
    std::vector<app::Scanned> scans;
    std::vector<app::TellOfPort> news;

    void look() {
        for (auto& scan : port.take_scans())
            scans.push_back(std::move(scan));
        if (auto one = port.take_news())
            news.push_back(std::move(*one));
    }
    bool comes(std::size_t scan_count, std::size_t news_count) {
        for (int tries = 0; tries < 500; ++tries) {
            look();
            if (scans.size() >= scan_count && news.size() >= news_count)
                return true;
            std::this_thread::sleep_for(10ms);
        }
        return false;
    }
};

} // namespace

TEST_CASE("Bytes of a port are a scan at their line end, whatever that is, or after a pause") {
    for (const char* end : {"\r", "\n", "\r\n"}) {
        PortReader reader;
        reader.take(label.substr(0, 9), 1);
        reader.take(label.substr(9) + end, 1.02);
        const auto scans = reader.take_scans();
        REQUIRE(scans.size() == 1);
        CHECK(scans[0].bytes == label);
        CHECK(scans[0].ended_by_line);
        CHECK_FALSE(reader.is_waiting());
    }
    PortReader reader;
    reader.take(label, 1);
    reader.wait_until(1.09);
    CHECK(reader.take_scans().empty());
    CHECK(reader.is_waiting());
    reader.wait_until(1.2);
    const auto scans = reader.take_scans();
    REQUIRE(scans.size() == 1);
    CHECK_FALSE(scans[0].ended_by_line);
}

TEST_CASE("Two scans in one reading are two, and line ends without bytes are none") {
    PortReader reader;
    reader.take("\r\n\r\nW24-118\r\n\r\nW24-119\r", 1);
    const auto scans = reader.take_scans();
    REQUIRE(scans.size() == 2);
    CHECK(scans[0].bytes == "W24-118");
    CHECK(scans[1].bytes == "W24-119");
}

TEST_CASE("What goes on without end is dropped to its end, told, and costs no memory") {
    PortReader reader;
    for (int i = 0; i < 10'000; ++i)
        reader.take(std::string(100, 'x'), 1);
    CHECK(reader.take_scans().empty());
    CHECK(reader.take_endless());
    CHECK_FALSE(reader.take_endless());
    reader.take("xx\rW24-118\r", 1);
    const auto scans = reader.take_scans();
    REQUIRE(scans.size() == 1);
    CHECK(scans[0].bytes == "W24-118");
    // As long as a symbol can be is taken.
    reader.take(std::string(7'089, '1') + "\r", 2);
    CHECK(reader.take_scans().size() == 1);
    CHECK_FALSE(reader.take_endless());
}

TEST_CASE("A scan comes through a port byte for byte, and wakes the window") {
    Listening at;
    PluggedIn scanner(at.path);
    at.port.listen_at({at.path, 9600});
    REQUIRE(at.comes(0, 1));
    CHECK(at.news[0].words == "listening at " + at.path);
    CHECK(at.news[0].is_well);
    CHECK_FALSE(at.news[0].is_news); // as it should be: no line of its own
    at.woken = 0;
    // Signs that a terminal would take as commands or turn into others are bytes here.
    const std::string bytes = label + "\x03\x04\x11\x13\x1a";
    scanner.send(bytes + "\r");
    REQUIRE(at.comes(1, 1));
    CHECK(at.scans[0].bytes == bytes);
    CHECK(at.scans[0].way == app::Scanned::Way::port);
    CHECK(at.scans[0].end == app::Scanned::End::line);
    CHECK(at.woken > 0);
    scanner.send("W24-118"); // no end: the pause is one
    REQUIRE(at.comes(2, 1));
    CHECK(at.scans[1].bytes == "W24-118");
    CHECK(at.scans[1].end == app::Scanned::End::pause);
}

TEST_CASE(
    "A scanner that is unplugged is told, half a scan of it is none, and plugged in again it is there") {
    Listening at;
    {
        PluggedIn scanner(at.path);
        at.port.listen_at({at.path, 9600});
        REQUIRE(at.comes(0, 1));
        scanner.send("]C1010952");
        std::this_thread::sleep_for(20ms);
    }
    REQUIRE(at.comes(0, 2));
    CHECK_THAT(at.news[1].words, Contains("was unplugged"));
    CHECK_FALSE(at.news[1].is_well);
    CHECK(at.news[1].is_news);
    PluggedIn scanner(at.path);
    REQUIRE(at.comes(0, 3));
    CHECK(at.news[2].words == at.path + " is there again");
    CHECK(at.news[2].is_well);
    CHECK(at.news[2].is_news);
    scanner.send("W24-118\r");
    REQUIRE(at.comes(1, 3));
    CHECK(at.scans[0].bytes == "W24-118");
}

TEST_CASE("A port that is not there is looked for, and one that is none is told as that") {
    Listening at;
    at.port.listen_at({at.path, 9600});
    REQUIRE(at.comes(0, 1));
    CHECK_THAT(at.news[0].words, Contains("is not there"));
    CHECK_FALSE(at.news[0].is_news); // on another machine it may well be missing
    PluggedIn scanner(at.path);
    REQUIRE(at.comes(0, 2));
    CHECK(at.news[1].words == "listening at " + at.path);

    at.port.listen_at({"/dev/null", 9600});
    REQUIRE(at.comes(0, 3));
    CHECK_THAT(at.news[2].words, Contains("is no serial port"));
}

TEST_CASE("Where no port is set nobody listens, and a window ends at once though nothing ever came") {
    Listening at;
    PluggedIn scanner(at.path);
    at.port.listen_at({"", 9600});
    CHECK_FALSE(at.port.take_news());
    at.port.listen_at({at.path, 115200});
    REQUIRE(at.comes(0, 1));
    const auto before = std::chrono::steady_clock::now();
    at.port.listen_at({"", 9600});
    CHECK(std::chrono::steady_clock::now() - before < 500ms);
}
