#include "planning/make_plan.h"

#include "planning/improve.h"
#include "planning/plan_lp.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <utility>

namespace mellowbin::planning {

namespace {

/// Where annealing starts and ends, in lot changes: found on generated instances of 20 x 30 to 150 x 300.
constexpr double warm_changes = 40;
constexpr double cold_changes = 0.8;

Plan locked_plan(const Problem& problem) {
    Plan plan;
    for (const Lock& lock : problem.locks)
        if (lock.tonnes > 0)
            plan.assignments.push_back({lock.run, lock.lot, lock.tonnes});
    sort_assignments(plan);
    return plan;
}

class Planner {
public:
    Planner(const Problem& problem, LinearSolver& solver, Progress* progress, std::stop_token stop)
        : problem_(problem), solver_(solver), progress_(progress ? *progress : unwatched_),
          stop_(std::move(stop)), tables_(make_tables(problem)) {
        outcome_.plan = locked_plan(problem);
        outcome_.evaluation = evaluate(problem, outcome_.plan);
    }

    Outcome make(const Effort& effort) {
        Draft draft(problem_, tables_);
        fill_in_order(draft, in_date_order(problem_), nullptr, stop_);
        [[maybe_unused]] const bool first_keeps = adopt_if_better(draft.plan());
        assert(first_keeps);
        if (effort.improvement_steps > 0)
            improve_draft(draft, effort);
        polish(draft.plan());
        if (effort.bound == BoundProof::prove && !stop_.stop_requested()) {
            enter(Stage::proving_bound);
            outcome_.bound = prove();
        }
        if (stop_.stop_requested())
            outcome_.ending = Ending::stopped;
        enter(Stage::done);
        return std::move(outcome_);
    }

    std::optional<double> prove() {
        const TonnesProgram bound = bound_program(problem_, tables_);
        const LinearResult result = solver_.solve(bound.program, stop_);
        if (result.status != LinearStatus::optimal)
            return std::nullopt;
        // The optimum is good to about 1e-9 of itself; a bound must not be above the truth.
        const double proven = result.objective + bound.constant;
        const double safe = proven - 1e-7 * std::max(1.0, std::abs(proven));
        progress_.bound = safe;
        return safe;
    }

private:
    void enter(Stage stage) { progress_.stage = stage; }

    void improve_draft(Draft& draft, const Effort& effort) {
        enter(Stage::improving);
        const double change = std::max(1.0, problem_.weights.lot_change);
        const Anneal anneal{effort.improvement_steps, warm_changes * change, cold_changes * change,
                            effort.seed};
        outcome_.steps = improve(draft, anneal, stop_, [&](std::int64_t steps, double best) {
            progress_.steps = steps;
            progress_.best_objective = best;
        });
        [[maybe_unused]] const bool keeps = adopt_if_better(draft.plan());
        assert(keeps);
    }

    void polish(const Plan& plan) {
        if (stop_.stop_requested())
            return;
        enter(Stage::polishing);
        const TonnesProgram tonnes = polish_program(problem_, tables_, plan);
        const LinearResult result = solver_.solve(tonnes.program, stop_);
        if (result.status != LinearStatus::optimal)
            return;
        outcome_.is_polished = adopt_if_better(tonnes.plan_of(problem_, result.x));
    }

    /// False, and the plan is passed over, if it breaks a rule: the plan before stays.
    bool adopt_if_better(Plan plan) {
        Evaluation evaluation = evaluate(problem_, plan);
        if (!evaluation.keeps_the_rules())
            return false;
        if (evaluation.objective <= outcome_.evaluation.objective + 1e-6 ||
            !outcome_.evaluation.keeps_the_rules()) {
            outcome_.plan = std::move(plan);
            outcome_.evaluation = std::move(evaluation);
        }
        progress_.best_objective = outcome_.evaluation.objective;
        return true;
    }

    const Problem& problem_;
    LinearSolver& solver_;
    Progress unwatched_;
    Progress& progress_;
    std::stop_token stop_;
    Tables tables_;
    Outcome outcome_;
};

} // namespace

std::optional<double> Outcome::gap() const {
    if (!bound)
        return std::nullopt;
    if (evaluation.objective <= 0)
        return 0.0;
    return std::max(0.0, (evaluation.objective - *bound) / evaluation.objective);
}

Outcome make_plan(const Problem& problem, LinearSolver& solver, const Effort& effort, Progress* progress,
                  std::stop_token stop) {
    assert(check(problem).empty());
    return Planner(problem, solver, progress, std::move(stop)).make(effort);
}

std::optional<double> prove_bound(const Problem& problem, LinearSolver& solver, std::stop_token stop) {
    assert(check(problem).empty());
    return Planner(problem, solver, nullptr, std::move(stop)).prove();
}

} // namespace mellowbin::planning
