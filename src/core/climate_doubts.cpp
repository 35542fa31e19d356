#include "core/climate_doubts.h"

#include "core/decimal.h"
#include "core/literature/constants.h"
#include "core/typed_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <deque>
#include <optional>
#include <vector>

namespace mellowbin {
namespace {

using Readings = std::span<const ClimateReading>;
using std::chrono::seconds;

constexpr double seconds_an_hour = 3600;
constexpr double seconds_a_day = 24 * seconds_an_hour;

double value_of(const ClimateReading& reading) { return reading.temperature.value(); }

double seconds_between(const ClimateReading& from, const ClimateReading& to) {
    return static_cast<double>((to.at - from.at).count());
}

/// How long a reading stands: until the next, a day at most.
double stands_for(Readings readings, std::size_t at) {
    if (at + 1 < readings.size())
        return std::min(seconds_between(readings[at], readings[at + 1]), seconds_a_day);
    return at > 0 ? stands_for(readings, at - 1) : 1;
}

double middle_of(Readings readings) {
    std::vector<double> values;
    values.reserve(readings.size());
    for (const auto& reading : readings)
        values.push_back(value_of(reading));
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

/// What is said of the place, from its first day on.
class Said {
public:
    explicit Said(const Place& place) : place_(place) {}
    /// Instants in rising order.
    double at(Instant at) {
        while (next_ < place_.climate.size() && Instant{place_.climate[next_].from} <= at)
            ++next_;
        return (next_ == 0 ? place_.temperature : place_.climate[next_ - 1].temperature).value();
    }

private:
    const Place& place_;
    std::size_t next_ = 0;
};

/// The same figure of the file, read in the unit that its head does not name.
double in_the_other_unit(double celsius, TemperatureUnit read_as) {
    return read_as == TemperatureUnit::celsius ? (celsius - 32) * 5 / 9 : celsius * 9 / 5 + 32;
}

std::string_view name_of_other(TemperatureUnit unit) {
    return unit == TemperatureUnit::celsius ? "°F" : "°C";
}

/// Shares of the file's time.
struct FarAway {
    double as_read = 0;
    double in_the_other_unit = 0;
};

FarAway far_away(Readings readings, const Place& place, TemperatureUnit unit) {
    const double most = literature::logger_far.value;
    Said said(place);
    FarAway far;
    double all = 0;
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const double time = stands_for(readings, i), expected = said.at(readings[i].at);
        all += time;
        if (std::abs(value_of(readings[i]) - expected) > most)
            far.as_read += time;
        if (std::abs(in_the_other_unit(value_of(readings[i]), unit) - expected) > most)
            far.in_the_other_unit += time;
    }
    return {far.as_read / all, far.in_the_other_unit / all};
}

void doubt_place(Readings readings, const Place& place, const TemperatureAsRead& as_read, Refusals& doubts) {
    constexpr double most_of_it = 0.5;
    const auto far = far_away(readings, place, as_read.unit);
    if (far.as_read <= most_of_it)
        return;
    const double middle = middle_of(readings);
    std::string what = fmt::format(
        "over {:g} K from what is said of {}, {} °C, for {:.0f} % of the file's time; its middle reading is "
        "{} °C",
        literature::logger_far.value, place.name, fixed(Said(place).at(readings.back().at), 1),
        100 * far.as_read, fixed(middle, 1));
    std::string remedy = "See that the file is of this place, or say why it counts";
    if (far.in_the_other_unit <= most_of_it) {
        const auto other = name_of_other(as_read.unit);
        what += fmt::format(". Read in {} it would be {} °C: the head \"{}\" seems to name the wrong unit",
                            other, fixed(in_the_other_unit(middle, as_read.unit), 1), excerpt(as_read.head));
        remedy = fmt::format("Write {} into the head of that column and read the file again, or say why it "
                             "counts as it is",
                             other);
    }
    doubts.push_back({"Temperature", std::move(what), std::move(remedy)});
}

/// Readings that follow each other: from the first to the last of them.
struct Stretch {
    std::size_t first = 0, last = 0;
};

void doubt_sensor(Readings readings, Refusals& doubts) {
    Stretch longest, run;
    for (std::size_t i = 1; i < readings.size(); ++i) {
        const bool goes_on = readings[i].temperature == readings[i - 1].temperature &&
                             seconds_between(readings[i - 1], readings[i]) <= seconds_a_day;
        run = {goes_on ? run.first : i, i};
        if (seconds_between(readings[run.first], readings[run.last]) >
            seconds_between(readings[longest.first], readings[longest.last]))
            longest = run;
    }
    const auto &from = readings[longest.first], &to = readings[longest.last];
    if (seconds_between(from, to) < literature::logger_still.value * seconds_a_day)
        return;
    doubts.push_back(
        {"Sensor",
         fmt::format("does not move: {} °C in each of {} readings from {} to {}", fixed(value_of(from), 2),
                     longest.last - longest.first + 1, iso(from.at), iso(to.at)),
         "Look whether the logger is well and lies free, or say why it counts"});
}

/// The coldest and the warmest reading of the last hour, while it moves over the readings.
class LastHour {
public:
    explicit LastHour(Readings readings) : readings_(readings) {}
    void take(std::size_t at) {
        forget_before(at);
        while (!rising_.empty() && value_of(readings_[rising_.back()]) >= value_of(readings_[at]))
            rising_.pop_back();
        while (!falling_.empty() && value_of(readings_[falling_.back()]) <= value_of(readings_[at]))
            falling_.pop_back();
        rising_.push_back(at);
        falling_.push_back(at);
    }
    [[nodiscard]] std::size_t coldest() const { return rising_.front(); }
    [[nodiscard]] std::size_t warmest() const { return falling_.front(); }

private:
    void forget_before(std::size_t at) {
        const double hour = literature::logger_step_time.value * seconds_an_hour;
        for (auto* queue : {&rising_, &falling_})
            while (!queue->empty() && seconds_between(readings_[queue->front()], readings_[at]) > hour)
                queue->pop_front();
    }

