#pragma once

#include "app/plan/problem.h"

#include <array>

/// The book's figures as the engine counts them.
namespace mellowbin::app {

/// Properties that blend linearly and that products have windows for; falling number by its liquefaction
/// number. Strength values do not blend: they are never planned on.
inline constexpr std::array planned_properties{Property::protein,        Property::absorption,
                                               Property::falling_number, Property::ash,
                                               Property::wet_gluten,     Property::starch_damage};

inline double day_of(Day day, PlanSpan span) { return static_cast<double>((day - span.from).count()); }
inline double tonnes(Grams g) { return static_cast<double>(g.count()) * 1e-6; }
double liquefaction(double falling_number);

} // namespace mellowbin::app
