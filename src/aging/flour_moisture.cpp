#include "aging/flour_moisture.h"

#include "core/literature/constants.h"
#include "core/promised.h"

#include <cmath>

namespace mellowbin::aging {
namespace {

namespace lit = literature;

struct Henderson {
    double k, n, c;
};

Henderson henderson_of(Wheat wheat) {
    switch (wheat) {
    case Wheat::soft:
        return {lit::aging_henderson_soft_k.value, lit::aging_henderson_soft_n.value,
                lit::aging_henderson_soft_c.value};
    case Wheat::hard:
        return {lit::aging_henderson_hard_k.value, lit::aging_henderson_hard_n.value,
                lit::aging_henderson_hard_c.value};
    case Wheat::durum:
        return {lit::aging_henderson_durum_k.value, lit::aging_henderson_durum_n.value,
                lit::aging_henderson_durum_c.value};
    }
    return {};
}

bool is_within_flour_law(RelativeHumidity rh, Celsius t) {
    return rh.value() >= lit::aging_isotherm_rh_low.value &&
           rh.value() <= lit::aging_isotherm_rh_high.value && t.value() >= lit::aging_isotherm_t_low.value &&
           t.value() <= lit::aging_isotherm_t_high.value;
}

} // namespace

Moisture modified_henderson(Wheat wheat, RelativeHumidity rh, Celsius temperature) {
    promised(rh.value() > 0 && rh.value() < 1);
    const auto h = henderson_of(wheat);
    return from_dry_basis(std::pow(-std::log1p(-rh.value()) / (h.k * (temperature.value() + h.c)), 1 / h.n));
}

Moisture flour_law(RelativeHumidity rh, Celsius temperature) {
    return Moisture{lit::aging_isotherm_constant.value + lit::aging_isotherm_humidity.value * rh.value() +
                    lit::aging_isotherm_temperature.value * temperature.value()};
}

EquilibriumMoisture equilibrium_moisture(RelativeHumidity rh, Celsius temperature) {
    const double doubt = lit::aging_isotherm_doubt.value;
    if (is_within_flour_law(rh, temperature))
        return {flour_law(rh, temperature), doubt, MoistureLaw::flour};
    return {modified_henderson(Wheat::hard, rh, temperature), doubt, MoistureLaw::hard_wheat};
}

double drift_time(DriftPace pace) {
    switch (pace) {
    case DriftPace::small_sample:
        return lit::aging_drift_time_small.value;
    case DriftPace::bag_in_stack:
        return lit::aging_drift_time_bag.value;
    case DriftPace::sealed:
        return lit::aging_drift_time_sealed.value;
    }
    return 1;
}

Moisture drifted(Moisture start, Moisture equilibrium, double days, double time_constant) {
    promised(days >= 0 && time_constant > 0);
    const double left = std::exp(-days / time_constant);
    return Moisture{equilibrium.value() + (start.value() - equilibrium.value()) * left};
}

} // namespace mellowbin::aging
