#include "ui/views/plan/planned_run.h"

#include "app/acts/assignments.h"
#include "app/acts/intent.h"
#include "app/acts/levers.h"
#include "app/models/plan.h"
#include "app/models/planned_run.h"
#include "ui/views/common/day_words.h"
#include "ui/views/levers/page.h"

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
        words = fmt::format("with {:.2f} mg/kg", run.oxidant_ppm);
        return {"Strength", words, fill, Role::mind};
    }
    words = "too little";
    return {"Strength", words, fill, Role::stop};
}

CardGauge windows(const app::PlannedRun& run, std::string& words) {
    const double fill = std::clamp(run.windows_fill, 0.0, 1.0);
    if (run.lots.empty()) {
        words = "no lots";
        return {"Specification", words, 0, Role::quiet};
    }
    if (run.windows_fill > 1) {
        words = run.windows_words.empty() ? "outside" : run.windows_words;
        return {"Specification", words, fill, Role::stop};
    }
    words = run.windows_fill > edge_from ? "near the edge" : "inside";
    return {"Specification", words, fill, run.windows_fill > edge_from ? Role::mind : Role::good};
}

using Ruling = app::CardVerdict::Ruling;

Role role_of(Ruling ruling) {
    return ruling == Ruling::mix ? Role::good : ruling == Ruling::answer_first ? Role::mind : Role::stop;
}

/// Something stands against the next batch that a planner can do something about: bags are scanned at the
/// bowl.
bool has_verdict_to_tell(const app::PlannedRun& run) {
    return run.verdict && std::any_of(run.verdict->reasons.begin(), run.verdict->reasons.end(),
                                      [](const auto& reason) { return reason.key != "bags_not_scanned"; });
}

/// What stands against the next batch comes before the share of the law's room.
CardGauge law(const app::PlannedRun& run, std::string& words) {
    if (has_verdict_to_tell(run)) {
        words = run.verdict->words;
        return {"Card", words, 1, role_of(run.verdict->ruling)};
    }
    const double fill = std::clamp(run.law_fill, 0.0, 1.0);
    if (!run.dose_withheld.empty() || run.keeping_withheld) {
        words = run.dose_withheld.empty() ? "preservative withheld"
                : run.keeping_withheld    ? "doses withheld"
                                          : "dose withheld";
        return {"Law", words, fill, Role::stop};
    }
    if (run.law_fill > 1) {
        words = "over the limit";
        return {"Law", words, fill, Role::stop};
    }
    words = run.law_fill <= 0 ? "nothing added" : percent(run.law_fill) + " used";
    return {"Law", words, fill, run.law_fill > edge_from ? Role::mind : Role::good};
}

void draw_lock(const app::PlannedRun& run, const app::PlannedLot& lot, bool is_chosen, app::Intents& out) {
    const auto key = is_chosen ? std::string_view("F7") : std::string_view();
    if (lot.is_locked) {
        if (button("Unlock " + lot.code, {.key = key}))
            out.emplace_back(app::UnlockAssignment{run.id, lot.lot});
    } else if (button("Lock " + lot.code, {.key = key})) {
        out.emplace_back(app::LockAssignment{run.id, lot.lot});
    }
}

/// Touched, its part is chosen on the board; then it can be given to another run.
void draw_lot_buttons(const app::PlannedRun& run, const app::PlannedLot& lot, BoardState& board,
                      app::Intents& out) {
    const bool is_chosen = chosen_lot(run, board.lot) == share_key(lot);
    flow([&] {
        draw_lock(run, lot, is_chosen, out);
        if (is_chosen && button("Give " + lot.code, {.key = "F9"}))
            board.pick_up({run.id.number(), share_key(lot)});
        if (!is_chosen && button("Choose " + lot.code, {.kind = ButtonKind::quiet}))
            board.lot = share_key(lot);
    });
}

void draw_lot(const app::PlannedRun& run, const app::PlannedLot& lot, BoardState& board, app::Intents& out) {
    const bool is_to_come = !lot.lot.is_known();
    scope(share_key(lot), [&] {
        paragraph(fmt::format("{}{}: {} kg{}", lot.code, is_to_come ? ", still to come" : "",
                              kilograms(lot.kg), lot.is_locked ? ", locked" : ""),
                  {.weight = Weight::bold});
        paragraph(fmt::format("{} maturity {}, estimate", sign(Role::model), percent(lot.maturity)),
                  {.role = Role::model});
        if (!lot.reason.empty())
            paragraph(lot.reason);
        if (may_change(run) && !is_to_come)
            draw_lot_buttons(run, lot, board, out);
    });
    gap();
}

