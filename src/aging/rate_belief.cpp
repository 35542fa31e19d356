#include "aging/rate_belief.h"

#include "aging/amplitude_table.h"
#include "core/normal.h"
#include "core/promised.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace mellowbin::aging {
namespace {

constexpr double edge = 4; // standard deviations
constexpr double spacing = 2 * edge / (rate_points - 1);
constexpr double negligible = 1e-7; // of a belief

/// What a series says at one rate, by amplitude, once its baseline is integrated out.
struct Residuals {
    ByAmplitude mean{};   ///< of ln y (or y) less the change, against the first result
    ByAmplitude misfit{}; ///< sum of squares around that mean
    float least = 0;      ///< misfit
};

/// ln of the run, by scenario, of the flour that was sampled; of none where it came from the mill.
std::vector<double> log_runs_to(const Observation& observation, const Scenarios& scenarios) {
    std::vector<double> logs;
    if (observation.is_fresh)
        logs.assign(scenarios.count(), -INFINITY);
    else if (observation.path)
        scenarios.log_runs(*observation.path, observation.at, logs);
    else
        scenarios.log_runs(observation.at, logs);
    return logs;
}

/// One series ready to be looked up: its results, and the log runs up to them by scenario.
class SeriesTable {
public:
    SeriesTable(const Series& series, const Scenarios& scenarios)
        : table_(AmplitudeTable::of(series.property)), weights_(table_.weights(series.amplitude)),
          half_precision_(static_cast<float>(0.5 / (series.error * series.error))) {
        const bool is_share = maturing_test(series.property)->change == ChangeKind::share;
        for (const auto& observation : series.observations) {
            levels_.push_back(is_share ? std::log(observation.value) : observation.value);
            log_runs_.push_back(log_runs_to(observation, scenarios));
        }
    }

    [[nodiscard]] Residuals residuals(std::size_t scenario, double log_rate) const {
        const ByAmplitude base = table_.at(log_rate + log_runs_[0][scenario]);
        ByAmplitude sums{}, squares{};
        for (std::size_t r = 1; r < levels_.size(); ++r) {
            const auto level = static_cast<float>(levels_[r] - levels_[0]);
            const ByAmplitude here = table_.at(log_rate + log_runs_[r][scenario]);
            for (std::size_t a = 0; a < amplitude_places; ++a) {
                const float residual = level - (here[a] - base[a]);
                sums[a] += residual;
                squares[a] += residual * residual;
            }
        }
        const float share = 1 / static_cast<float>(levels_.size());
        Residuals result;
        for (std::size_t a = 0; a < amplitude_places; ++a) {
            result.mean[a] = sums[a] * share - base[a];
            result.misfit[a] = squares[a] - sums[a] * sums[a] * share;
        }
        result.least = *std::min_element(result.misfit.begin(), result.misfit.begin() + amplitude_points);
        return result;
    }

    /// Posterior weights of the amplitudes at that rate, not normalised: against the likeliest.
    [[nodiscard]] ByAmplitude weights(const Residuals& residuals) const {
        ByAmplitude weights{};
        for (std::size_t a = 0; a < amplitude_points; ++a)
            weights[a] = weights_[a] * std::exp(-half_precision_ * (residuals.misfit[a] - residuals.least));
        return weights;
    }

    /// ln of the likelihood at that rate, baseline and amplitude integrated out.
    [[nodiscard]] double log_likelihood(std::size_t scenario, double log_rate) const {
        const auto found = residuals(scenario, log_rate);
        float sum = 0;
        for (const float weight : weights(found))
            sum += weight;
        return std::log(static_cast<double>(sum)) - static_cast<double>(half_precision_ * found.least);
    }

