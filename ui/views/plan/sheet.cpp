#include "ui/views/plan/sheet.h"

#include "app/acts/intent.h"
#include "app/acts/looking.h"
#include "app/models/plan.h"
#include "app/models/planned_run.h"
#include "ui/views/plan/planned_run.h"
#include "ui/views/plan/shortages.h"

namespace mellowbin::views {

using namespace ui;

namespace {

constexpr std::string_view what_marks_mean =
    "On the board: the bar shows the lots by mass, a dashed part is flour to come; the line under it how far "
    "each has matured. A dashed card is frozen; a diamond and a thick edge say changed. Drag a run by its "
    "card, a lot by its part of the bar; Space goes through the lots.";

/// What is in the hand can be left by touch, too.
void draw_hand_words(BoardState& board) {
    if (board.hand && board.hand->by == BoardHand::By::keys && button("Leave it where it is"))
        board.hand.reset();
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
        if (button("Close sheet", {.kind = ButtonKind::quiet}))
            view.choose({});
    });
}

} // namespace

void draw_sheet(PlanView& view, const app::PlannedRun& run, const app::PlanModel& model, app::Intents& out) {
    panel(run.product, [&] {
        draw_hand_words(view.board);
        draw_run(run, model, view.board, out);
        gap();
        draw_deeds(view, run, model, out);
        hint(what_marks_mean);
    });
}

void go_to_next_short_run(PlanView& view, const app::PlanModel& model) {
    const auto next = next_short_run(model, view.board.selected);
    if (!next)
        return;
    view.page = PlanView::days_page;
    view.choose(next);
    view.board.show_selected = view.table.show_selected = true;
    view.board.takes_focus = !view.as_table;
}

void take_keys(PlanView& view, const app::PlanModel& model, app::Intents& out) {
    if (key_pressed(Key::f10))
        go_to_next_short_run(view, model);
    const auto* run = run_of(model, view.board.selected);
    if (run == nullptr || view.page != PlanView::days_page)
        return;
    if (key_pressed(Key::f7))
        turn_lock(*run, view.board.lot, out);
    if (view.as_table)
        return; // nothing is carried over a table
    if (may_change(*run) && key_pressed(Key::f8))
        view.board.pick_up({run->id.number(), {}});
    const auto lot = chosen_lot(*run, view.board.lot);
    if (lot && may_change(*run) && key_pressed(Key::f9))
        view.board.pick_up({run->id.number(), lot});
}

} // namespace mellowbin::views
