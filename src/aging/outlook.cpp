#include "aging/outlook.h"

#include "core/literature/constants.h"
#include "core/promised.h"

namespace mellowbin::aging {
namespace {

constexpr double early = 0.1;
constexpr double likely = 0.5;
constexpr double late = 0.9;

DaySpread spread_of(const Estimate& estimate, Maturity at_least) {
    return {estimate.first_day_of(at_least, early), estimate.first_day_of(at_least, likely),
            estimate.first_day_of(at_least, late)};
}

DaySpread spread_of_age(const Estimate& estimate, double at_least) {
    return {estimate.first_day_of_age(at_least, early), estimate.first_day_of_age(at_least, likely),
            estimate.first_day_of_age(at_least, late)};
}

bool is_reached(const std::optional<Day>& turn, Day day) { return turn && *turn <= day; }

} // namespace

std::string_view name_of(Readiness readiness) {
    switch (readiness) {
    case Readiness::young:
        return "Young";
    case Readiness::usable:
        return "Usable";
    case Readiness::mature:
        return "Mature";
    case Readiness::use_first:
        return "Use first";
    case Readiness::past_best:
        return "Past its best";
    }
    return {};
}

double published_confidence() { return literature::aging_confidence.value; }

Readiness Turns::state_on(Day day) const {
    if (is_reached(past_best_from, day))
        return Readiness::past_best;
    if (is_reached(use_first_from, day))
        return Readiness::use_first;
    if (is_reached(mature_from, day))
        return Readiness::mature;
    return is_reached(usable_from, day) ? Readiness::usable : Readiness::young;
}

Turns turns(const Estimate& estimate, double confidence, const CutPoints& cuts) {
    promised(confidence > 0 && confidence < 1);
    return {estimate.first_day_of(Maturity{cuts.usable_maturity}, confidence),
            estimate.first_day_of(Maturity{cuts.mature_maturity}, confidence),
            estimate.first_day_of_age(cuts.use_first_age, likely),
            estimate.first_day_of_age(cuts.past_best_age, 1 - confidence)};
}

Outlook outlook(const Estimate& estimate, Day day, double confidence, const CutPoints& cuts) {
    Outlook result;
    result.turns = turns(estimate, confidence, cuts);
    result.now = result.turns.state_on(day);
    result.probability_mature = estimate.probability_of(Maturity{cuts.mature_maturity}, day);
    result.usable = spread_of(estimate, Maturity{cuts.usable_maturity});
    result.mature = spread_of(estimate, Maturity{cuts.mature_maturity});
    result.past_best = spread_of_age(estimate, cuts.past_best_age);
    return result;
}

std::vector<BandDay> band(const Estimate& estimate, Day first, int days, double confidence,
                          const CutPoints& cuts) {
    const auto turning = turns(estimate, confidence, cuts);
    std::vector<BandDay> result;
    for (Day day = first; day < first + Days{days}; day += Days{1})
        result.push_back({day, turning.state_on(day),
                          estimate.probability_of(Maturity{cuts.mature_maturity}, day),
                          estimate.probability_of_age(cuts.past_best_age, day)});
    return result;
}

std::vector<CurveDay> curve(const Estimate& estimate, Day first, int days) {
    std::vector<CurveDay> result;
    for (Day day = first; day < first + Days{days}; day += Days{1})
        result.push_back({day, estimate.maturity_at(early, day), estimate.maturity_at(likely, day),
                          estimate.maturity_at(late, day)});
    return result;
}

} // namespace mellowbin::aging
