#include "core/property.h"

#include "core/promised.h"

#include <algorithm>
#include <array>

namespace mellowbin {
namespace {

using enum BlendRule;

// Plausible ranges are those of a typing check, wider than any flour; common practice, no source.
constexpr std::array table{
    PropertyTraits{Property::moisture, "moisture", "Moisture", "%", 1, false, by_mass_as_is, 0, 30},
    PropertyTraits{Property::protein, "protein", "Protein", "%", 1, true, by_mass_at_14, 1, 40},
    PropertyTraits{Property::ash, "ash", "Ash", "%", 2, true, by_mass_at_14, 0.1, 5},
    PropertyTraits{Property::wet_gluten, "wet_gluten", "Wet gluten", "%", 1, true, by_mass_at_14, 1, 80},
    PropertyTraits{Property::gluten_index, "gluten_index", "Gluten index", "", 0, false, strength_estimate, 0,
                   100},
    PropertyTraits{Property::falling_number, "falling_number", "Falling number", "s", 0, false,
                   by_liquefaction, 60, 1200},
    PropertyTraits{Property::absorption, "absorption", "Absorption", "%", 1, true, by_mass_at_14, 40, 90},
    PropertyTraits{Property::development_time, "development_time", "Development time", "min", 1, false,
                   strength_estimate, 0, 60},
    PropertyTraits{Property::stability, "stability", "Stability", "min", 1, false, strength_estimate, 0, 90},
    PropertyTraits{Property::softening, "softening", "Softening", "FU", 0, false, strength_estimate, 0, 300},
    PropertyTraits{Property::starch_damage, "starch_damage", "Damaged starch", "%", 1, true, by_mass_at_14, 0,
                   40},
    PropertyTraits{Property::sedimentation, "sedimentation", "Sedimentation", "ml", 0, false,
                   strength_estimate, 0, 100},
    PropertyTraits{Property::extensograph_resistance, "extensograph_resistance", "Extensograph resistance",
                   "EU", 0, false, strength_estimate, 1, 2000},
    PropertyTraits{Property::extensibility, "extensibility", "Extensibility", "mm", 0, false,
                   strength_estimate, 1, 500},
    PropertyTraits{Property::extensograph_energy, "extensograph_energy", "Extensograph energy", "cm2", 0,
                   false, strength_estimate, 1, 500},
    PropertyTraits{Property::alveograph_p, "alveograph_p", "Alveograph P", "mm", 0, false, strength_estimate,
                   1, 300},
    PropertyTraits{Property::alveograph_l, "alveograph_l", "Alveograph L", "mm", 0, false, strength_estimate,
                   1, 400},
    PropertyTraits{Property::alveograph_w, "alveograph_w", "Alveograph W", "1e-4 J", 0, false,
                   strength_estimate, 1, 1000},
    PropertyTraits{Property::glutathione, "glutathione", "Glutathione, reduced", "nmol/g", 1, true,
                   by_mass_at_14, 1, 1000},
    PropertyTraits{Property::free_sulfhydryl, "free_sulfhydryl", "Free SH groups", "umol/g", 2, true,
                   by_mass_at_14, 0.01, 100},
    PropertyTraits{Property::fat_acidity, "fat_acidity", "Fat acidity", "mg KOH/100 g", 1, true,
                   by_mass_at_14, 1, 500},
};

} // namespace

std::span<const PropertyTraits> all_properties() { return table; }

const PropertyTraits& traits(Property property) {
    const auto& row = table[static_cast<std::size_t>(property)];
    promised(row.property == property);
    return row;
}

bool depends_on_method(Property property) { return property == Property::starch_damage; }

std::optional<Property> property_from_key(std::string_view key) {
    const auto row = std::find_if(table.begin(), table.end(), [&](const auto& t) { return t.key == key; });
    if (row == table.end())
        return {};
    return row->property;
}

} // namespace mellowbin
