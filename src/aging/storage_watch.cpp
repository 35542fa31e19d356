#include "aging/storage_watch.h"

#include "core/decimal.h"
#include "core/literature/constants.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin::aging {
namespace {

namespace lit = literature;

double saturation_exponent(Celsius t) {
    return lit::aging_dew_point_a.value * t.value() / (lit::aging_dew_point_b.value + t.value());
}

/// The moments at which flour comes or goes, from one to another.
std::vector<double> turns_between(const StoragePath& path, double from, double until) {
    std::vector<double> turns{from, until};
    for (const auto& stay : path)
        for (const double at : {stay.from, stay.until})
            if (at > from && at < until)
                turns.push_back(at);
    std::sort(turns.begin(), turns.end());
    return turns;
}

/// Mean over the stays that hold flour between two turns; nothing where one of them has no answer.
template <class AnswerOf>
std::optional<double> mean_over_stays(const StoragePath& path, double from, double until,
                                      AnswerOf answer_of) {
    double sum = 0, shares = 0;
    for (const auto& stay : path) {
        if (stay.from > from || stay.until < until)
            continue;
        const std::optional<double> answer = answer_of(*stay.climate);
        if (!answer)
            return {};
        sum += stay.share * *answer;
        shares += stay.share;
    }
    if (shares <= 0)
        return {};
    return sum / shares;
}

double first_of(const StoragePath& path) {
    double first = for_ever;
    for (const auto& stay : path)
        first = std::min(first, stay.from);
    return first;
}

/// Of the flour that came with a stay: it arrived as warm as the lot was on the whole.
Celsius flour_temperature_in(const StoragePath& path, const Stay& stay, double days) {
    const Celsius arrived = stay.from <= first_of(path) ? stay.climate->temperature_at(stay.from)
                                                        : flour_temperature_on(path, stay.from);
    return stay.climate->flour_temperature(arrived, stay.from, days);
}

} // namespace

RelativeHumidity water_activity(Moisture moisture, Celsius temperature) {
    const double t = temperature.value();
    const double by_flour =
        (moisture.value() - lit::aging_isotherm_constant.value - lit::aging_isotherm_temperature.value * t) /
        lit::aging_isotherm_humidity.value;
    const bool is_within = by_flour >= lit::aging_isotherm_rh_low.value &&
                           by_flour <= lit::aging_isotherm_rh_high.value &&
                           t >= lit::aging_isotherm_t_low.value && t <= lit::aging_isotherm_t_high.value;
    if (is_within)
        return RelativeHumidity{by_flour};
    const double dry_basis = 100 * moisture.value() / (100 - moisture.value());
    return RelativeHumidity{
        -std::expm1(-lit::aging_henderson_hard_k.value * (t + lit::aging_henderson_hard_c.value) *
                    std::pow(dry_basis, lit::aging_henderson_hard_n.value))};
}

Celsius dew_point(Celsius air, RelativeHumidity humidity) {
    const double exponent = std::log(humidity.value()) + saturation_exponent(air);
    return Celsius{lit::aging_dew_point_b.value * exponent / (lit::aging_dew_point_a.value - exponent)};
}

std::optional<Moisture> moisture_on(const StoragePath& path, const KnownMoisture& known, double days) {
    const double from = std::max(known.at, first_of(path)); // before the delivery it kept what it had
    if (days < known.at)
        return {};
    if (days <= from)
        return known.moisture;
    const auto turns = turns_between(path, from, days);
    double moisture = known.moisture.value();
    for (std::size_t i = 1; i < turns.size(); ++i) {
        const auto next = mean_over_stays(
            path, turns[i - 1], turns[i], [&](const ClimateCourse& climate) -> std::optional<double> {
                const auto here = climate.moisture(Moisture{moisture}, turns[i - 1], turns[i]);
                return here ? std::optional(here->value()) : std::nullopt;
            });
        if (!next)
            return {};
        moisture = *next;
    }
    return Moisture{moisture};
}

Celsius flour_temperature_on(const StoragePath& path, double days) {
    const double from = std::min(first_of(path), days);
    const auto turns = turns_between(path, from, days);
    const auto air_at = [&](double at) {
        return mean_over_stays(path, at, at, [&](const ClimateCourse& climate) -> std::optional<double> {
            return climate.temperature_at(at).value();
        });
    };
    double temperature = air_at(first_of(path)).value_or(path.front().climate->temperature_at(days).value());
    for (std::size_t i = 1; i < turns.size(); ++i)
        temperature =
            mean_over_stays(
                path, turns[i - 1], turns[i],
                [&](const ClimateCourse& climate) -> std::optional<double> {
                    return climate.flour_temperature(Celsius{temperature}, turns[i - 1], turns[i]).value();
                })
                .value_or(temperature);
    return Celsius{temperature};
}

std::vector<StorageAlarm> moisture_alarms(Moisture moisture, Celsius flour_temperature, bool is_measured) {
    std::vector<StorageAlarm> alarms;
    const double activity = water_activity(moisture, flour_temperature).value();
    const std::string word = is_measured ? "measured" : "predicted";
    if (moisture.value() > lit::aging_moisture_stop.value)
        alarms.push_back(
            {true, fmt::format("Moisture {} % ({}): above {:g} % wheat flour is not to be kept",
                               fixed(moisture.value(), 1), word, lit::aging_moisture_stop.value)});
    else if (moisture.value() > lit::aging_moisture_mind.value)
        alarms.push_back(
            {false, fmt::format("Moisture {} % ({}): keep below {:g} %", fixed(moisture.value(), 1), word,
                                lit::aging_moisture_mind.value)});
    if (activity > lit::aging_water_activity_stop.value)
        alarms.push_back(
            {true, fmt::format("Water activity about {} ({}): storage moulds begin above {}",
                               fixed(activity, 2), word, fixed(lit::aging_water_activity_stop.value, 2))});
    else if (activity > lit::aging_water_activity_mind.value)
        alarms.push_back(
            {false, fmt::format("Water activity about {} ({}): for long storage at most {}. Measure it",
                                fixed(activity, 2), word, fixed(lit::aging_water_activity_mind.value, 2))});
    return alarms;
}

std::optional<StorageAlarm> condensation_alarm(const StoragePath& path, double days) {
    std::optional<StorageAlarm> worst;
    double least = lit::aging_dew_margin.value;
    const double step = lit::aging_dew_step.value;
    for (double at = std::max(days - lit::aging_dew_days.value, first_of(path)); at <= days; at += step) {
        for (const auto& stay : path) {
            if (stay.from > at || stay.until <= at)
                continue;
            const auto humidity = stay.climate->humidity_at(at);
            if (!humidity || humidity->value() <= 0)
                continue;
            const Celsius dew = dew_point(stay.climate->temperature_at(at), *humidity);
            const Celsius flour = flour_temperature_in(path, stay, at);
            const double margin = (flour - dew).value();
            if (margin >= least)
                continue;
            least = margin;
            const Day day{Days{static_cast<int>(std::floor(at))}};
            worst = StorageAlarm{
                margin <= 0,
                fmt::format("{} on {}: dew point {} °C, flour about {} °C",
                            margin <= 0 ? "The air wetted the flour" : "The air nearly wetted the flour",
                            short_day(day), fixed(dew.value(), 1), fixed(flour.value(), 1))};
        }
    }
    return worst;
}

} // namespace mellowbin::aging
