#include "aging/clocks.h"

#include "core/literature/constants.h"
#include "core/promised.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::aging {
namespace {

namespace lit = literature;

constexpr Celsius reference{20}; // the rates' own temperature
constexpr double step = 10;      // K; what the 10 of a Q10 says

double kelvin(Celsius t) { return t.value() + lit::aging_kelvin_offset.value; }

} // namespace

Rates medians_of(const Priors& priors) {
    Rates rates{priors.k20.median,    priors.q10.median,     priors.cold_q10.median, {},
                priors.life20.median, priors.life_q10.median};
    for (std::size_t i = 0; i < rates.air.size(); ++i)
        rates.air[i] = priors.air[i].median;
    return rates;
}

Celsius clamped(Celsius temperature) { return std::min(temperature, Celsius{lit::aging_clamp_high.value}); }

Celsius cold_from() { return Celsius{lit::aging_cold_from.value}; }

double steps_from_20(Celsius temperature) { return (clamped(temperature) - reference).value() / step; }

double speed_at(Celsius temperature, double q10) { return std::pow(q10, steps_from_20(temperature)); }

double maturing_speed_at(Celsius temperature, const Rates& rates) {
    const Celsius warm = std::max(temperature, cold_from());
    return speed_at(warm, rates.q10) * std::pow(rates.cold_q10, (temperature - warm).value() / step);
}

double theta(std::span<const Piece> pieces, const Rates& rates) {
    double sum = 0;
    for (const auto& piece : pieces)
        sum += rates.k20 * rates.air[static_cast<std::size_t>(piece.air)] *
               maturing_speed_at(piece.temperature, rates) * piece.days;
    return sum;
}

Maturity maturity(double theta, Maturity at_start) {
    return Maturity{1 - (1 - at_start.value()) * std::exp(-theta)};
}

double theta_for(Maturity target) {
    promised(target.value() < 1);
    return -std::log1p(-target.value());
}

Lognormal rate_if_best_time_is(Maturity best_time, FlourClass flour_class) {
    auto rate = published_priors(flour_class).k20;
    rate.median *= theta_for(best_time) / theta_for(Maturity{lit::aging_mature_from.value});
    return rate;
}

double life_at(Celsius temperature, const Rates& rates) {
    return rates.life20 / speed_at(temperature, rates.life_q10);
}

double age(std::span<const Piece> pieces, const Rates& rates, double life_share) {
    double sum = 0;
    for (const auto& piece : pieces)
        sum += piece.days / (life_at(piece.temperature, rates) * life_share);
    return sum;
}

double life_share_at(std::optional<Moisture> moisture, const Rates& rates) {
    if (!moisture || moisture->value() <= lit::aging_dry_enough_moisture.value)
        return 1;
    const double points = moisture->value() - lit::aging_damp_reference_moisture.value;
    const double most =
        lit::aging_damp_reference_life.value * std::exp(-lit::aging_damp_steepness.value * points);
    return std::min(1.0, most / life_at(Celsius{lit::aging_damp_reference_temperature.value}, rates));
}

double arrhenius(double rate, Celsius at, Celsius to, double joules_per_mole) {
    return rate *
           std::exp(joules_per_mole / lit::aging_gas_constant.value * (1 / kelvin(at) - 1 / kelvin(to)));
}

Maturity blend_maturity(std::span<const BlendShare> shares) {
    double mass = 0;
    double sum = 0;
    for (const auto& share : shares) {
        mass += share.mass.value();
        sum += share.mass.value() * share.maturity.value();
    }
    return Maturity{mass > 0 ? sum / mass : 0};
}

} // namespace mellowbin::aging
