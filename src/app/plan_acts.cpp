#include "app/state.h"
#include "db/run_store.h"

#include <fmt/format.h>

namespace mellowbin::app {

Result<Told> run(App::State& state, const PlanRuns& intent) {
    if (state.plan_work.is_running())
        return Refusal{"Plan", "a plan is being made already", "Stop it, or wait until it is there"};
    const PlanSpan span{state.today(), intent.from, std::clamp(intent.days, 1, 56)};
    PlanProblem problem = plan_problem(state.book, state.estimates, span);
    if (problem.runs.empty()) {
        return Refusal{"Plan", fmt::format("no runs from {} on for {} days", iso(intent.from), intent.days),
                       "Add runs first"};
    }
    if (auto refusals = planning::check(problem.problem); !refusals.empty())
        return refusals;
    state.plan_from = intent.from;
    state.plan_days = span.days;
    const auto runs = problem.runs.size();
    state.plan_work.start(std::move(problem), state.book_changes);
    return Told{fmt::format("Planning {} runs", runs), Touched::plan_span};
}

Result<Told> run(App::State& state, const StopPlanning&) {
    if (!state.plan_work.is_running())
        return Refusal{"Plan", "nothing is being planned", ""};
    state.plan_work.stop();
    return Told{"Stopping; the best plan found is kept", Touched::nothing};
}

Result<Told> run(App::State& state, const AdoptPlan&) {
    const auto& proposal = state.plan_work.proposal();
    if (!proposal)
        return Refusal{"Plan", "there is no proposed plan", "Make one first"};
    if (proposal->book_changes != state.book_changes)
        return Refusal{"Plan", "the book changed since this plan was made", "Plan again"};

    std::vector<RunId> runs;
    for (const RunId run : proposal->input.runs)
        if (state.book.used_for(run) == Grams{0})
            runs.push_back(run);
    std::vector<Assignment> before;
    for (const auto& a : state.book.assignments)
        if (std::find(runs.begin(), runs.end(), a.run) != runs.end())
            before.push_back(a);
    std::vector<Assignment> open;
    for (const auto& a : assignments_of(state.book, *proposal))
        if (!a.is_locked && state.book.used_for(a.run) == Grams{0})
            open.push_back(a);

    const auto words = fmt::format("Plan from {} for {} days adopted: {} runs",
                                   iso(proposal->input.span.from), proposal->input.span.days, runs.size());
    Change change(*state.connection, state.line("adopt_plan", "plan", words));
    const auto done = RunStore(*state.connection).replace_assignments(change, runs, open);
    if (!done)
        return change.refuse(done.refusals());
    change.commit();
    state.plan_work.discard();
    return Told{words,
                Touched::runs,
                "Undo: the plan before",
                {RestoreAssignments{std::move(runs), std::move(before)}}};
}

Result<Told> run(App::State& state, const DiscardPlan&) {
    state.plan_work.discard();
    return Told{"Proposed plan discarded; the plan in the book stands", Touched::plan_span};
}

} // namespace mellowbin::app
