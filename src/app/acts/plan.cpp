#include "app/acts/plan.h"

#include "app/acts/assignments.h"
#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "app/models/withheld.h"
#include "app/plan/problem.h"
#include "app/plan/task.h"
#include "app/plan/view.h"
#include "app/plan/work.h"
#include "db/run_store.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace mellowbin::app {
namespace {

std::size_t run_count(const PlanProblem& problem) {
    return std::set<RunId>(problem.runs.begin(), problem.runs.end()).size();
}

/// What no plan mends; empty where nothing is.
std::string withheld_words(const State& state, PlanSpan span) {
    PlanView view(state.book, state.estimates, state.today());
    std::string words;
    for (const auto& one : withheld_in(state, view, span))
        words += "; " + one;
    return words;
}

Refusal busy() { return {"Plan", "a plan is being made already", "Stop it, or wait until it is there"}; }

/// The problem of the days asked for, or why there is none.
Result<PlanProblem> problem_of(const State& state, Day from, int days) {
    const PlanSpan span{state.today(), from, std::clamp(days, 1, 56)};
    PlanProblem problem = plan_problem(state.book, state.estimates, span);
    if (auto refusals = refusals_of(state.book, problem); !refusals.empty())
        return refusals;
    return problem;
}

void start(State& state, PlanTask task) {
    task.book_changes = state.book_changes;
    state.plan_from = task.input.span.from;
    state.plan_days = task.input.span.days;
    state.plan_work.start(std::move(task));
}

/// Runs whose assignments a plan may replace.
std::vector<RunId> open_runs(const PlanProblem& problem) {
    std::vector<RunId> runs;
    for (std::size_t r = 0; r < problem.runs.size(); ++r)
        if (problem.problem.runs[r].state == planning::RunState::open &&
            std::find(runs.begin(), runs.end(), problem.runs[r]) == runs.end())
            runs.push_back(problem.runs[r]);
    return runs;
}

Refusals cannot_adopt(const State& state) {
    const auto& proposal = state.plan_work.proposal();
    if (!proposal)
        return {{"Plan", "there is no proposed plan", "Make one first"}};
    if (proposal->task.supposed)
        return {{"Plan", "this plan rests on what is supposed, which is not in the book",
                 "Do in the book what was supposed, then plan; or discard this plan"}};
    if (!proposal->fault.empty())
        return {{"Plan", proposal->fault, "Discard it"}};
    if (proposal->task.book_changes != state.book_changes)
        return {{"Plan", "the book changed since this plan was made", "Plan again"}};
    return {};
}

} // namespace

Refusals refusals_of(const Book& book, const PlanProblem& problem) {
    if (problem.runs.empty()) {
        const auto past = std::count_if(book.runs.begin(), book.runs.end(), [&](const Run& run) {
            return problem.span.holds(run.day) && run.day < problem.span.today;
        });
        return {
            {"Plan",
             fmt::format("no runs from {} on for {} days{}", iso(problem.span.from), problem.span.days,
                         past > 0 ? fmt::format(" that are not past ({} {})", past, past == 1 ? "is" : "are")
                                  : ""),
             past > 0 ? "Choose days from today on, or add runs" : "Add runs first"}};
    }
    return planning::check(problem.problem);
}

Result<Told> carry_out(State& state, const PlanRuns& intent) {
    if (state.plan_work.is_running())
        return busy();
    auto problem = problem_of(state, intent.from, intent.days);
    if (!problem)
        return problem.refusals();
    const auto runs = run_count(*problem);
    auto task = task_to_plan(state.book, state.estimates, std::move(*problem), intent.seconds);
    if (intent.steps > 0)
        task.effort = effort_of_steps(intent.steps);
    start(state, std::move(task));
    return Told{fmt::format("Planning {} {}", runs, runs == 1 ? "run" : "runs"), Touched::plan_span};
}

Result<Told> carry_out(State& state, const Replan& intent) {
    if (state.plan_work.is_running())
        return busy();
    auto problem = problem_of(state, intent.from, intent.days);
    if (!problem)
        return problem.refusals();
    if (book_plan(state.book, *problem).assignments.empty())
        return Refusal{"Plan", "nothing of these days is planned yet, so there is nothing to mend",
                       "Plan instead"};
    const auto withheld = withheld_words(state, problem->span);
    PlanTask task = task_to_mend(state.book, state.estimates, std::move(*problem));
    if (task.broken_runs.empty())
        return Refusal{"Plan",
                       fmt::format("the plan in the book holds from {} for {} days{}", iso(intent.from),
                                   task.input.span.days, withheld),
                       "Plan anew to look for a better one"};
    const auto needs = task.broken_runs.size();
    const auto words =
        fmt::format("Mending the plan: {} {} of flour {}{}{}", needs, needs == 1 ? "need" : "needs",
                    needs == 1 ? "holds no longer" : "hold no longer",
                    task.mending ? "" : ", more than half: all is planned anew", withheld);
    start(state, std::move(task));
    return Told{words, Touched::plan_span};
}

Result<Told> carry_out(State& state, const StopPlanning&) {
    if (!state.plan_work.is_running())
        return Refusal{"Plan", "nothing is being planned", ""};
    state.plan_work.stop();
    return Told{"Stopping; the best plan found is kept"};
}

Result<Told> carry_out(State& state, const AdoptPlan&) {
    if (auto refusals = cannot_adopt(state); !refusals.empty())
        return refusals;
    const auto& proposal = *state.plan_work.proposal();
    const auto runs = open_runs(proposal.input());
    RestoreAssignments before = as_they_stand(state.book, runs);
    PlanRecords records = records_of(proposal);
    std::erase_if(records.assignments, [](const Assignment& a) { return a.is_locked; });

    const auto words = fmt::format("Plan from {} for {} days adopted: {} runs",
                                   iso(proposal.input().span.from), proposal.input().span.days, runs.size());
    Change change = state.change("adopt_plan", "plan", words);
    const auto done =
        RunStore(*state.connection).replace_assignments(change, runs, records.assignments, records.promises);
    if (!done)
        return change.refuse(done.refusals());
    change.commit();
    state.plan_work.discard();
    return Told{words, Touched::nothing, "Undo: the plan before", {std::move(before)}};
}

Result<Told> carry_out(State& state, const DiscardPlan&) {
    state.plan_work.discard();
    return Told{"Proposed plan discarded; the plan in the book stands", Touched::plan_span};
}

} // namespace mellowbin::app
