#pragma once

#include "core/certificate.h"
#include "core/house_units.h"
#include "dough/temperature.h"

#include <optional>
#include <span>
#include <string>

namespace mellowbin::dough {

/// A lot's part of the flour that takes the water.
struct WaterLot {
    std::string name; ///< as a refusal calls it
    const Certificate* certificate = nullptr;
    Kilograms mass;
    std::optional<Absorption14> absorption{}; ///< told from other lots; holds where the certificate has none
};

/// The water of a dough, all of it: a stock solution and ice are part of it.
struct DoughWater {
    Absorption14 farinograph;   ///< of the blend, by certificates
    AbsorptionPoints offset;    ///< product and line against the farinograph
    AbsorptionPoints deviation; ///< of the lots, as their batches said
    AbsorptionPoints correction;
    Absorption14 target;  ///< the four together
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
/// lots. A lot without any absorption, or without moisture, is refused by name: a missing figure is not zero.
/// `step_kg` above 0.
Result<DoughWater> dough_water(std::span<const WaterLot> lots, AbsorptionPoints offset,
                               AbsorptionPoints correction, double step_kg, AbsorptionPoints deviation = {});

/// Words when the absorption moved by more than two points from the last run of the product; nothing
/// otherwise.
std::optional<std::string> absorption_jump(Absorption14 now, Absorption14 last_run);

/// Where the water stands to the dough's optimum, and what people see: within 0.64 points (the farinograph's
/// band of 20 FU) it is right.
std::string water_words(AbsorptionPoints from_optimum);

/// Water that somebody means to give, or gave.
struct WaterGiven {
    Kilograms all; ///< ice and stock solution among it, what ingredients bring beside it
    Kilograms ice;
    std::optional<Celsius> temperature{}; ///< of the water that is no ice
    Kilograms ingredients{};              ///< water in them
};

/// Refused, every reason at once, each with what is possible instead: water that is negative or that no bread
/// dough takes (outside 30 to 110 % of the flour at 14 % moisture), ice that is negative, more than the
/// line's cap or more than all the water, water colder than the line can make it or not liquid.
/// Words are in the house's units.
Result<Done> possible_water(const WaterGiven& given, const DoughWater& dough, const ColdSource& cold,
                            const HouseUnits& house = HouseUnits{});

} // namespace mellowbin::dough
