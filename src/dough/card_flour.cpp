#include "core/decimal.h"
#include "core/lot_words.h"
#include "core/promised.h"
#include "core/stock.h"
#include "dough/card_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <numeric>

namespace mellowbin::dough::parts {
namespace {

using Part = mellowbin::FlourPart; ///< of the formula

Grams assigned(const CardInput& input) {
    return std::accumulate(input.lots.begin(), input.lots.end(), Grams{},
                           [](Grams sum, const CardLot& lot) { return sum + lot.mass; });
}

/// Whole grams in proportion that add up exactly: the largest remainders get the grams left over.
std::vector<std::int64_t> in_proportion(std::int64_t whole, const std::vector<std::int64_t>& parts) {
    const auto total = std::accumulate(parts.begin(), parts.end(), std::int64_t{0});
    promised(total > 0); // a lot of nothing has no card
    std::vector<std::int64_t> grams;
    std::vector<std::int64_t> remainders;
    for (const auto part : parts) {
        grams.push_back(whole * part / total);
        remainders.push_back(whole * part % total);
    }
    auto left = whole - std::accumulate(grams.begin(), grams.end(), std::int64_t{0});
    for (; left > 0; --left) {
        const auto most = std::max_element(remainders.begin(), remainders.end());
        ++grams[static_cast<std::size_t>(most - remainders.begin())];
        *most = -1;
    }
    return grams;
}

/// What a line must be able to measure before a figure can be told to it.
Refusals why_not(const Line& line) {
    Refusals refusals;
    if (!(line.water_step_kg > 0))
        refusals.push_back({"Water step",
                            fmt::format("{:g} kg was read; above 0 is expected", line.water_step_kg),
                            "Enter the step of the line's water meter"});
    if (!(line.oxidant_scale_step_g > 0 && line.oxidant_scale_error_g >= 0))
        refusals.push_back(
            {"Oxidant scale",
             fmt::format("step {:g} g and error {:g} g were read; a step above 0 and an error of 0 or "
                         "more are expected",
                         line.oxidant_scale_step_g, line.oxidant_scale_error_g),
             "Enter the step and the error of the oxidant scale"});
    if (!(line.most_ice >= 0 && line.most_ice <= 1))
        refusals.push_back({"Most ice", fmt::format("{:g} was read; from 0 to 1 is expected", line.most_ice),
                            "Enter the share of the water that may be ice"});
    return refusals;
}

std::vector<Part> parts_of(const Product& product) {
    if (product.second_flour)
        return {Part::main, Part::second};
    return {Part::main};
}

/// The lots that go into one part of the flour, by place in the input.
std::vector<std::size_t> lots_of(const CardInput& input, Part part) {
    std::vector<std::size_t> lots;
    for (std::size_t i = 0; i < input.lots.size(); ++i)
        if (part_of(input.product, input.lots[i].lot->flour) == part)
            lots.push_back(i);
    return lots;
}

Refusals why_no_part(const CardInput& input) {
    Refusals refusals;
    for (const Part part : parts_of(input.product))
        if (lots_of(input, part).empty())
            refusals.push_back({"Lots",
                                part == Part::second ? "no lot of the second flour is assigned to the run"
                                                     : "no lot of the first flour is assigned to the run",
                                "Plan the run, or assign lots by hand"});
    return refusals;
}

/// The first lot that reaches for the batch, else the one with the most.
std::size_t lot_for_batch(const CardInput& input, const std::vector<std::size_t>& lots, Grams batch) {
    const Grams few{20}; // lost to whole grams over the batches
    for (const std::size_t i : lots)
        if (input.lots[i].mass + few >= batch)
            return i;
    return *std::max_element(lots.begin(), lots.end(), [&](std::size_t a, std::size_t b) {
        return input.lots[a].mass < input.lots[b].mass;
    });
}

void object(std::vector<NoCard>& reasons, MixReason reason, Refusal refusal) {
    reasons.push_back({reason, std::move(refusal)});
}

void judge(const CardLot& assigned, const CardInput& input, std::vector<NoCard>& reasons) {
    const auto& lot = *assigned.lot;
    const auto field = fmt::format("Lot {}", lot.code);
    if (assigned.mass.count() <= 0)
        object(reasons, MixReason::no_card,
               {field, "no flour of it is assigned", "Assign some, or take the lot off the run"});
    if (lot.state != LotState::released)
        object(reasons, MixReason::lot_not_released,
               {field,
                fmt::format("it is not released ({}{}{})", in_words(lot.state),
                            lot.state_reason.empty() ? "" : ": ", lot.state_reason),
                "Use a released lot, or have quality staff judge this one"});
    else if (const auto why = against_by_concession(lot, input.product, day_of(input)); !why.empty())
        object(reasons, MixReason::concession_does_not_hold,
               {field, fmt::format("{}: {}", why, lot.concession->deviation),
                "Quality staff judge the lot anew, or the planner gives the run another one"});
    if (!part_of(input.product, lot.flour))
        object(reasons, MixReason::no_card,
               {field, "it is another flour than the product asks for", "Assign a lot of that flour"});
    const auto judged =
        judge_lot(input.law, sale_of(input), flour_class_of(input.product), lot.mill_additions);
    if (judged.permission == Permission::forbidden)
        object(reasons, MixReason::law_forbids_flour,
               {field, judged.words, "Use a lot without it, or sell the product elsewhere"});
}

void warn_of_lot(const CardInput& input, const CardLot& assigned, Card& card) {
    const auto& lot = *assigned.lot;
    if (!lot.milled_on)
        warn(card, CautionKind::estimate, CautionAt::flour,
             fmt::format("Lot {}: the milling date is not known, so its maturity is a wide guess", lot.code));
    if (assigned.has_target && assigned.highest < input.product.maturity_target)
        warn(card, CautionKind::process, CautionAt::flour,
             fmt::format("Lot {} is young: maturity {} to {} % in 80 of 100, {} % is asked for", lot.code,
                         fixed(100 * assigned.lowest.value(), 0), fixed(100 * assigned.highest.value(), 0),
                         fixed(100 * input.product.maturity_target.value(), 0)));
}

} // namespace

void warn(Card& card, CautionKind kind, CautionAt at, std::string words) {
    card.cautions.push_back({kind, at, std::move(words), {}});
}

Day day_of(const CardInput& input) { return input.mixed_on.value_or(input.run.day); }

Sale sale_of(const CardInput& input) { return {input.product.market, input.product.food, day_of(input)}; }

FlourClass flour_class_of(const Product& product) {
    return product.food == FoodClass::whole_wheat_flour || product.food == FoodClass::whole_wheat_bread
               ? FlourClass::wholemeal
               : FlourClass::white;
}

std::vector<NoCard> why_no_card(const CardInput& input) {
    Refusals refusals;
    if (input.lots.empty())
        refusals.push_back({"Lots", "no lot is assigned to the run", "Plan the run, or assign lots by hand"});
    if (input.run.flour.count() <= 0)
        refusals.push_back({"Flour", "the run needs more than 0 kg", "Enter the flour of the run"});
    if (input.run.batches < 1)
        refusals.push_back({"Batches", fmt::format("{} was read; 1 or more is expected", input.run.batches),
                            "Enter the number of batches"});
    if (!(input.oxidant_purity > 0 && input.oxidant_purity <= 1))
        refusals.push_back({"Purity",
                            fmt::format("{:g} was read; above 0 to 1 is expected", input.oxidant_purity),
                            "Enter the share of active substance"});
    append(refusals, why_not(input.line));
    std::vector<NoCard> reasons;
    for (auto& refusal : refusals)
        object(reasons, MixReason::no_card, std::move(refusal));
    for (const auto& lot : input.lots)
        judge(lot, input, reasons);
    if (reasons.empty() && input.run.flour.count() < input.run.batches)
        object(reasons, MixReason::no_card,
               {"Flour", "a batch would hold less than a gram", "Enter fewer batches"});
    if (reasons.empty())
        for (auto& refusal : why_no_part(input))
            object(reasons, MixReason::no_card, std::move(refusal));
    return reasons;
}

CardInput for_one_batch(const CardInput& input) {
    if (!input.product.one_lot_a_batch)
        return input;
    CardInput batch = input;
    batch.lots.clear();
    const Grams flour{input.run.flour.count() / input.run.batches};
    for (const Part part : parts_of(input.product))
        batch.lots.push_back(
            input.lots[lot_for_batch(input, lots_of(input, part), grams_of(input.product, part, flour))]);
    return batch;
}

void share_flour(const CardInput& input, Card& card) {
    card.batch_flour = Grams{input.run.flour.count() / input.run.batches};
    std::vector<std::int64_t> grams(input.lots.size());
    for (const Part part : parts_of(input.product)) {
        const auto lots = lots_of(input, part);
        std::vector<std::int64_t> masses;
        for (const std::size_t i : lots)
            masses.push_back(input.lots[i].mass.count());
        const auto shared = in_proportion(grams_of(input.product, part, card.batch_flour).count(), masses);
        for (std::size_t i = 0; i < lots.size(); ++i)
            grams[lots[i]] = shared[i];
    }
    for (std::size_t i = 0; i < input.lots.size(); ++i) {
        const auto& from = input.lots[i];
        const auto bag = from.lot->bag.count();
        CardFlour flour{
            from.lot->id, from.lot->code, Grams{grams[i]},         0, 0, Grams{grams[i]}, from.maturity,
            from.lowest,  from.highest,   from.lot->mill_additions};
        flour.share = static_cast<double>(grams[i]) / static_cast<double>(card.batch_flour.count());
        if (bag > 0) {
            flour.bags = static_cast<int>(grams[i] / bag);
            flour.rest = Grams{grams[i] % bag};
        }
        card.flour.push_back(std::move(flour));
        warn_of_lot(input, from, card);
    }
}

void warn_of_shortage(const CardInput& input, Card& card) {
    const auto have = assigned(input);
    const auto needed = input.run.flour - input.mixed;
    const auto left = needed.count() / card.batch_flour.count();
    card.is_short = have + few_grams < card.batch_flour;
    if (!card.is_short && have.count() + input.run.batches < needed.count())
        warn(card, CautionKind::process, CautionAt::flour,
             fmt::format("{} of the {} still to be mixed are assigned: enough for {} of {} batches",
                         input.units.with_unit(to_kilograms(have)),
                         input.units.with_unit(to_kilograms(needed)), have.count() / card.batch_flour.count(),
                         left));
    if (!input.product.one_lot_a_batch)
        return;
    for (const Part part : parts_of(input.product)) {
        const auto lots = lots_of(input, part);
        const Grams batch = grams_of(input.product, part, card.batch_flour);
        const auto& lot = input.lots[lot_for_batch(input, lots, batch)];
        if (lot.mass + few_grams < batch)
            warn(card, CautionKind::process, CautionAt::flour,
                 fmt::format("A batch takes one lot alone, and no lot reaches for this one: {} has {}",
                             lot.lot->code, input.units.with_unit(to_kilograms(lot.mass))));
    }
}

std::vector<BlendPart> blend_parts(const CardInput& input, const Card& card) {
    std::vector<BlendPart> blend;
    for (std::size_t i = 0; i < input.lots.size(); ++i)
        blend.push_back({&input.lots[i].lot->certificate, to_kilograms(card.flour[i].mass)});
    return blend;
}

std::optional<Protein14> protein_of(const CardInput& input, const Card& card) {
    return protein_of(blend_parts(input, card));
}

void describe_blend(const CardInput& input, Card& card) {
    const auto blend = blend_parts(input, card);
    for (const auto& traits : all_properties()) {
        const bool always = traits.property == Property::protein ||
                            traits.property == Property::falling_number ||
                            traits.property == Property::absorption;
        const auto value = blend_value(blend, traits.property);
        if (value)
            card.blend.push_back({traits.property, value->value, value->is_estimate,
                                  value->is_estimate ? Origin::model : Origin::certificate});
        else if (always)
            card.blend.push_back({traits.property, {}, false, Origin::certificate});
    }
    double mean = 0;
    double low = 0;
    double high = 0;
    std::vector<FlourPart> flour;
    double share = 0;
    for (std::size_t i = 0; i < card.flour.size(); ++i) {
        const auto& part = card.flour[i];
        flour.push_back({part.additions, to_kilograms(part.mass)});
        if (!input.lots[i].has_target)
            continue;
        share += part.share;
        mean += part.share * part.maturity.value();
        low += part.share * part.lowest.value();
        high += part.share * part.highest.value();
    }
    if (share > 0 && share < 1 - 1e-9) {
        card.strength_share = share;
        mean /= share;
        low /= share;
        high /= share;
    }
    card.maturity = Maturity{mean};
    card.lowest = Maturity{low};
    card.highest = Maturity{high};
    card.carried = carried_over(flour);
    card.carried_judged = judge_carried(input.law, sale_of(input), card.carried);
}

} // namespace mellowbin::dough::parts
