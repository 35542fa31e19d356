#include "app/acts/give_lot.h"

#include "app/acts/assignments.h"
#include "app/acts/fermentation.h"
#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "app/book/fields.h"
#include "app/plan/gift.h"
#include "app/plan/problem.h"
#include "app/plan/reserved.h"
#include "db/run_store.h"

#include <fmt/format.h>

namespace mellowbin::app {
namespace {

void find_records(const State& state, const GiveLot& intent, Gift& gift, Refusals& refusals) {
    gift.lot = state.book.lot(intent.lot);
    gift.to = state.book.run(intent.to);
    gift.from = intent.from ? state.book.run(*intent.from) : nullptr;
    if (!gift.lot)
        refusals.push_back({"Lot", "is not in the book", "Choose a lot from the list"});
    if (!gift.to)
        refusals.push_back({"To run", "is not in the book", "Choose a run on the plan"});
    if (intent.from && !gift.from)
        refusals.push_back({"From run", "is not in the book", "Choose a run on the plan"});
    if (intent.from && intent.to == *intent.from)
        refusals.push_back({"To run", "is the run it comes from", "Choose another run"});
}

/// Why the run cannot take the lot at all.
void judge_target(const State& state, Gift& gift, Refusals& refusals) {
    const Run& to = *gift.to;
    if (to.day < state.today())
        refusals.push_back({"To run", fmt::format("{} was on {}, which is past", to.code, iso(to.day)),
                            "Choose a run of today or later"});
    else if (state.book.used_for(to.id) > Grams{0})
        refusals.push_back({"To run", to.code + " is being mixed", "Choose a run that is not begun"});
    const auto why = why_not_in(state.book, state.estimates, gift.lot->id, to, state.today());
    if (!why.empty())
        refusals.push_back({"Lot", fmt::format("{} cannot go into {}: {}", gift.lot->code, to.code, why),
                            "Choose another lot or run"});
    const Product* product = state.book.product(to.product);
    if (product)
        gift.part = part_of(*product, gift.lot->flour).value_or(FlourPart::main);
}

/// What the run from which it comes, or the store, can give.
Grams on_offer(const State& state, const Gift& gift, Refusals& refusals) {
    if (!gift.from) {
        const Grams free = free_of(state.book, gift.lot->id);
        if (free <= Grams{0})
            refusals.push_back({"Lot", fmt::format("nothing of {} is free", gift.lot->code),
                                "Take it from a run that has it"});
        return free;
    }
    const auto* a = assignment_of(state.book, gift.from->id, gift.lot->id);
    if (a && a->is_locked)
        refusals.push_back({"From run",
                            fmt::format("lot {} is locked to {}", gift.lot->code, gift.from->code),
                            "Undo the lock first"});
    const Grams has = a ? a->mass - state.book.used_for(gift.from->id, gift.lot->id) : Grams{0};
    if (has <= Grams{0})
        refusals.push_back({"From run",
                            fmt::format("{} has nothing of lot {}", gift.from->code, gift.lot->code),
                            "Choose a run that has it"});
    return has;
}

} // namespace

Result<Told> carry_out(State& state, const GiveLot& intent) {
    Refusals refusals;
    Gift gift;
    find_records(state, intent, gift, refusals);
    if (!refusals.empty())
        return refusals;
    judge_target(state, gift, refusals);
    const Grams offer = on_offer(state, gift, refusals);
    std::optional<Run> longer;
    if (!intent.longer_minutes.empty())
        longer = fermented_longer(state, *gift.to, intent.longer_minutes, refusals);
    if (!refusals.empty())
        return refusals;
    gift.most = intent.most;
    const auto after = flour_after(state.book, gift, offer);
    if (!after)
        return after.refusals();
    const RunFlour* plan = &*after;

    auto words = fmt::format("{} of lot {} given to run {} and locked there", kg_words(gift.mass),
                             gift.lot->code, gift.to->code);
    if (gift.from)
        words += fmt::format("; run {} has so much less: plan again", gift.from->code);
    auto undoing = putting_back(as_they_stand(state.book, plan->runs), plan->assignments, gift.lot->id);
    if (longer) {
        words += fmt::format("; run {} {}", gift.to->code,
                             fermentation_of(*state.book.product(gift.to->product), *longer));
        undoing.emplace_back(fermented_as(*gift.to));
    }
    Change change = state.change("give_lot", subject_of(*gift.to), words);
    if (gift.from)
        change.also(state.journal_line("give_lot", subject_of(*gift.from), words));
    RunStore runs(*state.connection);
    const auto done = runs.set_assignments(change, plan->runs, plan->assignments, plan->promises);
    if (!done)
        return change.refuse(done.refusals());
    if (longer)
        if (const auto saved = runs.save(change, *longer); !saved)
            return change.refuse(saved.refusals());
    change.commit();
    return Told{words, Touched::nothing,
                longer ? "Undo: lots and fermentation as they were" : "Undo: the lots as they were",
                std::move(undoing)};
}

} // namespace mellowbin::app
