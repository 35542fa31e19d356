#include "core/decimal.h"
#include "dough/card_dose.h"
#include "dough/card_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace mellowbin::dough::parts {
namespace {

bool is_bromate(Substance substance) {
    return substance == Substance::potassium_bromate || substance == Substance::calcium_bromate;
}

OxidantScale scale_of(const Line& line) { return {line.oxidant_scale_step_g, line.oxidant_scale_error_g}; }

/// A solution that may be poured from: one of its kind is logged, its time is not over, and it is the line's
/// way.
bool pours(const CardInput& input, Substance substance) {
    return input.line.stock_solution_g_per_l > 0 && input.solution && !input.solution->is_past &&
           may_be_dissolved(substance);
}

/// Rounds the exact dose to what the mixer can measure: millilitres of the solution at hand, else grams.
void measure(const CardInput& input, Kilograms flour, CardOxidant& oxidant) {
    if (oxidant.exact.value() <= 0)
        return;
    if (pours(input, oxidant.substance)) {
        oxidant.solution = input.solution;
        oxidant.stock_g_per_l = input.solution->grams_per_litre;
        oxidant.pouring = pour(oxidant.exact, flour, oxidant.stock_g_per_l, oxidant.room.room);
        oxidant.resulting = oxidant.pouring->resulting;
    } else {
        oxidant.weighing =
            weigh(oxidant.exact, flour, input.oxidant_purity, scale_of(input.line), oxidant.room.room);
        oxidant.resulting = oxidant.weighing->resulting;
    }
    oxidant.exact_g = dose_grams(oxidant.resulting, flour) / input.oxidant_purity;
}

/// What the dose does, with what the mill put in.
OxidantEffect effect_on(const CardInput& input, const Card& card, const CardOxidant& oxidant) {
    auto doses = card.carried;
    doses.push_back({oxidant.substance, oxidant.resulting});
    return effect_of(card.maturity, on_strength(doses, card), protein_of(input, card), card.all_aging);
}

CardOxidant work_out(const CardInput& input, const Card& card, const WantedDose& wanted) {
    CardOxidant oxidant;
    oxidant.substance = wanted.need.substance;
    oxidant.need = wanted.need;
    oxidant.origin = wanted.origin;
    oxidant.baked = wanted.baked;
    oxidant.room =
        room_for(input.law, sale_of(input), oxidant.substance, card.carried, input.product.house_maximum);
    oxidant.wanted = wanted.dose;
    oxidant.exact = std::min(wanted.dose, oxidant.room.room);
    measure(input, to_kilograms(card.batch_flour), oxidant);
    oxidant.judged = judge_dose(input.law, sale_of(input), {oxidant.substance, oxidant.resulting},
                                card.carried, input.product.house_maximum);
    oxidant.effect = effect_on(input, card, oxidant);
    return oxidant;
}

/// The line pours, and this dose is weighed.
std::string why_not_poured(const CardInput& input, const CardOxidant& oxidant) {
    if (!oxidant.weighing || input.line.stock_solution_g_per_l <= 0)
        return {};
    if (const auto may = may_be_dissolved(oxidant.substance); !may)
        return fmt::format("Weighed, not poured: {}", may.refusals().front().what);
    if (input.solution)
        return fmt::format(
            "The stock solution's time is over ({}): weigh these grams, or make a new one and log it",
            input.solution->words);
    return fmt::format("No stock solution is logged: weigh these grams, or make one of {:g} g/L and log it",
                       input.line.stock_solution_g_per_l);
}

void warn_of_measuring(const CardInput& input, const CardOxidant& oxidant, Card& card) {
    if (oxidant.weighing && oxidant.weighing->is_too_small)
        warn(card, CautionKind::process, CautionAt::oxidant,
             fmt::format("{:.3g} g is below the {:.3g} g this scale weighs to 5 %: {}",
                         oxidant.weighing->exact_g, oxidant.weighing->smallest_g,
                         instead_of_weighing(oxidant.substance, *oxidant.weighing)));
    if (const auto words = why_not_poured(input, oxidant); !words.empty())
        warn(card, CautionKind::process, CautionAt::oxidant, words);
    if ((oxidant.weighing && oxidant.weighing->is_rounded_down) ||
        (oxidant.pouring && oxidant.pouring->is_rounded_down))
        warn(card, CautionKind::law, CautionAt::oxidant,
             "Rounded down: the next step up would pass what is permitted");
}

/// The dose asked for is not what goes in.
void warn_of_lack(const CardInput& input, OxidantPpm wanted, const CardOxidant& oxidant, Card& card) {
    if (is_withheld(oxidant))
        return;
    if (oxidant.origin == Origin::measured) {
        if (oxidant.exact < wanted)
            warn(card, CautionKind::process, CautionAt::oxidant,
                 fmt::format(
                     "By its bakes {} would be best, {} go in: loaves stay smaller. Wait, blend or ferment "
                     "longer",
                     in_words(wanted), in_words(oxidant.resulting)));
    } else if (oxidant.resulting < wanted && oxidant.effect.maturity < input.product.maturity_target) {
        warn(card, CautionKind::process, CautionAt::oxidant,
             fmt::format(
                 "{} would be needed, {} go in: the dough is as of {} % mature flour. Wait, blend or ferment "
                 "longer",
                 in_words(wanted), in_words(oxidant.resulting),
                 fixed(100 * oxidant.effect.maturity.value(), 0)));
    }
}

/// What the dose rests on.
void warn_of_grounds(const CardInput& input, const CardOxidant& oxidant, Card& card) {
    if (oxidant.origin == Origin::measured) {
        for (const auto& words : oxidant.effect.reservations)
            warn(card, CautionKind::estimate, CautionAt::oxidant, words);
        if (is_bromate(oxidant.substance)) // the dough at the mixer does not show it
            warn(card, CautionKind::estimate, CautionAt::oxidant,
                 fmt::format("{} acts {}", name_of(oxidant.substance), speed_and_stage(oxidant.substance)));
        return;
    }
    for (const auto& words : oxidant.need.reservations)
        warn(card, CautionKind::estimate, CautionAt::oxidant, words);
    if (flour_class_of(input.product) == FlourClass::wholemeal)
        warn(card, CautionKind::estimate, CautionAt::oxidant,
             "The course of white flour is taken; wholemeal is believed to lose with age instead");
}

void warn_of_oxidant(const CardInput& input, OxidantPpm wanted, const CardOxidant& oxidant, Card& card) {
    warn_of_lack(input, wanted, oxidant, card);
    if (oxidant.effect.is_over_oxidised())
        warn(card, CautionKind::process, CautionAt::oxidant,
             "More oxidant than the protein can take up: dough may turn short and dry, loaves small. Where "
             "that begins "
             "in this flour is not known");
    warn_of_measuring(input, oxidant, card);
    if (oxidant.resulting.value() > 0) {
        for (auto& hazard : hazards_of(oxidant.substance))
            card.cautions.push_back(std::move(hazard));
        warn_of_grounds(input, oxidant, card);
    }
}

/// The oxidant's own part of the card is refused; the rest stands.
void refuse(Refusals refusals, Card& card) { card.oxidant = Result<CardOxidant>(std::move(refusals)); }

} // namespace

void dose_oxidant(const CardInput& input, Card& card) {
    card.all_aging = all_aging_of(input, card);
    if (!input.product.oxidant)
        return;
    auto wanted = wanted_dose(input, card, *input.product.oxidant);
    if (!wanted)
        return refuse(wanted.refusals(), card);
    auto oxidant = work_out(input, card, *wanted);
    for (auto& words : wanted->cautions)
        card.cautions.push_back(std::move(words));
    warn_of_oxidant(input, wanted->dose, oxidant, card);
    card.oxidant = std::move(oxidant);
}

} // namespace mellowbin::dough::parts
