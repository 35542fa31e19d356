#include "dough/card_ruled.h"

#include "dough/card_parts.h"

namespace mellowbin::dough {
namespace {

void take_oxidant(const Card& card, RuledCard& ruled) {
    if (!card.oxidant || !*card.oxidant)
        return;
    const auto& oxidant = **card.oxidant;
    ruled.oxidant_dose = oxidant.resulting;
    if (oxidant.wanted.value() > 0)
        ruled.oxidant = oxidant.room.permission;
}

} // namespace

RuledCard ruled(const CardInput& input, const Result<Card>& card) {
    RuledCard ruled;
    for (const auto& lot : input.lots)
        ruled.lots.push_back(judge_lot(input.law, parts::sale_of(input), parts::flour_class_of(input.product),
                                       lot.lot->mill_additions)
                                 .permission);
    if (!card)
        return ruled;
    take_oxidant(*card, ruled);
    if (card->keeping) {
        ruled.is_preservative_withheld = card->keeping->is_withheld;
        ruled.preservative_g = card->keeping->exact_g;
    }
    return ruled;
}

} // namespace mellowbin::dough
