#pragma once

#include "aging/priors.h"
#include "core/plant.h"
#include "core/quantity.h"

#include <optional>
#include <span>

/// The two clocks of stored flour, for rates taken as known. Maturity goes up to 1 and stays; the age clock
/// runs on. They are kept apart on purpose: no one number can say both "strong enough" and "too old".
namespace mellowbin::aging {

/// So many days at one temperature and with one kind of air.
struct Piece {
    double days = 0;
    Celsius temperature{20};
    Air air = Air::breathable_bag;
};

/// Rates without their doubt.
struct Rates {
    double k20;                        ///< 1/d
    double q10;                        ///< of maturing, from 10 C upwards
    double cold_q10;                   ///< of maturing, below 10 C
    std::array<double, air_kinds> air; ///< by Air
    double life20;                     ///< d
    double life_q10;
};
Rates medians_of(const Priors& priors);

/// The temperature at which the rates are read: up to 35 C, since nothing was measured above (an assumption).
/// Downwards they go on falling: frozen flour is slower, not still (Borsuk et al. 2016).
Celsius clamped(Celsius temperature);
/// From here downwards maturing has a steepness of its own: 10 C, an assumption. It is joined here and not at
/// 20 C: between the two the factor of the warm side was measured and nothing found speaks against it, and at
/// 20 C, where all rates are read, every steepness says 1.
Celsius cold_from();

/// (T - 20 C)/10 K, T clamped: the power to which a Q10 is raised.
double steps_from_20(Celsius temperature);
/// How many times faster than at 20 C: q10^((T - 20)/10), T clamped.
double speed_at(Celsius temperature, double q10);
/// The same of maturing, with its own steepness in the cold.
double maturing_speed_at(Celsius temperature, const Rates& rates);

/// theta = sum of k20 x air factor x speed x days; pure number.
double theta(std::span<const Piece> pieces, const Rates& rates);
/// M = 1 - (1 - M0) exp(-theta): the fraction of the obtainable strengthening gone through. First order is
/// supported for the carotenoids; for dough it is the simplest curve with one rate, an assumption.
Maturity maturity(double theta, Maturity at_start = Maturity{0});
/// The theta that takes fresh flour to this maturity, below 1.
double theta_for(Maturity target);

/// The rate of maturing that the pooled best times give where a published best time is read as this maturity:
/// 0.9 by convention, nobody has measured it; then it is the published rate itself.
Lognormal rate_if_best_time_is(Maturity best_time, FlourClass flour_class);

/// How far the age clock has run: sum of days / life(T); 1 is past its best. `life_share` is what
/// moisture leaves of the life, see life_share_at().
double age(std::span<const Piece> pieces, const Rates& rates, double life_share = 1);
/// Days of life at this temperature of dry flour.
double life_at(Celsius temperature, const Rates& rates);
/// What moisture leaves of the life, 0 to 1: all up to 13.5 %; above, the life at 25 C is not longer than
/// Bothast et al. 1981 found: 180 days at 15 %, falling by exp(-0.83) a point. Not known: taken as dry
/// enough.
double life_share_at(std::optional<Moisture> moisture, const Rates& rates);

/// The rate at another temperature.
double arrhenius(double rate, Celsius at, Celsius to, double joules_per_mole);

/// Mass and maturity of one lot's share in a blend.
struct BlendShare {
    Kilograms mass;
    Maturity maturity;
};
/// The mean by mass: an assumption, no measurement of blends of young and old flour was found. No mass: 0.
Maturity blend_maturity(std::span<const BlendShare> shares);

} // namespace mellowbin::aging
