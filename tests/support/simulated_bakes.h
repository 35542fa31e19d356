#pragma once

#include "dough/dose_response.h"

#include <cstdint>
#include <string_view>
#include <vector>

namespace mellowbin::testing {

/// How loaves of an invented plant answer to an oxidant within what is baked.
enum class DoseShape { rising, falling, curved, flat };
std::string_view name_of(DoseShape shape);

/// Of a plant with two to ten lots.
struct PlantOfBakes {
    std::vector<dough::Ladder> ladders;
    std::vector<double> best; ///< of each lot on the day it was baked: hidden, mg/kg, up to its highest dose
    std::vector<double> highest;   ///< baked of it
    std::vector<double> now;       ///< maturity of each lot on a later day
    std::vector<double> best_then; ///< hidden, on that day
    double fall = 0;               ///< hidden: of the best dose from fresh to mature, mg/kg
    double scatter = 0;            ///< hidden: of a loaf, share of its size
    int family = 0;                ///< hidden: of responses
};

struct BakesSetup {
    DoseShape shape = DoseShape::curved;
    bool matures = false;  ///< lots are baked at differing maturities, some at two of them, and dosed later
    double two_ages = 0.4; ///< share of lots that are baked at two of them
};

/// The same plant for the same seed. The true response is none that the model has: one of four families, with
/// a gain, an optimum and a scatter of the plant's own (a loaf's standard deviation is 1.2 to 6 % of its
/// size, usually 2.5), ovens that differ by the day; ladders as people bake them, one or two loaves a dose.
PlantOfBakes simulated_bakes(const BakesSetup& setup, std::uint64_t seed);

/// How often ranges held the truth, over plants.
struct DoseCover {
    int plants = 0;
    int lots = 0;
    double cover = 0;           ///< share of the lots
    double worst_twentieth = 0; ///< 5 % quantile of the plants' own shares
    double by_chance = 0; ///< what that were if each range held or not whatever the others of the plant do
    double width = 0;     ///< mean, as a share of the highest dose baked
    double miss = 0;      ///< mean distance of the dose told from the best, the same way
};
/// The plants of the seeds from `first_seed` on.
DoseCover dose_cover(const BakesSetup& setup, int plants, std::uint64_t first_seed);

} // namespace mellowbin::testing
