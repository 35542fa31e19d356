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

/// Whether the reading and the one before it join, by the usual step there.
bool join(std::span<const ClimateReading> readings, std::size_t i) {
    const double step = days_of(readings[i].at) - days_of(readings[i - 1].at);
    if (step <= longest_joined({})) // most steps: however long the usual one is
        return true;
    const std::size_t from = i - std::min(i, readings_beside);
    const std::size_t until = std::min(readings.size(), i + readings_beside);
    return step <= longest_joined(readings.subspan(from, until - from));
}

} // namespace

Clock life_clock_of(FlourClass flour_class) {
    return flour_class == FlourClass::wholemeal ? Clock::wholemeal_life : Clock::life;
}

ClockFactors published_clock_factors() {
    const auto white = published_priors(FlourClass::white);
    return {white.maturing_factor(), white.life_q10, published_priors(FlourClass::wholemeal).life_q10};
}

double longest_joined(std::span<const ClimateReading> readings) {
    const double least = lit::aging_log_gap_hours.value * hour;
    if (readings.size() < 2)
        return least;
    return std::max(least, lit::aging_log_gap_steps.value * usual_step(readings));
}

ClimateCourse::ClimateCourse(const Place& place, std::vector<ClimateReading> readings,
                             const ClockFactors& factors)
    : ClimateCourse(place, {}, std::move(readings), factors) {}

ClimateCourse::ClimateCourse(const Place& place, std::span<const ClimateDay> days,
                             std::vector<ClimateReading> readings, const ClockFactors& factors)
    : air_(place.air), readings_(std::move(readings)) {
    std::optional<double> begin;
    if (!days.empty())
        begin = days_of(days.front().day);
    else if (!readings_.empty())
        begin = days_of(readings_.front().at);
    double first = begin.value_or(0);
    if (!place.climate.empty()) {
        const double step = days_of(place.climate.front().from);
        first = begin ? std::min(first, step) : step;
    }
    // The stretch before everything begins where the first thing is known.
    add_assumed(place, first - 1, begin.value_or(for_ever));
    add_days(days);
    if (begin)
        add_readings(place, days.empty() ? std::nullopt : std::optional(days_of(days.back().day) + 1));
    sum(days, factors);
}

/// A stretch, or the rest of one from a moment on.
void ClimateCourse::add(const Stretch& whole, double from, std::optional<RelativeHumidity> humidity) {
    stretches_.push_back({from, whole.until, whole.at(from), whole.at_end, whole.is_measured});
    humidity_.push_back(humidity);
    measured_.push_back(whole.is_measured ? 1 : 0);
    airs_.push_back(aging::steady_air(whole, humidity));
}

void ClimateCourse::add_days(std::span<const ClimateDay> days) {
    first_day_ = stretches_.size();
    for (const auto& day : days) {
        const double from = days_of(day.day);
        promised(!past_days_ || *past_days_ == day.day);
        past_days_ = day.day + Days{1};
        stretches_.push_back({from, from + 1, day.mean, day.mean, false});
        humidity_.push_back(day.humidity);
        measured_.push_back(day.measured);
        airs_.push_back(day.air);
        days_.push_back({day.low, day.mean, day.high});
        gaps_.insert(gaps_.end(), day.gaps.begin(), day.gaps.end());
        if (day.readings == 0)
            continue;
        if (!logged_in_days_)
            logged_in_days_ = {day.day, day.day, 0};
        logged_in_days_->last = day.day;
        logged_in_days_->readings += day.readings;
    }
}

/// What the readings say, from a moment on where one is given, and what is assumed between and after them.
void ClimateCourse::add_readings(const Place& place, std::optional<double> from) {
    if (readings_.empty()) {
        add_assumed(place, *from, for_ever);
        return;
    }
    const double begin = from.value_or(days_of(readings_.front().at));
    add_assumed(place, begin, days_of(readings_.front().at));
    for (std::size_t i = 1; i < readings_.size(); ++i) {
        const auto &a = readings_[i - 1], &b = readings_[i];
        const Stretch line{days_of(a.at), days_of(b.at), a.temperature, b.temperature, true};
        promised(line.until > line.from);
        if (line.until <= begin)
            continue;
        const double start = std::max(line.from, begin);
        if (join(readings_, i)) {
            const auto humidity = between(a, b);
            add(line, start, humidity ? humidity : place.humidity);
        } else {
            if (line.from >= begin) // else it stands with the day on which it began
                gaps_.push_back({line.from, line.until});
            add_assumed(place, start, line.until);
        }
    }
    add_assumed(place, std::max(begin, days_of(readings_.back().at)), for_ever);
}

