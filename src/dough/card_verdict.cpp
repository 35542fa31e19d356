#include "core/decimal.h"
#include "core/literature/constants.h"
#include "dough/card.h"
#include "dough/card_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin::dough {
namespace {

std::string lot_words(const Lot& lot) { return fmt::format("Lot {}", lot.code); }

// What stands against a lot.

void judge_days(const CardInput& input, const CardLot& given, Verdict& verdict) {
    const Lot& lot = *given.lot;
    const auto last = last_day(lot);
    if (last && parts::day_of(input) > *last)
        object(verdict, MixReason::best_before_passed, CautionAt::flour,
               fmt::format("{} is past its best-before day, {}{}", lot_words(lot), short_day(*last),
                           lot.extension ? ", to which it was extended" : ""),
               {}, lot.id);
    if (given.past_best_from && parts::day_of(input) >= *given.past_best_from)
        object(verdict, MixReason::lot_past_best, CautionAt::flour,
               fmt::format("{} is past its best since {}, by the aging estimate", lot_words(lot),
                           short_day(*given.past_best_from)));
}

/// The newest that was measured, and what is told of the day, where that is more.
std::optional<double> moisture_of(const CardLot& given) {
    const auto then = given.lot->certificate.moisture();
    const auto tested = given.retest ? given.retest->results.moisture() : std::nullopt;
    if (!then || !tested)
        return tested ? std::optional{tested->value()} : then ? std::optional{then->value()} : std::nullopt;
    return std::max(then->value(), tested->value());
}

bool is_outside(const Judgement& judged) {
    return judged.verdict == mellowbin::Verdict::below || judged.verdict == mellowbin::Verdict::above;
}

void judge_figures(const CardLot& given, Verdict& verdict) {
    const Lot& lot = *given.lot;
    const double most = literature::aging_moisture_stop.value;
    const auto moisture = moisture_of(given);
    const bool is_too_moist = moisture && *moisture > most;
    if (is_too_moist)
        object(verdict, MixReason::moisture_too_high, CautionAt::flour,
               fmt::format("{} holds {} % of moisture; more than {} % is no flour to keep or to sell",
                           lot_words(lot), fixed(*moisture, 1), fixed(most, 1)),
               {}, lot.id);
    if (!given.flour)
        return;
    const auto& asked = given.flour->specification;
    if (given.retest)
        for (const auto& judged : judge(given.retest->results, asked))
            if (is_outside(judged))
                object(verdict, MixReason::lot_out_of_specification, CautionAt::flour,
                       fmt::format("{}: the retest of {} has {} at {}", lot_words(lot),
                                   short_day(given.retest->taken_on), traits(judged.window.property).name,
                                   judged.words));
    const bool is_tested = given.retest && given.retest->results.find(Property::moisture);
    if (is_tested || is_too_moist)
        return;
    for (const auto& judged : judge(lot.certificate, asked))
        if (judged.window.property == Property::moisture && judged.verdict == mellowbin::Verdict::above)
            object(verdict, MixReason::lot_out_of_specification, CautionAt::flour,
                   fmt::format("{}: moisture {}", lot_words(lot), judged.words));
}

void judge_mill(const CardInput& input, const CardLot& given, Verdict& verdict) {
    const auto judged = judge_lot(input.law, parts::sale_of(input), parts::flour_class_of(input.product),
                                  given.lot->mill_additions);
    if (!judged.is_permitted() && judged.permission != Permission::forbidden)
        object(verdict, MixReason::mill_dose_unconfirmed, CautionAt::flour,
               fmt::format("{}: {}", lot_words(*given.lot), judged.words));
}

void judge_lots(const CardInput& input, const Card& card, Verdict& verdict) {
    for (const auto& flour : card.flour) {
        const auto given = std::find_if(input.lots.begin(), input.lots.end(),
                                        [&](const CardLot& lot) { return lot.lot->id == flour.lot; });
        if (given == input.lots.end())
            continue;
        judge_days(input, *given, verdict);
        judge_figures(*given, verdict);
        judge_mill(input, *given, verdict);
    }
    if (card.carried_judged.permission == Permission::forbidden)
        object(verdict, MixReason::law_forbids_flour, CautionAt::flour, card.carried_judged.words);
    if (card.is_short)
        object(verdict, MixReason::flour_short, CautionAt::flour,
               "Less flour is assigned than one batch needs");
}

void judge_bags(const CardInput& input, const Card& card, Verdict& verdict) {
    std::string expected;
    std::string missing;
    std::size_t right = 0;
    for (const auto& flour : card.flour) {
        expected += (expected.empty() ? "" : ", ") + flour.code;
        const auto& scanned = input.bags.right;
        if (std::find(scanned.begin(), scanned.end(), flour.lot) != scanned.end())
            ++right;
        else
            missing += (missing.empty() ? "" : ", ") + flour.code;
    }
    for (const auto& wrong : input.bags.wrong)
        object(verdict, MixReason::wrong_bag, CautionAt::flour,
               fmt::format(
                   "Lot {} was scanned ({}), which is not on this card; {} is expected. Put the bag back. If "
                   "it was tipped, keep the dough back and tell quality staff",
                   wrong.code, wrong.words, expected));
    if (input.bags.is_asked && !missing.empty())
        object(verdict, MixReason::bags_not_scanned, CautionAt::flour,
               fmt::format("{} of {} scanned: no bag of lot {} yet", right, card.flour.size(), missing));
}

// What stands against the water.

/// What most likely makes the water what it is, for whoever mends it.
std::string cause_of_water(const CardWater& water) {
    const double least = literature::dough_water_least.value;
    const double most = literature::dough_water_most.value;
    const double told = water.dough.farinograph.value();
    if (told < least || told > most)
        return fmt::format("The certificates say {} % absorption: look there first", fixed(told, 1));
    return fmt::format(
        "The certificates say {} %, the product {} points beside that: look at the product's formula "
        "and water offset first",
        fixed(told, 1), fixed((water.dough.target - water.dough.farinograph).value(), 1));
}

void judge_amount(const CardInput& input, const CardWater& water, Verdict& verdict) {
    const auto& line = input.line;
    const double step = line.water_step_kg;
    const auto all = water.told + water.stock_solution + water.ice;
    if (water.told.value() <= 0)
        object(verdict, MixReason::water_impossible, CautionAt::water,
               fmt::format("The card comes to {} of water by a step of {}; {} are needed",
                           input.units.with_unit(water.told), input.units.with_unit(Kilograms{step}),
                           input.units.with_unit(water.dough.exact)),
               "Whoever keeps the plant's settings enters the step of the line's meter, or weaker stock "
               "solution is made "
               "stronger");
    else if (const auto possible = possible_water(
                 {all, water.ice, std::nullopt}, water.dough,
                 {line.tap_water, line.coldest_water, line.most_ice, line.ice_temperature}, input.units);
             !possible)
        for (const auto& refusal : possible.refusals())
            object(verdict, MixReason::water_impossible, CautionAt::water,
                   fmt::format("{}: {}. {}", refusal.field, refusal.what, cause_of_water(water)));
    const double moved = std::abs((all - water.dough.exact) / water.dough.flour) * 100;
    if (water.told.value() > 0 && moved > literature::dough_water_moved.value)
        object(
            verdict, MixReason::water_rounded, CautionAt::water,
            fmt::format("The meter's step of {} moves the water by {} % of the flour: {} are told, {} exact",
                        input.units.with_unit(Kilograms{step}), fixed(moved, 1), input.units.with_unit(all),
                        input.units.with_unit(water.dough.exact, 2)));
}

std::string cause_of_heat(const CardInput& input, const CardTemperature& t) {
    return fmt::format(
        "It follows from the dough's {}, the room's {}, the flour's {} and the heat of mixing in the "
        "settings of {}",
        input.units.with_unit(t.dough), input.units.with_unit(t.room), input.units.with_unit(t.flour),
        input.line.name);
}

void judge_temperature(const CardInput& input, const CardTemperature& t, Verdict& verdict) {
    const auto told = t.mix.water_temperature;
    const Celsius coldest = std::min(input.line.tap_water, input.line.coldest_water);
    const Celsius hottest{literature::dough_water_hottest.value};
    const auto words = fmt::format("Water of {}", input.units.with_unit(told));
    if (told > hottest)
        object(verdict, MixReason::water_impossible, CautionAt::water,
               fmt::format("{} is above {}, which kills yeast. {}", words, input.units.with_unit(hottest, 0),
                           cause_of_heat(input, t)));
    else if (told >= input.distances.hot_water)
        object(verdict, MixReason::water_hot, CautionAt::water,
               fmt::format("{}: hot water harms yeast from {} on. {}", words,
                           input.units.with_unit(input.distances.hot_water, 0), cause_of_heat(input, t)));
    if (told < coldest)
        object(verdict, MixReason::water_impossible, CautionAt::water,
               fmt::format("{} is colder than the line's coldest, {}. {}", words,
                           input.units.with_unit(coldest), cause_of_heat(input, t)));
    if (t.mix.too_warm >= input.distances.too_warm)
        object(verdict, MixReason::dough_too_warm, CautionAt::water,
               fmt::format("The dough will be {} too warm, {} for {} aimed at: the line has no more cold",
                           input.units.with_unit(t.mix.too_warm),
                           input.units.with_unit(t.dough + t.mix.too_warm), input.units.with_unit(t.dough)));
}

void judge_water(const CardInput& input, const Card& card, Verdict& verdict) {
    if (card.water)
        judge_amount(input, *card.water, verdict);
    else
        object(verdict, MixReason::water_not_known, CautionAt::water,
               mellowbin::in_words(card.water.refusals().front()));
    if (card.temperature)
        judge_temperature(input, *card.temperature, verdict);
}

// What the law or a missing figure keeps out.

void judge_doses(const Card& card, Verdict& verdict) {
    if (card.oxidant && !*card.oxidant)
        object(verdict, MixReason::oxidant_not_known, CautionAt::oxidant,
               "No dose: " + mellowbin::in_words(card.oxidant->refusals().front()));
    else if (card.oxidant && is_withheld(**card.oxidant))
        object(verdict, MixReason::oxidant_withheld, CautionAt::oxidant,
               fmt::format("{} is withheld: {}", name_of((**card.oxidant).substance),
                           (**card.oxidant).room.words));
    if (card.keeping && card.keeping->is_withheld)
        object(verdict, MixReason::preservative_withheld, CautionAt::bread,
               fmt::format("{} is withheld: {}", name_of(card.keeping->preservative),
                           card.keeping->withheld_words));
}

} // namespace

