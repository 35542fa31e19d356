#pragma once

#include "core/quantity.h"

#include <span>
#include <vector>

namespace mellowbin::dough {

/// The factor method: water = n × dough − (room + flour [+ preferment] + friction), n the number of
/// temperatures, water included. `others` are room and flour (three factors) or room, flour and preferment
/// (four).
Celsius water_by_factors(Celsius dough, std::span<const Celsius> others, CelsiusStep friction_factor);

/// The friction factor of a mixed batch: n × dough − the sum of all n temperatures, the water's among them.
CelsiusStep friction_factor(Celsius dough, std::span<const Celsius> all);

/// A part of the dough other than its water.
struct HeatPart {
    Kilograms mass;
    double heat = 0; ///< specific, kJ/(kg K)
    Celsius temperature;
};

/// What the heat balance of a dough needs to know.
struct DoughHeat {
    Celsius dough; ///< aimed at
    Kilograms water;
    std::vector<HeatPart> parts;
    double mixing_kj_per_kg = 0; ///< net heat of mixing into a kg of dough

    [[nodiscard]] Kilograms mass() const;
    /// Specific heat of the dough by the mixing rule, kJ/(kg K).
    [[nodiscard]] double heat() const;
};

/// Flour, by the specific heat of the mixer's balance (Cengel & Boles, problem 5-157).
HeatPart flour_part(Kilograms mass, Celsius temperature);

/// An ingredient with that much water in it, % of its mass.
HeatPart ingredient_part(Kilograms mass, double water_percent, Celsius temperature);

/// The water's temperature by the balance of heat: mixing and hydration warm the dough, water carries it off.
/// Well below 0 °C means ice. Constants of Cengel & Boles, problem 5-157.
Celsius water_by_heat_balance(const DoughHeat& dough);

/// The temperature of one water that carries off as much heat as `total` kg of water (above 0), of which
/// `ice` are ice and the rest has the temperature `water`; below 0 °C where the ice takes up more than that.
/// The inverse of chill().
Celsius as_one_water(Celsius water, Kilograms total, Kilograms ice, Celsius ice_temperature);

/// Where the line's cold comes from.
struct ColdSource {
    Celsius tap;
    Celsius coldest;     ///< what the chiller can do; the tap where it is colder
    double most_ice = 0; ///< share of the dough water, 0..1
    Celsius ice{0};      ///< 0 or below
};

/// Water and ice that together are all of the dough water.
struct WaterAndIce {
    Celsius needed;            ///< of all the water, were it one; below the coldest it takes ice
    Celsius water_temperature; ///< to set the water to
    Kilograms water;
    Kilograms ice;
    Kilograms ice_needed; ///< without the cap
    bool is_capped = false;
    CelsiusStep too_warm; ///< how much warmer the dough will be for the cap
};

/// ice = W (T_poured − T_needed)/(T_poured + melting/c_water + c_ice/c_water × |T_ice|); it replaces water kg
/// for kg. Ice above the cap is poured as water instead, and the dough gets warm by so much.
WaterAndIce chill(Celsius needed, Kilograms total, ColdSource cold, const DoughHeat& dough);

} // namespace mellowbin::dough
