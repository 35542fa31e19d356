#pragma once

#include <functional>
#include <string>
#include <vector>

/// Times and memory of work in a process of its own, so that one measurement leaves nothing for the next.
namespace mellowbin::bench {

/// What a program took: seconds on the clock, and the most memory it held at once.
struct Ran {
    double seconds = 0, megabytes = 0;
    int code = 0;
    std::string out; ///< what it said on both its outputs
};
/// Runs a program, the first word is its file; throws std::runtime_error when it cannot be started.
Ran run_program(const std::vector<std::string>& words);
/// Once to warm up, then `times`; each figure is the median. Throws std::runtime_error with what was said
/// when it ends with another code than 0.
Ran median_run(const std::vector<std::string>& words, int times);

double median(std::vector<double> figures);
double seconds_of(const std::function<void()>& work);
/// Once to warm up, then `times`: the median in milliseconds.
double median_ms(int times, const std::function<void()>& work);

/// The figures that `work` gives in a process of its own; empty when it failed, which it then said.
std::vector<double> in_a_child(const std::function<std::vector<double>()>& work);

/// Memory that this process holds now, in MB.
double resident_mb();

} // namespace mellowbin::bench