bool is_withheld(const CardOxidant& oxidant) {
    return oxidant.wanted.value() > 0 && oxidant.room.permission != Permission::permitted;
}

Verdict verdict_of(const CardInput& input, const Result<Card>& card) {
    Verdict verdict;
    if (!card) {
        for (const auto& [reason, refusal] : parts::why_no_card(input))
            object(verdict, reason, CautionAt::card,
                   refusal.field.empty() ? refusal.what : fmt::format("{}: {}", refusal.field, refusal.what),
                   refusal.remedy);
        return verdict;
    }
    judge_lots(input, *card, verdict);
    judge_bags(input, *card, verdict);
    judge_water(input, *card, verdict);
    judge_doses(*card, verdict);
    return verdict;
}

Verdict verdict_of(const CardInput& input, const Card& card, const TypedFigures& typed) {
    Verdict verdict;
    const auto& house = input.units;
    const auto far = [&](CautionAt at, std::string words) {
        object(verdict, MixReason::typed_far_off, at, std::move(words));
    };
    if (typed.water && card.water) {
        const double off = std::abs(*typed.water / card.water->told - 1) * 100;
        if (off > input.distances.water_percent)
            far(CautionAt::water,
                fmt::format("Water: {} was read, the card says {}", house.with_unit(*typed.water),
                            house.with_unit(card.water->told)));
    }
    if (typed.water_temperature && card.temperature) {
        const auto told = card.temperature->mix.water_temperature;
        const double off = std::abs((*typed.water_temperature - told).value());
        if (off > input.distances.water_temperature.value() ||
            *typed.water_temperature >= input.distances.hot_water)
            far(CautionAt::water,
                fmt::format("Water temperature: {} was read, the card says {}",
                            house.with_unit(*typed.water_temperature), house.with_unit(told)));
    }
    if (typed.dough_temperature) {
        const double off = std::abs((*typed.dough_temperature - card.dough_temperature).value());
        if (off > input.distances.dough_temperature.value())
            far(CautionAt::water, fmt::format("Dough temperature: {} was read, {} is aimed at",
                                              house.with_unit(*typed.dough_temperature),
                                              house.with_unit(card.dough_temperature)));
    }
    return verdict;
}

} // namespace mellowbin::dough
