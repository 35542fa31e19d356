#include "aging/estimate.h"

#include "aging/clocks.h"
#include "core/literature/constants.h"
#include "core/normal.h"
#include "core/promised.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin::aging {
namespace {

namespace lit = literature;

constexpr int studied_days() { return static_cast<int>(lit::aging_studied_days.value); }

Day zero_of(const StoredFlour& flour) {
    promised(!flour.path.empty());
    promised(!flour.milled_on || *flour.milled_on <= flour.delivered_on);
    return flour.milled_on.value_or(flour.delivered_on);
}

ClockPath clock_path(const StoredFlour& flour, Clock clock, const TemperatureFactor& factor) {
    ClockPath path;
    path.clock = clock;
    path.path = flour.path;
    path.zero = days_of(zero_of(flour));
    path.before_delivery = Celsius{lit::aging_before_delivery_temperature.value};
    path.factor = factor;
    path.assumed_doubt = flour.assumed_doubt.value();
    path.most_head_start = flour.milled_on ? 0 : lit::aging_unknown_milling_most.value;
    return path;
}

UncertainClock maturing_clock(const StoredFlour& flour, const Priors& priors, const Evidence& evidence) {
    auto path = clock_path(flour, Clock::maturing, priors.maturing_factor());
    path.air = priors.air;
    return {priors.k20, path, evidence};
}

UncertainClock aging_clock(const StoredFlour& flour, const Priors& priors) {
    const double share = life_share_at(flour.moisture, medians_of(priors));
    return {{1 / (priors.life20.median * share), priors.life20.gsd},
            clock_path(flour, life_clock_of(flour.flour_class), priors.life_q10)};
}

/// Coldest and warmest air on the way up to a day.
ClimateCourse::Summary temperatures_until(const StoredFlour& flour, double until) {
    auto all = flour.path.front().climate->temperature(flour.path.front().from, flour.path.front().from);
    for (const auto& stay : flour.path) {
        if (stay.from > until)
            continue;
        const auto here = stay.climate->temperature(stay.from, std::min(stay.until, until));
        all.low = std::min(all.low, here.low);
        all.high = std::max(all.high, here.high);
    }
    return all;
}

} // namespace

CelsiusStep published_assumed_doubt() { return CelsiusStep{lit::aging_assumed_temperature_doubt.value}; }

Estimate::Estimate(const StoredFlour& flour, const Priors& priors, const Evidence& evidence)
    : flour_(flour), zero_(zero_of(flour)), maturing_(maturing_clock(flour, priors, evidence)),
      aging_(aging_clock(flour, priors)) {}

double Estimate::probability_of(Maturity at_least, Day day) const {
    return maturing_.probability_of(theta_for(at_least), days_of(day));
}

Maturity Estimate::maturity_at(double probability, Day day) const {
    return maturity(maturing_.reading_at(probability, days_of(day)));
}

Maturity Estimate::mean_maturity(Day day) const {
    return Maturity{maturing_.mean_of([](double theta) { return maturity(theta).value(); }, days_of(day))};
}

std::optional<Day> Estimate::first_day_of(Maturity at_least, double probability) const {
    if (const auto days =
            maturing_.first_day(theta_for(at_least), probability, days_of(zero_), studied_days()))
        return zero_ + Days{*days};
    return {};
}

double Estimate::probability_of_age(double at_least, Day day) const {
    return aging_.probability_of(at_least, days_of(day));
}

std::optional<Day> Estimate::first_day_of_age(double at_least, double probability) const {
    if (const auto days = aging_.first_day(at_least, probability, days_of(zero_), studied_days()))
        return zero_ + Days{*days};
    return {};
}

double Estimate::life_days(Day day) const {
    return std::exp(aging_.run_slope({0, days_of(day), false, {}}).log_run);
}

std::optional<Day> Estimate::first_day_of_life(double days_at_20) const {
    int before = -1, reached = studied_days() + 1;
    while (reached - before > 1) {
        const int day = before + (reached - before) / 2;
        (life_days(zero_ + Days{day}) >= days_at_20 ? reached : before) = day;
    }
    if (reached > studied_days())
        return {};
    return zero_ + Days{reached};
}

Day Estimate::last_day_studied() const { return zero_ + Days{studied_days()}; }

double Estimate::measured_share(Day day) const {
    const double until = days_of(day), from = days_of(zero_);
    if (until <= from)
        return 0;
    double measured = 0;
    for (const auto& stay : flour_.path)
        if (stay.from < until)
            measured += stay.share * stay.climate->measured_days(stay.from, std::min(stay.until, until));
    return measured / (until - from);
}

