#pragma once

#include <chrono>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::app {

/// What a program that is run beside may take.
struct ChildLimits {
    std::chrono::milliseconds time{5'000}; ///< by the clock; of the processor's time a second more
    std::size_t memory_bytes = 1'000'000'000;
    std::size_t output_bytes = 20'000'000;
};

enum class ChildEnd {
    exited,          ///< by itself, with `code`
    crashed,         ///< by a signal that was not ours; out of memory looks like this, too
    took_too_long,   ///< and was ended
    wrote_too_much,  ///< and was ended
    is_not_there,    ///< no such program on the path
    was_not_started, ///< the system has no process, memory or handle left
};

struct ChildOutcome {
    ChildEnd end{};
    int code = 0;
    std::string output;
    std::string complaints; ///< what it wrote as errors, the first bytes of it
};

/// Runs a program with its arguments (the first names it, sought on the path), without a shell, `input` as
/// its standard input, and waits for its end or ends it. The program gets no other open file, no terminal, no
/// environment but the path and plain words. Nothing of it is left behind: no process, no handle. May be
/// called from any thread.
ChildOutcome run_child(const std::vector<std::string>& words, std::string_view input,
                       const ChildLimits& limits);

} // namespace mellowbin::app
