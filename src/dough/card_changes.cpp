#include "dough/card_changes.h"

#include "dough/card_parts.h"

#include <algorithm>

namespace mellowbin::dough {
namespace {

bool has_same_lots(const Card& a, const Card& b) {
    return std::equal(a.flour.begin(), a.flour.end(), b.flour.begin(), b.flour.end(),
                      [](const CardFlour& x, const CardFlour& y) { return x.lot == y.lot; });
}

/// Takes a batch's flour off the lots; those of which nothing is left go.
void take(CardInput& input, const Card& card) {
    for (const auto& flour : card.flour)
        for (auto& lot : input.lots)
            if (lot.lot->id == flour.lot)
                lot.mass = lot.mass - flour.mass;
    constexpr Grams crumbs{20}; // lost to whole grams over the batches
    std::erase_if(input.lots, [&](const CardLot& lot) { return lot.mass <= crumbs; });
}

} // namespace

std::optional<ChangeAhead> change_ahead(const CardInput& input, const Card& now, int batches_left) {
    CardInput left = input;
    Card last = now;
    for (int on = 1; on < batches_left; ++on) {
        take(left, last);
        // Where a batch takes a blend, its lots change only when one of them runs out.
        const CardInput batch = left.lots.empty() ? left : parts::for_one_batch(left);
        const bool is_same =
            batch.lots.size() == last.flour.size() &&
            std::equal(batch.lots.begin(), batch.lots.end(), last.flour.begin(),
                       [](const CardLot& a, const CardFlour& b) { return a.lot->id == b.lot; });
        if (is_same)
            continue;
        auto card = make_card(left);
        if (!card)
            return {};
        if (!has_same_lots(*card, now))
            return ChangeAhead{on, *std::move(card)};
        last = *std::move(card);
    }
    return {};
}

} // namespace mellowbin::dough
