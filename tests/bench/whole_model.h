#pragma once

#include "planning/problem.h"

#include <optional>
#include <string>

namespace mellowbin::planning {

/// The whole problem as one mixed-integer programme, every rule in it, as text in the CPLEX LP format.
struct WholeModel {
    std::string text;
    double constant = 0; ///< what every plan costs beside the programme's objective
};

WholeModel whole_model(const Problem& problem);

/// What a general solver made of the whole model.
struct RivalResult {
    std::optional<double> objective; ///< of its best plan, as the evaluator counts; absent: it found none
    double seconds = 0;
    std::string words; ///< how it ended
};

/// Runs the program `cbc` (of COIN-OR) on the whole model with a time limit; its files go to the system's
/// folder for such and are removed.
RivalResult ask_cbc(const Problem& problem, double seconds, int threads);

} // namespace mellowbin::planning
