#include "aging/scenarios.h"

#include "aging/clocks.h"
#include "core/normal.h"
#include "core/promised.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::aging {
namespace {

/// Mean of f(z) over a standard normal z, for doubts so small that it is nearly straight in them.
constexpr Quadrature<2> over_small_normal{{-1, 1}, {0.5, 0.5}};
constexpr Quadrature<1> certain{{0}, {1}};

struct Point {
    double at, weight;
};
template <std::size_t N> std::vector<Point> points_of(const Quadrature<N>& quadrature) {
    std::vector<Point> points;
    for (std::size_t i = 0; i < N; ++i)
        points.push_back({quadrature.points[i], quadrature.weights[i]});
    return points;
}

std::size_t at(Air air) { return static_cast<std::size_t>(air); }

} // namespace

Scenarios::Scenarios(const ClockPath& path, double rate_spread)
    : clock_(path.clock), zero_(path.zero), delivered_(for_ever), most_head_start_(path.most_head_start),
      assumed_doubt_(path.assumed_doubt), nodes_(nodes_of(path.q10)) {
    for (std::size_t kind = 0; kind < air_kinds; ++kind) {
        air_medians_[kind] = path.air[kind].median;
        log_air_gsd_[kind] = std::log(path.air[kind].gsd);
    }
    promised(!path.path.empty());
    const Stay* first = &path.path.front();
    for (const auto& stay : path.path) {
        promised(stay.climate->q10(path.clock) == path.q10);
        if (stay.from < delivered_) {
            delivered_ = stay.from;
            first = &stay;
        }
    }
    delivered_ = std::max(delivered_, zero_);
    head_steps_ = steps_from_20(path.before_delivery);
    head_air_ = first->climate->air();
    stays_ = keep(path.path);
    draw(path, rate_spread);
}

std::vector<Scenarios::Kept> Scenarios::keep(const StoragePath& path) const {
    std::vector<Kept> kept;
    kept.reserve(path.size());
    for (const auto& stay : path) {
        Kept one{stay, {}, {}};
        one.stay.from = std::max(stay.from, zero_);
        if (one.stay.until <= one.stay.from)
            continue;
        one.at_start = stay.climate->run_until(clock_, one.stay.from);
        if (stay.until != for_ever)
            one.whole = stay.climate->run_until(clock_, stay.until) - one.at_start;
        kept.push_back(std::move(one));
    }
    return kept;
}

void Scenarios::draw(const ClockPath& path, double rate_spread) {
    const bool is_measured = std::any_of(stays_.begin(), stays_.end(), [](const Kept& kept) {
        return kept.stay.climate->measured_days(kept.stay.from, std::min(kept.stay.until, 1e6)) > 0;
    });
    const double air_gsd = path.air[at(head_air_)].gsd;
    const bool airs_differ = std::any_of(stays_.begin(), stays_.end(), [&](const Kept& kept) {
        return path.air[at(kept.stay.climate->air())].gsd != air_gsd;
    });
    const double one_air = airs_differ ? 0 : std::log(air_gsd);
    const bool temperature_differs = is_measured && path.assumed_doubt > 0;
    const auto airs = airs_differ ? points_of(over_normal_roughly) : points_of(certain);
    const auto temperatures = temperature_differs ? points_of(over_small_normal) : points_of(certain);
    const auto heads = path.most_head_start > 0 ? points_of(over_uniform) : points_of(certain);
    for (std::size_t node = 0; node < nodes_.count; ++node) {
        const double per_kelvin = nodes_.log_q10[node] * path.assumed_doubt / 10;
        const double spread = std::hypot(rate_spread, one_air, temperature_differs ? 0 : per_kelvin);
        for (const auto& air : airs)
            for (const auto& temperature : temperatures)
                for (const auto& head : heads) {
                    Draw one{node, std::exp(temperature.at * per_kelvin), head.at * path.most_head_start, {}};
                    for (std::size_t kind = 0; kind < air_kinds; ++kind)
                        one.air[kind] = path.air[kind].median * std::pow(path.air[kind].gsd, air.at);
                    draws_.push_back(one);
                    scenarios_.push_back(
                        {nodes_.weights[node] * air.weight * temperature.weight * head.weight, spread});
                }
    }
}

