#pragma once

#include "core/house_units.h"

#include <optional>
#include <string>
#include <string_view>

namespace mellowbin::app {

/// The unit of a share of one, which people read as a percentage.
inline constexpr std::string_view share_unit = "of 1";

/// A figure beside its label. Its unit is fixed (kg, g, mL, °C, %, mg/kg, share_unit): the units of the house
/// are for whoever shows it.
struct Figure {
    std::string label;
    std::optional<double> value = {}; ///< nothing: not known, or told in words
    int decimals = 0;                 ///< below 0: as many as it has
    std::string unit = {};
    std::string note = {};  ///< where it comes from
    std::string words = {}; ///< in the place of a number: "none"
};

/// What is read of it.
struct ShownFigure {
    std::string value, unit; ///< value: "–" where nothing is known
};
/// kg and °C in the units of the house, a share of one as a percentage, all else as it is.
ShownFigure shown(const Figure& figure, const HouseUnits& house = HouseUnits());

} // namespace mellowbin::app
