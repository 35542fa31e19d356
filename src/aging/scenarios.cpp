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
      assumed_doubt_(path.assumed_doubt), has_cold_(path.factor.cold), before_delivery_(path.before_delivery),
      nodes_(nodes_of(path.factor.q10)), log_cold_gsd_(std::log(path.factor.cold.value_or(Lognormal{}).gsd)),
      cold_nodes_(nodes_of(path.factor.cold.value_or(Lognormal{}))) {
    for (std::size_t kind = 0; kind < air_kinds; ++kind) {
        air_medians_[kind] = path.air[kind].median;
        log_air_gsd_[kind] = std::log(path.air[kind].gsd);
    }
    promised(!path.path.empty());
    const Stay* first = &path.path.front();
    for (const auto& stay : path.path) {
        promised(stay.climate->factor(path.clock) == path.factor);
        if (stay.from < delivered_) {
            delivered_ = stay.from;
            first = &stay;
        }
    }
    delivered_ = std::max(delivered_, zero_);
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

double Scenarios::join_speed(std::size_t node) const {
    return std::exp(nodes_.log_q10[node] * steps_from_20(cold_from()));
}

double Scenarios::head_speed(std::size_t node, std::size_t cold_node) const {
    if (!has_cold_ || before_delivery_ >= cold_from())
        return days_at_20(1, before_delivery_, before_delivery_, nodes_.log_q10[node]);
    return join_speed(node) *
           days_at_the_join(1, before_delivery_, before_delivery_, cold_nodes_.log_q10[cold_node]);
}

void Scenarios::draw(const ClockPath& path, double rate_spread) {
    constexpr double far = 1e6; // days: later than anything that is asked
    const bool is_cold =
        has_cold_ &&
        (before_delivery_ < cold_from() || std::any_of(stays_.begin(), stays_.end(), [&](const Kept& kept) {
             return (kept.stay.climate->run_until(clock_, std::min(kept.stay.until, far)) - kept.at_start)
                 .is_cold();
         }));
    const bool is_measured = std::any_of(stays_.begin(), stays_.end(), [&](const Kept& kept) {
        return kept.stay.climate->measured_days(kept.stay.from, std::min(kept.stay.until, far)) > 0;
    });
    const double air_gsd = path.air[at(head_air_)].gsd;
    const bool airs_differ = std::any_of(stays_.begin(), stays_.end(), [&](const Kept& kept) {
        return path.air[at(kept.stay.climate->air())].gsd != air_gsd;
    });
    const double one_air = airs_differ ? 0 : std::log(air_gsd);
    const bool temperature_differs = (is_measured || is_cold) && path.assumed_doubt > 0;
    const auto airs = airs_differ ? points_of(over_normal_roughly) : points_of(certain);
    const auto temperatures = temperature_differs ? points_of(over_small_normal) : points_of(certain);
    const auto heads = path.most_head_start > 0 ? points_of(over_uniform) : points_of(certain);
    // Flour that never lay in the cold has no doubt about it, and costs no scenarios for it.
    const std::size_t middle = cold_nodes_.middle();
    const std::size_t first_cold = is_cold ? 0 : middle, past_cold = is_cold ? cold_nodes_.count : middle + 1;
    for (std::size_t node = 0; node < nodes_.count; ++node)
        for (std::size_t cold = first_cold; cold < past_cold; ++cold) {
            const double per_kelvin = nodes_.log_q10[node] * path.assumed_doubt / 10;
            const double cold_per_kelvin = cold_nodes_.log_q10[cold] * path.assumed_doubt / 10;
            const double shared = std::hypot(one_air, temperature_differs ? 0 : per_kelvin);
            const double weight = nodes_.weights[node] * (is_cold ? cold_nodes_.weights[cold] : 1);
            for (const auto& air : airs)
                for (const auto& temperature : temperatures)
                    for (const auto& head : heads) {
                        Draw one{node,
                                 cold,
                                 std::exp(temperature.at * per_kelvin),
                                 std::exp(temperature.at * cold_per_kelvin),
                                 head.at * path.most_head_start,
                                 {}};
                        for (std::size_t kind = 0; kind < air_kinds; ++kind)
                            one.air[kind] = path.air[kind].median * std::pow(path.air[kind].gsd, air.at);
                        draws_.push_back(one);
                        scenarios_.push_back({weight * air.weight * temperature.weight * head.weight,
                                              std::hypot(rate_spread, shared), shared});
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
            const auto& here = runs[kind];
            double of_kind = here.all[draw.node] + (draw.temperature - 1) * here.assumed[draw.node];
            if (here.is_cold())
                of_kind +=
                    join_speed(draw.node) * (here.cold[draw.cold_node] +
                                             (draw.cold_temperature - 1) * here.cold_assumed[draw.cold_node]);
            run += draw.air[kind] * of_kind;
        }
        const double head = std::max(draw.head + early, 0.0) + before;
        if (head > 0)
            run += draw.air[at(head_air_)] *
                   (has_cold_ && before_delivery_ < cold_from() ? draw.cold_temperature : draw.temperature) *
                   head * head_speed(draw.node, draw.cold_node);
        logs[i] = run > 0 ? std::log(run) : -INFINITY;
    }
}

RunSlope Scenarios::run_slope(const StoragePath* path, double days) const {
    const std::size_t middle = nodes_.middle(), cold_middle = cold_nodes_.middle();
    const auto sums = path ? runs(keep(*path), days) : runs(stays_, days);
    const double mean_head = most_head_start_ / 2, head_spread = most_head_start_ / std::sqrt(12.0);
    const double before = std::clamp(days, zero_, delivered_) - zero_;
    const double head = std::max(mean_head + std::min(days - zero_, 0.0), 0.0) + before;
    const auto of_kind = [&](std::size_t kind, std::size_t node, std::size_t cold) {
        return air_medians_[kind] * (sums[kind].all[node] + join_speed(node) * sums[kind].cold[cold]);
    };
    const auto run_at = [&](std::size_t node, std::size_t cold) {
        double run = air_medians_[at(head_air_)] * head * head_speed(node, cold);
        for (std::size_t kind = 0; kind < air_kinds; ++kind)
            run += of_kind(kind, node, cold);
        return run;
    };
    const double run = run_at(middle, cold_middle);
    if (run <= 0)
        return {-INFINITY, 0, {}};
    const double before_speed = air_medians_[at(head_air_)] * head_speed(middle, cold_middle);
    double by_air = before_speed * head * log_air_gsd_[at(head_air_)];
    double per_kelvin = before_speed * head * nodes_.log_q10[middle];
    for (std::size_t kind = 0; kind < air_kinds; ++kind) {
        by_air += of_kind(kind, middle, cold_middle) * log_air_gsd_[kind];
        per_kelvin += air_medians_[kind] * (sums[kind].assumed[middle] * nodes_.log_q10[middle] +
                                            join_speed(middle) * sums[kind].cold_assumed[cold_middle] *
                                                cold_nodes_.log_q10[cold_middle]);
    }
    RunSlope slope;
    slope.log_run = std::log(run);
    const double step = nodes_.log_q10[middle + 1] - nodes_.log_q10[middle - 1];
    const auto log_run = [&](std::size_t node, std::size_t cold) { return std::log(run_at(node, cold)); };
    slope.by_log_q10 =
        step > 0 ? (log_run(middle + 1, cold_middle) - log_run(middle - 1, cold_middle)) / step : 0;
    const double cold_step = cold_nodes_.log_q10[cold_middle + 1] - cold_nodes_.log_q10[cold_middle - 1];
    const double by_cold =
        cold_step > 0 ? (log_run(middle, cold_middle + 1) - log_run(middle, cold_middle - 1)) / cold_step : 0;
    slope.by_doubt = {by_air / run, assumed_doubt_ / 10 * per_kelvin / run, before_speed * head_spread / run,
                      by_cold * log_cold_gsd_};
    return slope;
}

void Scenarios::log_runs(double days, std::vector<double>& logs) const {
    combine(runs(stays_, days), days, logs);
}

void Scenarios::log_runs(const StoragePath& path, double days, std::vector<double>& logs) const {
    combine(runs(keep(path), days), days, logs);
}

} // namespace mellowbin::aging
