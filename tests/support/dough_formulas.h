#pragma once

#include "core/literature/constants.h"
#include "dough/law.h"
#include "dough/oxidant.h"
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

enum class Ion { none, bromate, iodate };

inline Ion ion_of(Substance substance) {
    switch (substance) {
    case Substance::potassium_bromate:
    case Substance::calcium_bromate:
        return Ion::bromate;
    case Substance::potassium_iodate:
    case Substance::calcium_iodate:
        return Ion::iodate;
    default:
        return Ion::none;
    }
}

inline bool is_cysteine(Substance substance) {
    return substance == Substance::l_cysteine || substance == Substance::l_cysteine_hydrochloride;
}

/// The dose of another salt that brings as much of the same ion (bromate, iodate), by molar mass; calcium
/// salts as the monohydrate. Refused from one oxidant to another: they are not the same at equal equivalents.
/// L-cysteine and its hydrochloride: cysteine_as_hydrochloride(), which asks for the grade.
inline Result<OxidantPpm> as_other_salt(OxidantPpm dose, Substance from, Substance to) {
    if (from == to)
        return dose;
    if (is_cysteine(from) && is_cysteine(to))
        return Refusal{"Salt",
                       "L-cysteine hydrochloride comes anhydrous or as the monohydrate, and the dose differs",
                       "Say which grade is on the scale"};
    if (ion_of(from) == Ion::none || ion_of(from) != ion_of(to))
        return Refusal{"Salt",
                       fmt::format("{} and {} are not salts of one oxidant", name_of(from), name_of(to)),
                       "Restate between the potassium and the calcium salt of bromate, or of iodate"};
    // One ion takes up as many electrons in either salt: masses go as the masses per equivalent.
    return OxidantPpm{dose.value() * *mg_per_milliequivalent(to) / *mg_per_milliequivalent(from)};
}

} // namespace mellowbin::dough
