#include "app/models/run_trouble.h"

#include "app/models/dose_words.h"
#include "core/decimal.h"

#include <fmt/format.h>

namespace mellowbin::app {
namespace {

constexpr double strength_slack = 0.005, worth_a_word_kg = 0.5;

} // namespace

bool is_mature_enough(double maturity, double target) { return maturity + strength_slack >= target; }

RunTrouble trouble_of(const PlannedRun& run) {
    RunTrouble trouble;
    if (run.short_kg >= worth_a_word_kg)
        trouble.short_kg = run.short_kg;
    if (run.lots.empty())
        return trouble;
    trouble.is_weak = !is_mature_enough(run.maturity, run.maturity_target) && run.oxidant_ppm <= 0;
    trouble.is_outside = !run.windows_words.empty();
    return trouble;
}

bool is_better(const RunTrouble& now, const PlannedRun& then) {
    const RunTrouble left = trouble_of(then);
    const bool is_worse = (left.is_weak && !now.is_weak) || (left.is_outside && !now.is_outside) ||
                          left.short_kg > now.short_kg + worth_a_word_kg;
    return !is_worse && (left.short_kg < now.short_kg - worth_a_word_kg || left.is_weak < now.is_weak ||
                         left.is_outside < now.is_outside);
}

std::string standing_words(const RunTrouble& now, const PlannedRun& then) {
    std::string words;
    const auto add = [&](const std::string& more) { words += (words.empty() ? "" : " ") + more; };
    if (now.short_kg > 0)
        add(then.short_kg < worth_a_word_kg ? "Nothing is short then."
                                            : fmt::format("Still short {} kg.", fixed(then.short_kg, 0)));
    if (now.is_weak) {
        const auto reached =
            fmt::format("Maturity {:.0f} of {:.0f} %", 100 * then.maturity, 100 * then.maturity_target);
        add(then.oxidant_ppm > 0 ? fmt::format("{}, and {} mg/kg {}.", reached,
                                               dose_words(OxidantPpm{then.oxidant_ppm}), then.oxidant)
                                 : reached + ".");
    }
    if (now.is_outside)
        add(then.windows_words.empty() ? "Inside specification." : then.windows_words + ".");
    return words;
}

} // namespace mellowbin::app
