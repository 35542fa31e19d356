#include "dough/water_word.h"

#include "core/normal.h"

#include <cmath>
#include <numbers>

namespace mellowbin::dough {
namespace {

constexpr double far_out = -6;      // from here on the tail goes by its series
constexpr double hardly_any = 1e-9; // a band of less than this share is taken by its nearer end alone

double density(double x) { return std::exp(-x * x / 2) / std::sqrt(2 * std::numbers::pi); }

/// Density over share, which stays finite far out where both vanish.
double hazard(double x) { return x < far_out ? -x - 1 / x + 2 / (x * x * x) : density(x) / normal_share(x); }

/// The share of a standard normal feeling that a word cuts out, and what that does to it.
struct Cut {
    double share = 0;
    double d = 0; ///< mean of what is left
    double q = 0; ///< its mean square less 1
};

Cut below(double x) {
    const double d = -hazard(x);
    return {normal_share(x), d, x * d};
}

Cut above(double x) {
    const double d = hazard(-x);
    return {normal_share(-x), d, x * d};
}

Cut between(double low, double high) {
    // on the side of the smaller shares, whose difference keeps its digits
    const double share =
        low > 0 ? normal_share(-low) - normal_share(-high) : normal_share(high) - normal_share(low);
    if (share < hardly_any && low > 0)
        return {share, hazard(-low), low * hazard(-low)};
    if (share < hardly_any)
        return {share, -hazard(high), -high * hazard(high)};
    return {share, (density(low) - density(high)) / share,
            (low * density(low) - high * density(high)) / share};
}

} // namespace

WordCut cut_by_word(double ahead, double variance, const OperatorHabit& habit, std::optional<Feel> word,
                    const WordTrust& trust) {
    const double spread = std::sqrt(variance + habit.noise * habit.noise);
    const double low = (-habit.band - ahead) / spread, high = (habit.band - ahead) / spread;
    const auto cut = word == Feel::stiff   ? below(low)
                     : word == Feel::slack ? above(high)
                                           : between(low, high);
    const double even = word ? trust.lapse / 3 : 1;
    const double told = word ? 1 - trust.lapse : trust.silence - 1;
    const double likelihood = even + told * cut.share;
    const double meant = likelihood > 0 ? told * cut.share / likelihood : 0;
    const double d = cut.d / spread;
    return {likelihood, -meant * d,
            meant * (cut.d * cut.d - cut.q) / (spread * spread) - meant * (1 - meant) * d * d};
}

} // namespace mellowbin::dough
