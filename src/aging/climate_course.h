#pragma once

#include "aging/clock_sums.h"
#include "aging/flour_in_air.h"
#include "core/climate.h"
#include "core/plant.h"

#include <array>
#include <memory>
#include <optional>
#include <span>
#include <vector>

namespace mellowbin::aging {

/// The clocks that a course keeps sums for.
enum class Clock { maturing, life, wholemeal_life };
inline constexpr std::size_t clock_kinds = static_cast<std::size_t>(Clock::wholemeal_life) + 1;
Clock life_clock_of(FlourClass flour_class);
using ClockFactors = std::array<Lognormal, clock_kinds>; ///< Q10 by Clock
ClockFactors published_clock_factors();

/// The longest step between two readings that still joins them, days: three times the log's usual step, at
/// least six hours. An assumption.
double longest_joined(std::span<const ClimateReading> readings);

struct Gap {
    double from, until; ///< days
};

/// What the air of one place did. Immutable; shared by all lots that lay there.
class ClimateCourse {
public:
    /// `readings` in order of time, no instant twice. Between readings the temperature goes in a straight
    /// line; before them, after them and in gaps the place's own assumed temperature holds, step by step.
    explicit ClimateCourse(const Place& place, std::vector<ClimateReading> readings = {},
                           const ClockFactors& factors = published_clock_factors());

    [[nodiscard]] Air air() const { return air_; }
    /// From one moment to a later one.
    [[nodiscard]] ClockRun run(Clock clock, double from, double until) const;
    /// From the course's own beginning, which may lie later: then it is negative.
    [[nodiscard]] ClockRun run_until(Clock clock, double days) const;
    [[nodiscard]] Lognormal q10(Clock clock) const { return sums_[static_cast<std::size_t>(clock)].q10(); }

    [[nodiscard]] Celsius temperature_at(double days) const;
    /// Lowest, mean and highest temperature between two moments, assumed ones included.
    struct Summary {
        Celsius low, mean, high;
    };
    [[nodiscard]] Summary temperature(double from, double until) const;
    [[nodiscard]] double measured_days(double from, double until) const;
    [[nodiscard]] const std::vector<ClimateReading>& readings() const { return readings_; }
    /// Between the first reading and the last.
    [[nodiscard]] const std::vector<Gap>& gaps() const { return gaps_; }

    /// Of the air: measured, or what the place's own says; nothing where nobody says.
    [[nodiscard]] std::optional<RelativeHumidity> humidity_at(double days) const;
    /// Moisture at `until` of flour that had `start` at `from`, drifting towards the air's equilibrium;
    /// nothing where the humidity is not known for some of that time.
    [[nodiscard]] std::optional<Moisture> moisture(Moisture start, double from, double until) const;
    /// Temperature at `until` of flour that had `start` at `from` and follows the air with a lag.
    [[nodiscard]] Celsius flour_temperature(Celsius start, double from, double until) const;

private:
    [[nodiscard]] std::size_t stretch_at(double days) const;
    void add_assumed(const Place& place, double from, double until);

    Air air_;
    std::vector<ClimateReading> readings_;
    std::vector<Gap> gaps_;
    std::vector<Stretch> stretches_;
    std::vector<std::optional<RelativeHumidity>> humidity_; ///< by stretch
    std::vector<double> measured_before_;                   ///< days, at the start of each stretch
    std::array<ClockSums, clock_kinds> sums_;
    FlourInAir flour_;
};

using ClimatePtr = std::shared_ptr<const ClimateCourse>;

} // namespace mellowbin::aging
