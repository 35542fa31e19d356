#include "app/models/levers_words.h"

#include "app/models/dose_words.h"
#include "app/models/maturity_words.h"
#include "core/decimal.h"
#include "core/normal.h"
#include "dough/water.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin::app {
namespace {

using dough::Reach;

LeverRow::Standing standing_of(Reach reach) {
    switch (reach) {
    case Reach::reaches:
        return LeverRow::Standing::reaches;
    case Reach::helps:
        return LeverRow::Standing::helps;
    case Reach::not_needed:
        return LeverRow::Standing::not_needed;
    case Reach::forbidden:
        return LeverRow::Standing::forbidden;
    case Reach::not_known:
        break;
    }
    return LeverRow::Standing::not_known;
}

std::string percent(double share) { return fixed(100 * share, 0) + " %"; }

constexpr double minor_units = 100; ///< of a unit of the plant's money

std::string money(double minor) { return money_words(minor / minor_units); }

std::string sure(double probability) {
    if (probability >= 0.995)
        return "over 99 %";
    return probability < 0.005 ? "under 1 %" : percent(probability);
}

LeverRow wait_row(const dough::LeversInput& input, const dough::Levers& levers) {
    const auto& wait = levers.wait;
    LeverRow row{"Wait", standing_of(wait.reach), "", "", "", "no money", "no change", {}};
    if (wait.reach == Reach::not_needed || wait.reach == Reach::not_known)
        return row;
    row.spread = fmt::format("{} sure on the day of the run", sure(wait.probability_now));
    if (wait.reached_on) {
        const auto days = (*wait.reached_on - input.card.run.day).count();
        row.figures = fmt::format("The lots are {} mature on {}", percent_words(levers.target),
                                  short_day(*wait.reached_on));
        row.time = fmt::format("{} {}", days, days == 1 ? "day" : "days");
        row.deed = RemedyDeed{.day = wait.reached_on};
        row.spread += fmt::format("; {} sure then", sure(input.wait.back().probability));
    } else {
        row.figures = fmt::format("Not enough by {}: {} mature then", short_day(wait.last_seen->day),
                                  of_words(wait.last_seen->counted, levers.target));
        row.time = "over 60 days";
    }
    row.notes.emplace_back("The lots are taken to be early or late together");
    return row;
}

std::string blend_words(const dough::BlendOption& option) {
    return fmt::format("{} of {} ({} kg)", percent(option.share), option.lot->lot->code,
                       fixed(to_kilograms(option.mass).value(), 0));
}

RemedyDeed taking(const dough::BlendOption& option) {
    return {.lot = option.lot->lot->id,
            .lot_code = option.lot->lot->code,
            .kg = to_kilograms(option.mass).value()};
}

LeverRow blend_row(const dough::Levers& levers) {
    const auto& blend = levers.blend;
    LeverRow row{"Blend", standing_of(blend.reach), "", "", "none", "", "no change", {}};
    if (blend.options.empty()) {
        if (!blend.why_not.empty())
            row.notes.push_back(blend.why_not);
        return row;
    }
    const auto& best = blend.options.front();
    row.figures = blend_words(best);
    row.deed = taking(best);
    row.spread = fmt::format("then {} mature ({})", percent_words(best.maturity),
                             maturity_range_words(best.lowest, best.highest));
    row.money = money(best.money);
    constexpr std::size_t others_told = 3;
    for (std::size_t i = 1; i < std::min(blend.options.size(), others_told); ++i)
        row.notes.push_back(fmt::format("or {}: {} mature", blend_words(blend.options[i]),
                                        percent_words(blend.options[i].maturity)));
    row.notes.push_back(fmt::format(
        "{} other lots were looked at, within the product's specification, its number of lots and "
        "least share, and the flour no run has. Mean by mass: ask for a blend test",
        blend.looked_at));
    return row;
}

std::string amount_words(const dough::CardOxidant& dose, double grams_per_run) {
    return fmt::format("{} mg/kg {}: {} g a batch, {} g a run", dose_words(dose.resulting),
                       name_of(dose.substance), fixed(dose.exact_g, 2), fixed(grams_per_run, 1));
}

/// What the dose rests on.
std::string dose_spread(const dough::LeversInput& input, const dough::OxidantLever& oxidant) {
    if (oxidant.dose->baked)
        return fmt::format("by bakes, best between {} and {} mg/kg in 80 of 100",
                           fixed(oxidant.dose->baked->low.value(), 0),
                           fixed(oxidant.dose->baked->high.value(), 0));
    const auto& lots = input.card.lots;
    const bool is_partly_baked = std::any_of(
        lots.begin(), lots.end(), [](const dough::CardLot& lot) { return lot.best_dose.has_value(); });
    const auto& need = oxidant.dose->need;
    auto words =
        fmt::format("does as flour {} mature; {}", percent_words(oxidant.maturity),
                    is_partly_baked ? "by the bakes of some of its lots, of the others a starting guess"
                                    : "a starting guess, no bakes of these lots");
    if (need.high.value() > 0)
        words += fmt::format("; 95 % between {} and {} mg/kg", fixed(need.low.value(), 1),
                             fixed(need.high.value(), 1));
    return words;
}

LeverRow oxidant_row(const dough::LeversInput& input, const dough::Levers& levers) {
    const auto& oxidant = levers.oxidant;
    LeverRow row{"Oxidant", standing_of(oxidant.reach), "", "", "none", "", "", {}};
    if (!oxidant.why_not.empty())
        row.notes.push_back(oxidant.why_not);
    if (!oxidant.dose || oxidant.reach == Reach::not_needed || oxidant.reach == Reach::forbidden)
        return row;
    const auto& dose = *oxidant.dose;
    row.figures = amount_words(dose, oxidant.grams_per_run);
    row.spread = dose_spread(input, oxidant);
    row.money = oxidant.money > 0 ? money(oxidant.money) : "price not set";
    row.label = fmt::format("{} on the label", name_of(dose.substance));
    row.notes.emplace_back("It is named on the label where the market asks for it");
    row.notes.push_back(dose.room.words);
    row.notes.emplace_back(dough::speed_and_stage(dose.substance));
    row.notes.emplace_back("Weighed by trained staff with gloves; local law and qualified staff first");
    return row;
}

/// common practice, no source
constexpr const char* water_rule =
    "Too little water gives a tough, bucky dough, too much a weak one (common practice, no source)";
/// common practice, no source
constexpr const char* bulk_rule =
    "Longer bulk fermentation strengthens without additives (common practice, no source)";

/// So many minutes more than the run has already, as far as the product still allows them.
RemedyDeed fermenting(const dough::LeversInput& input, const dough::Levers& levers, double minutes) {
    const int more = std::min(whole_minutes(minutes), levers.ferment.most);
    return {.minutes = input.card.run.longer_fermentation_minutes + more, .minutes_more = more};
}

LeverRow ferment_row(const dough::LeversInput& input, const dough::Levers& levers) {
    const auto& ferment = levers.ferment;
    LeverRow row{"Longer fermentation", standing_of(ferment.reach), "", "", "", "", "clean label", {}};
    if (!ferment.why_not.empty())
        row.notes.push_back(ferment.why_not);
    row.notes.emplace_back(bulk_rule);
    if (!ferment.is_calibrated)
        return row;
    row.figures = fmt::format("{} min more than the {} min {}", whole_minutes(ferment.minutes),
                              input.card.product.fermentation_minutes,
                              input.card.run.longer_fermentation_minutes > 0 ? "it ferments already"
                                                                             : "of the product");
    if (auto deed = fermenting(input, levers, ferment.minutes); deed.minutes_more >= 1)
        row.deed = std::move(deed);
    row.spread = "by this plant's own bakes";
    row.time = fmt::format("at most {} min {} allowed", ferment.most,
                           input.card.run.longer_fermentation_minutes > 0 ? "more are" : "are");
    row.money = ferment.money > 0 ? money(ferment.money) : "line time not priced";
    row.notes.push_back(
        fmt::format("With what is allowed of it: as {} mature", percent_words(ferment.maturity)));
    return row;
}

LeverRow water_row(const dough::Levers& levers) {
    const auto& water = levers.water;
    LeverRow row{"Water", standing_of(water.reach), "", "", "none", "no money", "no change", {}};
    if (!water.why_not.empty())
        row.notes.push_back(water.why_not);
    if (!water.stands) {
        row.notes.emplace_back(water_rule);
        return row;
    }
    row.figures = fmt::format("{}: {:+.1f} points from the optimum of {} %", water.stands->words,
                              water.stands->from_optimum.value(), fixed(water.optimum.value(), 1));
    row.spread = fmt::format("the optimum is known to {} points", fixed(to_10_and_90 * water.stands->sd, 1));
    row.notes.push_back(dough::water_words(water.stands->from_optimum));
    row.notes.emplace_back("Water makes no gluten: it lets the one that is there work");
    row.notes.emplace_back(water_rule);
    return row;
}

LeverMix mix_of(const dough::LeversInput& input, const dough::Levers& levers, const dough::LeverMix& mix) {
    LeverMix row;
    const auto add = [&](const std::string& part) { row.words += (row.words.empty() ? "" : " and ") + part; };
    if (mix.blend) {
        add(blend_words(*mix.blend));
        row.deed = taking(*mix.blend);
    }
    if (mix.dose.value() > 0)
        add(fmt::format("{} mg/kg {}", dose_words(mix.dose), name_of(*input.card.product.oxidant)));
    if (const auto longer = fermenting(input, levers, mix.minutes); longer.minutes_more >= 1) {
        add(fmt::format("{} min more fermentation", longer.minutes_more));
        if (!row.deed)
            row.deed.emplace();
        row.deed->minutes = longer.minutes;
        row.deed->minutes_more = longer.minutes_more;
        row.minutes = longer.minutes_more;
    }
    if (row.words.empty())
        row.words = "nothing: the mill's oxidant makes up for it";
    row.maturity = mix.maturity.value();
    row.money = mix.money / minor_units;
    row.label = mix.dose.value() > 0 ? "oxidant on the label" : "clean label";
    return row;
}

/// "Strength is short: 66 of 90 % mature, about 15 days at 20 °C too few"
std::string gap_words(const dough::Levers& levers, double rate) {
    if (levers.missing <= 0)
        return "The strength is enough: nothing is missing";
    const auto days = days_missing_words(levers.counted, levers.target, rate);
    return fmt::format("Strength is short: {} mature{}", of_words(levers.counted, levers.target),
                       days.empty() ? "" : ", " + days + " too few");
}

} // namespace

