#include "measured.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <exception>
#include <fstream>
#include <stdexcept>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

namespace mellowbin::bench {
namespace {

using Clock = std::chrono::steady_clock;

double seconds_since(Clock::time_point start) {
    return std::chrono::duration<double>(Clock::now() - start).count();
}

struct Pipe {
    int ends[2] = {-1, -1};
    Pipe() {
        if (::pipe(ends) != 0)
            throw std::runtime_error("no pipe can be made");
    }
    Pipe(const Pipe&) = delete;
    Pipe& operator=(const Pipe&) = delete;
    ~Pipe() {
        ::close(ends[0]);
        ::close(ends[1]);
    }
    /// All that is written until the other end is closed everywhere else.
    std::string read_all() {
        ::close(ends[1]);
        ends[1] = -1;
        std::string all;
        char bytes[4096];
        for (ssize_t got = 0; (got = ::read(ends[0], bytes, sizeof bytes)) > 0;)
            all.append(bytes, static_cast<std::size_t>(got));
        return all;
    }
};

[[noreturn]] void become(const std::vector<std::string>& words, int out) {
    ::dup2(out, STDOUT_FILENO);
    ::dup2(out, STDERR_FILENO);
    std::vector<char*> arguments;
    for (const auto& word : words)
        arguments.push_back(const_cast<char*>(word.c_str()));
    arguments.push_back(nullptr);
    ::execv(arguments[0], arguments.data());
    ::_exit(127);
}

} // namespace

Ran run_program(const std::vector<std::string>& words) {
    Pipe pipe;
    const auto start = Clock::now();
    const pid_t child = ::fork();
    if (child == 0)
        become(words, pipe.ends[1]);
    if (child < 0)
        throw std::runtime_error("no process can be started");
    Ran ran;
    ran.out = pipe.read_all();
    int status = 0;
    rusage used{};
    ::wait4(child, &status, 0, &used);
    ran.seconds = seconds_since(start);
    ran.megabytes = static_cast<double>(used.ru_maxrss) / 1024;
    ran.code = WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
    return ran;
}

Ran median_run(const std::vector<std::string>& words, int times) {
    std::vector<double> seconds, megabytes;
    Ran last;
    for (int i = 0; i <= times; ++i) {
        last = run_program(words);
        if (last.code != 0)
            throw std::runtime_error(fmt::format("{} ended with {}: {}", words.at(1), last.code, last.out));
        if (i == 0)
            continue;
        seconds.push_back(last.seconds);
        megabytes.push_back(last.megabytes);
    }
    last.seconds = median(seconds);
    last.megabytes = median(megabytes);
    return last;
}

double median(std::vector<double> figures) {
    const auto middle = figures.begin() + static_cast<std::ptrdiff_t>(figures.size() / 2);
    std::nth_element(figures.begin(), middle, figures.end());
    return *middle;
}

double seconds_of(const std::function<void()>& work) {
    const auto start = Clock::now();
    work();
    return seconds_since(start);
}

double median_ms(int times, const std::function<void()>& work) {
    work();
    std::vector<double> took;
    for (int i = 0; i < times; ++i)
        took.push_back(1000 * seconds_of(work));
    return median(took);
}

std::vector<double> in_a_child(const std::function<std::vector<double>()>& work) {
    Pipe pipe;
    std::fflush(stdout); // or the child says again what waits there
    const pid_t child = ::fork();
    if (child == 0) {
        int code = 1;
        try {
            const auto figures = work();
            const auto size = figures.size() * sizeof(double);
            code = ::write(pipe.ends[1], figures.data(), size) == static_cast<ssize_t>(size) ? 0 : 1;
        } catch (const std::exception& error) {
            fmt::print("  failed: {}\n", error.what());
        }
        std::fflush(stdout);
        ::_exit(code);
    }
    const auto bytes = pipe.read_all();
    int status = 0;
    ::waitpid(child, &status, 0);
    std::vector<double> figures(bytes.size() / sizeof(double));
    std::copy_n(bytes.data(), figures.size() * sizeof(double), reinterpret_cast<char*>(figures.data()));
    return figures;
}

double resident_mb() {
    std::ifstream file("/proc/self/statm");
    long pages = 0, resident = 0;
    file >> pages >> resident;
    return static_cast<double>(resident) * static_cast<double>(::sysconf(_SC_PAGESIZE)) / 1048576;
}

} // namespace mellowbin::bench
