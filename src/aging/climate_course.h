#pragma once

#include "aging/climate_day.h"
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

Clock life_clock_of(FlourClass flour_class);
ClockFactors published_clock_factors();

/// The longest step between two readings that still joins them, days: three times the usual step of these
/// readings, at least six hours. An assumption. A course asks it of the readings beside a step.
double longest_joined(std::span<const ClimateReading> readings);

/// What the air of one place did. Immutable; shared by all lots that lay there.
class ClimateCourse {
public:
    /// `readings` in order of time, no instant twice. Between readings the temperature goes in a straight
    /// line; before them, after them and in gaps the place's own assumed temperature holds, step by step.
    explicit ClimateCourse(const Place& place, std::vector<ClimateReading> readings = {},
                           const ClockFactors& factors = published_clock_factors());
    /// The same where only the sums are left of the days before a midnight. `days` are consecutive, made with
    /// these factors, and end at that midnight; from there on `readings` say, and of those before it only
    /// what joins them to the rest. Within a day its mean stands for the temperature.
    ClimateCourse(const Place& place, std::span<const ClimateDay> days, std::vector<ClimateReading> readings,
                  const ClockFactors& factors = published_clock_factors());

    [[nodiscard]] Air air() const { return air_; }
    /// From one moment to a later one.
    [[nodiscard]] ClockRun run(Clock clock, double from, double until) const;
    /// From the course's own beginning, which may lie later: then it is negative.
    [[nodiscard]] ClockRun run_until(Clock clock, double days) const;
    [[nodiscard]] const TemperatureFactor& factor(Clock clock) const {
        return sums_[static_cast<std::size_t>(clock)].factor();
    }

    [[nodiscard]] Celsius temperature_at(double days) const;
    /// Lowest, mean and highest temperature between two moments, assumed ones included.
    struct Summary {
        Celsius low, mean, high;
    };
    [[nodiscard]] Summary temperature(double from, double until) const;
    [[nodiscard]] double measured_days(double from, double until) const;
    /// Those that the course was made with; not of the days of which only sums are left.
    [[nodiscard]] const std::vector<ClimateReading>& readings() const { return readings_; }
    /// All readings that stand behind the course, by the days of the first and the last; nothing without any.
    struct Logged {
        Day first, last;
        int readings = 0;
    };
    [[nodiscard]] std::optional<Logged> logged() const;
    /// Between the first reading and the last.
    [[nodiscard]] const std::vector<Gap>& gaps() const { return gaps_; }

    /// Of the air: measured, or what the place's own says; nothing where nobody says.
    [[nodiscard]] std::optional<RelativeHumidity> humidity_at(double days) const;
    /// The mean between two moments; nothing where it was not known for some of that time.
    [[nodiscard]] std::optional<RelativeHumidity> humidity(double from, double until) const;
    /// Moisture at `until` of flour that had `start` at `from`, drifting towards the air's equilibrium;
    /// nothing where the humidity is not known for some of that time.
    [[nodiscard]] std::optional<Moisture> moisture(Moisture start, double from, double until) const;
    /// Temperature at `until` of flour that had `start` at `from` and follows the air with a lag.
    [[nodiscard]] Celsius flour_temperature(Celsius start, double from, double until) const;
    /// What steady air would have done to flour between two moments, `until` later than `from`.
    [[nodiscard]] SteadyAir steady_air(double from, double until) const;

private:
    [[nodiscard]] std::size_t stretch_at(double days) const;
    [[nodiscard]] Summary extremes(std::size_t stretch, double from, double until) const;
    void add(const Stretch& whole, double from, std::optional<RelativeHumidity> humidity);
    void add_days(std::span<const ClimateDay> days);
    void add_assumed(const Place& place, double from, double until);
    void add_readings(const Place& place, std::optional<double> from);
    void sum(std::span<const ClimateDay> days, const ClockFactors& factors);

    Air air_;
    std::vector<ClimateReading> readings_;
    std::optional<Logged> logged_in_days_;
    std::optional<Day> past_days_; ///< the first day of which more is known than its sums
    std::size_t first_day_ = 0;    ///< the stretch of the first of the days below
    std::vector<Summary> days_;    ///< of which only sums are left
    std::vector<Gap> gaps_;
    std::vector<Stretch> stretches_;
    std::vector<std::optional<RelativeHumidity>> humidity_; ///< by stretch
    std::vector<double> measured_;                          ///< share of each stretch
    std::vector<double> measured_before_;                   ///< days, at the start of each stretch
    std::vector<SteadyAir> airs_;                           ///< by stretch, until they are summed
    std::array<ClockSums, clock_kinds> sums_;
    FlourInAir flour_;
};

using ClimatePtr = std::shared_ptr<const ClimateCourse>;

} // namespace mellowbin::aging
