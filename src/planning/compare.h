#pragma once

#include "planning/evaluate.h"
#include "planning/reasons.h"

#include <string>
#include <vector>

namespace mellowbin::planning {

/// What people ask of a plan.
struct PlanFigures {
    double planned_t = 0;
    double short_t = 0;
    int short_runs = 0;
    int out_of_window_runs = 0;  ///< at least one property of the blend is outside
    int immature_runs = 0;       ///< maturity is missing that oxidant does not make up
    double mean_oxidant_ppm = 0; ///< added, over all flour planned, as the problem counts it
    double past_best_t = 0;      ///< planned past its best
    double wasted_t = 0;         ///< expires inside the horizon and no run takes it
    int lot_changes = 0;
};

/// A run that gets other flour.
struct RunMove {
    int before = -1;   ///< its index in the problem before
    int after = -1;    ///< and after
    double gain = 0;   ///< currency; above zero: the run by itself fares better
    std::string words; ///< "12 mg/kg less oxidant, but 1 more lot change"; empty: neither better nor worse
};

struct Comparison {
    Evaluation before, after;
    PlanFigures figures_before, figures_after;
    std::vector<RunMove> moved; ///< in the order of the problem after
    std::string verdict;        ///< what it gains, what it costs and how much moves, in one line
};

/// What of a plan still holds of the problem as it is now: what may not be used any more, what is more than a
/// lot has and what is more than a run wants is taken out, in date order. Locks stand.
Plan still_standing(const Problem& problem, const Plan& plan);

PlanFigures figures_of(const Problem& problem, const Plan& plan, const Evaluation& evaluation);

/// Two plans side by side, each judged by its own problem: they may differ in stock, in days, in what is
/// forbidden. Runs are the same where their ids are; a run that only one of them has did not move. Words go
/// by amounts: weights of zero make nothing disappear.
Comparison compare(const Problem& problem_before, const Plan& before, const Problem& problem_after,
                   const Plan& after, const DoseNamer& dose = {});

} // namespace mellowbin::planning