    [[nodiscard]] const AmplitudeTable& table() const { return table_; }
    [[nodiscard]] double first_level() const { return levels_[0]; }
    [[nodiscard]] double baseline_variance() const {
        return 0.5 / (static_cast<double>(half_precision_) * static_cast<double>(levels_.size()));
    }

private:
    const AmplitudeTable& table_;
    ByAmplitude weights_;
    float half_precision_;
    std::vector<double> levels_;
    std::vector<std::vector<double>> log_runs_;
};

/// Running integral of a density given at the points, to the fourth order; ends at `total`.
double integrate(const std::array<double, rate_points>& density, std::array<double, rate_points>& at_most) {
    const auto slope = [&](std::size_t i) {
        if (i == 0 || i + 1 == rate_points)
            return 0.0;
        return (density[i + 1] - density[i - 1]) / (2 * spacing);
    };
    at_most[0] = 0;
    for (std::size_t i = 1; i < rate_points; ++i)
        at_most[i] = at_most[i - 1] + std::max(0.0, spacing / 2 * (density[i] + density[i - 1]) -
                                                        spacing * spacing / 12 * (slope(i) - slope(i - 1)));
    return at_most.back();
}

} // namespace

double rate_point(std::size_t i) { return -edge + spacing * static_cast<double>(i); }

double RateTable::probability_at_most(double x) const {
    const double place = (x + edge) / spacing;
    if (place <= 0)
        return 0;
    if (place >= rate_points - 1)
        return 1;
    const auto i = static_cast<std::size_t>(place);
    const double t = place - static_cast<double>(i);
    const double f0 = at_most[i], f1 = at_most[i + 1];
    const double d0 = density[i] * spacing, d1 = density[i + 1] * spacing;
    const double t2 = t * t, t3 = t2 * t;
    return (2 * t3 - 3 * t2 + 1) * f0 + (t3 - 2 * t2 + t) * d0 + (3 * t2 - 2 * t3) * f1 + (t3 - t2) * d1;
}

RateBelief believe(const Scenarios& scenarios, double median_log_rate, const Evidence& evidence) {
    RateBelief belief;
    std::vector<SeriesTable> series;
    for (const auto& one : evidence)
        if (one.follows == Follows::dough && one.observations.size() > 1)
            series.emplace_back(one, scenarios);
    const auto& all = scenarios.all();
    for (const auto& scenario : all)
        belief.weights.push_back(scenario.weight);
    if (series.empty())
        return belief;

    std::vector<std::array<double, rate_points>> logs(all.size());
    double most = -INFINITY;
    for (std::size_t s = 0; s < all.size(); ++s)
        for (std::size_t i = 0; i < rate_points; ++i) {
            const double x = rate_point(i);
            double log = -x * x / 2;
            for (const auto& one : series)
                log += one.log_likelihood(s, median_log_rate + x * all[s].spread);
            logs[s][i] = log;
            most = std::max(most, log);
        }
    belief.tables.resize(all.size());
    double sum = 0;
    std::array<double, rate_points> density{}, at_most{};
    for (std::size_t s = 0; s < all.size(); ++s) {
        for (std::size_t i = 0; i < rate_points; ++i)
            density[i] = std::exp(logs[s][i] - most);
        const double total = integrate(density, at_most);
        belief.weights[s] *= total;
        sum += belief.weights[s];
        if (total <= 0)
            continue;
        for (std::size_t i = 0; i < rate_points; ++i) {
            belief.tables[s].density[i] = static_cast<float>(density[i] / total);
            belief.tables[s].at_most[i] = static_cast<float>(at_most[i] / total);
        }
    }
    for (double& weight : belief.weights)
        weight /= sum;
    return belief;
}

