#pragma once

#include "dough/card.h"

/// The steps of make_card(), each adding its part and its cautions to the card; in this order.
namespace mellowbin::dough::parts {

/// One reason why there is no card, with its kind.
struct NoCard {
    MixReason reason{};
    Refusal refusal;
};
std::vector<NoCard> why_no_card(const CardInput& input);

/// The same, with the lots of the next batch alone where a batch takes one lot.
CardInput for_one_batch(const CardInput& input);
void share_flour(const CardInput& input, Card& card);
/// Of all that is assigned.
void warn_of_shortage(const CardInput& input, Card& card);
void describe_blend(const CardInput& input, Card& card);
void dose_oxidant(const CardInput& input, Card& card);
void pour_water(const CardInput& input, Card& card);
void keep_bread(const CardInput& input, Card& card);

Day day_of(const CardInput& input); ///< on which it is mixed
Sale sale_of(const CardInput& input);
FlourClass flour_class_of(const Product& product);
/// The lots' certificates with what of them goes into one batch; of a card whose flour is shared.
std::vector<BlendPart> blend_parts(const CardInput& input, const Card& card);
std::optional<Protein14> protein_of(const CardInput& input, const Card& card);
void warn(Card& card, CautionKind kind, CautionAt at, std::string words);

} // namespace mellowbin::dough::parts
