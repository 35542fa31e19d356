#include "dough/dose_fit.h"

#include "core/literature/constants.h"

#include <array>
#include <cmath>

namespace mellowbin::dough {
namespace {

namespace lit = literature;

constexpr int most_turns = 60;
constexpr double settled = 1e-2; ///< relative change of a turn

/// Of the size without oxidant: the sizes are shares of their own mean, so it lies near 1 in any bakery.
constexpr double level_mean_sd = 0.5;

double square(double x) { return x * x; }

CurveFigures prior_mean() { return {1, lit::dough_bake_hump.value, 0, 0}; }

CurveSpread prior_mean_spread() {
    return CurveFigures(square(level_mean_sd), square(lit::dough_bake_hump_sd.value),
                        square(lit::dough_bake_tilt_sd.value), square(lit::dough_bake_lean_sd.value))
        .asDiagonal();
}

CurveSpread prior_lots() {
    return CurveFigures(square(lit::dough_bake_level_sd.value), square(lit::dough_bake_lot_hump_sd.value),
                        square(lit::dough_bake_lot_tilt_sd.value), square(lit::dough_bake_lot_lean_sd.value))
        .asDiagonal();
}

double log_determinant(const CurveSpread& spread) {
    return 2 * spread.llt().matrixLLT().diagonal().array().log().sum();
}

/// A lot's own spread where the common mean is given.
CurveSpread given_mean(const CurveSpread& lots_inverse, double scatter, const LoafSums& lot) {
    return (lots_inverse + lot.counts / scatter).inverse();
}

/// The common mean from all loaves, with the lots' covariance and the scatter as they stand.
void find_mean(std::span<const LoafSums> lots, CommonCurve& curve) {
    const CurveSpread inverse = curve.lots.inverse();
    CurveSpread precision = prior_mean_spread().inverse();
    CurveFigures pull = precision * prior_mean();
    curve.log_evidence = -pull.dot(prior_mean()) / 2 - log_determinant(prior_mean_spread()) / 2;
    for (const auto& lot : lots) {
        const CurveSpread own = given_mean(inverse, curve.scatter, lot);
        const CurveFigures seen = lot.sizes / curve.scatter;
        precision += inverse - inverse * own * inverse;
        pull += inverse * own * seen;
        curve.log_evidence -= (lot.loaves * std::log(curve.scatter) + log_determinant(curve.lots) -
                               log_determinant(own) + lot.squares / curve.scatter - seen.dot(own * seen)) /
                              2;
    }
    curve.mean_spread = precision.inverse();
    curve.mean = curve.mean_spread * pull;
    curve.log_evidence += (pull.dot(curve.mean) - log_determinant(precision)) / 2;
}

/// How likely the covariance and the scatter are by what is assumed of them.
double log_prior(const CommonCurve& curve) {
    const double lots = log_determinant(curve.lots) + (curve.lots.inverse() * prior_lots()).trace();
    const double scatter = std::log(curve.scatter) + square(lit::dough_bake_scatter.value) / curve.scatter;
    return -(lit::dough_bake_lots_weight.value * lots + lit::dough_bake_scatter_weight.value * scatter) / 2;
}

/// One turn: the lots' covariance and the scatter anew. Returns how much they changed.
double turn(std::span<const LoafSums> lots, CommonCurve& curve) {
    const CurveSpread inverse = curve.lots.inverse();
    CurveSpread apart = lit::dough_bake_lots_weight.value * prior_lots();
    double rest = lit::dough_bake_scatter_weight.value * square(lit::dough_bake_scatter.value);
    double loaves = lit::dough_bake_scatter_weight.value;
    for (const auto& lot : lots) {
        const CurveSpread own = given_mean(inverse, curve.scatter, lot);
        const CurveSpread leaning = own * inverse;
        const CurveFigures figures = leaning * curve.mean + own * lot.sizes / curve.scatter;
        const CurveSpread away = leaning - CurveSpread::Identity();
        const CurveFigures departure = figures - curve.mean;
        apart += departure * departure.transpose() + own + away * curve.mean_spread * away.transpose();
        const CurveSpread spread = own + leaning * curve.mean_spread * leaning.transpose();
        rest += lot.squares - 2 * figures.dot(lot.sizes) + figures.dot(lot.counts * figures) +
                (lot.counts * spread).trace();
        loaves += lot.loaves;
    }
    apart /= lit::dough_bake_lots_weight.value + static_cast<double>(lots.size());
    rest /= loaves;
    const double change =
        (apart - curve.lots).norm() / curve.lots.norm() + std::abs(rest / curve.scatter - 1);
    curve.lots = apart;
    curve.scatter = rest;
    return change;
}

} // namespace

void LoafSums::add_day(const LoafSums& day) {
    // The day's own part, a normal of so many times a loaf's variance, is summed out.
    const double share = lit::dough_bake_day_share.value;
    const double taken = share / (1 + share * day.loaves);
    const CurveFigures at = day.counts.col(0); // the first figure counts one in each loaf
    const double size = day.sizes[0];
    counts += day.counts - taken * at * at.transpose();
    sizes += day.sizes - taken * size * at;
    squares += day.squares - taken * size * size;
    loaves += day.loaves;
}

void LoafSums::add(double along, double size) {
    const auto at = counts_at(along);
    counts += at * at.transpose();
    sizes += at * size;
    squares += size * size;
    ++loaves;
}

CurveFigures CommonCurve::of_lot(const LoafSums& lot) const {
    const CurveSpread inverse = lots.inverse();
    return given_mean(inverse, scatter, lot) * (inverse * mean + lot.sizes / scatter);
}

CurveSpread CommonCurve::spread_of_lot(const LoafSums& lot) const {
    const CurveSpread inverse = lots.inverse();
    const CurveSpread own = given_mean(inverse, scatter, lot);
    const CurveSpread leaning = own * inverse;
    return own + leaning * mean_spread * leaning.transpose();
}

CommonCurve assumed_curve() {
    CommonCurve curve;
    curve.mean = prior_mean();
    curve.mean_spread = prior_mean_spread();
    curve.lots = prior_lots();
    curve.scatter = square(lit::dough_bake_scatter.value);
    return curve;
}

CommonCurve learn_curve(std::span<const LoafSums> lots, const CommonCurve& start) {
    CommonCurve curve = start;
    double change = 1;
    for (int i = 0; i < most_turns && change > settled; ++i) {
        find_mean(lots, curve);
        change = turn(lots, curve);
    }
    find_mean(lots, curve);
    curve.log_evidence += log_prior(curve);
    return curve;
}

std::vector<CommonCurve> curves_around(std::span<const LoafSums> lots, const CommonCurve& likeliest) {
    constexpr std::array scatters{0.4, 0.65, 1.0, 1.6, 2.6}; // of the variance; even on its logarithm
    constexpr std::array differences{0.25, 0.5, 1.0, 2.0, 4.0};
    std::vector<CommonCurve> all;
    for (const double scatter : scatters)
        for (const double apart : differences) {
            CommonCurve curve = likeliest;
            curve.scatter *= scatter;
            curve.lots *= apart;
            find_mean(lots, curve);
            curve.log_evidence += log_prior(curve);
            all.push_back(curve);
        }
    return all;
}

} // namespace mellowbin::dough
