#pragma once

#include "planning/evaluate.h"
#include "planning/linear_program.h"
#include "planning/tables.h"

namespace mellowbin::planning {

/// A linear programme over the tonnes of some (run, lot) pairs; windows, maturity, oxidant and shortage
/// follow.
struct TonnesProgram {
    LinearProgram program;
    std::vector<Assignment> pairs; ///< pair i is column i; its tonnes are what the programme is asked for
    std::vector<int> stock_row;    ///< per lot, -1 without one
    std::vector<Assignment> kept;  ///< of runs that are not in the programme, beside the locks
    double constant = 0; ///< what the plan costs whatever the tonnes: waste, locked and frozen parts
    [[nodiscard]] Plan plan_of(const Problem& problem, const std::vector<double>& x) const;
};

/// The tonnes with supports fixed as in `plan`: every lot used keeps at least its least share, no lot comes
/// in, so most-lots and lot changes stay as they are (lot changes are not in the objective).
/// Only runs in `open` move, if it is given; the others keep what they have and stand in TonnesProgram::kept.
TonnesProgram polish_program(const Problem& problem, const Tables& tables, const Plan& plan,
                             const std::vector<int>* open = nullptr);

/// Every usable pair, without least shares, most lots and lot changes: its optimum plus `constant` is below
/// every plan's objective.
TonnesProgram bound_program(const Problem& problem, const Tables& tables);

} // namespace mellowbin::planning
