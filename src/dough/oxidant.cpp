#include "dough/oxidant.h"

#include "core/literature/constants.h"
#include "dough/law.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin::dough {
namespace {

constexpr double nanograms_per_microgram = 1000; // and ug/g is mg/kg

/// Accessible sulfhydryl, milliequivalents per kg of flour: ueq per g of protein times g of protein per g.
double accessible_sh(Protein14 protein) {
    return protein.value() / 100 * literature::dough_sh_per_protein.value;
}

double scale_meq(Protein14 protein) {
    return accessible_sh(protein) / literature::dough_saturation_parts.value;
}

double scale_ascorbic() { return literature::dough_strength_dose.value; }

double whole_aging() { return ascorbic_acid_for_all_aging().value() / scale_ascorbic(); }

Refusal protein_unknown(Substance substance) {
    return {"Protein", fmt::format("not known, but the dose of {} is measured by it", name_of(substance)),
            "Enter the protein of every lot with its basis, or dose ascorbic acid"};
}

/// How far a dose lies along the curve; nothing for a substance that is not dosed by a figure.
Result<std::optional<double>> along_curve(const MillAddition& dose, std::optional<Protein14> protein) {
    if (dose.substance == Substance::ascorbic_acid)
        return std::optional{dose.dose.value() / scale_ascorbic()};
    const auto mg = mg_per_milliequivalent(dose.substance);
    if (!mg)
        return std::optional<double>{};
    if (!protein || protein->value() <= 0)
        return protein_unknown(dose.substance);
    return std::optional{dose.dose.value() / *mg / scale_meq(*protein)};
}

std::string why_not_dosed(Substance substance) {
    switch (substance) {
    case Substance::l_cysteine:
    case Substance::l_cysteine_hydrochloride:
        return "it makes dough weaker, not stronger";
    case Substance::benzoyl_peroxide:
    case Substance::acetone_peroxide:
        return "it bleaches and is for the mill only";
    case Substance::glucose_oxidase:
        return "its effect goes by the activity of the preparation: follow its own trials";
    default:
        return "no figure for its strength was found";
    }
}

std::vector<std::string> standing_reservations(Substance substance) {
    std::vector<std::string> words{"A starting guess: one fitted point and two rough ones set the curve. "
                                   "Calibrate it with bakes of this flour"};
    if (substance != Substance::ascorbic_acid)
        words.emplace_back(
            "That other oxidants follow ascorbic acid's curve by their equivalents is an assumption");
    if (substance == Substance::potassium_bromate || substance == Substance::calcium_bromate)
        words.emplace_back("Bromate acts late, in proof and oven: the dough at the mixer does not show it");
    return words;
}

} // namespace

OxidantPpm ascorbic_acid_for_all_aging() {
    const double stoichiometric = literature::dough_gsh_lost.value / 2 *
                                  literature::dough_molar_ascorbic_acid.value / nanograms_per_microgram;
    return OxidantPpm{stoichiometric / literature::dough_ascorbic_efficiency.value};
}

std::optional<double> mg_per_milliequivalent(Substance substance) {
    switch (substance) {
    case Substance::potassium_bromate:
        return literature::dough_meq_potassium_bromate.value;
    case Substance::calcium_bromate:
        return literature::dough_meq_calcium_bromate.value;
    case Substance::potassium_iodate:
        return literature::dough_meq_potassium_iodate.value;
    case Substance::calcium_iodate:
        return literature::dough_meq_calcium_iodate.value;
    case Substance::azodicarbonamide:
        return literature::dough_meq_azodicarbonamide.value;
    case Substance::calcium_peroxide:
        return literature::dough_meq_calcium_peroxide.value;
    default:
        return {};
    }
}

Result<OxidantNeed> oxidant_for(Substance substance, Maturity blend, Maturity target,
                                const FlourForOxidant& flour) {
    const auto unit = along_curve({substance, OxidantPpm{1}}, flour.protein);
    if (!unit)
        return unit.refusals();
    if (!*unit)
        return Refusal{"Oxidant",
                       fmt::format("{} is not dosed here: {}", name_of(substance), why_not_dosed(substance)),
                       "Choose another oxidant for the product, or none"};
    auto already = effect_of(blend, flour.carried, flour.protein);
    if (!already)
        return already.refusals();
    OxidantNeed need;
    need.substance = substance;
    need.missing = Maturity{std::max(0.0, target.value() - blend.value())};
    need.ascorbic_acid = ascorbic_acid_for_all_aging() * need.missing.value();
    const double rest = need.ascorbic_acid.value() / scale_ascorbic() - already->along_curve;
    need.dose = OxidantPpm{std::max(0.0, rest) / **unit};
    need.reservations = standing_reservations(substance);
    need.reservations.insert(need.reservations.end(), already->reservations.begin(),
                             already->reservations.end());
    return need;
}

