#pragma once

#include "core/certificate.h"

#include <optional>
#include <span>
#include <string>

namespace mellowbin::dough {

/// A lot's part of the flour that takes the water.
struct WaterLot {
    std::string name; ///< as a refusal calls it
    const Certificate* certificate = nullptr;
    Kilograms mass;
};

/// The water of a dough, all of it: a stock solution and ice are part of it.
struct DoughWater {
    Absorption14 farinograph; ///< of the blend, by certificates
    AbsorptionPoints offset;  ///< product and line against the farinograph
    AbsorptionPoints correction;
    Absorption14 target;  ///< the three together
    AbsorptionAsIs as_is; ///< the same on the flour as it lies, each lot at its own moisture
    Kilograms exact;
    Kilograms rounded;
    Absorption14 resulting; ///< what the rounded water comes to
    Kilograms flour;
    Kilograms flour_at_14; ///< the mass it would have at 14 % moisture

    /// What another amount of water, all of it, comes to on this flour.
    [[nodiscard]] Absorption14 absorption_with(Kilograms water) const;
};

/// Water so that flour water and added water together stay the same per kg of dry flour, summed over the
/// lots. A lot without absorption, or without moisture, is refused by name: a missing figure is not zero.
/// `step_kg` above 0.
Result<DoughWater> dough_water(std::span<const WaterLot> lots, AbsorptionPoints offset,
                               AbsorptionPoints correction, double step_kg);

/// Points of absorption for dry gluten added, % of flour: about one and a half times its mass (Cauvain &
/// Young).
AbsorptionPoints for_added_gluten(double percent_of_flour);

/// Words when the absorption moved by more than two points from the last run of the product; nothing
/// otherwise.
std::optional<std::string> absorption_jump(Absorption14 now, Absorption14 last_run);

} // namespace mellowbin::dough
