#include "aging/flour_in_air.h"

#include "core/literature/constants.h"

#include <cmath>

namespace mellowbin::aging {
namespace {

namespace lit = literature;

Celsius mean_of(const Stretch& stretch) {
    return Celsius{(stretch.at_start.value() + stretch.at_end.value()) / 2};
}

/// Air at 0 or 1 has no equilibrium in the isotherms; the edges of what a hygrometer can tell stand in.
RelativeHumidity within_the_isotherms(RelativeHumidity rh) {
    return RelativeHumidity{
        std::clamp(rh.value(), lit::aging_humidity_lowest.value, lit::aging_humidity_highest.value)};
}

} // namespace

SteadyAir steady_air(const Stretch& stretch, std::optional<RelativeHumidity> humidity) {
    SteadyAir air{mean_of(stretch), {}};
    if (humidity)
        air.equilibrium = equilibrium_moisture(within_the_isotherms(*humidity), air.temperature).moisture;
    return air;
}

double drift_days(Air air) {
    switch (air) {
    case Air::breathable_bag:
        return drift_time(DriftPace::bag_in_stack);
    case Air::moved_silo:
    case Air::sealed_liner:
    case Air::inert:
        return drift_time(DriftPace::sealed); // of a silo only the surface meets the air
    }
    return drift_time(DriftPace::bag_in_stack);
}

double warming_days() { return lit::aging_warming_time.value; }

double FlourInAir::Follower::at(std::span<const Stretch> stretches, Moment moment) const {
    const auto& stretch = stretches[moment.stretch];
    const double past = std::max(moment.days - stretch.from, 0.0);
    return target[moment.stretch] +
           (at_start[moment.stretch] - target[moment.stretch]) * std::exp(-past / time_constant);
}

double FlourInAir::Follower::from_start(std::span<const Stretch> stretches, double start, Moment from,
                                        Moment until) const {
    const double left = std::exp(-(until.days - from.days) / time_constant);
    return at(stretches, until) + (start - at(stretches, from)) * left;
}

FlourInAir::Follower FlourInAir::following(std::span<const Stretch> stretches, std::vector<double> target,
                                           double time_constant) {
    Follower follower{std::move(target), {}, time_constant};
    follower.at_start.reserve(stretches.size());
    double value = follower.target.front();
    for (std::size_t i = 0; i < stretches.size(); ++i) {
        follower.at_start.push_back(value);
        if (stretches[i].until != for_ever)
            value = follower.at(stretches, {stretches[i].until, i});
    }
    return follower;
}

/// What flour that came with nothing is drawn to by then, for that share of the way which the time allows.
double FlourInAir::Follower::steady_target(std::span<const Stretch> stretches, Moment from,
                                           Moment until) const {
    return from_start(stretches, 0, from, until) / -std::expm1(-(until.days - from.days) / time_constant);
}

FlourInAir::FlourInAir(std::span<const Stretch> stretches, std::span<const SteadyAir> airs, Air air) {
    std::vector<double> equilibrium, temperature;
    double dark = 0;
    double last_known = 0;
    for (std::size_t i = 0; i < stretches.size(); ++i) {
        temperature.push_back(airs[i].temperature.value());
        if (airs[i].equilibrium)
            last_known = airs[i].equilibrium->value();
        equilibrium.push_back(last_known);
        dark_before_.push_back(dark);
        is_dark_.push_back(!airs[i].equilibrium);
        if (!airs[i].equilibrium && stretches[i].until != for_ever)
            dark += stretches[i].until - stretches[i].from;
    }
    moisture_ = following(stretches, std::move(equilibrium), drift_days(air));
    warmth_ = following(stretches, std::move(temperature), warming_days());
}

/// Whether the humidity was not known for some of the time.
bool FlourInAir::is_dark(std::span<const Stretch> stretches, Moment from, Moment until) const {
    const auto dark_until = [&](Moment moment) {
        return dark_before_[moment.stretch] +
               (is_dark_[moment.stretch] ? moment.days - stretches[moment.stretch].from : 0);
    };
    return dark_until(until) > dark_until(from);
}

std::optional<Moisture> FlourInAir::moisture(std::span<const Stretch> stretches, Moisture start, Moment from,
                                             Moment until) const {
    if (until.days <= from.days)
        return start;
    if (is_dark(stretches, from, until))
        return {};
    return Moisture{moisture_.from_start(stretches, start.value(), from, until)};
}

Celsius FlourInAir::temperature(std::span<const Stretch> stretches, Celsius start, Moment from,
                                Moment until) const {
    if (until.days <= from.days)
        return start;
    return Celsius{warmth_.from_start(stretches, start.value(), from, until)};
}

SteadyAir FlourInAir::steady(std::span<const Stretch> stretches, Moment from, Moment until) const {
    SteadyAir air{Celsius{warmth_.steady_target(stretches, from, until)}, {}};
    if (!is_dark(stretches, from, until))
        air.equilibrium = Moisture{moisture_.steady_target(stretches, from, until)};
    return air;
}

} // namespace mellowbin::aging
