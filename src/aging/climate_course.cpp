#include "aging/climate_course.h"

#include "core/literature/constants.h"
#include "core/promised.h"

#include <algorithm>
#include <chrono>
#include <cmath>

namespace mellowbin::aging {
namespace {

namespace lit = literature;

/// An hour, in days.
constexpr double hour = std::chrono::duration<double, date::days::period>(std::chrono::hours{1}).count();

double usual_step(std::span<const ClimateReading> readings) {
    std::vector<double> steps;
    steps.reserve(readings.size());
    for (std::size_t i = 1; i < readings.size(); ++i)
        steps.push_back(days_of(readings[i].at) - days_of(readings[i - 1].at));
    const auto middle = steps.begin() + static_cast<std::ptrdiff_t>(steps.size() / 2);
    std::nth_element(steps.begin(), middle, steps.end());
    return *middle;
}

std::optional<RelativeHumidity> between(const ClimateReading& a, const ClimateReading& b) {
    if (a.humidity && b.humidity)
        return RelativeHumidity{(a.humidity->value() + b.humidity->value()) / 2};
    return a.humidity ? a.humidity : b.humidity;
}

} // namespace

Clock life_clock_of(FlourClass flour_class) {
    return flour_class == FlourClass::wholemeal ? Clock::wholemeal_life : Clock::life;
}

ClockFactors published_clock_factors() {
    const auto white = published_priors(FlourClass::white);
    return {white.q10, white.life_q10, published_priors(FlourClass::wholemeal).life_q10};
}

double longest_joined(std::span<const ClimateReading> readings) {
    const double least = lit::aging_log_gap_hours.value * hour;
    if (readings.size() < 2)
        return least;
    return std::max(least, lit::aging_log_gap_steps.value * usual_step(readings));
}

ClimateCourse::ClimateCourse(const Place& place, std::vector<ClimateReading> readings,
                             const ClockFactors& factors)
    : air_(place.air), readings_(std::move(readings)) {
    const double longest = longest_joined(readings_);
    const double begin = readings_.empty() ? 0 : days_of(readings_.front().at);
    double first = begin;
    if (!place.climate.empty())
        first = readings_.empty() ? days_of(place.climate.front().from)
                                  : std::min(first, days_of(place.climate.front().from));
    // The stretch before everything begins where the first thing is known.
    add_assumed(place, first - 1, readings_.empty() ? for_ever : begin);
    for (std::size_t i = 1; i < readings_.size(); ++i) {
        const auto &a = readings_[i - 1], &b = readings_[i];
        const double from = days_of(a.at), until = days_of(b.at);
        promised(until > from);
        if (until - from > longest) {
            gaps_.push_back({from, until});
            add_assumed(place, from, until);
        } else {
            stretches_.push_back({from, until, a.temperature, b.temperature, true});
            humidity_.push_back(between(a, b));
            if (!humidity_.back())
                humidity_.back() = place.humidity;
        }
    }
    if (!readings_.empty())
        add_assumed(place, days_of(readings_.back().at), for_ever);
    double measured = 0;
    for (const auto& stretch : stretches_) {
        measured_before_.push_back(measured);
        if (stretch.is_measured)
            measured += stretch.until - stretch.from;
    }
    for (std::size_t i = 0; i < clock_kinds; ++i)
        sums_[i] = ClockSums(stretches_, factors[i]);
    flour_ = FlourInAir(stretches_, humidity_, air_);
}

/// The place's own temperature, one stretch a step.
void ClimateCourse::add_assumed(const Place& place, double from, double until) {
    const auto add = [&](double start, double end, Celsius temperature) {
        if (end <= start)
            return;
        stretches_.push_back({start, end, temperature, temperature, false});
        humidity_.push_back(place.humidity);
    };
    Celsius holds = place.temperature;
    double start = from;
    for (const auto& step : place.climate) {
        const double at = days_of(step.from);
        if (at > from && at < until) {
            add(start, at, holds);
            start = at;
        }
        if (at < until)
            holds = step.temperature;
    }
    add(start, until, holds);
}

std::size_t ClimateCourse::stretch_at(double days) const {
    const auto next = std::upper_bound(stretches_.begin(), stretches_.end(), days,
                                       [](double d, const Stretch& stretch) { return d < stretch.from; });
    return next == stretches_.begin() ? 0 : static_cast<std::size_t>(next - stretches_.begin()) - 1;
}

ClockRun ClimateCourse::run_until(Clock clock, double days) const {
    return sums_[static_cast<std::size_t>(clock)].until(stretches_, stretch_at(days), days);
}

ClockRun ClimateCourse::run(Clock clock, double from, double until) const {
    return run_until(clock, until) - run_until(clock, from);
}

Celsius ClimateCourse::temperature_at(double days) const { return stretches_[stretch_at(days)].at(days); }

ClimateCourse::Summary ClimateCourse::temperature(double from, double until) const {
    Celsius low = temperature_at(from), high = low;
    double sum = 0;
    const std::size_t first = stretch_at(from);
    for (std::size_t i = first; i < stretches_.size() && (i == first || stretches_[i].from < until); ++i) {
        const auto& stretch = stretches_[i];
        const double start = std::max(stretch.from, from);
        const double end = std::min(stretch.until, until);
        const Celsius a = stretch.at(start), b = stretch.at(end);
        low = std::min({low, a, b});
        high = std::max({high, a, b});
        sum += (end - start) * (a.value() + b.value()) / 2;
    }
    const Celsius mean = until > from ? Celsius{sum / (until - from)} : low;
    return {low, mean, high};
}

double ClimateCourse::measured_days(double from, double until) const {
    const auto measured_until = [&](double days) {
        const auto i = stretch_at(days);
        return measured_before_[i] + (stretches_[i].is_measured ? days - stretches_[i].from : 0);
    };
    return measured_until(until) - measured_until(from);
}

std::optional<RelativeHumidity> ClimateCourse::humidity_at(double days) const {
    return humidity_[stretch_at(days)];
}

std::optional<Moisture> ClimateCourse::moisture(Moisture start, double from, double until) const {
    return flour_.moisture(stretches_, start, {from, stretch_at(from)}, {until, stretch_at(until)});
}

Celsius ClimateCourse::flour_temperature(Celsius start, double from, double until) const {
    return flour_.temperature(stretches_, start, {from, stretch_at(from)}, {until, stretch_at(until)});
}

} // namespace mellowbin::aging
