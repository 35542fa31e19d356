#pragma once

#include "aging/rate_belief.h"
#include "aging/scenarios.h"

#include <functional>
#include <optional>

namespace mellowbin::aging {

/// A clock whose rate and course are known with doubt; it reads theta or age. Moments are days from 1970.
/// Immutable.
class UncertainClock {
public:
    UncertainClock(Lognormal rate, const ClockPath& path, const Evidence& evidence = {});

    /// That the clock has reached a level (above 0) at a moment.
    [[nodiscard]] double probability_of(double level, double days) const;
    /// The reading that the clock is at or below with this probability (above 0, below 1).
    [[nodiscard]] double reading_at(double probability, double days) const;
    /// Mean of a function of the reading.
    [[nodiscard]] double mean_of(const std::function<double(double)>& f, double days) const;
    /// The first whole number of days after `from` at which the level is reached with the probability; none
    /// up to `latest` days.
    [[nodiscard]] std::optional<int> first_day(double level, double probability, double from,
                                               int latest) const;

    /// The belief about ln rate: of the flour in its one kind of air, where it lay in one kind only.
    [[nodiscard]] MeanAndSpread log_rate() const;
    /// What the clock's evidence says of one of its series; see property_belief().
    [[nodiscard]] PropertyBelief property(const Series& series, std::span<const double> moments) const;
    /// What it says of that property in a sample; see expected_level().
    [[nodiscard]] MeanAndSpread expected(const Series& series, const Observation& sample) const;
    /// Of the flour that was observed, at that moment.
    [[nodiscard]] RunSlope run_slope(const Observation& observation) const {
        return scenarios_.run_slope(observation.path ? &*observation.path : nullptr, observation.at);
    }

private:
    [[nodiscard]] double probability_above(std::size_t scenario, double log_rate) const;
    [[nodiscard]] double probability_of_log(double log_level, const std::vector<double>& log_runs) const;

    double median_;
    Scenarios scenarios_;
    RateBelief belief_;
    MeanAndSpread log_rate_;
};

} // namespace mellowbin::aging
