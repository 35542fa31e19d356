#pragma once

#include "aging/clock_sums.h"
#include "aging/flour_in_air.h"
#include "core/climate.h"
#include "core/plant.h"

#include <array>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace mellowbin::aging {

class ClimateCourse;

/// Time between two readings that do not join.
struct Gap {
    double from, until; ///< days
    friend bool operator==(const Gap&, const Gap&) = default;
};

/// What the air of a place came to on a day (UTC), and what it did to flour there: all that an estimate needs
/// of the day once it is over. Runs and steady air are exact from midnight to midnight.
struct ClimateDay {
    Day day;
    std::array<ClockRun, clock_kinds> runs{}; ///< by Clock
    Celsius low, mean, high;
    double measured = 0;                      ///< of the day, 0 to 1
    std::optional<RelativeHumidity> humidity; ///< the mean; nothing where it was not known all day
    SteadyAir air;
    int readings = 0;
    std::vector<Gap> gaps; ///< that began on this day
    friend bool operator==(const ClimateDay&, const ClimateDay&) = default;
};

/// The day as it stands in a course made from readings.
ClimateDay sum_of(const ClimateCourse& course, Day day);
/// The same of consecutive days, `until` not included. The readings are those of the days, with
/// readings_beside more on either side where there are so many; in order of time, no instant twice.
std::vector<ClimateDay> sums_of(const Place& place, std::span<const ClimateReading> readings, Day from,
                                Day until);

/// By which figures this program sums a day: what a made-up day comes to, as a short text. Sums of another
/// form are not to be used beside its own.
std::string climate_day_form();

} // namespace mellowbin::aging