Scenarios::AirRuns Scenarios::runs(const std::vector<Kept>& stays, double days) const {
    AirRuns sums;
    for (const auto& kept : stays) {
        if (kept.stay.from >= days)
            continue;
        auto& sum = sums[at(kept.stay.climate->air())];
        if (kept.stay.until <= days)
            sum += kept.stay.share * kept.whole;
        else
            sum += kept.stay.share * (kept.stay.climate->run_until(clock_, days) - kept.at_start);
    }
    return sums;
}

void Scenarios::combine(const AirRuns& runs, double days, std::vector<double>& logs) const {
    const double before = std::clamp(days, zero_, delivered_) - zero_; // known days before the delivery
    const double early = std::min(days - zero_, 0.0); // before zero: the head start is shorter
    logs.resize(draws_.size());
    for (std::size_t i = 0; i < draws_.size(); ++i) {
        const auto& draw = draws_[i];
        double run = 0;
        for (std::size_t kind = 0; kind < air_kinds; ++kind) {
            const double assumed = runs[kind].assumed[draw.node];
            run += draw.air[kind] * (runs[kind].all[draw.node] + (draw.temperature - 1) * assumed);
        }
        const double head = std::max(draw.head + early, 0.0) + before;
        if (head > 0)
            run += draw.air[at(head_air_)] * draw.temperature * head *
                   std::exp(nodes_.log_q10[draw.node] * head_steps_);
        logs[i] = run > 0 ? std::log(run) : -INFINITY;
    }
}

RunSlope Scenarios::run_slope(const StoragePath* path, double days) const {
    const std::size_t middle = nodes_.middle();
    const auto sums = path ? runs(keep(*path), days) : runs(stays_, days);
    const double mean_head = most_head_start_ / 2, head_spread = most_head_start_ / std::sqrt(12.0);
    const double before = std::clamp(days, zero_, delivered_) - zero_;
    const double head = std::max(mean_head + std::min(days - zero_, 0.0), 0.0) + before;
    const auto run_at = [&](std::size_t node) {
        double run = air_medians_[at(head_air_)] * head * std::exp(nodes_.log_q10[node] * head_steps_);
        for (std::size_t kind = 0; kind < air_kinds; ++kind)
            run += air_medians_[kind] * sums[kind].all[node];
        return run;
    };
    const double run = run_at(middle);
    if (run <= 0)
        return {-INFINITY, 0, {}};
    const double head_speed = air_medians_[at(head_air_)] * std::exp(nodes_.log_q10[middle] * head_steps_);
    double by_air = head_speed * head * log_air_gsd_[at(head_air_)];
    double assumed = head_speed * head;
    for (std::size_t kind = 0; kind < air_kinds; ++kind) {
        by_air += air_medians_[kind] * sums[kind].all[middle] * log_air_gsd_[kind];
        assumed += air_medians_[kind] * sums[kind].assumed[middle];
    }
    RunSlope slope;
    slope.log_run = std::log(run);
    const double step = nodes_.log_q10[middle + 1] - nodes_.log_q10[middle - 1];
    slope.by_log_q10 = step > 0 ? (std::log(run_at(middle + 1)) - std::log(run_at(middle - 1))) / step : 0;
    slope.by_doubt = {by_air / run, nodes_.log_q10[middle] * assumed_doubt_ / 10 * assumed / run,
                      head_speed * head_spread / run};
    return slope;
}

void Scenarios::log_runs(double days, std::vector<double>& logs) const {
    combine(runs(stays_, days), days, logs);
}

void Scenarios::log_runs(const StoragePath& path, double days, std::vector<double>& logs) const {
    combine(runs(keep(path), days), days, logs);
}

} // namespace mellowbin::aging
