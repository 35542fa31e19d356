#pragma once

#include "aging/clocks.h"
#include "aging/flour_keeping.h"
#include "aging/flour_moisture.h"
#include "core/literature/constants.h"

#include <cmath>
#include <optional>

/// Formulas of the handbooks that the program does without, for rows that check its own against them.
namespace mellowbin::aging {

/// Days at 20 C in breathable bags that give this theta.
inline double equivalent_days(double theta, const Rates& rates) { return theta / rates.k20; }

/// Days to a maturity at one temperature.
inline double days_to(Maturity target, Celsius temperature, Air air, const Rates& rates) {
    const Piece one_day{1, temperature, air};
    return theta_for(target) / theta({&one_day, 1}, rates);
}

/// Arrhenius: the factor on a rate between two temperatures, from an activation energy in J/mol.
inline double q10_from_activation_energy(double joules_per_mole, Celsius from, Celsius to) {
    return arrhenius(1, from, to, joules_per_mole);
}

inline double kelvin(Celsius t) { return t.value() + literature::aging_kelvin_offset.value; }

/// The activation energy, J/mol, from a rate at each of two temperatures.
inline double activation_energy(double rate_1, Celsius at_1, double rate_2, Celsius at_2) {
    return literature::aging_gas_constant.value * std::log(rate_2 / rate_1) /
           (1 / kelvin(at_1) - 1 / kelvin(at_2));
}

/// Modified Chung-Pfost equation for wheat, Storage of Cereal Grains and Their Products, 5th ed., p. 272.
inline Moisture chung_pfost(RelativeHumidity rh, Celsius temperature) {
    const double dryness =
        -std::log(rh.value()) * (temperature.value() + literature::aging_chung_pfost_c.value);
    return from_dry_basis(-std::log(dryness / literature::aging_chung_pfost_a.value) /
                          literature::aging_chung_pfost_b.value);
}

/// By the molar mass of KOH.
inline FatAcidity to_fat_acidity(FattyAcids acids) {
    return FatAcidity{acids.value() * literature::aging_fat_acidity_per_ffa.value};
}

/// Days until fat acidity comes from one value to another at a constant rise per day: it grows linearly in
/// time (seen at 55 and 70 % relative humidity). 0 when it is there already; none when it does not rise.
inline std::optional<double> days_until(FatAcidity limit, FatAcidity now, FatAcidity rise_per_day) {
    if (now >= limit)
        return 0.0;
    if (rise_per_day.value() <= 0)
        return {};
    return (limit - now) / rise_per_day;
}

} // namespace mellowbin::aging
