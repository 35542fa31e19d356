#pragma once

#include "dough/levers.h"

/// The steps of weigh_levers().
namespace mellowbin::dough::parts {

/// What every lever starts from.
struct LeverGround {
    const LeversInput& input;
    const CardInput& batch; ///< that the card is of: where it takes one lot alone, the others are not in it
    const Card& card;
    Kilograms flour; ///< of the run: the part that carries the strength
    double counted = 0;
    double target = 0;
    double missing = 0;
};

WaitLever weigh_waiting(const LeverGround& ground);
BlendLever weigh_blending(const LeverGround& ground);
OxidantLever weigh_oxidant(const LeverGround& ground);
FermentLever weigh_fermentation(const LeverGround& ground);
WaterLever weigh_water(const LeverGround& ground);
TooFar beyond(const LeverGround& ground, const OxidantLever& oxidant);
/// The mixes that meet the demand, the cheapest first.
std::vector<LeverMix> mix_levers(const LeverGround& ground, const Levers& levers);

/// The run with `share` of its strength-carrying flour from the other lot: why its windows forbid that;
/// empty: they do not.
std::string outside_windows(const LeverGround& ground, const OtherLot& lot, double share);
/// Maturity that a mg/kg of the product's oxidant stands for; 0 where that is not known.
double maturity_per_ppm(const LeverGround& ground);

} // namespace mellowbin::dough::parts
