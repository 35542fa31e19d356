#pragma once

#include "core/bake.h"
#include "core/day.h"
#include "core/id.h"
#include "core/limit.h"
#include "core/quantity.h"

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace mellowbin::dough {

/// One loaf of a bake ladder: what the bakery added of one oxidant, beside what the mill had put in, and how
/// large it became.
struct LadderLoaf {
    OxidantPpm dose;                       ///< 0 or more
    double size = 0;                       ///< ml or mm, above 0; one measure in all ladders of a response
    std::optional<Maturity> maturity = {}; ///< of the flour on the day, likely; nothing: not known
    Day baked_on = {};                     ///< loaves of one day have its oven in common
};

/// A figure with its 80 % interval.
struct Within {
    double low = 0;
    double likely = 0;
    double high = 0;
};

/// How much less of an oxidant mature flour is believed to like than fresh flour before a ladder shows it:
/// lognormal, mg/kg.
struct DoseFall {
    double likely = 0; ///< 0: not known, told from the doses that were baked
    double spread = 0; ///< standard deviation of its logarithm
};
/// Of the literature table: a starting guess for ascorbic acid, nothing but the doses baked for the others.
DoseFall assumed_fall(Substance substance);

/// The loaves of one lot, by one process.
struct Ladder {
    LotId lot;
    std::vector<LadderLoaf> loaves;
};

/// What a lot's loaves, with those of the other lots behind them, say of its oxidant.
struct BestDose {
    OxidantPpm dose;          ///< with the largest loaf expected
    OxidantPpm low;           ///< 80 % interval of where the optimum lies: to hold in 80 of 100
    OxidantPpm high;          ///< never above the highest dose baked, nor above what is permitted
    OxidantPpm highest_baked; ///< of the lot; of all lots where it has no loaf with oxidant
    double gain = 0;          ///< in size over no oxidant, likely; of `dose`
    double gain_low = 0;      ///< 80 % interval
    double gain_high = 0;
    int loaves = 0;                   ///< of the lot itself
    int lots = 0;                     ///< that stand behind it, itself among them
    bool is_at_the_end = false;       ///< the optimum may lie above what was baked: it is not known
    bool is_cut_by_law = false;       ///< the loaves would like more than is permitted
    std::optional<Maturity> baked_at; ///< of the flour when a loaf was last baked of it, likely
    std::optional<Maturity> dosed_at; ///< and as it is dosed; nothing: it is dosed as it was baked
    OxidantPpm when_baked;            ///< the best dose as it was baked
    /// How much less it is for maturing since, mg/kg; 80 % interval. All 0 where nothing is known of that.
    Within fallen;
};

/// What the next loaf of a lot would teach.
struct NextDose {
    OxidantPpm dose;
    /// Width of the 80 % interval of the best dose, mg/kg; where the optimum may lie above what was baked, of
    /// the range up to one step above it (which this loaf would open).
    double interval_now = 0;
    double interval_expected = 0; ///< the same after this loaf, on average
    double gain_expected = 0;     ///< in size, by choosing the dose better; 0 or more
};

/// A point of a lot's curve: size against dose, 10, 50 and 90 %, of the mean of loaves (without their
/// scatter).
struct DosePoint {
    OxidantPpm dose;
    double low = 0;
    double likely = 0;
    double high = 0;
};

/// How loaves answer to one oxidant: each lot has its own curve with an optimum and a decline beyond it, and
/// all lots have something in common (a hierarchical normal model). What the lots have in common is learned
/// from the ladders given; with few of them a weak prior, marked as an assumption in the literature table,
/// holds. Pure arithmetic: the same ladders give the same answer.
class DoseResponse {
public:
    /// Loaves of several ladders of one lot are taken together. Ladders without loaves are passed over.
    explicit DoseResponse(std::span<const Ladder> ladders, const DoseFall& fall = {});
    ~DoseResponse();
    DoseResponse(DoseResponse&&) noexcept;
    DoseResponse& operator=(DoseResponse&&) noexcept;

    [[nodiscard]] bool knows_nothing() const; ///< no loaf at all
    /// Of a lot with loaves, or of one without any, for which the others stand. `permitted`: what law and
    /// house leave to the bakery. `now`: how far the flour has matured when it is dosed; nothing: as when a
    /// loaf was last baked of it. Not to be asked while it knows nothing.
    [[nodiscard]] BestDose best_dose(LotId lot, OxidantPpm permitted,
                                     const std::optional<MaturityRange>& now = {}) const;
    /// The doses worth baking next for this lot, the most telling first: half steps of the ladders from 0 to
    /// the highest dose baked, and one step above it; none above `permitted`.
    [[nodiscard]] std::vector<NextDose> next_doses(LotId lot, OxidantPpm permitted,
                                                   const std::optional<MaturityRange>& now = {}) const;
    /// From 0 to the highest dose baked, `points` of them (2 or more), in flour as when a loaf was last baked
    /// of it.
    [[nodiscard]] std::vector<DosePoint> curve(LotId lot, int points) const;
    /// How much less fully mature flour likes than fresh flour, mg/kg.
    [[nodiscard]] Within fall() const;
    /// How far apart in maturity the loaves were baked; 0: nothing that the ladders say of that.
    [[nodiscard]] double maturity_baked_over() const;
    /// Likely maturity of the lot when a loaf was last baked of it; nothing: not known.
    [[nodiscard]] std::optional<Maturity> baked_at(LotId lot) const;
    /// Scatter of a loaf around its lot's curve, standard deviation, in size.
    [[nodiscard]] double loaf_scatter() const;

private:
    struct Belief;
    std::unique_ptr<Belief> belief_;
};

} // namespace mellowbin::dough