namespace {

/// Weighed sums of something and of its square.
struct Moments {
    double first = 0, second = 0;
    void add(double weight, double value) {
        first += weight * value;
        second += weight * value * value;
    }
    [[nodiscard]] MeanAndSpread of(double total, double more_variance) const {
        const double mean = first / total;
        return {mean, std::sqrt(std::max(0.0, second / total - mean * mean) + more_variance)};
    }
};

double density_at(const RateBelief& belief, std::size_t scenario, std::size_t point) {
    if (!belief.tables.empty())
        return belief.tables[scenario].density[point];
    const double x = rate_point(point);
    return std::exp(-x * x / 2) / std::sqrt(2 * std::numbers::pi);
}

/// One rate in one scenario, with what is believed of it.
struct RateHere {
    std::size_t scenario;
    double log_rate, weight;
};

/// The dough's rates, as its results tell them.
std::vector<RateHere> rates_of_dough(const Scenarios& scenarios, double median_log_rate,
                                     const RateBelief& belief) {
    std::vector<RateHere> rates;
    for (std::size_t s = 0; s < scenarios.count(); ++s)
        for (std::size_t i = 0; i < rate_points; ++i)
            rates.push_back({s, median_log_rate + rate_point(i) * scenarios.all()[s].spread,
                             belief.weights[s] * density_at(belief, s, i) * spacing});
    return rates;
}

/// A property's own rates, as its own results tell them; the scenarios weigh as the dough's results leave
/// them.
std::vector<RateHere> own_rates(const Scenarios& scenarios, const RateBelief& belief, const Series& series,
                                const SeriesTable& table) {
    std::vector<RateHere> rates;
    double most = -INFINITY;
    for (std::size_t s = 0; s < scenarios.count(); ++s) {
        const double spread = std::hypot(std::log(series.own_rate.gsd), scenarios.all()[s].shared);
        for (std::size_t i = 0; i < rate_points; ++i) {
            const double x = rate_point(i);
            const double log_rate = std::log(series.own_rate.median) + x * spread;
            const double log = std::log(belief.weights[s]) - x * x / 2 + table.log_likelihood(s, log_rate);
            most = std::max(most, log);
            rates.push_back({s, log_rate, log});
        }
    }
    double sum = 0;
    for (auto& rate : rates)
        sum += rate.weight = std::exp(rate.weight - most);
    for (auto& rate : rates)
        rate.weight /= sum;
    return rates;
}

/// `logs`: of the runs at which the level is asked for, by scenario.
PropertyBelief belief_at(const Scenarios& scenarios, double median_log_rate, const RateBelief& belief,
                         const Series& series, const std::vector<std::vector<double>>& logs) {
    promised(!series.observations.empty());
    const SeriesTable one(series, scenarios);
    Moments amplitude;
    std::vector<Moments> levels(logs.size());
    double total = 0;
    const auto rates = series.follows == Follows::own_rate
                           ? own_rates(scenarios, belief, series, one)
                           : rates_of_dough(scenarios, median_log_rate, belief);
    for (const auto& [s, log_rate, here] : rates) {
        if (here < negligible)
            continue;
        total += here;
        const auto residuals = one.residuals(s, log_rate);
        const auto weights = one.weights(residuals);
        double sum = 0;
        for (const float weight : weights)
            sum += weight;
        for (std::size_t a = 0; a < amplitude_points; ++a)
            amplitude.add(here * weights[a] / sum, one.table().amplitudes()[a]);
        for (std::size_t m = 0; m < logs.size(); ++m) {
            const ByAmplitude changes = one.table().at(log_rate + logs[m][s]);
            for (std::size_t a = 0; a < amplitude_points; ++a)
                levels[m].add(here * weights[a] / sum, one.first_level() + residuals.mean[a] + changes[a]);
        }
    }
    PropertyBelief result;
    result.amplitude = amplitude.of(total, 0);
    for (const auto& level : levels)
        result.levels.push_back(level.of(total, one.baseline_variance()));
    return result;
}

} // namespace

PropertyBelief property_belief(const Scenarios& scenarios, double median_log_rate, const RateBelief& belief,
                               const Series& series, std::span<const double> moments) {
    std::vector<std::vector<double>> logs(moments.size());
    for (std::size_t m = 0; m < moments.size(); ++m)
        scenarios.log_runs(moments[m], logs[m]);
    return belief_at(scenarios, median_log_rate, belief, series, logs);
}

MeanAndSpread expected_level(const Scenarios& scenarios, double median_log_rate, const RateBelief& belief,
                             const Series& series, const Observation& sample) {
    return belief_at(scenarios, median_log_rate, belief, series, {log_runs_to(sample, scenarios)})
        .levels.front();
}

} // namespace mellowbin::aging
