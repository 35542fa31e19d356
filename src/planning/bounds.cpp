// What no plan can be better than, proven by linear programmes.

#include "core/promised.h"
#include "planning/judged_plan.h"
#include "planning/plan_lp.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::planning {

namespace {

/// The optimum is good to about 1e-9 of itself; a bound must not be above the truth.
double safe(double proven) { return proven - 1e-7 * std::max(1.0, std::abs(proven)); }

/// The problem with nothing but what one tier costs, and shortage before it where that is another.
Problem only(const Problem& problem, Tier tier) {
    Problem p = problem;
    Weights none{0, 0, 0, 0, 0, 0, 0, 0, 0};
    switch (tier) {
    case Tier::shortage:
        none.short_per_t = p.weights.short_per_t;
        break;
    case Tier::windows:
        none.window_per_t_half_width = p.weights.window_per_t_half_width;
        break;
    case Tier::maturity:
        none.maturity_per_t_10_points = p.weights.maturity_per_t_10_points;
        break;
    case Tier::waste:
        none.waste_per_t = p.weights.waste_per_t;
        break;
    }
    p.weights = none;
    return p;
}

std::optional<double> least(const Problem& problem, LinearSolver& solver, const std::stop_token& stop) {
    Progress unwatched;
    return prove_bound(problem, make_tables(problem), solver, unwatched, stop);
}

} // namespace

std::optional<double> prove_bound(const Problem& problem, const Tables& tables, LinearSolver& solver,
                                  Progress& progress, const std::stop_token& stop) {
    const TonnesProgram bound = bound_program(problem, tables);
    const LinearResult result = solver.solve(bound.program, stop);
    if (result.status != LinearStatus::optimal)
        return std::nullopt;
    const double proven = safe(result.objective + bound.constant);
    progress.bound = proven;
    return proven;
}

std::optional<double> prove_bound(const Problem& problem, LinearSolver& solver, std::stop_token stop) {
    promised(check(problem).empty());
    Progress unwatched;
    return prove_bound(problem, make_tables(problem), solver, unwatched, stop);
}

std::optional<double> prove_tier(const Problem& problem, Tier tier, double found, LinearSolver& solver,
                                 std::stop_token stop) {
    promised(check(problem).empty());
    if (found <= 1e-6)
        return 0.0;
    Problem p = only(problem, tier);
    // Without flour nothing is out of its window: what a tier costs counts only beside a need that is met.
    if (tier == Tier::windows || tier == Tier::maturity)
        p.weights.short_per_t = problem.weights.short_per_t;
    auto proven = least(p, solver, stop);
    if (!proven || p.weights.short_per_t == 0 || tier == Tier::shortage)
        return proven ? std::optional(std::max(0.0, *proven)) : std::nullopt;
    const auto short_alone = least(only(problem, Tier::shortage), solver, stop);
    if (!short_alone)
        return std::nullopt;
    return std::max(0.0, *proven - *short_alone);
}

} // namespace mellowbin::planning
