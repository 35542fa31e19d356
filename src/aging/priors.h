#pragma once

#include "core/plant.h"

#include <array>
#include <optional>

namespace mellowbin::aging {

/// A positive quantity with its doubt: half of it lies below the median, 95 % within median x or / gsd^1.96.
struct Lognormal {
    double median = 1;
    double gsd = 1; ///< geometric standard deviation; 1: no doubt
    friend bool operator==(const Lognormal&, const Lognormal&) = default;
};

/// How the temperature speeds a clock up: exp of a straight line in it, at 20 C 1; where the clock has a
/// steepness of its own in the cold, that one from the join (10 C) downwards, without a step there. It goes
/// on falling in the frost, without a floor.
struct TemperatureFactor {
    Lognormal q10;                 ///< per 10 K; where there is a cold one, from the join upwards
    std::optional<Lognormal> cold; ///< per 10 K below the join; none: q10 all the way

    TemperatureFactor() = default;
    TemperatureFactor(Lognormal everywhere) : q10(everywhere) {}
    TemperatureFactor(Lognormal from_the_join, Lognormal below) : q10(from_the_join), cold(below) {}
    friend bool operator==(const TemperatureFactor&, const TemperatureFactor&) = default;
};

inline constexpr std::size_t air_kinds = static_cast<std::size_t>(Air::inert) + 1;

/// What is believed of a class of flour before this plant has measured any of it.
struct Priors {
    Lognormal k20;                        ///< rate of maturing, 1/d, 20 C, breathable bags
    Lognormal q10;                        ///< factor on that rate per 10 K, from 10 C upwards
    Lognormal cold_q10;                   ///< the same below 10 C: wider, an assumption
    std::array<Lognormal, air_kinds> air; ///< factor on that rate, by Air
    Lognormal life20;                     ///< days at 20 C, dry, until past its best
    Lognormal life_q10;                   ///< shortening of that life per 10 K

    [[nodiscard]] TemperatureFactor maturing_factor() const { return {q10, cold_q10}; }
    [[nodiscard]] const Lognormal& air_factor(Air a) const { return air[static_cast<std::size_t>(a)]; }
    friend bool operator==(const Priors&, const Priors&) = default;
};

/// From the literature table; which of its figures are assumptions stands there.
Priors published_priors(FlourClass flour_class);

/// The four cut points between the states of a lot, and how they are read.
struct CutPoints {
    double usable_maturity;
    double mature_maturity;
    double use_first_age;
    double past_best_age;
    friend bool operator==(const CutPoints&, const CutPoints&) = default;
};
/// All four are assumptions.
CutPoints published_cut_points();

} // namespace mellowbin::aging
