#include "dough/oxidant.h"

#include "core/decimal.h"
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

double scale_ascorbic() { return literature::dough_strength_dose.value; }

std::string why_not_dosed(Substance substance) {
    switch (substance) {
    case Substance::ascorbic_acid:
        return "it is no oxidant itself: it works through the oxygen of the air";
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

/// Factor either way of what 95 % of flours lie within: of the whole guess, and of the free glutathione
/// alone.
double half_width(const literature::Constant& of) { return std::log(of.high / of.low) / 2; }

std::string guess_words(const AscorbicGuess& guess, double missing, const OxidantNeed& need) {
    const std::string by = guess.glutathione ? fmt::format("by its own glutathione, {} nmol/g when fresh",
                                                           fixed(*guess.glutathione, 0))
                                             : "of flours of which nothing more is known";
    return fmt::format(
        "A starting guess: {} mg/kg of ascorbic acid for {} % of the aging ({}), 95 % between {} and {}. "
        "Bake this flour: its bakes take the guess's place",
        fixed(guess.likely.value() * missing, 1), fixed(100 * missing, 0), by, fixed(need.low.value(), 1),
        fixed(need.high.value(), 1));
}

OxidantPpm of_ascorbic_acid(std::span<const MillAddition> doses) {
    OxidantPpm sum;
    for (const auto& dose : doses)
        if (dose.substance == Substance::ascorbic_acid)
            sum += dose.dose;
    return sum;
}

Refusal only_bakes_say(Substance substance) {
    return {"Oxidant",
            fmt::format("how much {} makes up for missing maturity is not known: {}", name_of(substance),
                        mg_per_milliequivalent(substance)
                            ? "no oxidant is turned into maturity or into ascorbic acid by its chemistry"
                            : why_not_dosed(substance)),
            "Bake a series of it on these lots: the card then goes by their bakes. Or choose ascorbic acid, "
            "another substance, or none"};
}

} // namespace

AscorbicGuess ascorbic_acid_for_all_aging(std::optional<double> fresh_glutathione) {
    const auto& all = literature::dough_ascorbic_all_aging;
    if (!fresh_glutathione)
        return {OxidantPpm{all.value}, OxidantPpm{all.low}, OxidantPpm{all.high}};
    const double lost = -literature::aging_change_glutathione.value * *fresh_glutathione;
    const double stoichiometric =
        lost / 2 * literature::dough_molar_ascorbic_acid.value / nanograms_per_microgram;
    const double likely = stoichiometric / literature::dough_ascorbic_efficiency.value;
    const double whole = half_width(all), of_flours = half_width(literature::dough_gsh_lost);
    const double factor = std::exp(std::sqrt(whole * whole - of_flours * of_flours));
    return {OxidantPpm{likely}, OxidantPpm{likely / factor}, OxidantPpm{likely * factor}, fresh_glutathione};
}

bool is_dosed_by_maturity(Substance substance) { return substance == Substance::ascorbic_acid; }

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
    OxidantNeed need;
    need.substance = substance;
    need.missing = Maturity{std::max(0.0, target.value() - blend.value())};
    const double missing = need.missing.value();
    if (!is_dosed_by_maturity(substance)) {
        if (missing > 0)
            return only_bakes_say(substance);
        return need;
    }
    const auto& guess = flour.all_aging;
    const double mill = of_ascorbic_acid(flour.carried).value();
    const auto rest = [&](OxidantPpm all) { return OxidantPpm{std::max(0.0, all.value() * missing - mill)}; };
    need.dose = rest(guess.likely);
    need.low = rest(guess.low);
    need.high = rest(guess.high);
    if (missing > 0)
        need.reservations.push_back(guess_words(guess, missing, need));
    auto already = effect_of(blend, flour.carried, flour.protein, guess);
    need.reservations.insert(need.reservations.end(), already.reservations.begin(),
                             already.reservations.end());
    return need;
}

OxidantEffect effect_of(Maturity blend, std::span<const MillAddition> doses, std::optional<Protein14> protein,
                        const AscorbicGuess& all_aging) {
    OxidantEffect effect;
    double milliequivalents = 0;
    for (const auto& dose : doses) {
        if (dose.dose.value() <= 0 || dose.substance == Substance::ascorbic_acid)
            continue;
        const auto mg = mg_per_milliequivalent(dose.substance);
        if (mg)
            milliequivalents += dose.dose.value() / *mg;
        effect.reservations.push_back(
            mg ? fmt::format(
                     "{} of {} strengthen too: how much of the missing maturity that makes up for is not "
                     "known",
                     in_words(dose.dose), name_of(dose.substance))
               : fmt::format("{} of {} is left out: {}", in_words(dose.dose), name_of(dose.substance),
                             why_not_dosed(dose.substance)));
    }
    const double ascorbic = of_ascorbic_acid(doses).value();
    effect.along_curve = ascorbic / scale_ascorbic();
    effect.strength_index =
        100 * (1 + literature::dough_strength_gain.value * (1 - std::exp(-effect.along_curve)));
    effect.maturity = Maturity{std::min(1.0, blend.value() + ascorbic / all_aging.likely.value())};
    if (milliequivalents > 0 && protein && protein->value() > 0)
        effect.sh_share = milliequivalents / accessible_sh(*protein);
    else if (milliequivalents > 0)
        effect.reservations.emplace_back(
            "The protein is not known, and so not whether more oxidant goes in than "
            "it can take up");
    return effect;
}

Result<double> milliequivalents(std::span<const MillAddition> doses) {
    double sum = 0;
    Refusals refusals;
    for (const auto& dose : doses) {
        if (dose.dose.value() <= 0)
            continue;
        if (const auto mg = mg_per_milliequivalent(dose.substance))
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