void ClimateCourse::sum(std::span<const ClimateDay> days, const ClockFactors& factors) {
    double measured = 0;
    for (std::size_t i = 0; i < stretches_.size(); ++i) {
        measured_before_.push_back(measured);
        if (measured_[i] > 0)
            measured += measured_[i] * (stretches_[i].until - stretches_[i].from);
    }
    for (std::size_t i = 0; i < clock_kinds; ++i) {
        KnownRuns known{first_day_};
        for (const auto& day : days)
            known.runs.push_back(day.runs[i]);
        sums_[i] = ClockSums(stretches_, factors[i], known);
    }
    flour_ = FlourInAir(stretches_, airs_, air_);
    airs_ = {};
}

/// The place's own temperature, one stretch a step.
void ClimateCourse::add_assumed(const Place& place, double from, double until) {
    const auto add_step = [&](double start, double end, Celsius temperature) {
        if (end > start)
            add({start, end, temperature, temperature, false}, start, place.humidity);
    };
    Celsius holds = place.temperature;
    double start = from;
    for (const auto& step : place.climate) {
        const double at = days_of(step.from);
        if (at > from && at < until) {
            add_step(start, at, holds);
            start = at;
        }
        if (at < until)
            holds = step.temperature;
    }
    add_step(start, until, holds);
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

/// Lowest, mean and highest of a part of a stretch; of a day of which only sums are left, those of the day.
ClimateCourse::Summary ClimateCourse::extremes(std::size_t i, double from, double until) const {
    if (i >= first_day_ && i - first_day_ < days_.size())
        return days_[i - first_day_];
    const Celsius a = stretches_[i].at(from), b = stretches_[i].at(until);
    return {std::min(a, b), Celsius{(a.value() + b.value()) / 2}, std::max(a, b)};
}

ClimateCourse::Summary ClimateCourse::temperature(double from, double until) const {
    Celsius low = temperature_at(from), high = low;
    double sum = 0;
    const std::size_t first = stretch_at(from);
    for (std::size_t i = first; i < stretches_.size() && (i == first || stretches_[i].from < until); ++i) {
        const double start = i == first ? from : stretches_[i].from; // from may lie before the first
        const double end = std::min(stretches_[i].until, until);
        const auto seen = extremes(i, start, end);
        low = std::min(low, seen.low);
        high = std::max(high, seen.high);
        sum += (end - start) * seen.mean.value();
    }
    const Celsius mean = until > from ? Celsius{sum / (until - from)} : low;
    return {low, mean, high};
}

double ClimateCourse::measured_days(double from, double until) const {
    const auto measured_until = [&](double days) {
        const auto i = stretch_at(days);
        return measured_before_[i] + measured_[i] * (days - stretches_[i].from);
    };
    return measured_until(until) - measured_until(from);
}

std::optional<ClimateCourse::Logged> ClimateCourse::logged() const {
    auto logged = logged_in_days_;
    for (const auto& reading : readings_) {
        const Day day = date::floor<Days>(reading.at);
        if (past_days_ && day < *past_days_)
            continue; // counted with its day
        if (!logged)
            logged = {day, day, 0};
        logged->last = day;
        ++logged->readings;
    }
    return logged;
}

std::optional<RelativeHumidity> ClimateCourse::humidity_at(double days) const {
    return humidity_[stretch_at(days)];
}

std::optional<RelativeHumidity> ClimateCourse::humidity(double from, double until) const {
    double sum = 0;
    const std::size_t first = stretch_at(from);
    for (std::size_t i = first; i < stretches_.size() && (i == first || stretches_[i].from < until); ++i) {
        if (!humidity_[i])
            return {};
        const double start = i == first ? from : stretches_[i].from;
        sum += humidity_[i]->value() * (std::min(stretches_[i].until, until) - start);
    }
    return RelativeHumidity{sum / (until - from)};
}

std::optional<Moisture> ClimateCourse::moisture(Moisture start, double from, double until) const {
    return flour_.moisture(stretches_, start, {from, stretch_at(from)}, {until, stretch_at(until)});
}

Celsius ClimateCourse::flour_temperature(Celsius start, double from, double until) const {
    return flour_.temperature(stretches_, start, {from, stretch_at(from)}, {until, stretch_at(until)});
}

SteadyAir ClimateCourse::steady_air(double from, double until) const {
    return flour_.steady(stretches_, {from, stretch_at(from)}, {until, stretch_at(until)});
}

} // namespace mellowbin::aging
