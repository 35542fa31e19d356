#pragma once

#include "core/blend.h"
#include "core/certificate.h"

#include <fmt/format.h>

#include <algorithm>

/// Arithmetic of standards that the program does without, for rows that check its own against it.
namespace mellowbin {

/// The share of `a` in a blend of a and b that falls at `target`. Refused outside the two, or at 50 s and
/// below.
inline Result<double> share_for_falling_number(FallingNumber a, FallingNumber b, FallingNumber target) {
    const FallingNumber lowest = std::min({a, b, target});
    if (lowest.value() <= 50) {
        return Refusal{"Falling number",
                       fmt::format("{:g} s was read; above 50 s is expected", lowest.value()),
                       "Below that the liquefaction number means nothing"};
    }
    auto shares = pearson_square(to_liquefaction(a).value(), to_liquefaction(b).value(),
                                 to_liquefaction(target).value());
    if (!shares) {
        return Refusal{"Falling number",
                       fmt::format("{:g} s was read; between {:g} and {:g} s is expected", target.value(),
                                   std::min(a, b).value(), std::max(a, b).value()),
                       "Choose a target between the two flours"};
    }
    return shares->first;
}

/// Farinograph sample and result arithmetic of ISO 5530-1 (constants from memory, self-consistent).
enum class FarinographBowl { grams_300, grams_50 };

/// g of flour as is that equals 300 g or 50 g at 14 % moisture. Exact.
inline double farinograph_sample_grams(FarinographBowl bowl, Moisture moisture) {
    const double at_14 = bowl == FarinographBowl::grams_300 ? 300.0 : 50.0;
    return at_14 * to_14_percent(moisture);
}

/// % at 14 % moisture from ml titrated and the curve's maximum in FU; refused outside 480..520 FU.
inline Result<Absorption14> farinograph_absorption(FarinographBowl bowl, Moisture moisture, Millilitres water,
                                                   double maximum_fu) {
    if (maximum_fu < 480 || maximum_fu > 520) {
        return Refusal{"Maximum", fmt::format("{:g} FU was read; from 480 to 520 FU is expected", maximum_fu),
                       "Titrate again, nearer to 500 FU"};
    }
    const bool large = bowl == FarinographBowl::grams_300;
    const double corrected = water.value() + (large ? 0.096 : 0.016) * (maximum_fu - 500);
    const double over = corrected + farinograph_sample_grams(bowl, moisture) - (large ? 300 : 50);
    return Absorption14{large ? over / 3 : over * 2};
}

/// 21 CFR 137.105: ash on dry matter is at most protein on dry matter / 20 + 0.35.
inline bool meets_white_flour_ash_rule(double protein_at_14, double ash_at_14) {
    const double to_dry = 100.0 / 86.0;
    return ash_at_14 * to_dry <= protein_at_14 * to_dry / 20 + 0.35;
}

} // namespace mellowbin
