#include "ui/views/plan/sheet.h"

#include "app/acts/assignments.h"
#include "app/acts/fermentation.h"
#include "app/acts/intent.h"
#include "app/acts/levers.h"
#include "app/acts/looking.h"
#include "app/models/plan.h"
#include "app/models/planned_run.h"
#include "ui/views/common/day_words.h"
#include "ui/views/levers/page.h"
#include "ui/views/plan/cures.h"
#include "ui/views/plan/planned_run.h"
#include "ui/views/plan/shortages.h"

#include <fmt/format.h>

#include <array>

namespace mellowbin::views {

using namespace ui;

namespace {

/// What is in the hand can be left by touch, too.
void draw_hand_words(BoardState& board) {
    if (board.hand && board.hand->by == BoardHand::By::keys && button("Leave it where it is"))
        board.hand.reset();
}

void draw_head(PlanView& view, const app::PlannedRun& run, const app::PlanModel& model) {
    flow([&] {
        text(run.product, {.size = TextSize::figure, .weight = Weight::bold});
        at_right("Away", [&] {
            if (button("Close sheet", {.kind = ButtonKind::quiet, .key = "Esc"}))
                view.choose({});
        });
    });
    const auto line = line_of(run, model);
    hint(fmt::format("{}{}{} · {} kg flour · {} · {}", short_day(run.day), line.empty() ? "" : ", ", line,
                     kilograms(run.need_kg), run.market, run.code));
}

/// That its dough ferments longer for strength, and the way back.
void draw_fermentation(PlanView& view, const app::PlannedRun& run, const app::PlanModel& model,
                       app::Intents& out) {
    if (run.longer_fermentation_minutes <= 0)
        return;
    status(Role::accent, fmt::format("Fermented {} min longer", run.longer_fermentation_minutes));
    if (!run.fermentation_words.empty())
        hint(run.fermentation_words);
    if (may_change(run) && view.tried(model) == Tried::in_book && button("Ferment no longer than usual"))
        out.emplace_back(app::FermentLonger{run.id, "0"});
}

void draw_lots(const app::PlannedRun& run, BoardState& board) {
    static constexpr std::array columns{
        Column{.head = "Lot", .sample = "SW-24081", .stretch = 1, .sortable = false},
        Column{.head = "kg", .sample = "1 200.5", .align = Align::right, .sortable = false},
        Column{.head = "Maturity %", .sample = "55, 41 to 68", .align = Align::right, .sortable = false},
    };
    TableState state{.selected = chosen_lot(run, board.lot)};
    const auto write_row = [&](std::size_t i, RowWriter& cells) {
        const auto& lot = run.lots[i];
        cells.cell(fmt::format("{}{}{}", lot.code, lot.lot.is_known() ? "" : ", to come",
                               lot.is_locked ? ", locked" : ""));
        cells.cell(kilograms(lot.kg));
        cells.cell(lot.highest > 0 ? fmt::format("{:.0f}, {:.0f} to {:.0f}", 100 * lot.maturity,
                                                 100 * lot.lowest, 100 * lot.highest)
                                   : fmt::format("{:.0f}", 100 * lot.maturity),
                   Role::model);
    };
    const auto events = table({.name = "Lots of the run",
                               .columns = columns,
                               .rows = run.lots.size(),
                               .record = [&](std::size_t i) { return share_key(run.lots[i]); },
                               .write_row = write_row,
                               .when_empty = "No lot is assigned.",
                               .density = Density::close,
                               .height = {2.2F * static_cast<float>(run.lots.size()) + 3.2F}},
                              state);
    if (events.selected)
        board.lot = state.selected;
}

/// What can be done with the lot that is chosen.
void draw_lot_deeds(const app::PlannedRun& run, BoardState& board, app::Intents& out) {
    const auto* lot = lot_of(run, chosen_lot(run, board.lot));
    if (lot == nullptr || !lot->lot.is_known() || !may_change(run))
        return;
    flow([&] {
        if (button((lot->is_locked ? "Unlock " : "Lock ") + lot->code, {.key = "F7"}))
            turn_lock(run, board.lot, out);
        if (button("Give " + lot->code, {.key = "F9"}))
            board.pick_up({run.id.number(), share_key(*lot)});
    });
}

void draw_reasons(RunSheet& sheet, const app::PlannedRun& run) {
    if (!fold("Why these lots", sheet.with_reasons))
        return;
    for (const auto& reason : run.reasons)
        paragraph(reason, {.role = run.short_kg > 0 ? Role::stop : Role::ink});
    for (const auto& lot : run.lots) {
        if (lot.reason.empty())
            continue;
        paragraph(lot.code, {.weight = Weight::bold});
        paragraph(lot.reason);
    }
    if (run.possible_lots > 0)
        paragraph(run.possible_lots == 1 ? "1 lot was possible."
                                         : fmt::format("{} lots were possible.", run.possible_lots));
    for (const auto& rule : run.forbidden)
        paragraph(rule);
    gap();
}

void draw_card_verdict(const app::CardVerdict& verdict, Role role) {
    status(role, "Card: " + verdict.words);
    for (const auto& reason : verdict.reasons)
        paragraph(reason.words + ". " + reason.lifted_by, {.role = reason.is_stop ? Role::stop : Role::mind});
}

void draw_rules(RunSheet& sheet, const app::PlannedRun& run) {
    const auto parts = parts_of(run);
    const bool is_well = parts[1].role == Role::good && parts[2].role == Role::good;
    if (!fold(is_well ? "Strength, specification, law: inside" : "Strength, specification, law",
              sheet.with_rules))
        return;
    status(parts[0].role, fmt::format("Strength: {} (maturity {} of {} asked for)", parts[0].words,
                                      percent(run.maturity), percent(run.maturity_target)));
    paragraph(run.oxidant.empty() ? "Oxidant: this product goes without." : "Oxidant: " + run.oxidant_words);
    status(parts[1].role, "Specification: " + parts[1].words);
    status(parts[2].name == "Law" ? parts[2].role : Role::ink,
           "Law: " + (!run.law_words.empty()   ? run.law_words
                      : parts[2].name == "Law" ? parts[2].words
                                               : std::string("nothing added")));
    if (run.verdict)
        draw_card_verdict(*run.verdict, parts[2].name == "Card" ? parts[2].role : Role::good);
    if (!run.dose_withheld.empty())
        status(Role::stop, run.dose_withheld);
    if (!run.keeping_words.empty())
        status(run.keeping_withheld ? Role::stop : Role::good, run.keeping_words);
    gap();
}

void draw_remedies(PlanView& view, const app::PlannedRun& run, const app::PlanModel& model,
                   app::Intents& out) {
    if (!fold("All remedies", view.sheet.with_remedies))
        return;
    const bool may_do = may_change(run) && view.tried(model) == Tried::in_book;
    if (model.levers && model.levers->run == run.id)
        draw_levers(*model.levers, may_do ? &out : nullptr);
    else if (button("Weigh the remedies"))
        out.emplace_back(app::ShowLevers{run.id});
}

void draw_deeds(PlanView& view, const app::PlannedRun& run, const app::PlanModel& model, app::Intents& out) {
    flow([&] {
        if (button("Open its card"))
            out.emplace_back(app::OpenRun{run.id});
        if (may_change(run) && button("Move it on the board", {.key = "F8"}))
            view.board.pick_up({run.id.number(), {}});
        if (may_change(run) && button("Change this run"))
            view.question = PlanQuestion::change(run, model);
        if (may_change(run) && button("Drop this run", {.kind = ButtonKind::stop}))
            view.question = PlanQuestion::drop(run);
    });
}

/// What is known of the run is asked for once; it follows the book from then on.
void ask_for_cures(PlanView& view, const app::PlannedRun& run, const app::PlanModel& model,
                   app::Intents& out) {
    const bool is_there = model.cures && model.cures->run == run.id;
    if (!is_there && view.sheet.asked != run.id)
        out.emplace_back(app::ShowCures{run.id});
    view.sheet.asked = run.id;
}

} // namespace

void draw_sheet(PlanView& view, const app::PlannedRun& run, const app::PlanModel& model, app::Intents& out) {
    ask_for_cures(view, run, model, out);
    panel("", [&] {
        draw_head(view, run, model);
        draw_hand_words(view.board);
        draw_standing(run, model);
        draw_cures(view, run, model, out);
        draw_fermentation(view, run, model, out);
        draw_lots(run, view.board);
        draw_lot_deeds(run, view.board, out);
        rule();
        draw_reasons(view.sheet, run);
        draw_rules(view.sheet, run);
        draw_remedies(view, run, model, out);
        rule();
        draw_deeds(view, run, model, out);
    });
}

void go_to_next_short_run(PlanView& view, const app::PlanModel& model) {
    const auto next = next_short_run(model, view.board.selected);
    if (!next)
        return;
    if (!view.shows_days())
        view.page = PlanView::board_page;
    view.choose(next);
    view.board.show_selected = view.table.show_selected = true;
    view.board.takes_focus = view.page == PlanView::board_page;
}

void take_keys(PlanView& view, const app::PlanModel& model, app::Intents& out) {
    if (key_pressed(Key::f10))
        go_to_next_short_run(view, model);
    const auto* run = run_of(model, view.board.selected);
    if (run == nullptr || !view.shows_days())
        return;
    if (!view.board.hand && !view.question && key_pressed(Key::escape)) {
        view.choose({});
        view.board.takes_focus = view.page == PlanView::board_page;
        return;
    }
    if (key_pressed(Key::f7))
        turn_lock(*run, view.board.lot, out);
    if (view.page == PlanView::table_page)
        return; // nothing is carried over a table
    if (may_change(*run) && key_pressed(Key::f8))
        view.board.pick_up({run->id.number(), {}});
    const auto lot = chosen_lot(*run, view.board.lot);
    if (lot && may_change(*run) && key_pressed(Key::f9))
        view.board.pick_up({run->id.number(), lot});
}

} // namespace mellowbin::views
