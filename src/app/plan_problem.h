#pragma once

#include "app/estimates.h"
#include "dough/law.h"
#include "planning/problem.h"

#include <vector>

namespace mellowbin::app {

/// What a plan is asked for.
struct PlanSpan {
    Day today;
    Day from;
    int days = 7;

    [[nodiscard]] bool holds(Day day) const { return from <= day && day < from + Days{days}; }
};

/// The oxidant of one run as the plan counts it: the engine knows one oxidant, in mg/kg of ascorbic acid's
/// effect.
struct RunOxidant {
    dough::Room room;           ///< in mg/kg of the substance itself
    double ppm_per_counted = 1; ///< mg/kg of the substance for one that the engine counts
};

/// The book's runs and lots as the engine's plain numbers, and which record each of them is.
struct PlanProblem {
    planning::Problem problem;
    PlanSpan span;
    std::vector<LotId> lots;          ///< as Problem::lots
    std::vector<RunId> runs;          ///< as Problem::runs
    std::vector<RunOxidant> oxidants; ///< as Problem::runs
};

/// Runs of the span that are not past; lots with flour left that no other run has a claim on. A run of which
/// batches are mixed is frozen: it keeps what is left of its assignments. Maturity is that which is reached
/// with the confidence set, so that a plan that holds, holds with that probability.
PlanProblem plan_problem(const Book& book, const Estimates& estimates, PlanSpan span);

/// The maturity that plan and card count with: reached with the confidence set.
Maturity counted_maturity(const Estimates& estimates, LotId lot, Day day);

} // namespace mellowbin::app
