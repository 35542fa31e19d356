#include "app/plan/task.h"

#include "app/book/settings.h"
#include "app/plan/units.h"
#include "planning/compare.h"

#include <algorithm>
#include <map>
#include <set>
#include <thread>

namespace mellowbin::app {
namespace {

constexpr double seconds_a_run = 0.2; // an assumption: more than this found little on made problems
constexpr double seconds_to_mend = 0.3;
constexpr double slight_cost = 0.5;
constexpr int most_threads = 4;

/// What a run's flour lacks or breaks, in currency: not its lot changes, age and price.
double trouble_of(const planning::RunResult& result) {
    return result.parts.shortage + result.parts.windows + result.parts.maturity + result.parts.past_best;
}

void add_copies(const Book& book, const Estimates& estimates, PlanTask& task) {
    task.book = std::make_shared<Book>(book);
    task.estimates = std::make_shared<Estimates>(estimates);
}

void add_unique(std::vector<int>& runs, int run) {
    if (std::find(runs.begin(), runs.end(), run) == runs.end())
        runs.push_back(run);
}

/// Runs of the standing plan with missing maturity or outside their windows: a better lot may be there now.
void add_troubled(const PlanProblem& p, const planning::Plan& standing, std::vector<int>& runs) {
    const auto judged = planning::evaluate(p.problem, standing);
    for (int r = 0; r < p.problem.run_count(); ++r)
        if (p.problem.runs[r].state == planning::RunState::open &&
            judged.runs[r].parts.windows + judged.runs[r].parts.maturity > slight_cost)
            add_unique(runs, r);
}

void decide_on_mending(const Book& book, PlanTask& task) {
    const int runs = task.input.problem.run_count();
    task.effort = effort_for(book, runs, 0);
    if (static_cast<int>(task.broken_runs.size()) * 2 > runs)
        return;
    planning::Mending mending;
    mending.touched = task.broken_runs;
    mending.charge_per_change = Choices(book.settings).number("weight_plan_change");
    mending.effort = task.effort;
    mending.effort.seconds = std::min(task.effort.seconds, seconds_to_mend);
    mending.effort.bound = planning::BoundProof::leave_out;
    task.mending = std::move(mending);
}

/// What is supposed may help as well as hurt: a run with trouble or oxidant that may take flour which only
/// the supposed problem has.
void add_helped(const PlanTask& task, const planning::Evaluation& judged, std::vector<int>& runs) {
    std::set<ExpectedId> had(task.supposed->unsupposed.deliveries.begin(),
                             task.supposed->unsupposed.deliveries.end());
    const auto& p = task.input;
    for (int l = 0; l < p.problem.lot_count(); ++l) {
        if (!p.deliveries[l].is_known() || had.contains(p.deliveries[l]))
            continue;
        for (int r = 0; r < p.problem.run_count(); ++r)
            if (p.problem.usable(l, r) && p.problem.runs[r].state == planning::RunState::open &&
                trouble_of(judged.runs[r]) + judged.runs[r].parts.oxidant > slight_cost)
                add_unique(runs, r);
    }
}

void add_hurt(const PlanTask& task, const planning::Evaluation& judged, std::vector<int>& runs) {
    const auto& before = task.supposed->unsupposed;
    const auto was = planning::evaluate(before.problem, task.supposed->standing);
    std::map<std::string, int> index;
    for (int r = 0; r < before.problem.run_count(); ++r)
        index.emplace(before.problem.runs[r].id, r);
    for (int r = 0; r < task.input.problem.run_count(); ++r) {
        const auto& run = task.input.problem.runs[r];
        const auto at = index.find(run.id);
        const double cost_before = at == index.end() ? 0 : trouble_of(was.runs[at->second]);
        if (run.state == planning::RunState::open && trouble_of(judged.runs[r]) > cost_before + slight_cost)
            add_unique(runs, r);
    }
}

} // namespace

planning::Plan book_plan(const Book& book, const PlanProblem& p) {
    planning::Plan plan;
    FlourIndex index(p);
    std::map<std::pair<RunId, FlourPart>, int> needs;
    for (int r = 0; r < p.problem.run_count(); ++r)
        needs.emplace(std::pair{p.runs[r], p.parts[r]}, r);
    for (const auto& lock : p.problem.locks)
        if (p.problem.runs[lock.run].state == planning::RunState::frozen)
            plan.assignments.push_back({lock.run, lock.lot, lock.tonnes});
    const auto add = [&](RunId run_id, FlourId flour, int lot, Grams mass) {
        const Run* run = book.run(run_id);
        const Product* product = run ? book.product(run->product) : nullptr;
        const auto part = product ? part_of(*product, flour) : std::nullopt;
        const auto at = part ? needs.find({run_id, *part}) : needs.end();
        if (at != needs.end() && lot >= 0 && p.problem.runs[at->second].state == planning::RunState::open)
            plan.assignments.push_back({at->second, lot, tonnes(mass)});
    };
    for (const auto& a : book.assignments)
        if (const Lot* lot = book.lot(a.lot))
            for (const auto& [flour, mass] : index.take(a.lot, a.mass))
                add(a.run, lot->flour, flour, mass);
    for (const auto& promise : book.promises)
        if (const auto* delivery = book.delivery(promise.delivery))
            add(promise.run, delivery->flour, index.of(promise.delivery), promise.mass);
    planning::sort_assignments(plan);
    return plan;
}

planning::Effort effort_for(const Book& book, int runs, double seconds) {
    planning::Effort effort;
    const double allowed = seconds > 0 ? seconds : Choices(book.settings).number("plan_seconds");
    effort.seconds = std::min(allowed, seconds_a_run * runs);
    effort.threads = std::clamp(static_cast<int>(std::thread::hardware_concurrency()), 1, most_threads);
    return effort;
}

planning::Effort effort_of_steps(std::int64_t steps) {
    planning::Effort effort;
    effort.improvement_steps = steps;
    effort.threads = 2; // a machine with more of them would go another way
    return effort;
}

PlanTask task_to_plan(const Book& book, const Estimates& estimates, PlanProblem problem, double seconds) {
    PlanTask task;
    task.input = std::move(problem);
    const auto plan = book_plan(book, task.input);
    task.is_planned = !plan.assignments.empty();
    task.standing = planning::still_standing(task.input.problem, plan);
    task.effort = effort_for(book, task.input.problem.run_count(), seconds);
    add_copies(book, estimates, task);
    return task;
}

PlanTask task_to_mend(const Book& book, const Estimates& estimates, PlanProblem problem) {
    PlanTask task;
    task.input = std::move(problem);
    const auto plan = book_plan(book, task.input);
    task.is_planned = !plan.assignments.empty();
    task.broken_runs = planning::touched_runs(task.input.problem, plan);
    task.standing = planning::still_standing(task.input.problem, plan);
    add_troubled(task.input, task.standing, task.broken_runs);
    std::sort(task.broken_runs.begin(), task.broken_runs.end());
    decide_on_mending(book, task);
    add_copies(book, estimates, task);
    return task;
}

PlanTask task_to_suppose(const Book& book, const Estimates& estimates, PlanProblem problem, Supposed supposed,
                         const std::vector<RunId>& moved) {
    PlanTask task;
    task.input = std::move(problem);
    supposed.unsupposed = plan_problem(book, estimates, task.input.span);
    supposed.standing =
        planning::still_standing(supposed.unsupposed.problem, book_plan(book, supposed.unsupposed));
    task.supposed = std::move(supposed);
    const Book& copy = *task.supposed->book;
    const auto plan = book_plan(copy, task.input);
    task.is_planned = !plan.assignments.empty();
    task.broken_runs = planning::touched_runs(task.input.problem, plan);
    task.standing = planning::still_standing(task.input.problem, plan);
    const auto judged = planning::evaluate(task.input.problem, task.standing);
    add_hurt(task, judged, task.broken_runs);
    add_helped(task, judged, task.broken_runs);
    for (int r = 0; r < task.input.problem.run_count(); ++r)
        if (std::find(moved.begin(), moved.end(), task.input.runs[r]) != moved.end() &&
            task.input.problem.runs[r].state == planning::RunState::open)
            add_unique(task.broken_runs, r);
    std::sort(task.broken_runs.begin(), task.broken_runs.end());
    decide_on_mending(copy, task);
    task.book = task.supposed->book;
    task.estimates = std::make_shared<Estimates>(estimates);
    return task;
}

} // namespace mellowbin::app
