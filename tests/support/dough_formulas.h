#pragma once

#include "core/literature/constants.h"
#include "dough/law.h"
#include "dough/temperature.h"
#include "dough/water.h"
#include "dough/weigh.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

/// Sums of the trade that the program does without, for rows that check its own against them.
namespace mellowbin::dough {

inline OxidantPpm hydrochloride_as_cysteine(OxidantPpm hydrochloride, Hydrate hydrate) {
    return hydrochloride * (1 / cysteine_as_hydrochloride(OxidantPpm{1}, hydrate).value());
}

/// Refuses a stated mass that is not the stated dose: 30 mg for 30 mg/kg in 10 kg is a tenth of the 300 mg
/// meant. Also for what a mixer says went in. Within the tolerance (5 %) or one step of the scale is
/// agreement.
inline Result<Done> agrees(OxidantPpm stated, Kilograms flour, double stated_g, OxidantScale scale) {
    const double meant_g = dose_grams(stated, flour);
    const double allowed = std::max(scale.step_g, meant_g * literature::dough_weighing_tolerance.value);
    if (std::abs(stated_g - meant_g) <= allowed)
        return Done{};
    auto what = fmt::format("{:g} g was read; {:g} mg/kg in {:g} kg of flour is {:g} g", stated_g,
                            stated.value(), flour.value(), meant_g);
    for (const double factor : {10.0, 1000.0, 0.1, 0.001})
        if (std::abs(stated_g * factor - meant_g) <= meant_g * literature::dough_weighing_tolerance.value)
            what += factor == 10 || factor == 0.1 ? ": wrong by a factor of ten"
                                                  : ": grams and milligrams are mixed up";
    return Refusal{"Oxidant", what, "Weigh again, or correct the dose"};
}

/// Points of absorption for dry gluten added, % of flour: about one and a half times its mass (Cauvain &
/// Young).
inline AbsorptionPoints for_added_gluten(double percent_of_flour) {
    return AbsorptionPoints{percent_of_flour * literature::dough_gluten_water.value};
}

/// By how much to move the water of the next batch: n × (aim − measured). A positive step warms it.
inline CelsiusStep next_water(int factors, Celsius aim, Celsius measured) {
    return (aim - measured) * factors;
}

} // namespace mellowbin::dough
