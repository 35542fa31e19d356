#pragma once

#include "core/quantity.h"

namespace mellowbin::aging {

/// Moisture on dry matter, %, to % of the grain as it lies. A definition.
constexpr Moisture from_dry_basis(double percent_of_dry_matter) {
    return Moisture{100 * percent_of_dry_matter / (100 + percent_of_dry_matter)};
}

enum class Wheat { soft, hard, durum };
/// Modified Henderson equation, ASAE D245 (constants from memory; the soft one is confirmed by a printed
/// value). RH above 0 and below 1.
Moisture modified_henderson(Wheat wheat, RelativeHumidity rh, Celsius temperature);
/// Flour's own linear law, read in a thesis on stored flour; made for RH 0.55 to 0.85 and 10 to 35 C
/// (that range is assumed).
Moisture flour_law(RelativeHumidity rh, Celsius temperature);

/// Which law answered.
enum class MoistureLaw { flour, hard_wheat };
struct EquilibriumMoisture {
    Moisture moisture;
    double doubt; ///< plus or minus, points
    MoistureLaw law;
};
/// The moisture that flour comes to in air of this humidity: flour's own law within its range, outside it the
/// modified Henderson equation of hard wheat (an assumption).
EquilibriumMoisture equilibrium_moisture(RelativeHumidity rh, Celsius temperature);

/// How the flour meets the air, for the speed of the drift.
enum class DriftPace { small_sample, bag_in_stack, sealed };
/// Time constant, days.
double drift_time(DriftPace pace);
/// m(t) = m_eq + (m_0 - m_eq) exp(-t/tau); days >= 0.
Moisture drifted(Moisture start, Moisture equilibrium, double days, double time_constant);

} // namespace mellowbin::aging
