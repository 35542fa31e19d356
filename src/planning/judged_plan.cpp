#include "planning/judged_plan.h"

#include "planning/plan_lp.h"

#include <algorithm>
#include <utility>

namespace mellowbin::planning {

Plan locked_plan(const Problem& problem) {
    Plan plan;
    for (const Lock& lock : problem.locks)
        if (lock.tonnes > 0)
            plan.assignments.push_back({lock.run, lock.lot, lock.tonnes});
    sort_assignments(plan);
    return plan;
}

JudgedPlan::JudgedPlan(const Problem& problem, const Tables& tables, LinearSolver& solver, Progress& progress,
                       std::stop_token stop)
    : problem_(problem), tables_(tables), solver_(solver), progress_(progress), stop_(std::move(stop)) {
    outcome_.plan = locked_plan(problem);
    outcome_.evaluation = evaluate(problem, outcome_.plan);
}

bool JudgedPlan::adopt_if_better(Plan plan) { return take(std::move(plan), true); }

bool JudgedPlan::adopt(Plan plan) { return take(std::move(plan), false); }

bool JudgedPlan::take(Plan plan, bool only_if_better) {
    Evaluation evaluation = evaluate(problem_, plan);
    if (!evaluation.keeps_the_rules()) {
        for (const Broken& broken : evaluation.broken)
            if (broken.cause == Cause::plan && broken.rule != Rule::drawing_order) // no programme knows of it
                outcome_.faults.push_back(broken.words);
        return false;
    }
    const bool better = evaluation.objective <= outcome_.evaluation.objective + 1e-6 ||
                        !outcome_.evaluation.keeps_the_rules();
    if (better || !only_if_better) {
        outcome_.plan = std::move(plan);
        outcome_.evaluation = std::move(evaluation);
    }
    progress_.best_objective = outcome_.evaluation.objective;
    return true;
}

void JudgedPlan::polish(const std::vector<int>* open) {
    if (stop_.stop_requested())
        return;
    progress_.stage = Stage::polishing;
    const TonnesProgram tonnes = polish_program(problem_, tables_, outcome_.plan, open);
    const LinearResult result = solver_.solve(tonnes.program, stop_);
    if (result.status == LinearStatus::optimal)
        outcome_.is_polished = adopt_if_better(tonnes.plan_of(problem_, result.x));
}

Outcome JudgedPlan::finish() {
    if (stop_.stop_requested())
        outcome_.ending = Ending::stopped;
    progress_.stage = Stage::done;
    return std::move(outcome_);
}

} // namespace mellowbin::planning
