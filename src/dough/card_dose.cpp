#include "dough/card_dose.h"

#include "core/decimal.h"
#include "core/literature/constants.h"
#include "dough/card_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace mellowbin::dough::parts {
namespace {

/// What a lot has matured by since it was baked, from which on it is told; an assumption.
constexpr double matured = 0.05;
constexpr double premix_share = 0.01;
/// Round strengths of a solution, g/L, the strongest first.
constexpr std::array strengths{10.0, 5.0, 2.0, 1.0};

/// A lot of the card that carries the strength, with its share of all the flour.
struct Carrier {
    const CardLot* lot = nullptr;
    const CardFlour* flour = nullptr;
};

std::vector<Carrier> carriers_of(const CardInput& input, const Card& card) {
    std::vector<Carrier> carriers;
    for (std::size_t i = 0; i < card.flour.size(); ++i)
        if (input.lots[i].has_target && card.flour[i].share > 0)
            carriers.push_back({&input.lots[i], &card.flour[i]});
    return carriers;
}

void caution(WantedDose& wanted, CautionKind kind, std::string words) {
    wanted.cautions.push_back({kind, CautionAt::oxidant, std::move(words), ""});
}

/// "Lot A was baked at 62 % matured, now 85 %: 4 mg/kg less than then (1 to 9 in 80 of 100)"
std::string fallen_words(const BestDose& best, const std::string& code) {
    const auto mg = [](double dose) { return fixed(dose, std::abs(dose) < 10 ? 1 : 0); };
    const auto& by = best.fallen;
    return fmt::format("Lot {} was baked at {} % matured, for this dough {} %: {} mg/kg less than its loaves "
                       "liked then ({} to {}, in 80 of 100). Bake it again to know it better",
                       code, fixed(100 * best.baked_at->value(), 0), fixed(100 * best.dosed_at->value(), 0),
                       mg(by.likely), mg(by.low), mg(by.high));
}

/// What to know of one lot's bakes before they are followed.
void caution_of(const Carrier& carrier, WantedDose& wanted) {
    const auto& lot = *carrier.lot;
    const auto& code = carrier.flour->code;
    if (lot.best_dose->is_at_the_end)
        caution(wanted, CautionKind::process,
                fmt::format("The best dose of lot {} may lie above the {} baked: bake the next higher one",
                            code, in_words(lot.best_dose->highest_baked)));
    if (const auto& best = *lot.best_dose; best.dosed_at) {
        if (best.dosed_at->value() > best.baked_at->value() + matured)
            caution(wanted, CautionKind::estimate, fallen_words(best, code));
        return;
    }
    if (lot.baked_at && lot.maturity.value() > lot.baked_at->value() + matured)
        caution(wanted, CautionKind::estimate,
                fmt::format(
                    "Lot {} has matured since it was baked, from {} to {} %: its need may have fallen. Bake "
                    "it again",
                    code, fixed(100 * lot.baked_at->value(), 0), fixed(100 * lot.maturity.value(), 0)));
}

/// Mean by mass; loaves add up, and each lot's figures lean on the same lots.
BestDose mean_of(const std::vector<Carrier>& carriers) {
    BestDose mean;
    for (const auto& [lot, flour] : carriers) {
        const auto& best = *lot->best_dose;
        // Of all the flour: what a second flour brings takes no oxidant.
        mean.dose += best.dose * flour->share;
        mean.low += best.low * flour->share;
        mean.high += best.high * flour->share;
        mean.highest_baked += best.highest_baked * flour->share;
        mean.gain += best.gain * flour->share;
        mean.gain_low += best.gain_low * flour->share;
        mean.gain_high += best.gain_high * flour->share;
        mean.loaves += best.loaves;
        mean.lots = std::max(mean.lots, best.lots);
        mean.when_baked += best.when_baked * flour->share;
        mean.fallen.low += best.fallen.low * flour->share;
        mean.fallen.likely += best.fallen.likely * flour->share;
        mean.fallen.high += best.fallen.high * flour->share;
        mean.is_at_the_end = mean.is_at_the_end || best.is_at_the_end;
        mean.is_cut_by_law = mean.is_cut_by_law || best.is_cut_by_law;
    }
    return mean;
}

/// Untreated loaves alone say nothing of a dose.
bool is_baked(const Carrier& carrier) {
    return carrier.lot->best_dose && carrier.lot->best_dose->highest_baked.value() > 0;
}

/// The need of the whole blend by its maturity, mg per kg of all the flour.
Result<OxidantNeed> need_of_blend(const CardInput& input, const Card& card, Substance substance) {
    const auto carried = on_strength(card.carried, card);
    auto need = oxidant_for(substance, card.maturity, input.product.maturity_target,
                            {protein_of(input, card), carried, card.all_aging});
    if (!need)
        return need;
    for (auto* dose : {&need->dose, &need->low, &need->high})
        *dose = OxidantPpm{dose->value() * card.strength_share};
    return need;
}

/// Lots that were baked by their bakes, the others by their own maturity.
Result<OxidantPpm> mixed(const CardInput& input, const Card& card, Substance substance,
                         const std::vector<Carrier>& carriers) {
    const auto protein = protein_of(input, card);
    OxidantPpm dose;
    for (const auto& carrier : carriers) {
        if (is_baked(carrier)) {
            dose += carrier.lot->best_dose->dose * carrier.flour->share;
            continue;
        }
        const auto guess = oxidant_for(
            substance, carrier.lot->maturity, input.product.maturity_target,
            {protein, carrier.flour->additions, ascorbic_acid_for_all_aging(carrier.lot->glutathione)});
        if (!guess)
            return guess.refusals();
        dose += guess->dose * carrier.flour->share;
    }
    return dose;
}

std::string mixed_words(const std::vector<Carrier>& carriers) {
    std::string baked;
    std::string guessed;
    for (const auto& carrier : carriers) {
        auto& list = is_baked(carrier) ? baked : guessed;
        list += (list.empty() ? "" : ", ") + carrier.flour->code;
    }
    return fmt::format(
        "Lot {} is dosed by its bakes, lot {} by its maturity, which is a starting guess: bake it "
        "too",
        baked, guessed);
}

/// The dose by bakes stands without the guess by maturity, which may lack a figure.
WantedDose by_bakes(const CardInput& input, const Card& card, Substance substance,
                    const std::vector<Carrier>& carriers) {
    WantedDose wanted;
    wanted.baked = mean_of(carriers);
    wanted.dose = wanted.baked->dose;
    wanted.origin = Origin::measured;
    wanted.need.substance = substance;
    wanted.need.missing =
        Maturity{std::max(0.0, input.product.maturity_target.value() - card.maturity.value())};
    if (auto need = need_of_blend(input, card, substance))
        wanted.need = *std::move(need);
    return wanted;
}

} // namespace

