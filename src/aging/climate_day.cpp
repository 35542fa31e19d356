#include "aging/climate_day.h"

#include "aging/climate_course.h"
#include "core/fingerprint.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>

namespace mellowbin::aging {
namespace {

/// Two days of readings, an hour apart, over all that a logger may say: from -10 to 45 C, from dry to wet.
std::vector<ClimateReading> made_up_readings() {
    constexpr int hours = 48;
    constexpr double coldest = -10, warmest = 45;
    std::vector<ClimateReading> readings;
    for (int hour = 0; hour <= hours; ++hour) {
        const double way = static_cast<double>(hour) / hours;
        readings.push_back({Instant{} + std::chrono::hours{hour}, Celsius{std::lerp(coldest, warmest, way)},
                            RelativeHumidity{way}});
    }
    return readings;
}

/// Nine figures: what another compiler makes of the last ones is no other form.
std::string in_figures(const ClimateDay& day) {
    std::string words = fmt::format("{:.9g} {:.9g}", day.air.temperature.value(),
                                    day.air.equilibrium ? day.air.equilibrium->value() : 0);
    for (const auto& run : day.runs)
        for (const auto& nodes : {run.all, run.cold})
            for (const double node : nodes)
                words += fmt::format(" {:.9g}", node);
    return words;
}

} // namespace

ClimateDay sum_of(const ClimateCourse& course, Day day) {
    const double from = days_of(day), until = from + 1;
    ClimateDay sum;
    sum.day = day;
    for (std::size_t i = 0; i < clock_kinds; ++i)
        sum.runs[i] = course.run(static_cast<Clock>(i), from, until);
    const auto seen = course.temperature(from, until);
    sum.low = seen.low;
    sum.mean = seen.mean;
    sum.high = seen.high;
    sum.measured = course.measured_days(from, until);
    sum.humidity = course.humidity(from, until);
    sum.air = course.steady_air(from, until);
    const auto& readings = course.readings();
    sum.readings = static_cast<int>(std::count_if(readings.begin(), readings.end(), [&](const auto& one) {
        return one.at >= Instant{day} && one.at < Instant{day + Days{1}};
    }));
    std::copy_if(course.gaps().begin(), course.gaps().end(), std::back_inserter(sum.gaps),
                 [&](const Gap& gap) { return gap.from >= from && gap.from < until; });
    return sum;
}

std::vector<ClimateDay> sums_of(const Place& place, std::span<const ClimateReading> readings, Day from,
                                Day until) {
    const ClimateCourse course(place, std::vector<ClimateReading>(readings.begin(), readings.end()));
    std::vector<ClimateDay> sums;
    for (Day day = from; day < until; day += Days{1})
        sums.push_back(sum_of(course, day));
    return sums;
}

std::string climate_day_form() {
    std::string words;
    for (const Air air : {Air::breathable_bag, Air::moved_silo, Air::sealed_liner, Air::inert}) {
        Place place;
        place.air = air;
        const ClimateCourse course(place, made_up_readings());
        for (Day day{}; day < Day{} + Days{2}; day += Days{1})
            words += in_figures(sum_of(course, day)) + '\n';
    }
    return fmt::format("2-{:016x}", fingerprint(words));
}

} // namespace mellowbin::aging
