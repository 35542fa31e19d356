#pragma once

#include "terminal.h"

#include <nlohmann/json.hpp>

#include <string>
#include <vector>

namespace mellowbin::tests {

/// An invented bakery in a terminal's book as of 2026-11-25, with six lots of strong white, W24-201 to
/// W24-206, milled on 30 Oct, delivered on 2 Nov, 1,000 kg each, in Bay 1 at 20 °C; Bay 2 is empty, at 12 °C.
class ABakery {
public:
    ABakery();

    /// Runs a command that is expected to be done; what it said.
    std::string done(std::vector<std::string> words);
    /// The same with --json; what it said, read.
    nlohmann::json json(std::vector<std::string> words);
    /// Runs a command that is expected to be refused, with nothing on stdout; what it said on stderr.
    std::string refused(std::vector<std::string> words);
    /// Logs one result of a lot by a method.
    void retest(const std::string& lot, const std::string& day, const std::string& result);
    /// How many lines the journal has.
    std::size_t journal_lines();

    Terminal terminal;
};

/// A logger's file: a head line, and a line each hour from 2 Nov to 25 Nov 09:00 UTC but for 10 to 12 Nov.
std::string a_log_with_a_gap(const std::string& heads, const std::string& values, int year = 2026);

} // namespace mellowbin::tests
