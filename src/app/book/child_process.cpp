#include "app/book/child_process.h"

#include <algorithm>
#include <array>
#include <cerrno>
#include <csignal>
#include <cstdlib>
#include <fcntl.h>
#include <optional>
#include <poll.h>
#include <spawn.h>
#include <sys/mman.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>
#include <utility>

namespace mellowbin::app {
namespace {

using Steady = std::chrono::steady_clock;

/// How much of what a program complains of is kept.
constexpr std::size_t complaint_bytes = 4'096;

class Handle {
public:
    Handle() = default;
    explicit Handle(int file) : file_(file) {}
    Handle(Handle&& other) noexcept : file_(std::exchange(other.file_, -1)) {}
    Handle& operator=(Handle&& other) noexcept {
        std::swap(file_, other.file_);
        return *this;
    }
    Handle(const Handle&) = delete;
    Handle& operator=(const Handle&) = delete;
    ~Handle() { close(); }
    void close() {
        if (file_ >= 0)
            ::close(std::exchange(file_, -1));
    }
    [[nodiscard]] bool is_open() const { return file_ >= 0; }
    [[nodiscard]] int get() const { return file_; }

private:
    int file_ = -1;
};

struct Pipe {
    Handle from, to;
};
std::optional<Pipe> new_pipe() {
    std::array<int, 2> ends{};
    if (pipe2(ends.data(), O_CLOEXEC) != 0)
        return {};
    Pipe pipe{Handle(ends[0]), Handle(ends[1])};
    fcntl(pipe.from.get(), F_SETFL, O_NONBLOCK);
    return pipe;
}

/// The bytes as a file that has no name and is gone with its handle: the program may read it when it likes.
Handle nameless_file(std::string_view bytes) {
    Handle file(memfd_create("input", MFD_CLOEXEC));
    while (file.is_open() && !bytes.empty()) {
        const auto written = write(file.get(), bytes.data(), bytes.size());
        if (written < 0 && errno == EINTR)
            continue;
        if (written <= 0)
            return {};
        bytes.remove_prefix(static_cast<std::size_t>(written));
    }
    if (file.is_open() && lseek(file.get(), 0, SEEK_SET) != 0)
        return {};
    return file;
}

/// What is done between the birth of the process and its program.
class Birth {
public:
    Birth(int input, int output, int complaints) {
        posix_spawn_file_actions_init(&files_);
        posix_spawn_file_actions_adddup2(&files_, input, STDIN_FILENO);
        posix_spawn_file_actions_adddup2(&files_, output, STDOUT_FILENO);
        posix_spawn_file_actions_adddup2(&files_, complaints, STDERR_FILENO);
        posix_spawn_file_actions_addclosefrom_np(&files_, STDERR_FILENO + 1);
        posix_spawnattr_init(&attributes_);
        sigset_t none;
        sigemptyset(&none);
        posix_spawnattr_setsigmask(&attributes_, &none);
        sigset_t usual;
        sigfillset(&usual);
        posix_spawnattr_setsigdefault(&attributes_, &usual);
        // A group of its own: an interrupt at the terminal is for this program, and what it starts ends with
        // it.
        posix_spawnattr_setpgroup(&attributes_, 0);
        posix_spawnattr_setflags(&attributes_,
                                 POSIX_SPAWN_SETSIGMASK | POSIX_SPAWN_SETSIGDEF | POSIX_SPAWN_SETPGROUP);
    }
    ~Birth() {
        posix_spawn_file_actions_destroy(&files_);
        posix_spawnattr_destroy(&attributes_);
    }
    Birth(const Birth&) = delete;
    Birth& operator=(const Birth&) = delete;

    /// 0, or why not; like errno.
    int start(std::vector<std::string> words, pid_t& process) {
        const char* path = std::getenv("PATH");
        std::vector<std::string> environment{"LC_ALL=C",
                                             std::string("PATH=") + (path ? path : "/usr/bin:/bin")};
        return posix_spawnp(&process, words.front().c_str(), &files_, &attributes_, pointers(words).data(),
                            pointers(environment).data());
    }

private:
    static std::vector<char*> pointers(std::vector<std::string>& words) {
        std::vector<char*> all;
        for (auto& word : words)
            all.push_back(word.data());
        all.push_back(nullptr);
        return all;
    }
    posix_spawn_file_actions_t files_{};
    posix_spawnattr_t attributes_{};
};

void limit(pid_t process, const ChildLimits& limits) {
    const auto set = [&](auto what, rlim_t most) {
        const rlimit both{most, most};
        prlimit(process, what, &both, nullptr); // fails only where the process has ended already
    };
    set(RLIMIT_AS, limits.memory_bytes);
    set(RLIMIT_CPU, static_cast<rlim_t>(std::chrono::ceil<std::chrono::seconds>(limits.time).count() + 1));
    set(RLIMIT_CORE, 0);
}

/// A process that was started; ended and buried at the latest when the scope is left.
class Child {
public:
    explicit Child(pid_t process) : process_(process) {}
    ~Child() { end(); }
    Child(const Child&) = delete;
    Child& operator=(const Child&) = delete;

