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
    double q10;                        ///< of maturing
    std::array<double, air_kinds> air; ///< by Air
    double life20;                     ///< d
    double life_q10;
};
Rates medians_of(const Priors& priors);

/// The temperature at which the rates are read: 0 to 35 C, since nothing was measured outside (an
/// assumption).
Celsius clamped(Celsius temperature);

/// (T - 20 C)/10 K, T clamped: the power to which a Q10 is raised.
double steps_from_20(Celsius temperature);
/// How many times faster than at 20 C: q10^((T - 20)/10), T clamped.
double speed_at(Celsius temperature, double q10);

/// theta = sum of k20 x air factor x speed x days; pure number.
double theta(std::span<const Piece> pieces, const Rates& rates);
/// M = 1 - (1 - M0) exp(-theta): the fraction of the obtainable strengthening gone through. First order is
/// supported for the carotenoids; for dough it is the simplest curve with one rate, an assumption.
Maturity maturity(double theta, Maturity at_start = Maturity{0});
/// The theta that takes fresh flour to this maturity, below 1.
double theta_for(Maturity target);

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
