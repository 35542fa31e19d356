#include "core/decimal.h"
#include "core/literature/constants.h"
#include "dough/card_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace mellowbin::dough::parts {
namespace {

OxidantScale scale_of(const Line& line) { return {line.oxidant_scale_step_g, line.oxidant_scale_error_g}; }

/// Rounds the exact dose to what the mixer can measure.
void measure(const CardInput& input, Kilograms flour, CardOxidant& oxidant) {
    if (oxidant.exact.value() <= 0)
        return;
    if (input.line.stock_solution_g_per_l > 0) {
        oxidant.stock_g_per_l = input.line.stock_solution_g_per_l;
        oxidant.pouring = pour(oxidant.exact, flour, oxidant.stock_g_per_l, oxidant.room.room);
        oxidant.resulting = oxidant.pouring->resulting;
    } else {
        oxidant.weighing =
            weigh(oxidant.exact, flour, input.oxidant_purity, scale_of(input.line), oxidant.room.room);
        oxidant.resulting = oxidant.weighing->resulting;
    }
}

/// Doses are mg per kg of all the flour of the dough; what they do is worked out on the part that carries its
/// strength, as if all of it went there (an assumption; without a second flour it is all the flour).
std::vector<MillAddition> on_strength(std::vector<MillAddition> doses, const Card& card) {
    for (auto& dose : doses)
        dose.dose = OxidantPpm{dose.dose.value() / card.strength_share};
    return doses;
}

Result<CardOxidant> work_out(const CardInput& input, const Card& card, Substance substance) {
    const auto protein = protein_of(input, card);
    auto need = oxidant_for(substance, card.maturity, input.product.maturity_target,
                            {protein, on_strength(card.carried, card)});
    if (!need)
        return need.refusals();
    CardOxidant oxidant;
    oxidant.substance = substance;
    oxidant.need = *std::move(need);
    oxidant.need.dose = OxidantPpm{oxidant.need.dose.value() * card.strength_share};
    oxidant.need.ascorbic_acid = OxidantPpm{oxidant.need.ascorbic_acid.value() * card.strength_share};
    oxidant.room = room_for(input.law, sale_of(input), substance, card.carried, input.product.house_maximum);
    oxidant.exact = std::min(oxidant.need.dose, oxidant.room.room);
    measure(input, to_kilograms(card.batch_flour), oxidant);
    oxidant.judged = judge_dose(input.law, sale_of(input), {substance, oxidant.resulting}, card.carried,
                                input.product.house_maximum);
    auto doses = card.carried;
    doses.push_back({substance, oxidant.resulting});
    auto effect = effect_of(card.maturity, on_strength(doses, card), protein);
    if (!effect)
        return effect.refusals();
    oxidant.effect = *std::move(effect);
    return oxidant;
}

void warn_of_measuring(const CardOxidant& oxidant, Card& card) {
    if (oxidant.weighing && oxidant.weighing->is_too_small)
        warn(card, CautionKind::process, CautionAt::oxidant,
             fmt::format(
                 "{:.3g} g is below the {:.3g} g this scale weighs to 5 %: use a premix or a stock solution",
                 oxidant.weighing->exact_g, oxidant.weighing->smallest_g));
    if ((oxidant.weighing && oxidant.weighing->is_rounded_down) ||
        (oxidant.pouring && oxidant.pouring->is_rounded_down))
        warn(card, CautionKind::law, CautionAt::oxidant,
             "Rounded down: the next step up would pass what is permitted");
    const bool is_bromate =
        oxidant.substance == Substance::potassium_bromate || oxidant.substance == Substance::calcium_bromate;
    if (oxidant.pouring && is_bromate && oxidant.stock_g_per_l > literature::dough_bromate_solubility.value)
        warn(
            card, CautionKind::process, CautionAt::oxidant,
            fmt::format(
                "A solution of {:g} g/L is not possible: bromate dissolves to {:g} g/L at 20 °C, less in the "
                "cold",
                oxidant.stock_g_per_l, literature::dough_bromate_solubility.value));
}

void warn_of_oxidant(const CardInput& input, const CardOxidant& oxidant, Card& card) {
    if (oxidant.need.dose.value() > 0 && oxidant.room.permission != Permission::permitted)
        warn(card, CautionKind::law, CautionAt::oxidant, oxidant.room.words + ". No dose is given");
    if (oxidant.resulting < oxidant.need.dose && oxidant.effect.maturity < input.product.maturity_target)
        warn(card, CautionKind::process, CautionAt::oxidant,
             fmt::format(
                 "{} would be needed, {} go in: the dough is as of {} % mature flour. Wait, blend or ferment "
                 "longer",
                 in_words(oxidant.need.dose), in_words(oxidant.resulting),
                 fixed(100 * oxidant.effect.maturity.value(), 0)));
    if (oxidant.effect.is_over_oxidised())
        warn(card, CautionKind::process, CautionAt::oxidant,
             "More oxidant than the protein can take up: dough may turn short and dry, loaves small. Where "
             "that begins "
             "in this flour is not known");
    warn_of_measuring(oxidant, card);
    if (oxidant.resulting.value() > 0) {
        for (auto& hazard : hazards_of(oxidant.substance))
            card.cautions.push_back(std::move(hazard));
        for (const auto& words : oxidant.need.reservations)
            warn(card, CautionKind::estimate, CautionAt::oxidant, words);
        if (flour_class_of(input.product) == FlourClass::wholemeal)
            warn(card, CautionKind::estimate, CautionAt::oxidant,
                 "The course of white flour is taken; wholemeal is believed to lose with age instead");
    }
}

} // namespace

void dose_oxidant(const CardInput& input, Card& card) {
    if (!input.product.oxidant)
        return;
    card.oxidant = work_out(input, card, *input.product.oxidant);
    if (*card.oxidant)
        warn_of_oxidant(input, **card.oxidant, card);
    else
        warn(card, CautionKind::estimate, CautionAt::oxidant,
             "No dose: " + mellowbin::in_words(card.oxidant->refusals().front()));
}

} // namespace mellowbin::dough::parts
