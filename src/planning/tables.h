#pragma once

#include "planning/problem.h"

#include <cstdint>
#include <vector>

namespace mellowbin::planning {

/// The most hinges a run's cost can have: two sides of each window, and two for maturity and oxidant.
inline constexpr int most_hinges = 2 * most_properties + 2;

/// What every lot would mean for one run, worked out once. The run's cost is convex and piecewise linear in
/// its lots: a linear part for each lot, the shortage, and hinges. A hinge is a weighted linear form of the
/// blend that costs only above zero: below a window's low, above its high, maturity that oxidant fills,
/// maturity that it cannot. All figures are in currency for the whole fill; locked flour is the `base` every
/// blend starts from.
struct RunTable {
    int run = -1;
    double fill_t = 0; ///< what is left to fill beside the locks; 0 for a run that is frozen or full
    double locked_t = 0;
    double short_cost = 0; ///< of leaving the whole fill short
    double share = 0;      ///< least share of a lot, as a fraction of the fill, when the run is full
    double locked_share =
        0; ///< least share's part that the locked flour alone asks for, as a fraction of the fill
    double tonne_share = 0; ///< the product's least share
    int max_free_lots = 0;  ///< beside the locked ones
    double batch_share = 0; ///< of the fill; above 0: whole batches of one lot each, hinges are in `linear`
    int hinges = 0;
    std::vector<int> lot;             ///< candidates; no locked lot is among them
    std::vector<double> linear;       ///< per candidate
    double least_linear = 0;          ///< the least of these
    std::vector<double> pure;         ///< candidate-major: each hinge if the candidate alone filled the run
    std::vector<double> pure_cost;    ///< per candidate: its positive hinges added up
    std::vector<std::uint64_t> over;  ///< per candidate: bit k set where hinge k is above zero
    std::vector<double> base;         ///< per hinge
    std::vector<double> hinge_weight; ///< per hinge: currency per t x unit
    std::vector<double> law; ///< per candidate, t x ppm above the cap; empty where the cap cannot be reached
    double law_base = 0;
    double fixed_cost = 0; ///< of the locked lots' age, price and past best

    [[nodiscard]] int count() const { return static_cast<int>(lot.size()); }
    [[nodiscard]] const double* pure_of(int c) const {
        return pure.data() + static_cast<std::ptrdiff_t>(c) * hinges;
    }
    /// What the candidate adds to the hinge.
    [[nodiscard]] double step(int c, int k) const { return pure_of(c)[k] - base[k]; }
};

struct Tables {
    std::vector<RunTable> runs;           ///< as Problem::runs
    std::vector<double> free_t;           ///< per lot: stock that no lock takes
    std::vector<std::vector<int>> locked; ///< per run: the lots locked to it
    std::vector<std::vector<int>> next;   ///< per run: the runs that follow it on their lines
    double constant = 0; ///< objective of a plan = constant + cost of its runs' fills + lot changes
};

/// The problem must have passed check().
Tables make_tables(const Problem& problem);

} // namespace mellowbin::planning
