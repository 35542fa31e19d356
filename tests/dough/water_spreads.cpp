#include "water_spreads.h"

#include "core/literature/constants.h"

#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <tuple>
#include <utility>

namespace mellowbin::dough {
namespace {

namespace lit = literature;
using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr int turns = 200;
constexpr double boundless = 100; // variance of the mean, points squared: no result can tell
/// Of the seasons' Student t: heavy tails that still have a variance (an assumption).
constexpr double freedom = 4;

double squared(double x) { return x * x; }

/// The t of four degrees of freedom against the normal of the same scale at the ends of the middle 80 %. The
/// quantile has a closed form: 2 sqrt(cos(acos(sqrt a)/3)/sqrt a - 1), a = 4 p (1 - p).
double tail_of_seasons() {
    constexpr double normal = 1.2815515655446004;
    const double root = std::sqrt(4 * 0.9 * 0.1);
    return 2 * std::sqrt(std::cos(std::acos(root) / 3) / root - 1) / normal;
}

/// Numbers of any kind, in order, each once.
template <class Key> std::vector<Key> distinct(std::vector<Key> keys) {
    std::sort(keys.begin(), keys.end());
    keys.erase(std::unique(keys.begin(), keys.end()), keys.end());
    return keys;
}

template <class Key> Index place_of(const std::vector<Key>& keys, const Key& key) {
    return std::lower_bound(keys.begin(), keys.end(), key) - keys.begin();
}

/// The fit, turn by turn. Unknowns stand in one row: the mean, the processes, the seasons.
struct Fit {
    std::span<const OffsetSeen> seen;
    OffsetSpreads assumed;
    std::vector<std::size_t> processes;
    std::vector<int> seasons;
    double process = 0, season = 0, flour = 0; ///< variances
    VectorXd season_weights;
    VectorXd mean;
    MatrixXd covariance;

    Fit(std::span<const OffsetSeen> all, const OffsetSpreads& before);
    void solve();
    void respread();
    [[nodiscard]] std::array<Index, 3> row_of(const OffsetSeen& one) const;
    [[nodiscard]] double second_moment(Index unknown) const {
        return squared(mean(unknown)) + covariance(unknown, unknown);
    }
    [[nodiscard]] Index first_season() const { return 1 + static_cast<Index>(processes.size()); }
    [[nodiscard]] Index count() const { return first_season() + static_cast<Index>(seasons.size()); }
};

Fit::Fit(std::span<const OffsetSeen> all, const OffsetSpreads& before)
    : seen(all), assumed(before), process(squared(before.process)), season(squared(before.season)),
      flour(squared(before.flour)) {
    for (const auto& one : seen) {
        processes.push_back(one.process);
        seasons.push_back(one.season);
    }
    processes = distinct(std::move(processes));
    seasons = distinct(std::move(seasons));
    season_weights = VectorXd::Ones(static_cast<Index>(seasons.size()));
    for (int turn = 0; turn < turns; ++turn) {
        solve();
        respread();
    }
    solve();
}

std::array<Index, 3> Fit::row_of(const OffsetSeen& one) const {
    return {0, 1 + place_of(processes, one.process), first_season() + place_of(seasons, one.season)};
}

void Fit::solve() {
    MatrixXd precision = MatrixXd::Zero(count(), count());
    VectorXd pull = VectorXd::Zero(count());
    precision(0, 0) = 1 / boundless;
    for (Index p = 1; p < first_season(); ++p)
        precision(p, p) = 1 / process;
    for (Index s = first_season(); s < count(); ++s)
        precision(s, s) = season_weights(s - first_season()) / season;
    for (const auto& one : seen) {
        const double weight = 1 / (flour + one.error_variance);
        const auto row = row_of(one);
        for (const Index i : row) {
            pull(i) += weight * one.offset.value();
            for (const Index j : row)
                precision(i, j) += weight;
        }
    }
    covariance = precision.llt().solve(MatrixXd::Identity(count(), count()));
    mean = covariance * pull;
}

/// The spreads that make what is believed now most likely, and how far each season counts.
void Fit::respread() {
    const double worth = lit::dough_water_prior_worth.value;
    double flours = worth * squared(assumed.flour);
    for (const auto& one : seen) {
        double left = one.offset.value(), doubt = 0;
        const auto row = row_of(one);
        for (const Index i : row) {
            left -= mean(i);
            for (const Index j : row)
                doubt += covariance(i, j);
        }
        const double kept = flour / (flour + one.error_variance);
        flours += squared(kept) * (squared(left) + doubt) + flour * (1 - kept);
    }
    flour = flours / (worth + static_cast<double>(seen.size()));

    double all = worth * squared(assumed.process);
    for (Index p = 1; p < first_season(); ++p)
        all += second_moment(p);
    process = all / (worth + static_cast<double>(processes.size()));

    all = worth * squared(assumed.season);
    for (Index s = first_season(); s < count(); ++s)
        all += season_weights(s - first_season()) * second_moment(s);
    season = all / (worth + static_cast<double>(seasons.size()));
    for (Index s = first_season(); s < count(); ++s)
        season_weights(s - first_season()) = (freedom + 1) / (freedom + second_moment(s) / season);
}

} // namespace

OffsetSpreads assumed_offset_spreads() {
    return {lit::dough_water_process_sd.value, lit::dough_water_season_sd.value,
            lit::dough_water_lot_sd.value};
}

SeasonedOffsets::SeasonedOffsets(std::span<const OffsetSeen> seen, const OffsetSpreads& assumed) {
    const Fit fit(seen, assumed);
    spreads_ = {std::sqrt(fit.process), tail_of_seasons() * std::sqrt(fit.season), std::sqrt(fit.flour)};
    const double next = squared(spreads_.season) + fit.flour;
    new_process_ = {AbsorptionPoints{fit.mean(0)}, std::sqrt(fit.covariance(0, 0) + fit.process + next)};
    for (std::size_t i = 0; i < fit.processes.size(); ++i) {
        const auto p = static_cast<Index>(i) + 1;
        known_.push_back({fit.processes[i], AbsorptionPoints{fit.mean(0) + fit.mean(p)},
                          fit.covariance(0, 0) + 2 * fit.covariance(0, p) + fit.covariance(p, p)});
    }
}

SeasonForecast SeasonedOffsets::in_a_new_season(std::size_t process) const {
    for (const auto& known : known_)
        if (known.process == process)
            return {known.offset,
                    std::sqrt(known.variance + squared(spreads_.season) + squared(spreads_.flour))};
    return new_process_;
}

} // namespace mellowbin::dough
