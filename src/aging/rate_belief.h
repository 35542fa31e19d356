#pragma once

#include "aging/evidence.h"
#include "aging/scenarios.h"

#include <array>
#include <vector>

/// What results say about the rate of maturing, by Bayes' rule: evaluated on a grid, nothing drawn at random,
/// so that the same results give the same answer everywhere.
namespace mellowbin::aging {

/// Of ln rate, in standard deviations of the prior around its median: from -4 to 4.
inline constexpr std::size_t rate_points = 49;
double rate_point(std::size_t i);

/// The belief about u = ln rate in one scenario once results are known.
struct RateTable {
    std::array<float, rate_points> density{}; ///< per standard deviation of the prior; the integral is 1
    std::array<float, rate_points> at_most{}; ///< the probability to lie at or below

    /// At a place x between the points, by the cubic that has the density as its slope.
    [[nodiscard]] double probability_at_most(double x) const;
};

struct RateBelief {
    std::vector<double> weights;   ///< of the scenarios, adding up to 1
    std::vector<RateTable> tables; ///< by scenario; empty with no evidence: normal as before
};

/// Updates on all series that follow the dough at once. `median_log_rate` is the prior's ln median. A series
/// of one says nothing.
RateBelief believe(const Scenarios& scenarios, double median_log_rate, const Evidence& evidence);

/// A normal belief about something seen through the whole model.
struct MeanAndSpread {
    double mean = 0;
    double sd = 0;
};
/// What the model says of a property: its amplitude, and ln of its value (or its value, for a change in
/// points) on moments of the lot's own path. A property with a rate of its own is seen through that, its own
/// results telling it; a drift through the dough's rate as the others tell it.
struct PropertyBelief {
    MeanAndSpread amplitude;
    std::vector<MeanAndSpread> levels; ///< by moment; the property itself, without the error of a test
};
/// `series` must be one of the evidence and hold at least one observation; `moments` in days.
PropertyBelief property_belief(const Scenarios& scenarios, double median_log_rate, const RateBelief& belief,
                               const Series& series, std::span<const double> moments);
/// The level at a moment in a sample's own flour (its value does not matter), as in PropertyBelief.
MeanAndSpread expected_level(const Scenarios& scenarios, double median_log_rate, const RateBelief& belief,
                             const Series& series, const Observation& sample);

} // namespace mellowbin::aging
