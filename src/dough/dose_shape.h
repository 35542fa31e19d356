#pragma once

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

namespace mellowbin::dough {

/// A curve of size against dose has four figures: the size without oxidant, the hump (how far it stands
/// above the chord half way along), the tilt (size at the highest dose less size at none) and the lean (how
/// far it stands above that parabola where it leans most, one and four fifths along, there below); all in
/// shares of the mean size.
using CurveFigures = Eigen::Vector4d;
using CurveSpread = Eigen::Matrix4d;

/// The scale of doses, bent: what a step of dose does at first it no longer does later. 0 at no dose, 1 at
/// the highest that was baked; the curve is a parabola along it.
class DoseScale {
public:
    /// `half_way`: the dose that lies half way along, as a share of the highest; above 0, below 0.5 (there
    /// the scale would be straight). `highest` above 0, in mg/kg.
    DoseScale(double half_way, double highest)
        : bend_((1 - 2 * half_way) / (half_way * half_way)), highest_(highest) {}

    [[nodiscard]] double along(double dose) const { return std::log1p(bend_ * dose / highest_) / whole_; }
    friend bool operator==(const DoseScale&, const DoseScale&) = default;
    [[nodiscard]] double dose_at(double along) const { return highest_ * std::expm1(along * whole_) / bend_; }

private:
    double bend_;
    double highest_;
    double whole_ = std::log1p(bend_);
};

/// So that a lean of 1 is 1 where it is largest.
inline constexpr double lean_scale = 10.392304845413264;

/// What each figure of a curve counts at this place of the scale.
inline CurveFigures counts_at(double along) {
    const double hump = along * (1 - along);
    return {1, 4 * hump, along, lean_scale * hump * (1 - 2 * along)};
}

/// A curve but for its level, which does not move its top.
struct CurveForm {
    double hump = 0;
    double tilt = 0;
    double lean = 0;

    [[nodiscard]] double height(double along) const {
        const double bow = along * (1 - along);
        return 4 * bow * hump + along * tilt + lean_scale * bow * (1 - 2 * along) * lean;
    }
    /// Where along the scale, between `from` and `to`, it is highest.
    [[nodiscard]] double top(double from, double to) const {
        // Its slope is a parabola: a x^2 + b x + c.
        const double leaning = lean_scale * lean;
        const double a = 6 * leaning;
        const double b = -8 * hump - 6 * leaning;
        const double c = 4 * hump + tilt + leaning;
        double best = height(to) > height(from) ? to : from;
        const auto look_at = [&](double along) {
            if (along > from && along < to && height(along) > height(best))
                best = along;
        };
        const double under = b * b - 4 * a * c;
        if (under >= 0) {
            const double half = -(b + std::copysign(std::sqrt(under), b)) / 2; // without cancelling
            if (half != 0)
                look_at(c / half);
            if (a != 0)
                look_at(half / a);
        }
        return best;
    }
};

} // namespace mellowbin::dough