Result<OxidantEffect> effect_of(Maturity blend, std::span<const MillAddition> doses,
                                std::optional<Protein14> protein) {
    OxidantEffect effect;
    Refusals refusals;
    double milliequivalents = 0;
    for (const auto& dose : doses) {
        if (dose.dose.value() <= 0)
            continue;
        const auto along = along_curve(dose, protein);
        if (!along) {
            append(refusals, along.refusals());
            continue;
        }
        if (!*along) {
            effect.reservations.push_back(fmt::format("{} of {} is left out: {}", in_words(dose.dose),
                                                      name_of(dose.substance),
                                                      why_not_dosed(dose.substance)));
            continue;
        }
        effect.along_curve += **along;
        if (const auto mg = mg_per_milliequivalent(dose.substance))
            milliequivalents += dose.dose.value() / *mg;
    }
    if (!refusals.empty())
        return refusals;
    effect.strength_index =
        100 * (1 + literature::dough_strength_gain.value * (1 - std::exp(-effect.along_curve)));
    effect.maturity = Maturity{std::min(1.0, blend.value() + effect.along_curve / whole_aging())};
    if (milliequivalents > 0)
        effect.sh_share = milliequivalents / accessible_sh(*protein);
    return effect;
}

namespace {

/// Mass per milliequivalent as chemistry has it; ascorbic acid too, which the curve of strength counts by its
/// own scale.
std::optional<double> chemical_mass(Substance substance) {
    if (substance == Substance::ascorbic_acid)
        return literature::dough_molar_ascorbic_acid.value / literature::dough_ascorbic_electrons.value;
    return mg_per_milliequivalent(substance);
}

} // namespace

Result<double> milliequivalents(std::span<const MillAddition> doses) {
    double sum = 0;
    Refusals refusals;
    for (const auto& dose : doses) {
        if (dose.dose.value() <= 0)
            continue;
        if (const auto mg = chemical_mass(dose.substance))
            sum += dose.dose.value() / *mg;
        else
            refusals.push_back(
                {"Oxidant",
                 fmt::format("{} of {} cannot be counted in milliequivalents: {}", in_words(dose.dose),
                             name_of(dose.substance), why_not_dosed(dose.substance)),
                 "Leave it out of the sum and judge it by its own bakes"});
    }
    if (!refusals.empty())
        return refusals;
    return sum;
}

Result<Done> may_be_dissolved(Substance substance) {
    const auto refused = [&](const char* why) {
        return Refusal{"Oxidant", fmt::format("{} {}", name_of(substance), why), "Weigh it in grams"};
    };
    switch (substance) {
    case Substance::azodicarbonamide: // safety card ICSC 0380: solubility in water none
        return refused("does not dissolve in water");
    case Substance::calcium_iodate: // this and the next: from memory
    case Substance::benzoyl_peroxide:
    case Substance::acetone_peroxide:
        return refused("hardly dissolves in water");
    case Substance::calcium_peroxide: // from memory
        return refused("practically does not dissolve in water, and goes to pieces in it");
    case Substance::glucose_oxidase:
        return refused("is an enzyme, dosed by the activity of its preparation");
    default:
        return Done{};
    }
}

std::string_view speed_and_stage(Substance substance) {
    switch (substance) {
    case Substance::ascorbic_acid:
        return "fast: in mixing, through its dehydro form; needs the oxygen of the air (trade handbook, "
               "second hand)";
    case Substance::azodicarbonamide:
        return "very fast: nearly done in 2.5 min of mixing, no change on resting; only once wetted (Tsen "
               "1963, "
               "Cereal Chem. 40:638)";
    case Substance::potassium_bromate:
        return "slow: late proof and early oven, little before (Nakamura 2006, Cereal Foods World 51:69)";
    case Substance::calcium_bromate:
        return "slow: late proof and early oven, as potassium bromate, whose ion it shares (Nakamura 2006, "
               "Cereal "
               "Foods World 51:69; that the salt makes no difference is an assumption)";
    case Substance::potassium_iodate:
        return "fast: in mixing (Bushuk 1961, Cereal Chem. 38:438)";
    case Substance::calcium_iodate:
        return "fast: in mixing, as potassium iodate, whose ion it shares (Bushuk 1961, Cereal Chem. 38:438; "
               "that "
               "the salt makes no difference is an assumption)";
    case Substance::calcium_peroxide:
        return "fast: in mixing, and dries the dough (common practice, no source)";
    case Substance::glucose_oxidase:
        return "by and by: needs oxygen and glucose, dries the dough (the effect goes by the preparation: "
               "Whitney "
               "2014, Cereal Chem. 91:548)";
    case Substance::l_cysteine:
    case Substance::l_cysteine_hydrochloride:
        return "softens instead of strengthening: stands for bulk time beside oxidants (Food Additives Data "
               "Book "
               "2003)";
    case Substance::benzoyl_peroxide:
        return "bleaches in the flour, at the mill (common practice, no source)";
    case Substance::acetone_peroxide:
        return "bleaches and matures in the flour, at the mill (common practice, no source)";
    case Substance::ammonium_persulphate:
    case Substance::potassium_persulphate:
        return "speed and stage not known: no figure was found";
    }
    return "not known";
}

} // namespace mellowbin::dough
