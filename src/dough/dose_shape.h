#pragma once

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

namespace mellowbin::dough {

/// A curve of size against dose has three figures: the size without oxidant, the hump (how far it stands
/// above the chord half way along) and the tilt (size at the highest dose less size at none); all in shares
/// of the mean size.
using CurveFigures = Eigen::Vector3d;
using CurveSpread = Eigen::Matrix3d;

/// The scale of doses, bent: what a step of dose does at first it no longer does later. 0 at no dose, 1 at
/// the highest that was baked; the curve is a parabola along it.
class DoseScale {
public:
    /// `half_way`: the dose that lies half way along, as a share of the highest; above 0, below 0.5 (there
    /// the scale would be straight). `highest` above 0, in mg/kg.
    DoseScale(double half_way, double highest)
        : bend_((1 - 2 * half_way) / (half_way * half_way)), highest_(highest) {}

    [[nodiscard]] double along(double dose) const {
        return std::log1p(bend_ * dose / highest_) / std::log1p(bend_);
    }
    [[nodiscard]] double dose_at(double along) const {
        return highest_ * std::expm1(along * std::log1p(bend_)) / bend_;
    }

private:
    double bend_;
    double highest_;
};

/// What each figure of a curve counts at this place of the scale.
inline CurveFigures counts_at(double along) { return {1, 4 * along * (1 - along), along}; }

/// Where along the scale, from 0 to `most`, a curve of this hump and tilt is highest.
inline double top_of(double hump, double tilt, double most) {
    if (hump > 0)
        return std::clamp((4 * hump + tilt) / (8 * hump), 0.0, most);
    return 4 * hump * (1 - most) + tilt > 0 ? most : 0;
}

} // namespace mellowbin::dough