    void end() {
        if (status_)
            return;
        kill(-process_, SIGKILL);
        wait_with(0);
    }
    /// How it ended, or nothing where it runs on.
    std::optional<int> status_by(Steady::time_point latest) {
        while (!status_) {
            wait_with(WNOHANG);
            if (status_ || Steady::now() >= latest)
                break;
            std::this_thread::sleep_for(std::chrono::milliseconds(1));
        }
        return status_;
    }

private:
    void wait_with(int options) {
        int status = 0;
        pid_t waited = 0;
        do
            waited = waitpid(process_, &status, options);
        while (waited < 0 && errno == EINTR);
        if (waited != 0)
            status_ = waited > 0 ? status : 0;
    }
    pid_t process_;
    std::optional<int> status_;
};

/// Takes what is there to read, up to `most` in `into`; closes the handle at the end of it. What is more than
/// `most` is read and dropped.
void take(Handle& from, std::string& into, std::size_t most) {
    std::array<char, 65'536> piece{};
    while (from.is_open()) {
        const auto count = read(from.get(), piece.data(), piece.size());
        if (count < 0 && errno == EINTR)
            continue;
        if (count < 0 && errno == EAGAIN)
            return;
        if (count <= 0) {
            from.close();
            return;
        }
        into.append(piece.data(),
                    std::min(static_cast<std::size_t>(count), most - std::min(most, into.size())));
        if (into.size() >= most)
            return;
    }
}

/// Reads both until they are at their end. Nothing where that went well.
std::optional<ChildEnd> listen(Handle& output, Handle& complaints, Steady::time_point latest,
                               const ChildLimits& limits, ChildOutcome& outcome) {
    while (output.is_open() || complaints.is_open()) {
        const auto left = std::chrono::ceil<std::chrono::milliseconds>(latest - Steady::now());
        if (left.count() <= 0)
            return ChildEnd::took_too_long;
        // A handle that is closed is -1 and passed over.
        std::array<pollfd, 2> waited{pollfd{output.get(), POLLIN, 0}, pollfd{complaints.get(), POLLIN, 0}};
        if (poll(waited.data(), waited.size(),
                 static_cast<int>(std::min<std::int64_t>(left.count(), 1'000))) < 0 &&
            errno != EINTR)
            return ChildEnd::was_not_started;
        take(output, outcome.output, limits.output_bytes + 1);
        if (outcome.output.size() > limits.output_bytes)
            return ChildEnd::wrote_too_much;
        std::string heard;
        take(complaints, heard, complaint_bytes);
        outcome.complaints.append(heard, 0,
                                  complaint_bytes - std::min(complaint_bytes, outcome.complaints.size()));
    }
    return {};
}

} // namespace

ChildOutcome run_child(const std::vector<std::string>& words, std::string_view input,
                       const ChildLimits& limits) {
    ChildOutcome outcome{ChildEnd::was_not_started, 0, "", ""};
    const Handle file = nameless_file(input);
    auto output = new_pipe();
    auto complaints = new_pipe();
    if (!file.is_open() || !output || !complaints)
        return outcome;
    pid_t process = 0;
    const int fault = Birth(file.get(), output->to.get(), complaints->to.get()).start(words, process);
    if (fault != 0) {
        if (fault == ENOENT || fault == EACCES)
            outcome.end = ChildEnd::is_not_there;
        return outcome;
    }
    const auto latest = Steady::now() + limits.time;
    Child child(process);
    limit(process, limits);
    output->to.close();
    complaints->to.close();
    if (const auto stopped = listen(output->from, complaints->from, latest, limits, outcome)) {
        outcome.end = *stopped;
        return outcome;
    }
    const auto status = child.status_by(latest);
    outcome.end = !status              ? ChildEnd::took_too_long
                  : WIFEXITED(*status) ? ChildEnd::exited
                                       : ChildEnd::crashed;
    outcome.code = status && WIFEXITED(*status) ? WEXITSTATUS(*status) : 0;
    return outcome;
}

} // namespace mellowbin::app
