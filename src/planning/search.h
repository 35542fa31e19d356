#pragma once

#include "planning/make_plan.h"
#include "planning/open_plan.h"
#include "planning/tables.h"

#include <vector>

namespace mellowbin::planning {

/// What a search starts from and may change.
struct SearchTask {
    Plan start;
    std::vector<int> open; ///< runs that may change, in date order
    Effort effort;
    double warm = 0;              ///< currency by which a step may worsen the plan at the start, in the mean
    double cold = 0;              ///< and at the end
    const Habit* habit = nullptr; ///< what runs had before, where changing that is charged; null: nothing
};

struct SearchResult {
    Plan plan; ///< the best found
    std::int64_t steps = 0;
};

/// Annealed ruin and recreate on one chain a thread. In rounds: after each a linear programme finds the
/// best tonnes and what stock is worth, which guides the next, and a chain that lags behind goes on from the
/// best one. Steps, seconds and threads by the effort; a stop is obeyed within 0.1 s.
SearchResult search(const Problem& problem, const Tables& tables, LinearSolver& solver,
                    const SearchTask& task, Progress& progress, const std::stop_token& stop);

} // namespace mellowbin::planning