    Readings readings_;
    std::deque<std::size_t> rising_, falling_;
};

/// Up to an instant, over the day before it, and from one on, over the day after it.
Readings day_before(Readings readings, std::size_t at) {
    const auto is_earlier = [](const ClimateReading& one, Instant from) { return one.at < from; };
    const auto begin =
        std::lower_bound(readings.begin(), readings.end(),
                         readings[at].at - seconds(static_cast<long>(seconds_a_day)), is_earlier);
    return readings.subspan(static_cast<std::size_t>(begin - readings.begin()),
                            at + 1 - static_cast<std::size_t>(begin - readings.begin()));
}
Readings day_after(Readings readings, std::size_t at) {
    const auto is_later = [](Instant until, const ClimateReading& one) { return until < one.at; };
    const auto end = std::upper_bound(readings.begin(), readings.end(),
                                      readings[at].at + seconds(static_cast<long>(seconds_a_day)), is_later);
    return readings.subspan(at, static_cast<std::size_t>(end - readings.begin()) - at);
}

/// Whether the place is another one after the step: a door that stood open comes back within the day.
bool stays(Readings readings, const Stretch& step) {
    const auto after = day_after(readings, step.last);
    const double hour = literature::logger_step_time.value * seconds_an_hour;
    if (seconds_between(after.front(), after.back()) < hour)
        return false;
    const double height = value_of(readings[step.last]) - value_of(readings[step.first]);
    const double moved = middle_of(after) - middle_of(day_before(readings, step.first));
    return moved * height > 0 && std::abs(moved) >= std::abs(height) / 2;
}

void doubt_step(Readings readings, Refusals& doubts) {
    const double most = literature::logger_step.value;
    LastHour hour(readings);
    std::size_t looked_at = 0; // what is of the same hour is of the same step
    for (std::size_t i = 0; i < readings.size(); ++i) {
        hour.take(i);
        const bool rises = value_of(readings[i]) - value_of(readings[hour.coldest()]) > most;
        const bool falls = value_of(readings[hour.warmest()]) - value_of(readings[i]) > most;
        if ((!rises && !falls) ||
            (looked_at > 0 && seconds_between(readings[looked_at], readings[i]) < seconds_an_hour))
            continue;
        const Stretch step{rises ? hour.coldest() : hour.warmest(), i};
        looked_at = i;
        if (!stays(readings, step))
            continue;
        const auto &from = readings[step.first], &to = readings[step.last];
        doubts.push_back(
            {"Step",
             fmt::format("from {} to {} °C between {} and {}, and it does not come back",
                         fixed(value_of(from), 1), fixed(value_of(to), 1), iso(from.at), iso(to.at)),
             "See whether the logger was moved then, or say why it counts"});
        return;
    }
}

} // namespace

Refusals what_stands_against(Readings readings, const Place& place, const TemperatureAsRead& as_read) {
    Refusals doubts;
    if (readings.empty())
        return doubts;
    doubt_place(readings, place, as_read, doubts);
    doubt_sensor(readings, doubts);
    doubt_step(readings, doubts);
    return doubts;
}

} // namespace mellowbin
