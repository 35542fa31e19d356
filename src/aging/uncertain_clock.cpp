#include "aging/uncertain_clock.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace mellowbin::aging {
namespace {

std::array<double, 5> speeds(const Stretch& stretch, const std::array<double, 5>& log_q10) {
    std::array<double, 5> result;
    for (std::size_t i = 0; i < result.size(); ++i)
        result[i] = stretch.factor.median * std::exp(log_q10[i] * stretch.steps_from_20);
    return result;
}

constexpr std::size_t middle = 2; // the node at the median of q10

} // namespace

UncertainClock::UncertainClock(Lognormal rate, Lognormal q10, std::span<const Stretch> stretches,
                               HeadStart head_start)
    : log_rate_(std::log(rate.median)), rate_spread_(std::log(rate.gsd)), head_start_(head_start) {
    assert(!stretches.empty() && stretches.front().start <= 0);
    std::array<double, nodes> log_q10;
    for (std::size_t i = 0; i < nodes; ++i)
        log_q10[i] = std::log(q10.median) + over_normal.points[i] * std::log(q10.gsd);
    head_speed_ = speeds(head_start.at, log_q10);
    is_one_air_ = std::all_of(stretches.begin(), stretches.end(),
                              [&](const Stretch& s) { return s.factor.gsd == stretches.front().factor.gsd; });
    sums_.reserve(stretches.size());
    for (const auto& stretch : stretches) {
        Sums sums{stretch.start, speeds(stretch, log_q10), {}, {}, {}, std::log(stretch.factor.gsd)};
        if (!sums_.empty()) {
            const auto& before = sums_.back();
            for (std::size_t i = 0; i < nodes; ++i) {
                const double more = before.speed[i] * (stretch.start - before.start);
                sums.run[i] = before.run[i] + more;
                sums.doubt[i] = before.doubt[i] + more * before.log_gsd;
                sums.doubt_squared[i] = before.doubt_squared[i] + more * before.log_gsd * before.log_gsd;
            }
        }
        sums_.push_back(sums);
    }
}

const UncertainClock::Sums& UncertainClock::stretch_at(double days) const {
    auto next = std::upper_bound(sums_.begin(), sums_.end(), days,
                                 [](double d, const Sums& sums) { return d < sums.start; });
    return next == sums_.begin() ? *next : *(next - 1);
}

UncertainClock::Reading UncertainClock::reading(const Sums& sums, std::size_t node, double days,
                                                double head) const {
    const double here = sums.speed[node] * (days - sums.start);
    const double before = head_speed_[node] * head;
    const double run = sums.run[node] + here + before;
    if (run <= 0)
        return {-INFINITY, rate_spread_};
    if (is_one_air_)
        return {std::log(run), std::hypot(rate_spread_, sums.log_gsd)};
    // ln of the sum, as a series in the air's one normal draw z: slope x z + bend x z^2/2.
    const double first = sums_.front().log_gsd;
    const double slope = (sums.doubt[node] + here * sums.log_gsd + before * first) / run;
    const double square =
        (sums.doubt_squared[node] + here * sums.log_gsd * sums.log_gsd + before * first * first) / run;
    const double bend = square - slope * slope;
    return {std::log(run) + bend / 2,
            std::sqrt(rate_spread_ * rate_spread_ + slope * slope + bend * bend / 2)};
}

template <class F> double UncertainClock::mean_over_nodes(double days, F f) const {
    const auto& sums = stretch_at(std::max(days, 0.0));
    const bool is_known = head_start_.most <= 0;
    if (is_known && days <= 0)
        return f(Reading{-INFINITY, rate_spread_});
    double mean = 0;
    for (std::size_t i = 0; i < nodes; ++i) {
        if (is_known) {
            mean += over_normal.weights[i] * f(reading(sums, i, days, 0));
            continue;
        }
        for (std::size_t j = 0; j < over_uniform.points.size(); ++j) {
            const double head = head_start_.most * over_uniform.points[j] + std::min(days, 0.0);
            mean += over_normal.weights[i] * over_uniform.weights[j] *
                    f(reading(sums, i, std::max(days, 0.0), std::max(head, 0.0)));
        }
    }
    return mean;
}

