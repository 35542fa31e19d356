#include "ui/views/planned_run.h"

#include "ui/views/plan_words.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::views {

using namespace ui;

namespace {

/// Below these the eye is not called: differences smaller than the figures are known to.
constexpr double strength_slack = 0.005, edge_from = 0.9;

CardGauge strength(const app::PlannedRun& run, std::string& words) {
    const double fill = run.maturity_target > 0 ? std::min(1.0, run.maturity / run.maturity_target) : 1.0;
    if (run.lots.empty()) {
        words = "no lots";
        return {"Strength", words, 0, Role::quiet};
    }
    if (run.maturity + strength_slack >= run.maturity_target) {
        words = "enough";
        return {"Strength", words, fill, Role::good};
    }
    if (run.oxidant_ppm > 0) {
        words = fmt::format("with {:.0f} mg/kg", run.oxidant_ppm);
        return {"Strength", words, fill, Role::mind};
    }
    words = "too little";
    return {"Strength", words, fill, Role::stop};
}

CardGauge windows(const app::PlannedRun& run, std::string& words) {
    const double fill = std::clamp(run.windows_fill, 0.0, 1.0);
    if (run.lots.empty()) {
        words = "no lots";
        return {"Windows", words, 0, Role::quiet};
    }
    if (run.windows_fill > 1) {
        words = run.windows_words.empty() ? "outside" : run.windows_words;
        return {"Windows", words, fill, Role::stop};
    }
    words = run.windows_fill > edge_from ? "near the edge" : "inside";
    return {"Windows", words, fill, run.windows_fill > edge_from ? Role::mind : Role::good};
}

CardGauge law(const app::PlannedRun& run, std::string& words) {
    const double fill = std::clamp(run.law_fill, 0.0, 1.0);
    if (run.law_fill > 1) {
        words = "over the limit";
        return {"Law", words, fill, Role::stop};
    }
    words = run.law_fill <= 0 ? "nothing added" : percent(run.law_fill) + " used";
    return {"Law", words, fill, run.law_fill > edge_from ? Role::mind : Role::good};
}

void draw_lot(const app::PlannedRun& run, const app::PlannedLot& lot, app::Intents& out) {
    scope(lot.lot.number(), [&] {
        text(fmt::format("{}: {} kg{}", lot.code, kilograms(lot.kg), lot.is_locked ? ", locked" : ""),
             {.weight = Weight::bold});
        text(fmt::format("{} maturity {}, estimate", sign(Role::model), percent(lot.maturity)),
             {.role = Role::model});
        if (!lot.reason.empty())
            hint(lot.reason);
        if (run.is_past)
            return;
        if (lot.is_locked) {
            if (button("Unlock " + lot.code))
                out.emplace_back(app::UnlockAssignment{run.id, lot.lot});
        } else if (button("Lock " + lot.code)) {
            out.emplace_back(app::LockAssignment{run.id, lot.lot});
        }
    });
    gap();
}

} // namespace

RunGauges::RunGauges(const app::PlannedRun& run)
    : gauges{strength(run, words[0]), windows(run, words[1]), law(run, words[2])} {}

std::string lots_in_words(const app::PlannedRun& run) {
    std::string words;
    for (const auto& lot : run.lots)
        words += fmt::format("{}{} {} kg{}", words.empty() ? "" : ", ", lot.code, kilograms(lot.kg),
                             lot.is_locked ? " (locked)" : "");
    return words;
}

void draw_run(const app::PlannedRun& run, const app::PlanModel& model, app::Intents& out) {
    const auto line = static_cast<std::size_t>(run.line);
    hint(fmt::format("{}{}, {}, run {}{}", line < model.lines.size() ? model.lines[line] + ", " : "",
                     short_day(run.day), run.market, run.code, run.is_past ? " (past)" : ""));
    fact({.label = "Needs", .value = kilograms(run.need_kg), .unit = "kg flour"});
    if (run.short_kg > 0)
        status(Role::stop, fmt::format("Short of {} kg", kilograms(run.short_kg)));
    for (const auto& reason : run.reasons)
        paragraph(reason, {.role = run.short_kg > 0 ? Role::stop : Role::ink});
    rule();
    if (run.lots.empty())
        hint("No lot is assigned. Plan the days, or add flour on Intake.");
    for (const auto& lot : run.lots)
        draw_lot(run, lot, out);
    rule();
    const RunGauges told(run);
    status(told.gauges[0].role, fmt::format("Strength: {} (maturity {} of {} asked for)", told.words[0],
                                            percent(run.maturity), percent(run.maturity_target)));
    paragraph(run.oxidant.empty() ? "Oxidant: this product goes without."
              : run.oxidant_ppm > 0
                  ? fmt::format("Oxidant: {} {:.1f} mg/kg flour", run.oxidant, run.oxidant_ppm)
                  : fmt::format("Oxidant: {} is not needed", run.oxidant));
    status(told.gauges[1].role,
           "Windows: " + (run.windows_words.empty() ? told.words[1] : run.windows_words));
    status(told.gauges[2].role, "Law: " + (run.law_words.empty() ? told.words[2] : run.law_words));
}

} // namespace mellowbin::views
