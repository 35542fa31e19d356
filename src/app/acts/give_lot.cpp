#include "app/acts/give_lot.h"

#include "app/acts/assignments.h"
#include "app/acts/held_flour.h"
#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "app/book/fields.h"
#include "app/plan/problem.h"
#include "app/plan/reserved.h"
#include "db/run_store.h"

#include <fmt/format.h>

namespace mellowbin::app {
namespace {

/// Where a lot goes from and to, and how much of it.
struct Gift {
    const Lot* lot = nullptr;
    const Run* to = nullptr;
    const Run* from = nullptr; ///< null: from what no run has
    FlourPart part{};
    Grams mass;
};

const Assignment* assignment_in(const Book& book, RunId run, LotId lot) {
    const auto at = std::find_if(book.assignments.begin(), book.assignments.end(),
                                 [&](const Assignment& a) { return a.run == run && a.lot == lot; });
    return at == book.assignments.end() ? nullptr : &*at;
}

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
    const auto* a = assignment_in(state.book, gift.from->id, gift.lot->id);
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

/// The plan of both runs after the gift; empty, with every reason, where it cannot be.
std::optional<RestoreAssignments> given(const Book& book, Gift& gift, Grams offer, Refusals& refusals) {
    const Product& product = *book.product(gift.to->product);
    auto plan =
        as_they_stand(book, gift.from ? std::vector{gift.to->id, gift.from->id} : std::vector{gift.to->id});
    Assignment mine{gift.to->id, gift.lot->id, {}, true, "Given by hand."};
    if (const auto* has = assignment_in(book, gift.to->id, gift.lot->id))
        mine.mass = has->mass;
    std::erase_if(plan.assignments,
                  [&](const Assignment& a) { return a.run == mine.run && a.lot == mine.lot; });

    RestoreAssignments of_target;
    const auto is_target = [&](const auto& one) { return one.run == mine.run; };
    std::copy_if(plan.assignments.begin(), plan.assignments.end(), std::back_inserter(of_target.assignments),
                 is_target);
    std::copy_if(plan.promises.begin(), plan.promises.end(), std::back_inserter(of_target.promises),
                 is_target);
    std::erase_if(plan.assignments, is_target);
    std::erase_if(plan.promises, is_target);

    const Held held = held_by(book, product, gift.part, of_target);
    const Grams need = grams_of(product, gift.part, gift.to->flour);
    gift.mass = std::min(offer, need - held.fixed - mine.mass);
    const Grams batch{need.count() / std::max(gift.to->batches, 1)};
    if (product.one_lot_a_batch && batch > Grams{0} && gift.mass < need - held.fixed - mine.mass)
        gift.mass = Grams{gift.mass.count() / batch.count() * batch.count()};
    if (gift.mass <= Grams{0}) {
        const bool is_full = need - held.fixed - mine.mass <= Grams{0};
        refusals.push_back({"To run",
                            is_full ? fmt::format("{} has all it needs locked", gift.to->code)
                                    : fmt::format("a batch of {} takes one lot alone, and {} are not a batch",
                                                  product.name, kg_words(offer)),
                            is_full ? "Undo a lock there first" : "Choose a lot with more flour"});
        return {};
    }
    mine.mass += gift.mass;
    cut(book, held, need - held.fixed - mine.mass,
        product.one_lot_a_batch ? std::optional(batch) : std::nullopt);
    plan.assignments.insert(plan.assignments.end(), of_target.assignments.begin(),
                            of_target.assignments.end());
    plan.promises.insert(plan.promises.end(), of_target.promises.begin(), of_target.promises.end());
    plan.assignments.push_back(mine);
    for (auto& a : plan.assignments)
        if (gift.from && a.run == gift.from->id && a.lot == mine.lot)
            a.mass = a.mass - gift.mass;
    drop_empty(plan);
    return plan;
}

/// Too many lots in one blend, and none of them may go.
void judge_count(const Book& book, const Gift& gift, const RestoreAssignments& plan, Refusals& refusals) {
    const Product& product = *book.product(gift.to->product);
    const auto locked =
        std::count_if(plan.assignments.begin(), plan.assignments.end(), [&](const Assignment& a) {
            const Lot* lot = book.lot(a.lot);
            return a.run == gift.to->id && a.is_locked && lot && lot->flour == gift.lot->flour;
        });
    if (locked > product.most_lots)
        refusals.push_back({"To run",
                            fmt::format("{} would have {} lots locked; {} takes {} at most", gift.to->code,
                                        locked, product.name, product.most_lots),
                            "Undo a lock there first"});
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
    if (!refusals.empty())
        return refusals;
    const auto plan = given(state.book, gift, offer, refusals);
    if (plan)
        judge_count(state.book, gift, *plan, refusals);
    if (!refusals.empty())
        return refusals;

    auto words = fmt::format("{} of lot {} given to run {} and locked there", kg_words(gift.mass),
                             gift.lot->code, gift.to->code);
    if (gift.from)
        words += fmt::format("; run {} has so much less: plan again", gift.from->code);
    auto undoing = putting_back(as_they_stand(state.book, plan->runs), plan->assignments, gift.lot->id);
    Change change = state.change("give_lot", subject_of(*gift.to), words);
    if (gift.from)
        change.also(state.journal_line("give_lot", subject_of(*gift.from), words));
    const auto done =
        RunStore(*state.connection).set_assignments(change, plan->runs, plan->assignments, plan->promises);
    if (!done)
        return change.refuse(done.refusals());
    change.commit();
    return Told{words, Touched::nothing, "Undo: the lots as they were", std::move(undoing)};
}

} // namespace mellowbin::app
