#include "aging/uncertain_clock.h"

#include "core/normal.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::aging {
namespace {

/// The normal point of a share, finite for shares of 0 and 1.
double bounded_point(double share) { return rough_normal_point(std::clamp(share, 1e-12, 1 - 1e-12)); }

/// Finds where an ascending function crosses 0 between two ends, whose values need not be known: by secants,
/// halving where those do not help.
class Crossing {
public:
    Crossing(double below, double above) : below_(below), above_(above) {}

    /// The value at a place is now known.
    void learn(double at, double value) {
        if (value < 0) {
            below_ = at;
        } else {
            above_ = at;
        }
        const double slope = (value - last_value_) / (at - last_);
        next_ = is_first_ || !(slope > 1e-12) ? (below_ + above_) / 2 : at - value / slope;
        is_first_ = false;
        last_ = at;
        last_value_ = value;
        if (!(next_ > below_ && next_ < above_) || ++turns_ % 6 == 0)
            next_ = (below_ + above_) / 2;
    }
    [[nodiscard]] double next() const { return next_; }
    [[nodiscard]] double below() const { return below_; }
    [[nodiscard]] double above() const { return above_; }

private:
    double below_, above_;
    double last_ = 0, last_value_ = 0, next_ = 0;
    bool is_first_ = true;
    int turns_ = 0;
};

MeanAndSpread log_rate_of(double median, const Scenarios& scenarios, const RateBelief& belief) {
    double first = 0, second = 0;
    for (std::size_t s = 0; s < scenarios.count(); ++s) {
        const double spread = scenarios.all()[s].spread, weight = belief.weights[s];
        double mean = 0, square = 1;
        if (!belief.tables.empty()) {
            square = 0;
            double sum = 0;
            for (std::size_t i = 0; i < rate_points; ++i) {
                const double x = rate_point(i), density = belief.tables[s].density[i];
                sum += density;
                mean += density * x;
                square += density * x * x;
            }
            if (sum <= 0)
                continue;
            mean /= sum;
            square /= sum;
        }
        first += weight * mean * spread;
        second += weight * square * spread * spread;
    }
    return {median + first, std::sqrt(std::max(0.0, second - first * first))};
}

} // namespace

UncertainClock::UncertainClock(Lognormal rate, const ClockPath& path, const Evidence& evidence)
    : median_(std::log(rate.median)), scenarios_(path, std::log(rate.gsd)),
      belief_(believe(scenarios_, median_, evidence)), log_rate_(log_rate_of(median_, scenarios_, belief_)) {}

MeanAndSpread UncertainClock::log_rate() const { return log_rate_; }

PropertyBelief UncertainClock::property(const Series& series, std::span<const double> moments) const {
    return property_belief(scenarios_, median_, belief_, series, moments);
}

MeanAndSpread UncertainClock::expected(const Series& series, const Observation& sample) const {
    return expected_level(scenarios_, median_, belief_, series, sample);
}

double UncertainClock::probability_above(std::size_t scenario, double log_rate) const {
    const double spread = scenarios_.all()[scenario].spread;
    if (spread <= 0)
        return log_rate <= median_ ? 1 : 0;
    const double x = (log_rate - median_) / spread;
    return belief_.tables.empty() ? normal_share(-x) : 1 - belief_.tables[scenario].probability_at_most(x);
}

double UncertainClock::probability_of_log(double log_level, const std::vector<double>& log_runs) const {
    double sum = 0;
    for (std::size_t s = 0; s < log_runs.size(); ++s)
        if (!std::isinf(log_runs[s]))
            sum += belief_.weights[s] * probability_above(s, log_level - log_runs[s]);
    return sum;
}

double UncertainClock::probability_of(double level, double days) const {
    std::vector<double> logs;
    scenarios_.log_runs(days, logs);
    return probability_of_log(std::log(level), logs);
}

double UncertainClock::mean_of(const std::function<double(double)>& f, double days) const {
    std::vector<double> logs;
    scenarios_.log_runs(days, logs);
    double mean = 0;
    for (std::size_t s = 0; s < logs.size(); ++s) {
        const double spread = scenarios_.all()[s].spread;
        const auto value = [&](double x) {
            return std::isinf(logs[s]) ? f(0) : f(std::exp(median_ + x * spread + logs[s]));
        };
        double here = 0, sum = 0;
        const auto add = [&](double weight, double x) {
            here += weight * value(x);
            sum += weight;
        };
        if (belief_.tables.empty())
            for (std::size_t i = 0; i < over_normal.points.size(); ++i)
                add(over_normal.weights[i], over_normal.points[i]);
        else
            for (std::size_t i = 0; i < rate_points; ++i)
                add(belief_.tables[s].density[i], rate_point(i));
        if (sum > 0)
            mean += belief_.weights[s] * here / sum;
    }
    return mean;
}

double UncertainClock::reading_at(double probability, double days) const {
    std::vector<double> logs;
    scenarios_.log_runs(days, logs);
    // Scenarios in which the clock has not begun read 0.
    double at_zero = 0, mean = 0, square = 0;
    for (std::size_t s = 0; s < logs.size(); ++s) {
        if (std::isinf(logs[s])) {
            at_zero += belief_.weights[s];
            continue;
        }
        mean += belief_.weights[s] * logs[s];
        square += belief_.weights[s] * logs[s] * logs[s];
    }
    if (at_zero >= probability)
        return 0;
    mean /= 1 - at_zero;
    const double wanted = normal_point(probability);
    const double spread = std::max(
        1e-6, std::hypot(log_rate_.sd, std::sqrt(std::max(0.0, square / (1 - at_zero) - mean * mean))));
    const double start = log_rate_.mean + mean + wanted * spread;
    Crossing crossing(start - 12 * spread, start + 12 * spread);
    double at = start;
    for (int turn = 0; turn < 60; ++turn) {
        const double share = 1 - probability_of_log(at, logs);
        const double value = bounded_point(share) - wanted;
        crossing.learn(at, value);
        const double next = crossing.next();
        const bool is_near = std::abs(next - at) < 1e-4 * spread;
        at = next;
        if (is_near)
            break;
    }
    return std::exp(at);
}

std::optional<int> UncertainClock::first_day(double level, double probability, double from,
                                             int latest) const {
    constexpr double some_time = 60;
    const double z = rough_normal_point(probability);
    const double log_level = std::log(level);
    std::vector<double> logs;
    scenarios_.log_runs(from + some_time, logs);
    double mean = 0;
    for (std::size_t s = 0; s < logs.size(); ++s)
        mean += belief_.weights[s] * logs[s];
    const double guess = some_time * std::exp(log_level + z * log_rate_.sd - log_rate_.mean - mean);
    int before = -1;          // not yet reached, or before the first day that counts
    int reached = latest + 1; // reached, or past the last one
    Crossing crossing(before, reached);
    double next = guess;
    while (reached - before > 1) {
        const int day = static_cast<int>(std::ceil(std::clamp(next, before + 1.0, reached - 1.0)));
        scenarios_.log_runs(from + day, logs);
        const double share = probability_of_log(log_level, logs);
        (share >= probability ? reached : before) = day;
        crossing.learn(day, bounded_point(share) - z);
        next = crossing.next();
    }
    if (reached > latest)
        return {};
    return reached;
}

} // namespace mellowbin::aging
