#pragma once

#include "cli/session.h"

#include <cstdint>
#include <string>

namespace mellowbin::cli {

/// `plan --instance`: what was asked for. Files are paths.
struct InstanceTyped {
    std::string instance; ///< empty: the book is planned
    std::string out;      ///< empty: the plan goes to the terminal
    double seconds = 0;   ///< above zero: search for so long, whatever the steps
    std::int64_t steps = 20000;
    std::uint64_t seed = 1;
    int threads = 1;
    bool without_bound = false;
    std::string programme; ///< where the bound's linear programme is written; empty: nowhere
};

/// Plans an instance file instead of the book and writes the plan as JSON.
int plan_instance(Session& session, const InstanceTyped& typed);

} // namespace mellowbin::cli
