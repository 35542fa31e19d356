#pragma once

#include "planning/make_plan.h"

#include <vector>

namespace mellowbin::planning {

/// How a plan may change to hold again.
struct Mending {
    std::vector<int> touched;     ///< runs to be planned anew, by index; see touched_runs()
    double charge_per_change = 0; ///< currency for each run and lot that a further run gains or loses
    int neighbours = 40;          ///< runs near the touched ones that may change too
    Effort effort;
};

/// Runs of which the plan no longer holds: a lot that may not be used any more, too little flour, a rule
/// broken, a need that changed; where a lot has less than is planned of it, the later of its runs, for they
/// have the time to be helped. In date order; frozen runs are never among them.
std::vector<int> touched_runs(const Problem& problem, const Plan& before);

/// First fills the touched runs and leaves all others as they are; then lets runs near them change as well,
/// each changed (run, lot) pair at a charge, and keeps that only where it is worth it: the result is never
/// worse than the first. What of `before` may not stay is taken out. Rules, stop and progress as in
/// make_plan().
Outcome mend_plan(const Problem& problem, const Plan& before, LinearSolver& solver, const Mending& mending,
                  Progress* progress, std::stop_token stop);

/// Runs whose lots, or the tonnes of them by more than `slight_t`, are not the same in both plans.
std::vector<int> changed_runs(const Problem& problem, const Plan& before, const Plan& after,
                              double slight_t = 1e-4);

} // namespace mellowbin::planning
