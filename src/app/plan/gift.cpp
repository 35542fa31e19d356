#include "app/plan/gift.h"

#include "app/book/fields.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

namespace mellowbin::app {

const Assignment* assignment_of(const Book& book, RunId run, LotId lot) {
    const auto at = std::find_if(book.assignments.begin(), book.assignments.end(),
                                 [&](const Assignment& a) { return a.run == run && a.lot == lot; });
    return at == book.assignments.end() ? nullptr : &*at;
}

namespace {

/// The plan of both runs after the gift; empty, with every reason, where it cannot be.
std::optional<RunFlour> given(const Book& book, Gift& gift, Grams offer, Refusals& refusals) {
    const Product& product = *book.product(gift.to->product);
    auto plan =
        flour_of_runs(book, gift.from ? std::vector{gift.to->id, gift.from->id} : std::vector{gift.to->id});
    Assignment mine{gift.to->id, gift.lot->id, {}, true, "Given by hand."};
    if (const auto* has = assignment_of(book, gift.to->id, gift.lot->id))
        mine.mass = has->mass;
    std::erase_if(plan.assignments,
                  [&](const Assignment& a) { return a.run == mine.run && a.lot == mine.lot; });

    RunFlour of_target;
    const auto is_target = [&](const auto& one) { return one.run == mine.run; };
    std::copy_if(plan.assignments.begin(), plan.assignments.end(), std::back_inserter(of_target.assignments),
                 is_target);
    std::copy_if(plan.promises.begin(), plan.promises.end(), std::back_inserter(of_target.promises),
                 is_target);
    std::erase_if(plan.assignments, is_target);
    std::erase_if(plan.promises, is_target);

    const Held held = held_by(book, product, gift.part, of_target);
    const Grams need = grams_of(product, gift.part, gift.to->flour);
    gift.mass = std::min({offer, need - held.fixed - mine.mass, gift.most.value_or(offer)});
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
void judge_count(const Book& book, const Gift& gift, const RunFlour& plan, Refusals& refusals) {
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

Result<RunFlour> flour_after(const Book& book, Gift& gift, Grams offer) {
    Refusals refusals;
    auto plan = given(book, gift, offer, refusals);
    if (plan)
        judge_count(book, gift, *plan, refusals);
    if (!refusals.empty())
        return refusals;
    return std::move(*plan);
}

} // namespace mellowbin::app
