#pragma once

#include "core/quantity.h"
#include "core/result.h"

#include <string>

namespace mellowbin::dough {

/// The scale the oxidant is weighed on.
struct OxidantScale {
    double step_g = 0;
    double error_g = 0; ///< most it may be wrong by
};

/// A dose made ready for the scale. Exact, as told to the mixer, and what that comes to.
struct Weighing {
    double exact_g = 0;
    double rounded_g = 0;         ///< a whole number of steps; 0 when not even one fits
    OxidantPpm resulting;         ///< of the active substance
    double smallest_g = 0;        ///< below it the scale's error is more than the tolerance of the dose
    bool is_too_small = false;    ///< the rounded mass is below smallest_g: use a premix or a stock solution
    bool is_rounded_down = false; ///< by the room, against the nearest step
};

/// grams = mg/kg × kg / 1000 / purity (mass share of active substance, above 0 to 1), to the nearest step,
/// but down when the rounded mass and the scale's error together would pass the room. A limit is never
/// rounded up.
Weighing weigh(OxidantPpm dose, Kilograms flour, double purity, OxidantScale scale, OxidantPpm room);

/// A dose as millilitres of a stock solution, whole ones. Its water is part of the dough's.
struct Pouring {
    Millilitres exact;
    Millilitres rounded;
    OxidantPpm resulting;
    Kilograms water; ///< to take off the dough water; a dilute solution is taken to weigh as water does
    bool is_rounded_down = false;
};

/// mL = mg/kg × kg / (g/L), to whole millilitres, down when the next would pass the room. `grams_per_litre`
/// above 0.
Pouring pour(OxidantPpm dose, Kilograms flour, double grams_per_litre, OxidantPpm room);

/// The smallest mass a scale weighs within the tolerance: error / tolerance (5 %, a training rule).
double smallest_weighable_g(OxidantScale scale);

} // namespace mellowbin::dough
