#include "dough/card.h"

#include "dough/card_parts.h"
#include "dough/limits.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

namespace mellowbin::dough {
namespace {

void name_the_run(const CardInput& input, Card& card) {
    card.run = input.run.id;
    card.run_code = input.run.code;
    card.product = input.product.name;
    card.line = input.line.name;
    card.market = input.product.market;
    card.day = input.run.day;
    card.batches = input.run.batches;
    card.dough_temperature = input.product.dough_temperature;
    card.fermentation_minutes = input.product.fermentation_minutes;
    card.longer_fermentation_minutes = input.run.longer_fermentation_minutes;
    card.mixing_minutes = input.product.mixing_minutes;
}

void list_ingredients(const CardInput& input, Card& card) {
    const auto flour = to_kilograms(card.batch_flour);
    for (const auto& ingredient : input.product.ingredients)
        card.ingredients.push_back({ingredient.name, ingredient.percent_of_flour,
                                    flour * (ingredient.percent_of_flour / 100), water_of(ingredient, flour),
                                    ingredient.temperature, Origin::setting});
}

void warn_of_the_market(const CardInput& input, Card& card) {
    for (const auto& market : with_wider(input.law.markets, input.product.market))
        if (const auto note = note_of(market); !note.empty())
            parts::warn(card, CautionKind::law, CautionAt::card, fmt::format("{}: {}", market, note));
}

} // namespace

std::string_view name_of(Origin origin) {
    switch (origin) {
    case Origin::measured:
        return "measured";
    case Origin::certificate:
        return "certificate";
    case Origin::model:
        return "model";
    case Origin::setting:
        return "setting";
    case Origin::assumed:
        return "assumed";
    case Origin::law:
        return "law";
    }
    return {};
}

Result<Card> make_dose_card(const CardInput& input) {
    if (const auto reasons = parts::why_no_card(input); !reasons.empty()) {
        Refusals refusals;
        for (const auto& one : reasons)
            refusals.push_back(one.refusal);
        return refusals;
    }
    Card card;
    name_the_run(input, card);
    card.cautions = standing_cautions();
    const CardInput batch = parts::for_one_batch(input);
    parts::share_flour(batch, card);
    parts::warn_of_shortage(input, card);
    parts::describe_blend(batch, card);
    parts::dose_oxidant(batch, card);
    return card;
}

Result<Card> make_card(const CardInput& input) {
    auto dosed = make_dose_card(input);
    if (!dosed)
        return dosed;
    Card& card = *dosed;
    const CardInput batch = parts::for_one_batch(input);
    list_ingredients(batch, card);
    parts::pour_water(batch, card);
    parts::keep_bread(batch, card);
    warn_of_the_market(batch, card);
    return dosed;
}

} // namespace mellowbin::dough