std::string_view in_words(LeverRow::Standing standing) {
    switch (standing) {
    case LeverRow::Standing::reaches:
        return "enough alone";
    case LeverRow::Standing::helps:
        return "helps, not enough alone";
    case LeverRow::Standing::not_needed:
        return "not needed";
    case LeverRow::Standing::forbidden:
        return "forbidden";
    case LeverRow::Standing::not_known:
        break;
    }
    return "not known";
}

std::string money_words(double money) {
    if (std::abs(money) < 0.005)
        return "no money";
    return fmt::format("{}{} a run", money > 0 ? "+" : "-",
                       fixed(std::abs(money), std::abs(money) < 10 ? 2 : 0));
}

void show_levers(const dough::LeversInput& input, const dough::Levers& levers, double rate,
                 LeversModel& model) {
    model.counted = levers.counted.value();
    if (levers.oxidant.dose)
        model.oxidant_ppm = levers.oxidant.dose->resulting.value();
    model.lowest = levers.lowest.value();
    model.highest = levers.highest.value();
    model.target = levers.target.value();
    model.is_short = levers.missing > 0;
    model.gap = gap_words(levers, rate);
    model.gap_spread = fmt::format("the blend counts as {}; {}", maturity_words(levers.counted, rate),
                                   maturity_range_words(levers.lowest, levers.highest));
    if (const int longer = input.card.run.longer_fermentation_minutes; longer > 0)
        model.gap_spread += fmt::format("; {} is asked for, as it ferments {} min longer",
                                        percent_words(levers.target), longer);
    model.too_far = levers.too_far.words;
    model.levers = {wait_row(input, levers), blend_row(levers), oxidant_row(input, levers),
                    ferment_row(input, levers), water_row(levers)};
    for (const auto& mix : levers.mixes)
        model.mixes.push_back(mix_of(input, levers, mix));
    model.no_mix = levers.no_mix;
}

} // namespace mellowbin::app
