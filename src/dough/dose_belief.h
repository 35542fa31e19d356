#pragma once

#include "dough/dose_fit.h"

#include <utility>
#include <vector>

namespace mellowbin::dough {

struct Band {
    double low = 0; ///< 10 %
    double likely = 0;
    double high = 0; ///< 90 %
};

/// One way to see a lot's curve: on one scale of doses, with one fall of the dose as flour matures, one
/// scatter and one difference between lots. Maturing counts as oxidant: the scale is of doses plus `fall`
/// times what the flour has gained in maturity.
struct CurveBelief {
    DoseScale scale;
    double fall = 0;   ///< mg/kg from fresh to mature
    double weight = 1; ///< how far it is believed among the others; they add up to 1
    CurveFigures figures = CurveFigures::Zero();
    CurveSpread spread = CurveSpread::Zero();
    double scatter = 0; ///< variance of a loaf
};

/// What one more loaf would teach, on average over how it may turn out.
struct Lesson {
    double width = 0; ///< of the 80 % interval of the best dose, mg/kg
    double gain = 0;  ///< in size at the best dose, share of the mean size; 0 or more
};

/// What is believed of one lot's answer to its oxidant. Doses in mg/kg, sizes in shares of the mean size.
/// Maturities are told from the one at which the scales begin; of a band the likely one counts, but where a
/// range is asked for. Beyond what was baked, its maturity counted in, loaves are taken to be as large as
/// there: a curve that still rises there says no more of mature flour than that its best dose is not known.
class LotBelief {
public:
    /// How a lot was baked.
    struct Baked {
        double maturity = 0; ///< when a loaf was last baked of it
        double highest = 0;  ///< dose, mg/kg
    };
    LotBelief(std::vector<CurveBelief> ways, const Band& maturity, const Baked& baked);

    /// Mean size at this dose, without a loaf's scatter.
    [[nodiscard]] Band size_at(double dose) const;
    /// Mean size at this dose less that at none.
    [[nodiscard]] Band gain_of(double dose) const;
    /// The dose from 0 to `most` with the largest size expected.
    [[nodiscard]] double best(double most) const;
    /// Where the optimum lies from 0 to `most`, with 80 % (see band_between); `likely` is its median.
    [[nodiscard]] Band optimum(double most) const;
    /// How much less that is than it was when it was baked.
    [[nodiscard]] Band fallen(double most) const;
    [[nodiscard]] Lesson lesson_of(double dose, double most) const;
    /// The same belief in fewer ways, rougher and quicker to ask.
    [[nodiscard]] LotBelief rough() const;

private:
    template <class Visit> void visit(Visit&& visit) const;
    [[nodiscard]] double expected(double dose, double most) const;
    [[nodiscard]] double search(double most, int steps) const;
    [[nodiscard]] LotBelief after(double dose, double size) const;
    [[nodiscard]] Band difference(double dose, bool from_none) const;
    [[nodiscard]] double along(const CurveBelief& way, double dose) const;

    /// The mean curve of all ways that have the scale in common, times what they weigh.
    struct MeanCurve {
        DoseScale scale;
        double on = 0;       ///< mg/kg that maturing stands for
        double on_baked = 0; ///< and stood for when it was baked
        CurveFigures figures;
    };
    void find_means();

    std::vector<CurveBelief> ways_;
    std::vector<MeanCurve> means_;
    Band maturity_;
    Baked baked_;
};

/// 10, 50 and 90 % of what weighs alike. Not empty; it is left in another order.
Band band_of(std::vector<double>& values);
/// The median, and an interval that holds 80 % or more of what weighs alike and lies between two ends: a
/// tenth to either side outside, or up to 16 % to one side where more than a tenth lies on the other end
/// itself.
Band band_between(std::vector<double>& values, double least, double most);

} // namespace mellowbin::dough
