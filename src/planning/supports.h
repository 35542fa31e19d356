#pragma once

#include "planning/judged_plan.h"

namespace mellowbin::planning {

/// The most (run, lot) pairs for which improve_supports() is worth its time.
inline constexpr std::size_t few_pairs = 120;

/// On a small problem: gives a run one lot more, takes one away, or exchanges one, each time with the best
/// tonnes for all by a linear programme, and keeps what is better, until nothing is. The search fills runs
/// one after another; where flour lacks, what is best for all can be what none would take by itself. Whole
/// batches stay as they are.
void improve_supports(const Problem& problem, const Tables& tables, LinearSolver& solver, JudgedPlan& judged,
                      const std::stop_token& stop);

} // namespace mellowbin::planning
