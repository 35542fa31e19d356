#include "dough/water.h"

#include "core/decimal.h"
#include "core/literature/constants.h"
#include "core/promised.h"

#include <fmt/format.h>

#include <cmath>

namespace mellowbin::dough {
namespace {

/// Mass the flour would have at 14 % moisture.
Kilograms at_14(Kilograms flour, Moisture moisture) { return flour * from_14_percent(moisture); }

/// By the certificate, else as told from other lots.
Result<std::optional<double>> absorption_of(const WaterLot& lot) {
    auto measured = value_at_14(*lot.certificate, Property::absorption);
    if (lot.absorption && (!measured || !*measured))
        return std::optional<double>{lot.absorption->value()};
    return measured;
}

Refusals what_is_missing(const WaterLot& lot, const std::optional<Moisture>& moisture,
                         const Result<std::optional<double>>& absorption) {
    Refusals missing;
    if (!moisture)
        missing.push_back({lot.name, "the moisture is not known, so neither is the water it takes",
                           "Enter the moisture, as is, from the certificate or a retest"});
    if (!absorption)
        append(missing,
               {{lot.name, absorption.refusals().front().what, absorption.refusals().front().remedy}});
    else if (!*absorption)
        missing.push_back(
            {lot.name, "the absorption is not known, so neither is the water it takes",
             "Enter the farinograph absorption with its basis, from the certificate or a retest"});
    return missing;
}

} // namespace

Result<DoughWater> dough_water(std::span<const WaterLot> lots, AbsorptionPoints offset,
                               AbsorptionPoints correction, double step_kg, AbsorptionPoints deviation) {
    promised(step_kg > 0);
    Refusals refusals;
    DoughWater water;
    double absorbed = 0; // absorption times mass at 14 %
    for (const auto& lot : lots) {
        const auto moisture = lot.certificate->moisture();
        const auto absorption = absorption_of(lot);
        if (!moisture || !absorption || !*absorption) {
            append(refusals, what_is_missing(lot, moisture, absorption));
            continue;
        }
        const auto mass = at_14(lot.mass, *moisture);
        water.flour += lot.mass;
        water.flour_at_14 += mass;
        absorbed += **absorption * mass.value();
    }
    if (refusals.empty() && water.flour.value() <= 0)
        refusals.push_back({"Flour", "no flour is assigned", "Assign lots to the run"});
    if (!refusals.empty())
        return refusals;
    water.farinograph = Absorption14{absorbed / water.flour_at_14.value()};
    water.offset = offset;
    water.deviation = deviation;
    water.correction = correction;
    water.target = water.farinograph + offset + deviation + correction;
    for (const auto& lot : lots)
        water.exact += water_for(lot.mass, as_is(water.target, *lot.certificate->moisture()));
    water.as_is = AbsorptionAsIs{100 * (water.exact / water.flour)};
    water.rounded = Kilograms{std::round(water.exact.value() / step_kg) * step_kg};
    water.resulting = water.absorption_with(water.rounded);
    return water;
}

Absorption14 DoughWater::absorption_with(Kilograms water) const {
    return Absorption14{100 * ((water + flour) / flour_at_14) - 100};
}

std::optional<std::string> absorption_jump(Absorption14 now, Absorption14 last_run) {
    const auto step = now - last_run;
    if (std::abs(step.value()) <= literature::dough_absorption_jump.value)
        return {};
    return fmt::format(
        "Absorption is {} points {} than in the last run ({} against {} %): check the first dough",
        fixed(std::abs(step.value()), 1), step.value() > 0 ? "higher" : "lower", fixed(now.value(), 1),
        fixed(last_run.value(), 1));
}

std::string water_words(AbsorptionPoints from_optimum) {
    const double points = from_optimum.value();
    const auto far = fixed(std::abs(points), 1);
    if (points < -literature::dough_water_band.value)
        return fmt::format(
            "{} points below its optimum: bucky and stiff, the rounder cannot form pieces, low "
            "volume, dry crumb",
            far);
    if (points > literature::dough_water_band.value)
        return fmt::format("{} points above its optimum: slack and sticky, smears in mixer and rounder, a "
                           "diluted network, weak sidewalls",
                           far);
    return fmt::format("at its optimum, within {} points", fixed(literature::dough_water_band.value, 2));
}

} // namespace mellowbin::dough
