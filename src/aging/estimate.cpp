#include "aging/estimate.h"

#include "aging/clocks.h"
#include "core/literature/constants.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>

namespace mellowbin::aging {
namespace {

namespace lit = literature;

constexpr int studied_days() { return static_cast<int>(lit::aging_studied_days.value); }

constexpr unsigned bit(Reservation r) { return 1u << static_cast<unsigned>(r); }

Day zero_of(const StoredFlour& flour) {
    assert(!flour.path.empty());
    assert(!flour.milled_on || *flour.milled_on <= flour.delivered_on);
    return flour.milled_on.value_or(flour.delivered_on);
}

/// Where it lay before anyone here saw it: an assumed temperature, and the air it came to.
StoragePiece before_delivery(const StoredFlour& flour, Day from) {
    return {from, Celsius{lit::aging_before_delivery_temperature.value}, flour.path.front().air};
}

/// The path from the clocks' zero on.
StoragePath path_from_zero(const StoredFlour& flour) {
    const Day zero = zero_of(flour);
    StoragePath path;
    if (flour.path.front().from > zero)
        path.push_back(before_delivery(flour, zero));
    for (const auto& piece : flour.path) {
        if (piece.from <= zero)
            path.clear();
        path.push_back(piece);
        path.back().from = std::max(piece.from, zero);
    }
    return path;
}

template <class FactorOf> std::vector<Stretch> stretches(const StoragePath& path, FactorOf factor_of) {
    std::vector<Stretch> result;
    result.reserve(path.size());
    for (const auto& piece : path)
        result.push_back({static_cast<double>((piece.from - path.front().from).count()),
                          steps_from_20(piece.temperature), factor_of(piece.air)});
    return result;
}

template <class FactorOf>
UncertainClock clock_of(const StoredFlour& flour, Lognormal rate, Lognormal q10, FactorOf factor_of) {
    HeadStart head;
    if (!flour.milled_on) {
        const auto piece = before_delivery(flour, {});
        head = {lit::aging_unknown_milling_most.value,
                {0, steps_from_20(piece.temperature), factor_of(piece.air)}};
    }
    return {rate, q10, stretches(path_from_zero(flour), factor_of), head};
}

UncertainClock maturing_clock(const StoredFlour& flour, const Priors& priors) {
    return clock_of(flour, priors.k20, priors.q10, [&](Air air) { return priors.air_factor(air); });
}

UncertainClock aging_clock(const StoredFlour& flour, const Priors& priors) {
    const double share = life_share_at(flour.moisture, medians_of(priors));
    return clock_of(flour, {1 / (priors.life20.median * share), priors.life20.gsd}, priors.life_q10,
                    [](Air) { return Lognormal{}; });
}

unsigned reservations_of(const StoredFlour& flour) {
    unsigned found =
        bit(Reservation::temperature_factor_stands_in) | bit(Reservation::strength_gain_not_promised);
    if (!flour.milled_on)
        found |= bit(Reservation::milling_date_unknown);
    if (!flour.milled_on || flour.path.front().from > *flour.milled_on)
        found |= bit(Reservation::place_before_delivery_assumed);
    for (const auto& piece : flour.path) {
        if (piece.temperature < Celsius{lit::aging_studied_low.value} ||
            piece.temperature > Celsius{lit::aging_studied_high.value})
            found |= bit(Reservation::temperature_outside_studies);
        if (clamped(piece.temperature) != piece.temperature)
            found |= bit(Reservation::temperature_clamped);
        if (piece.air != Air::breathable_bag)
            found |= bit(Reservation::air_factor_assumed);
    }
    if (!flour.moisture)
        found |= bit(Reservation::moisture_unknown);
    else if (flour.moisture->value() > lit::aging_dry_enough_moisture.value)
        found |= bit(Reservation::damp);
    if (flour.flour_class == FlourClass::wholemeal)
        found |= bit(Reservation::wholemeal_gets_worse);
    if (flour.flour_class == FlourClass::high_extraction)
        found |= bit(Reservation::high_extraction_assumed);
    return found;
}

} // namespace

Estimate::Estimate(const StoredFlour& flour, const Priors& priors)
    : zero_(zero_of(flour)), reservations_(reservations_of(flour)), maturing_(maturing_clock(flour, priors)),
      aging_(aging_clock(flour, priors)) {}

double Estimate::days_to(Day day) const { return static_cast<double>((day - zero_).count()); }

double Estimate::probability_of(Maturity at_least, Day day) const {
    return maturing_.probability_of(theta_for(at_least), days_to(day));
}

Maturity Estimate::maturity_at(double probability, Day day) const {
    return maturity(maturing_.reading_at(probability, days_to(day)));
}

Maturity Estimate::mean_maturity(Day day) const {
    return Maturity{maturing_.mean_of([](double theta) { return maturity(theta).value(); }, days_to(day))};
}

std::optional<Day> Estimate::first_day_of(Maturity at_least, double probability) const {
    if (const auto days = maturing_.first_day(theta_for(at_least), probability, studied_days()))
        return zero_ + Days{*days};
    return {};
}

double Estimate::probability_of_age(double at_least, Day day) const {
    return aging_.probability_of(at_least, days_to(day));
}

double Estimate::age_at(double probability, Day day) const {
    return aging_.reading_at(probability, days_to(day));
}

std::optional<Day> Estimate::first_day_of_age(double at_least, double probability) const {
    if (const auto days = aging_.first_day(at_least, probability, studied_days()))
        return zero_ + Days{*days};
    return {};
}

std::vector<Reservation> Estimate::reservations() const {
    std::vector<Reservation> found;
    for (auto r = Reservation::milling_date_unknown; r <= Reservation::strength_gain_not_promised;
         r = static_cast<Reservation>(static_cast<int>(r) + 1))
        if (reservations_ & bit(r))
            found.push_back(r);
    return found;
}

std::string in_words(Reservation reservation) {
    switch (reservation) {
    case Reservation::milling_date_unknown:
        return fmt::format("The milling date is not known: 0 to {:g} days before the delivery are assumed",
                           lit::aging_unknown_milling_most.value);
    case Reservation::place_before_delivery_assumed:
        return fmt::format("Before the delivery {:g} °C are assumed, and the air of the first place",
                           lit::aging_before_delivery_temperature.value);
    case Reservation::temperature_outside_studies:
        return fmt::format("Part of the storage lies outside the studied {:g} to {:g} °C",
                           lit::aging_studied_low.value, lit::aging_studied_high.value);
    case Reservation::temperature_clamped:
        return fmt::format("Below {:g} and above {:g} °C the rates are taken as at that limit",
                           lit::aging_clamp_low.value, lit::aging_clamp_high.value);
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
    }
    return {};
}

} // namespace mellowbin::aging
