#pragma once

#include "app/models/planned_run.h"

#include <string>

/// What a planned run lacks, as far as the plan could mend it.
namespace mellowbin::app {

/// Differences smaller than maturity is known to are none.
bool is_mature_enough(double maturity, double target);

struct RunTrouble {
    double short_kg = 0;
    bool is_weak = false;    ///< and no oxidant makes up for it
    bool is_outside = false; ///< its specification

    [[nodiscard]] bool any() const { return short_kg > 0 || is_weak || is_outside; }
};
RunTrouble trouble_of(const PlannedRun& run);

/// Something of it is mended, and nothing got worse.
bool is_better(const RunTrouble& now, const PlannedRun& then);
/// How the run would stand, as far as it stood badly: "Nothing is short then."
std::string standing_words(const RunTrouble& now, const PlannedRun& then);

} // namespace mellowbin::app