/// "Frozen", "changed": in words, as on the card.
void draw_standing(const app::PlannedRun& run) {
    if (run.is_past)
        hint("It is past.");
    else if (run.is_frozen)
        hint("Frozen: mixed already, or too near to be changed.");
    if (!run.changed.empty())
        status(Role::mind, "Changed at another station: " + run.changed);
    if (run.is_changed)
        status(Role::accent, "Changed: the proposed plan has other lots or masses than the book.");
}

/// Which lots there were to choose from, and which rule forbade the rest.
void draw_choice(const app::PlannedRun& run) {
    if (run.possible_lots > 0)
        paragraph(run.possible_lots == 1 ? "1 lot was possible."
                                         : fmt::format("{} lots were possible.", run.possible_lots));
    for (const auto& rule : run.forbidden)
        paragraph(rule);
}

} // namespace

RunGauges::RunGauges(const app::PlannedRun& run)
    : gauges{strength(run, words[0]), windows(run, words[1]), law(run, words[2])} {}

std::string lots_in_words(const app::PlannedRun& run) {
    std::string words;
    for (const auto& lot : run.lots)
        words += fmt::format("{}{} {} kg{}", words.empty() ? "" : ", ", lot.code, kilograms(lot.kg),
                             lot.is_locked         ? " (locked)"
                             : !lot.lot.is_known() ? " (to come)"
                                                   : "");
    return words;
}

std::optional<std::int64_t> chosen_lot(const app::PlannedRun& run, std::optional<std::int64_t> chosen) {
    if (lot_of(run, chosen) != nullptr)
        return chosen;
    return run.lots.size() == 1 ? std::optional(share_key(run.lots.front())) : std::nullopt;
}

void turn_lock(const app::PlannedRun& run, std::optional<std::int64_t> chosen, app::Intents& out) {
    const auto* lot = lot_of(run, chosen_lot(run, chosen));
    if (lot == nullptr || !lot->lot.is_known() || !may_change(run))
        return;
    if (lot->is_locked)
        out.emplace_back(app::UnlockAssignment{run.id, lot->lot});
    else
        out.emplace_back(app::LockAssignment{run.id, lot->lot});
}

void draw_run(const app::PlannedRun& run, const app::PlanModel& model, BoardState& board, app::Intents& out) {
    const auto line = line_of(run, model);
    hint(fmt::format("{}{}{}, {}, run {}", line, line.empty() ? "" : ", ", short_day(run.day), run.market,
                     run.code));
    draw_standing(run);
    fact({.label = "Needs", .value = kilograms(run.need_kg), .unit = "kg flour"});
    if (run.short_kg > 0)
        status(Role::stop, fmt::format("Short of {} kg", kilograms(run.short_kg)));
    for (const auto& reason : run.reasons)
        paragraph(reason, {.role = run.short_kg > 0 ? Role::stop : Role::ink});
    rule();
    if (run.lots.empty())
        hint("No lot is assigned. Plan the days, or add flour on Intake.");
    for (const auto& lot : run.lots)
        draw_lot(run, lot, board, out);
    draw_choice(run);
    rule();
    const RunGauges told(run);
    status(told.gauges[0].role, fmt::format("Strength: {} (maturity {} of {} asked for)", told.words[0],
                                            percent(run.maturity), percent(run.maturity_target)));
    paragraph(run.oxidant.empty() ? "Oxidant: this product goes without." : "Oxidant: " + run.oxidant_words);
    status(told.gauges[1].role,
           "Specification: " + (run.windows_words.empty() ? told.words[1] : run.windows_words));
    status(told.gauges[2].role, "Law: " + (run.law_words.empty() ? told.words[2] : run.law_words));
    if (run.verdict)
        status(role_of(run.verdict->ruling), "Card: " + run.verdict->words);
    if (run.verdict)
        for (const auto& reason : run.verdict->reasons)
            paragraph(reason.words + ". " + reason.lifted_by,
                      {.role = reason.is_stop ? Role::stop : Role::mind});
    if (!run.dose_withheld.empty())
        status(Role::stop, run.dose_withheld);
    if (!run.keeping_words.empty())
        status(run.keeping_withheld ? Role::stop : Role::good, run.keeping_words);
    rule();
    if (model.levers && model.levers->run == run.id)
        draw_levers(*model.levers);
    else if (button("Weigh the remedies"))
        out.emplace_back(app::ShowLevers{run.id});
}

} // namespace mellowbin::views
