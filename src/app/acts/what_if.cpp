#include "app/acts/what_if.h"

#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "app/plan/problem.h"
#include "app/plan/task.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

/// The same run, market or lot supposed again takes the place of what was supposed of it before; orders add
/// up.
bool is_of_the_same(const WhatIf& a, const WhatIf& b) {
    if (const auto* x = std::get_if<SupposeRunMoved>(&a))
        if (const auto* y = std::get_if<SupposeRunMoved>(&b))
            return x->run == y->run;
    if (const auto* x = std::get_if<SupposeNoOxidant>(&a))
        if (const auto* y = std::get_if<SupposeNoOxidant>(&b))
            return x->market == y->market;
    if (const auto* x = std::get_if<SupposeLotHeld>(&a))
        if (const auto* y = std::get_if<SupposeLotHeld>(&b))
            return x->lot == y->lot;
    return false;
}

Result<Told> add(State& state, const WhatIf& what) {
    const auto accepted = accept(state.book, what, state.today());
    if (!accepted)
        return accepted.refusals();
    auto& all = state.suppositions;
    std::erase_if(all, [&](const Supposition& known) { return is_of_the_same(known.what, what); });
    all.push_back(*accepted);
    return Told{fmt::format("Supposed: {}. Nothing of it is in the book", accepted->words),
                Touched::plan_span,
                "Undo: suppose it no more",
                {DropSupposition{static_cast<int>(all.size()) - 1}}};
}

/// A copy of the book with all that is supposed; refused where the book has changed so that it cannot be any
/// more.
Result<std::shared_ptr<const Book>> supposed_book(const State& state) {
    auto copy = std::make_shared<Book>(state.book);
    Refusals refusals;
    for (const auto& supposition : state.suppositions) {
        const auto accepted = accept(state.book, supposition.what, state.today());
        if (accepted) {
            suppose(*copy, supposition.what);
            continue;
        }
        for (auto refusal : accepted.refusals()) {
            refusal.what = fmt::format("{} (supposed: {})", refusal.what, supposition.words);
            refusal.remedy = "Drop what is supposed";
            refusals.push_back(std::move(refusal));
        }
    }
    if (!refusals.empty())
        return refusals;
    return std::shared_ptr<const Book>(std::move(copy));
}

} // namespace

Result<Told> carry_out(State& state, const SupposeRunMoved& intent) { return add(state, intent); }
Result<Told> carry_out(State& state, const SupposeOrder& intent) { return add(state, intent); }
Result<Told> carry_out(State& state, const SupposeNoOxidant& intent) { return add(state, intent); }
Result<Told> carry_out(State& state, const SupposeLotHeld& intent) { return add(state, intent); }

Result<Told> carry_out(State& state, const DropSupposition& intent) {
    auto& all = state.suppositions;
    if (intent.index < 0 || intent.index >= static_cast<int>(all.size()))
        return Refusal{"Supposition", fmt::format("there is no number {}", intent.index + 1),
                       all.empty() ? "Nothing is supposed" : fmt::format("Choose 1 to {}", all.size())};
    const auto at = all.begin() + intent.index;
    const Supposition dropped = *at;
    all.erase(at);
    return Told{"Supposed no more: " + dropped.words,
                Touched::plan_span,
                "Undo: suppose it again",
                {std::visit([](const auto& one) { return Intent(one); }, dropped.what)}};
}

Result<Told> carry_out(State& state, const PlanSuppositions&) {
    if (state.plan_work.is_running())
        return Refusal{"Plan", "a plan is being made already", "Stop it, or wait until it is there"};
    if (state.suppositions.empty())
        return Refusal{"Plan", "nothing is supposed",
                       "Suppose a run moved, an order, a market without oxidant or "
                       "a lot on hold first"};
    auto book = supposed_book(state);
    if (!book)
        return book.refusals();
    Supposed supposed;
    supposed.book = *book;
    for (const auto& supposition : state.suppositions)
        supposed.words.push_back(supposition.words);
    const PlanSpan span{state.today(), state.plan_from, state.plan_days};
    PlanProblem problem = plan_problem(*supposed.book, state.estimates, span);
    if (auto refusals = refusals_of(*supposed.book, problem); !refusals.empty())
        return refusals;
    PlanTask task = task_to_suppose(state.book, state.estimates, std::move(problem), std::move(supposed),
                                    moved_runs(state.suppositions));
    task.book_changes = state.book_changes;
    const auto words =
        fmt::format("Planning with what is supposed: {} of {} needs of flour to be planned anew",
                    task.broken_runs.size(), task.input.runs.size());
    state.plan_work.start(std::move(task));
    return Told{words, Touched::plan_span};
}

} // namespace mellowbin::app
