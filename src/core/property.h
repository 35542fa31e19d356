#pragma once

#include <optional>
#include <span>
#include <string_view>

namespace mellowbin {

/// What a laboratory reports about a flour.
enum class Property {
    moisture,
    protein,
    ash,
    wet_gluten,
    gluten_index,
    falling_number,
    absorption,
    development_time,
    stability,
    softening,
    starch_damage,
    sedimentation,
    extensograph_resistance,
    extensibility,
    extensograph_energy,
    alveograph_p,
    alveograph_l,
    alveograph_w,
    glutathione,
    free_sulfhydryl,
    fat_acidity,
};

/// How the value of a blend follows from its parts.
enum class BlendRule {
    by_mass_as_is,     ///< moisture: linear in mass as it lies there
    by_mass_at_14,     ///< linear in mass on one moisture basis
    by_liquefaction,   ///< falling number: 6000/(FN-50) is linear (ISO 3093)
    strength_estimate, ///< not linear; the mass mean is shown as an estimate and never scheduled on
};

struct PropertyTraits {
    Property property;
    std::string_view key;  ///< in files and in the book: "protein"
    std::string_view name; ///< on screen: "Protein"
    std::string_view unit; ///< as shown: "%", "s", "mm"
    int decimals;          ///< as reported
    bool has_basis;        ///< means nothing without a moisture basis
    BlendRule blend;
    double lowest;  ///< below this it is a typing error, not a flour
    double highest; ///< above this, too
};

std::span<const PropertyTraits> all_properties();
const PropertyTraits& traits(Property property);
/// Results of different methods are different numbers: the same six flours read 11.7 and 7.4 % of damaged
/// starch by AACC 76-30A, 7.2 and 4.7 % by 76-31 (Rogers et al. 1994, Cereal Chem. 71:578-581).
bool depends_on_method(Property property);
std::optional<Property> property_from_key(std::string_view key);

} // namespace mellowbin