double UncertainClock::probability_of(double level, double days) const {
    const double short_of = log_rate_ - std::log(level);
    return mean_over_nodes(days, [&](Reading r) {
        if (r.spread <= 0)
            return r.log_run + short_of >= 0 ? 1.0 : 0.0;
        return normal_share((r.log_run + short_of) / r.spread);
    });
}

double UncertainClock::mean_of(const std::function<double(double)>& f, double days) const {
    return mean_over_nodes(days, [&](Reading r) {
        double mean = 0;
        for (std::size_t i = 0; i < over_normal.points.size(); ++i)
            mean += over_normal.weights[i] *
                    f(std::exp(r.log_run + log_rate_ + over_normal.points[i] * r.spread));
        return mean;
    });
}

double UncertainClock::reading_at(double probability, double days) const {
    const double wanted = normal_point(probability);
    const double head = std::max(head_start_.most / 2 + std::min(days, 0.0), 0.0);
    const auto start = reading(stretch_at(std::max(days, 0.0)), middle, std::max(days, 0.0), head);
    if (std::isinf(start.log_run))
        return 0;
    double log_reading = log_rate_ + start.log_run + wanted * start.spread;
    const double step = std::max(start.spread, 1e-6);
    for (int i = 0; i < 60; ++i) {
        const double share = 1 - probability_of(std::exp(log_reading), days);
        const double move = step * (wanted - rough_normal_point(std::clamp(share, 1e-12, 1 - 1e-12)));
        log_reading += move;
        if (std::abs(move) < 1e-3)
            break;
    }
    // The rough point errs by 0.0005; the last step is a true one.
    const double share = 1 - probability_of(std::exp(log_reading), days);
    const double density = std::exp(-wanted * wanted / 2) / std::sqrt(2 * std::numbers::pi);
    return std::exp(log_reading + step * (probability - share) / density);
}

/// The day on which the median clock has run far enough for the probability whose normal point is z.
double UncertainClock::guess_of_day(double level, double z) const {
    const double head = head_start_.most / 2;
    const double spread = std::hypot(rate_spread_, sums_.back().log_gsd);
    const double needed = level * std::exp(z * spread - log_rate_) - head_speed_[middle] * head;
    const auto next = std::upper_bound(sums_.begin(), sums_.end(), needed,
                                       [](double run, const Sums& s) { return run < s.run[middle]; });
    const auto& sums = next == sums_.begin() ? *next : *(next - 1);
    return sums.start + (needed - sums.run[middle]) / sums.speed[middle];
}

std::optional<int> UncertainClock::first_day(double level, double probability, int latest) const {
    const double z = rough_normal_point(probability);
    int before = -1;          // not yet reached, or before the first day that counts
    int reached = latest + 1; // reached, or past the last one
    double next = guess_of_day(level, z);
    for (int turn = 0; reached - before > 1; ++turn) {
        const double within = std::clamp(next, before + 1.0, reached - 1.0);
        const int day = turn < 8 ? static_cast<int>(std::ceil(within)) : before + (reached - before) / 2;
        const double share = probability_of(level, day);
        (share >= probability ? reached : before) = day;
        const auto& sums = stretch_at(day);
        const auto here = reading(sums, middle, day, head_start_.most / 2);
        const double slope = sums.speed[middle] /
                             (std::exp(here.log_run) * std::max(here.spread, 1e-6)); // of the normal point
        const double step = (z - rough_normal_point(std::clamp(share, 1e-12, 1 - 1e-12))) / slope;
        next = std::isfinite(step) ? day + step : (before + reached) / 2.0;
    }
    if (reached > latest)
        return {};
    return reached;
}

} // namespace mellowbin::aging
