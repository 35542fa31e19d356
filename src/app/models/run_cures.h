#pragma once

#include "core/plant.h"

#include <optional>
#include <string>
#include <vector>

/// How a run on the plan would stand otherwise, and what would cure what it lacks.
namespace mellowbin::app {

/// The same flour on another day.
struct RunAhead {
    Day day;
    double maturity = 0; ///< counted on, 0 to 1
    bool is_enough = false;
};

/// One thing that can be done, and what comes of it.
struct RunCure {
    enum class Kind {
        move,  ///< the run to `day`
        take,  ///< `kg` of `lot`, which no run has
        fewer, ///< `batches` in all
        judge, ///< `lot`, which then may go in
        order, ///< `kg` of `flour`, here by `day`
    };
    Kind kind{};
    std::string verb;  ///< "Move the run to Wed 2 Dec"
    std::string price; ///< "Maturity 85 of 85 %. 2 runs stand on Line 2 that day."
    LotId lot = {};
    std::string lot_code = {};
    double kg = 0;
    int batches = 0;
    std::string flour = {};
    std::optional<Day> day = {};
};

struct RunCures {
    RunId run;
    std::vector<RunAhead> ahead; ///< its own day and the next two; of a run with a target only
    std::vector<RunCure> cures;  ///< those that cure it whole first
    std::string why_none;        ///< why there are none though something is missing
};

struct Station;

/// By what the book has: its assignments, and flour that no run has and nobody keeps back. Each cure is
/// judged as the plan itself is, on what the run would then have.
RunCures make_run_cures(const Station& station, RunId run);

} // namespace mellowbin::app
