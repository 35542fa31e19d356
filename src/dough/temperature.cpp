#include "dough/temperature.h"

#include "core/ingredient.h"
#include "core/literature/constants.h"
#include "core/promised.h"

#include <algorithm>

namespace mellowbin::dough {
namespace {

double sum(std::span<const Celsius> temperatures) {
    double total = 0;
    for (const auto temperature : temperatures)
        total += temperature.value();
    return total;
}

/// What a kg of ice takes up until it is water of this temperature, as kg of water by one degree.
double ice_worth(Celsius water, Celsius ice) {
    const double melting = literature::dough_ice_melting.value / literature::dough_ice_water_heat.value;
    const double warming = literature::dough_ice_heat.value / literature::dough_ice_water_heat.value;
    return water.value() + melting + warming * std::max(0.0, -ice.value());
}

} // namespace

Celsius water_by_factors(Celsius dough, std::span<const Celsius> others, CelsiusStep friction) {
    const auto factors = static_cast<double>(others.size()) + 1;
    return Celsius{factors * dough.value() - sum(others) - friction.value()};
}

CelsiusStep friction_factor(Celsius dough, std::span<const Celsius> all) {
    return CelsiusStep{static_cast<double>(all.size()) * dough.value() - sum(all)};
}

Kilograms DoughHeat::mass() const {
    Kilograms all = water;
    for (const auto& part : parts)
        all += part.mass;
    return all;
}

double DoughHeat::heat() const {
    double all = water.value() * literature::dough_heat_of_water.value;
    for (const auto& part : parts)
        all += part.mass.value() * part.heat;
    return all / mass().value();
}

HeatPart flour_part(Kilograms mass, Celsius temperature) {
    return {mass, literature::dough_heat_of_flour.value, temperature};
}

HeatPart ingredient_part(Kilograms mass, double water_percent, Celsius temperature) {
    return {mass, specific_heat(water_percent), temperature};
}

Celsius water_by_heat_balance(const DoughHeat& dough) {
    promised(dough.water.value() > 0);
    double carried_off =
        (dough.mixing_kj_per_kg + literature::dough_heat_of_hydration.value) * dough.mass().value();
    for (const auto& part : dough.parts)
        carried_off -= part.mass.value() * part.heat * (dough.dough - part.temperature).value();
    return dough.dough -
           CelsiusStep{carried_off / (dough.water.value() * literature::dough_heat_of_water.value)};
}

Celsius as_one_water(Celsius water, Kilograms total, Kilograms ice, Celsius ice_temperature) {
    promised(total.value() > 0);
    return water - CelsiusStep{(ice / total) * ice_worth(water, ice_temperature)};
}

WaterAndIce chill(Celsius needed, Kilograms total, ColdSource cold, const DoughHeat& dough) {
    const Celsius coldest = std::min(cold.tap, cold.coldest);
    if (needed >= coldest)
        return {needed, needed, total, {}, {}, false, {}};
    WaterAndIce mix;
    mix.needed = needed;
    mix.water_temperature = coldest;
    const double worth = ice_worth(coldest, cold.ice);
    mix.ice_needed = total * ((coldest - needed).value() / worth);
    mix.ice = std::min(mix.ice_needed, total * cold.most_ice);
    mix.water = total - mix.ice;
    mix.is_capped = mix.ice < mix.ice_needed;
    if (mix.is_capped) {
        const double heat =
            (mix.ice_needed - mix.ice).value() * worth * literature::dough_ice_water_heat.value;
        mix.too_warm = CelsiusStep{heat / (dough.mass().value() * dough.heat())};
    }
    return mix;
}

} // namespace mellowbin::dough