std::vector<MillAddition> on_strength(std::vector<MillAddition> doses, const Card& card) {
    for (auto& dose : doses)
        dose.dose = OxidantPpm{dose.dose.value() / card.strength_share};
    return doses;
}

Result<WantedDose> wanted_dose(const CardInput& input, const Card& card, Substance substance) {
    const auto carriers = carriers_of(input, card);
    const auto baked = std::count_if(carriers.begin(), carriers.end(), is_baked);
    WantedDose wanted;
    if (baked > 0 && baked == std::ssize(carriers)) {
        wanted = by_bakes(input, card, substance, carriers);
    } else {
        auto need = need_of_blend(input, card, substance);
        if (!need)
            return need.refusals();
        wanted.need = *std::move(need);
        wanted.dose = wanted.need.dose;
        if (baked > 0) {
            const auto dose = mixed(input, card, substance, carriers);
            if (!dose)
                return dose.refusals();
            wanted.dose = *dose;
            caution(wanted, CautionKind::estimate, mixed_words(carriers));
        }
    }
    for (const auto& carrier : carriers)
        if (is_baked(carrier))
            caution_of(carrier, wanted);
    return wanted;
}

AscorbicGuess all_aging_of(const CardInput& input, const Card& card) {
    const auto carriers = carriers_of(input, card);
    AscorbicGuess mean{};
    double carries = 0, glutathione = 0;
    bool is_measured = !carriers.empty();
    for (const auto& [lot, flour] : carriers) {
        const auto guess = ascorbic_acid_for_all_aging(lot->glutathione);
        carries += flour->share;
        mean.likely += guess.likely * flour->share;
        mean.low += guess.low * flour->share;
        mean.high += guess.high * flour->share;
        is_measured = is_measured && lot->glutathione;
        glutathione += lot->glutathione.value_or(0) * flour->share;
    }
    if (carries <= 0)
        return ascorbic_acid_for_all_aging();
    for (auto* part : {&mean.likely, &mean.low, &mean.high})
        *part = OxidantPpm{part->value() / carries};
    if (is_measured)
        mean.glutathione = glutathione / carries;
    return mean;
}

std::string instead_of_weighing(Substance substance, const Weighing& weighing) {
    std::string words;
    if (may_be_dissolved(substance)) {
        // The strongest of which a whole millilitre is still within the tolerance.
        const double least_ml = 1 / literature::dough_weighing_tolerance.value;
        double strength = strengths.back();
        for (const double round : strengths)
            if (weighing.exact_g * 1000 / round >= least_ml) {
                strength = round;
                break;
            }
        words = fmt::format("pour {} mL of a stock solution of {:g} g/L",
                            fixed(weighing.exact_g * 1000 / strength, 0), strength);
    }
    const double premix = weighing.exact_g / premix_share;
    if (premix < weighing.smallest_g)
        return words.empty() ? "make a larger batch, or weigh on a finer scale" : words;
    words +=
        fmt::format("{}weigh {} g of a 1 % premix with flour and take {} g off the flour",
                    words.empty() ? "" : ", or ", fixed(premix, 0), fixed(premix * (1 - premix_share), 0));
    return words;
}

} // namespace mellowbin::dough::parts
