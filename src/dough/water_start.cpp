#include "core/decimal.h"
#include "core/literature/constants.h"
#include "dough/water_belief.h"

#include <fmt/format.h>

#include <cmath>

namespace mellowbin::dough {
namespace {

namespace lit = literature;

const char* const remedy =
    "Enter the farinograph absorption with its basis, from the certificate or a retest";

std::string signed_figure(double value) { return fmt::format("{:+.1f}", value); }

Refusal refused(std::string what) { return {"Absorption", std::move(what), remedy}; }

Refusals missing_protein(bool of_the_lot, bool of_the_last, const std::string& last_code) {
    Refusals missing;
    if (!of_the_lot)
        missing.push_back(refused("neither the absorption nor the protein of the lot is known at a basis"));
    if (!of_the_last)
        missing.push_back(
            refused(fmt::format("the protein of {}, the last lot of the mill, is not known at a "
                                "basis, so nothing can be told from the difference",
                                last_code)));
    return missing;
}

Refusal not_studied(const char* what, double difference, double studied, const std::string& last_code) {
    return refused(fmt::format("{} is {} % {} than of {}; what that does to absorption is known up to {} %",
                               what, fixed(std::abs(difference), 1), difference > 0 ? "more" : "less",
                               last_code, fixed(studied, 1)));
}

/// Words instead where it cannot be counted.
std::optional<std::string> why_no_damage(const Certificate& lot, const Certificate& last) {
    const auto* one = lot.find(Property::starch_damage);
    const auto* other = last.find(Property::starch_damage);
    if (!one || !other || !comparable_at_14(lot, Property::starch_damage) ||
        !comparable_at_14(last, Property::starch_damage))
        return "damaged starch not known of both";
    if (one->method.empty() || other->method.empty())
        return "damaged starch left out: its method is not known";
    if (one->method != other->method)
        return fmt::format("damaged starch left out: {} is not {}", one->method, other->method);
    return {};
}

double difference(const Certificate& lot, const Certificate& last, Property property) {
    return *comparable_at_14(lot, property) - *comparable_at_14(last, property);
}

Result<AbsorptionStart> from_composition(const Certificate& lot, const Certificate& last, double absorption,
                                         const std::string& last_code) {
    const double protein = difference(lot, last, Property::protein);
    if (std::abs(protein) > lit::dough_water_protein_studied.value)
        return not_studied("the protein", protein, lit::dough_water_protein_studied.value, last_code);
    AbsorptionStart start;
    start.from = AbsorptionStart::From::composition;
    double points = lit::dough_water_protein_slope.value * protein;
    std::string damage_words;
    if (auto without = why_no_damage(lot, last)) {
        start.sd = lit::dough_water_protein_only_sd.value;
        damage_words = *std::move(without);
    } else {
        const double damage = difference(lot, last, Property::starch_damage);
        if (std::abs(damage) > lit::dough_water_damage_studied.value)
            return not_studied("the damaged starch", damage, lit::dough_water_damage_studied.value,
                               last_code);
        start.sd = lit::dough_water_composition_sd.value;
        points += lit::dough_water_damage_slope.value * damage;
        damage_words = "damaged starch " + signed_figure(damage);
    }
    start.absorption = Absorption14{absorption + points};
    start.words =
        fmt::format("{} % from {} of the same mill, protein {}, {}", fixed(start.absorption.value(), 1),
                    last_code, signed_figure(protein), damage_words);
    return start;
}

} // namespace

Result<AbsorptionStart> absorption_start(const Certificate& lot, const Certificate* last,
                                         const std::string& last_code) {
    if (const auto own = absorption_of(lot))
        return AbsorptionStart{AbsorptionStart::From::certificate, *own,
                               lit::dough_water_certificate_sd.value,
                               fmt::format("{} % from its own certificate", fixed(own->value(), 1))};
    if (!last)
        return refused("the absorption is not known, and no earlier lot of the same mill is there to tell it "
                       "from");
    const auto absorption = comparable_at_14(*last, Property::absorption);
    if (!absorption)
        return refused(
            fmt::format("the absorption is not known, neither of the lot nor of {}, the last lot of "
                        "the mill",
                        last_code));
    const bool here = protein_of(lot).has_value();
    const bool there = protein_of(*last).has_value();
    if (!here || !there)
        return missing_protein(here, there, last_code);
    return from_composition(lot, *last, *absorption, last_code);
}

} // namespace mellowbin::dough
