#include "aging/clock_sums.h"

#include "aging/clocks.h"
#include "core/normal.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::aging {
namespace {

/// (exp(x) - 1)/x, 1 at 0.
double mean_growth(double x) { return x == 0 ? 1 : std::expm1(x) / x; }

/// The same integral where nothing is clamped.
double unclamped_days_at_20(double days, double steps_a, double steps_b, double log_q10) {
    return days * std::exp(log_q10 * steps_a) * mean_growth(log_q10 * (steps_b - steps_a));
}

/// The share of the way from a to b at which the line crosses a temperature, 0 to 1.
double crossing(Celsius a, Celsius b, Celsius level) { return std::clamp((level - a) / (b - a), 0.0, 1.0); }

bool is_within_the_clamp(Celsius t) { return clamped(t) == t; }

} // namespace

Celsius Stretch::at(double days) const {
    if (until == for_ever || at_start == at_end)
        return at_start;
    const double share = std::clamp((days - from) / (until - from), 0.0, 1.0);
    return Celsius{std::lerp(at_start.value(), at_end.value(), share)};
}

double days_at_20(double days, Celsius a, Celsius b, double log_q10) {
    if (is_within_the_clamp(a) && is_within_the_clamp(b))
        return unclamped_days_at_20(days, steps_from_20(a), steps_from_20(b), log_q10);
    if (a == b || clamped(a) == clamped(b))
        return unclamped_days_at_20(days, steps_from_20(a), steps_from_20(a), log_q10);
    // In order along the line: clamped at a's end, free, clamped at b's end; one of the two has no length.
    const double free_from = crossing(a, b, clamped(a));
    const double free_until = crossing(a, b, clamped(b));
    const double steps_a = steps_from_20(a), steps_b = steps_from_20(b);
    return unclamped_days_at_20(days * free_from, steps_a, steps_a, log_q10) +
           unclamped_days_at_20(days * (free_until - free_from), steps_a, steps_b, log_q10) +
           unclamped_days_at_20(days * (1 - free_until), steps_b, steps_b, log_q10);
}

WarmAndCold split_at_the_join(double days, Celsius a, Celsius b) {
    const Celsius join = cold_from();
    if (a >= join && b >= join)
        return {{days, a, b}, {0, join, join}};
    if (a < join && b < join)
        return {{0, join, join}, {days, a, b}};
    if (a >= join) {
        const double warm = crossing(a, b, join);
        return {{days * warm, a, join}, {days * (1 - warm), join, b}};
    }
    const double cold = crossing(a, b, join);
    return {{days * (1 - cold), join, b}, {days * cold, a, join}};
}

double days_at_the_join(double days, Celsius a, Celsius b, double log_cold) {
    const double from_20 = steps_from_20(cold_from());
    return unclamped_days_at_20(days, steps_from_20(a) - from_20, steps_from_20(b) - from_20, log_cold);
}

Q10Nodes nodes_of(Lognormal q10) {
    constexpr double wide = 0.2; // of ln Q10; at 30 K from 20 C three nodes then err below a thousandth
    const double doubt = std::log(q10.gsd);
    Q10Nodes nodes;
    const auto take = [&](const auto& quadrature) {
        nodes.count = quadrature.points.size();
        for (std::size_t i = 0; i < nodes.count; ++i) {
            nodes.log_q10[i] = std::log(q10.median) + quadrature.points[i] * doubt;
            nodes.weights[i] = quadrature.weights[i];
        }
    };
    if (doubt > wide)
        take(over_normal);
    else
        take(over_normal_roughly);
    return nodes;
}

ClockRun& ClockRun::operator+=(const ClockRun& more) {
    for (std::size_t i = 0; i < clock_nodes; ++i) {
        all[i] += more.all[i];
        assumed[i] += more.assumed[i];
        cold[i] += more.cold[i];
        cold_assumed[i] += more.cold_assumed[i];
    }
    return *this;
}

ClockRun operator-(const ClockRun& later, const ClockRun& earlier) {
    ClockRun run = later;
    return run += -1.0 * earlier;
}

ClockRun operator*(double share, const ClockRun& run) {
    ClockRun part = run;
    for (std::size_t i = 0; i < clock_nodes; ++i) {
        part.all[i] *= share;
        part.assumed[i] *= share;
        part.cold[i] *= share;
        part.cold_assumed[i] *= share;
    }
    return part;
}

ClockSums::ClockSums(std::span<const Stretch> stretches, const TemperatureFactor& factor,
                     const KnownRuns& known)
    : factor_(factor), nodes_(nodes_of(factor.q10)), cold_nodes_(nodes_of(factor.cold.value_or(Lognormal{}))),
      first_known_(known.first), past_known_(known.first + known.runs.size()) {
    before_.reserve(stretches.size());
    ClockRun sum;
    for (std::size_t i = 0; i < stretches.size(); ++i) {
        before_.push_back(sum);
        if (is_known(i))
            sum += known.runs[i - first_known_];
        else if (stretches[i].until != for_ever)
            sum += within(stretches[i], stretches[i].until);
    }
}

ClockRun ClockSums::within(const Stretch& stretch, double days) const {
    // Before the course begins its first temperature holds.
    const Celsius start = stretch.at_start;
    const Celsius end = days < stretch.from ? start : stretch.at(days);
    WarmAndCold parts{{days - stretch.from, start, end}, {}};
    if (factor_.cold)
        parts = split_at_the_join(days - stretch.from, start, end);
    ClockRun run;
    if (parts.warm.days != 0)
        for (std::size_t i = 0; i < nodes_.count; ++i)
            run.all[i] = days_at_20(parts.warm.days, parts.warm.start, parts.warm.end, nodes_.log_q10[i]);
    if (parts.cold.days != 0)
        for (std::size_t i = 0; i < cold_nodes_.count; ++i)
            run.cold[i] =
                days_at_the_join(parts.cold.days, parts.cold.start, parts.cold.end, cold_nodes_.log_q10[i]);
    if (!stretch.is_measured) {
        run.assumed = run.all;
        run.cold_assumed = run.cold;
    }
    return run;
}

ClockRun ClockSums::until(std::span<const Stretch> stretches, std::size_t stretch, double days) const {
    ClockRun run = before_[stretch];
    if (!is_known(stretch))
        return run += within(stretches[stretch], days);
    // Another stretch always follows: the last one goes on for ever, and that is never known.
    const auto& known = stretches[stretch];
    const double share = (days - known.from) / (known.until - known.from);
    return run += share * (before_[stretch + 1] - before_[stretch]);
}

} // namespace mellowbin::aging
