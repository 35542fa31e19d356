#pragma once

#include "dough/dose_shape.h"

#include <span>
#include <vector>

namespace mellowbin::dough {

/// Loaves of one lot, as sums; sizes as shares of the mean size.
struct LoafSums {
    CurveSpread counts = CurveSpread::Zero();  ///< sum of counts times counts
    CurveFigures sizes = CurveFigures::Zero(); ///< sum of counts times size
    double squares = 0;
    int loaves = 0;

    /// Of loaves baked on one day, which have that day's oven and yeast in common.
    void add_day(const LoafSums& day);
    void add(double along, double size);
};

/// What all lots have in common on one scale of doses.
struct CommonCurve {
    CurveFigures mean = CurveFigures::Zero();
    CurveSpread mean_spread = CurveSpread::Zero(); ///< covariance: how well the mean is known
    CurveSpread lots = CurveSpread::Zero();        ///< covariance of the lots around it
    double scatter = 0;                            ///< variance of a loaf around its lot's curve
    double log_evidence = 0; ///< of the loaves on this scale, but for a constant; mean summed out

    /// The figures of a lot with these loaves (or none), and how well they are known.
    [[nodiscard]] CurveFigures of_lot(const LoafSums& lot) const;
    [[nodiscard]] CurveSpread spread_of_lot(const LoafSums& lot) const;
};

/// The weak prior of the literature table (assumptions): what holds before a loaf is baked.
CommonCurve assumed_curve();

/// Lots' covariance and loaves' scatter at their likeliest, by expectation and maximisation from `start`,
/// with the common mean summed out.
CommonCurve learn_curve(std::span<const LoafSums> lots, const CommonCurve& start);

/// The likeliest with others around it, of wider and narrower scatter and differences between lots; each with
/// the log evidence of the loaves and of what is assumed beforehand.
std::vector<CommonCurve> curves_around(std::span<const LoafSums> lots, const CommonCurve& likeliest);

} // namespace mellowbin::dough
