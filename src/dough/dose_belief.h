#pragma once

#include "dough/dose_fit.h"

#include <utility>
#include <vector>

namespace mellowbin::dough {

/// One lot's curve on one scale of doses.
struct CurveBelief {
    DoseScale scale;
    double weight = 1; ///< how far this scale is believed among the others; they add up to 1
    CurveFigures figures = CurveFigures::Zero();
    CurveSpread spread = CurveSpread::Zero();
    double scatter = 0; ///< variance of a loaf
};

struct Band {
    double low = 0; ///< 10 %
    double likely = 0;
    double high = 0; ///< 90 %
};

/// What one more loaf would teach, on average over how it may turn out.
struct Lesson {
    double width = 0; ///< of the 80 % interval of the best dose, mg/kg
    double gain = 0;  ///< in size at the best dose, share of the mean size; 0 or more
};

/// What is believed of one lot's answer to its oxidant. Doses in mg/kg, sizes in shares of the mean size.
class LotBelief {
public:
    explicit LotBelief(std::vector<CurveBelief> scales) : scales_(std::move(scales)) {}

    /// Mean size at this dose, without a loaf's scatter.
    [[nodiscard]] Band size_at(double dose) const;
    /// Mean size at this dose less that at none.
    [[nodiscard]] Band gain_of(double dose) const;
    /// The dose from 0 to `most` with the largest size expected.
    [[nodiscard]] double best(double most) const;
    /// Where the optimum lies from 0 to `most`; `likely` is its median.
    [[nodiscard]] Band optimum(double most) const;
    [[nodiscard]] Lesson lesson_of(double dose, double most) const;

private:
    [[nodiscard]] double expected(double dose) const;
    [[nodiscard]] double search(double most, int steps) const;
    [[nodiscard]] LotBelief after(double dose, double size) const;
    [[nodiscard]] Band difference(double dose, bool from_none) const;

    std::vector<CurveBelief> scales_;
};

} // namespace mellowbin::dough