std::vector<Reservation> Estimate::reservations(Day day) const {
    std::vector<Reservation> found;
    const auto note = [&](bool holds, Reservation reservation) {
        if (holds)
            found.push_back(reservation);
    };
    const double first =
        std::min_element(flour_.path.begin(), flour_.path.end(), [](const Stay& a, const Stay& b) {
            return a.from < b.from;
        })->from;
    const auto seen = temperatures_until(flour_, std::max(days_of(day), first));
    const double measured = measured_share(day);
    const double dry_enough = lit::aging_dry_enough_moisture.value;
    note(!flour_.milled_on, Reservation::milling_date_unknown);
    note(!flour_.milled_on || first > days_of(zero_), Reservation::place_before_delivery_assumed);
    note(measured <= 0, Reservation::storage_not_measured);
    note(measured > 0 && measured < 1, Reservation::storage_partly_measured);
    note(seen.low < Celsius{lit::aging_studied_low.value} ||
             seen.high > Celsius{lit::aging_studied_high.value},
         Reservation::temperature_outside_studies);
    note(seen.low < cold_from(), Reservation::cold_assumed);
    note(seen.high > Celsius{lit::aging_studied_high.value}, Reservation::too_warm);
    note(clamped(seen.high) != seen.high, Reservation::temperature_clamped);
    note(std::any_of(flour_.path.begin(), flour_.path.end(),
                     [](const Stay& stay) { return stay.climate->air() != Air::breathable_bag; }),
         Reservation::air_factor_assumed);
    note(!flour_.moisture, Reservation::moisture_unknown);
    note(flour_.moisture && flour_.moisture->value() > dry_enough, Reservation::damp);
    note(flour_.flour_class == FlourClass::wholemeal, Reservation::wholemeal_gets_worse);
    note(flour_.flour_class == FlourClass::high_extraction, Reservation::high_extraction_assumed);
    note(true, Reservation::temperature_factor_stands_in);
    note(true, Reservation::strength_gain_not_promised);
    note(true, Reservation::model_of_first_weeks);
    note(true, Reservation::usual_time);
    return found;
}

double value_when_fresh(const Estimate& estimate, Property property, double value, Day taken_on) {
    const auto& test = *maturing_test(property);
    promised(test.follows == Follows::own_rate && test.change == ChangeKind::share);
    const double run = std::exp(estimate.run_slope({value, days_of(taken_on), false, {}}).log_run);
    return value / (1 + test.published.mean * maturity(test.own_rate.median * run).value());
}

std::string in_words(Reservation reservation) {
    switch (reservation) {
    case Reservation::milling_date_unknown:
        return fmt::format("The milling date is not known: 0 to {:g} days before the delivery are assumed",
                           lit::aging_unknown_milling_most.value);
    case Reservation::place_before_delivery_assumed:
        return fmt::format("Before the delivery {:g} °C are assumed, and the air of the first place",
                           lit::aging_before_delivery_temperature.value);
    case Reservation::storage_not_measured:
        return fmt::format("No logger measured its storage: what is assumed of the places counts, give or "
                           "take {:.1f} K (80 of 100)",
                           to_10_and_90 * lit::aging_assumed_temperature_doubt.value);
    case Reservation::storage_partly_measured:
        return fmt::format("Where no logger measured, what is assumed of the places counts, give or take "
                           "{:.1f} K (80 of 100)",
                           to_10_and_90 * lit::aging_assumed_temperature_doubt.value);
    case Reservation::temperature_outside_studies:
        return fmt::format("Part of the storage lies outside the studied {:g} to {:g} °C",
                           lit::aging_studied_low.value, lit::aging_studied_high.value);
    case Reservation::temperature_clamped:
        return fmt::format("Above {:g} °C the rates are taken as at that limit", lit::aging_clamp_high.value);
    case Reservation::cold_assumed:
        return fmt::format("Below {:g} °C maturing slows by a factor of {:g} per 10 K, 95 % {:g} to {:g}: an "
                           "assumption. Frozen flour is slower, not still (Borsuk et al. 2016)",
                           lit::aging_cold_from.value, lit::aging_cold_q10.value, lit::aging_cold_q10.low,
                           lit::aging_cold_q10.high);
    case Reservation::too_warm:
        return fmt::format(
            "Above {:g} °C strength may be lost as well as gained (gluten fell in 8 weeks at 27 "
            "and at 35 °C, faster at 35 °C): readiness there is an extrapolation",
            lit::aging_studied_high.value);
    case Reservation::air_factor_assumed:
        return "How this kind of storage slows or speeds maturing is an assumption";
    case Reservation::moisture_unknown:
        return "The moisture is not known: taken as dry enough to keep";
    case Reservation::damp:
        return fmt::format("Damper than {:g} %: watch for mould; above about {:g} % it keeps shorter",
                           lit::aging_dry_enough_moisture.value, lit::aging_damp_reference_moisture.value);
    case Reservation::wholemeal_gets_worse:
        return "Wholemeal is believed to get worse with time, not better; its rate is from memory";
    case Reservation::high_extraction_assumed:
        return "Rate and life of high-extraction flour are assumed between white and wholemeal";
    case Reservation::temperature_factor_stands_in:
        return "The effect of temperature is that on flour's carotenoids, standing in for dough strength";
    case Reservation::strength_gain_not_promised:
        return "Maturity does not promise strength: a UK study of 8 months found no significant effect "
               "(Salmon 1998)";
    case Reservation::model_of_first_weeks:
        return "One curve that rises and levels off is a model of the first weeks: over two years strength "
               "peaked at 8 and at 21 months and fell sharply at 13 months (Borsuk et al. 2016)";
    case Reservation::usual_time:
        return "Natural aging takes weeks, up to a month, at times several months (common practice, no "
               "source)";
    }
    return {};
}

} // namespace mellowbin::aging
