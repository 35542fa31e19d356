#include "ui/views/plan/view.h"

#include "app/acts/levers.h"
#include "app/acts/looking.h"
#include "app/acts/notice.h"
#include "app/acts/plan.h"
#include "app/models/lots.h"
#include "app/models/overview.h"
#include "app/models/plan.h"
#include "ui/views/plan/board.h"
#include "ui/views/plan/proposal.h"
#include "ui/views/plan/sheet.h"
#include "ui/views/plan/shortages.h"
#include "ui/views/plan/tools.h"

#include <algorithm>
#include <array>
#include <utility>

namespace mellowbin::views {

using namespace ui;

namespace {

constexpr std::array reaches{1, 7, 14, 28};
constexpr std::array searches{0.0, 10.0, 60.0, 300.0};
constexpr float least_board = 30, sheet_width = 24; ///< ems

/// The days shown may have been changed elsewhere; the fields follow.
void follow(PlanView& view, const app::PlanModel& model) {
    if (view.shown == std::pair(model.from, model.days))
        return;
    view.shown = std::pair(model.from, model.days);
    view.from = iso(model.from);
    view.refusals.clear();
    const auto at = std::find(reaches.begin(), reaches.end(), model.days);
    if (at != reaches.end())
        view.reach = static_cast<int>(at - reaches.begin());
}

/// What must be seen first, each in a strip: it gives its place back when nothing is to be said.
void draw_strips(PlanView& view, const app::PlanModel& model, app::Intents& out) {
    const bool is_proposed = model.standing == app::PlanModel::Standing::proposed;
    if (is_proposed && draw_proposal(model, out))
        view.page = PlanView::comparison_page;
    if (!model.shortages.empty() && draw_shortages(model))
        go_to_next_short_run(view, model);
    if (!is_proposed && !model.replan_words.empty())
        strip(Role::mind, "The plan in the book no longer holds. " + model.replan_words, [&] {
            if (!model.is_planning && button("Replan with few changes", {.kind = ButtonKind::quiet}))
                if (const auto day = first_day(view))
                    out.emplace_back(app::Replan{*day, view.days()});
        });
    // Doses that law keeps back: no plan mends them, a confirmed row of Settings does.
    for (const auto& words : model.withheld)
        strip(Role::mind, "Withheld by law, which no plan mends: " + words);
}

void take(const BoardAsked& asked, PlanView& view, const app::PlanModel& model) {
    if (asked.selected)
        view.choose(view.board.selected);
    if (asked.opened)
        view.sheet_takes_focus = true;
    if (!asked.add)
        return;
    view.choose({});
    view.board.cell = asked.add;
    view.form.open_at(model, asked.add->line, asked.add->day);
}

void draw_days(PlanView& view, const app::PlanModel& model, app::Intents& out) {
    if (view.page == PlanView::table_page) {
        if (draw_plan_table(view.table, model, out))
            view.choose(view.table.selected);
        return;
    }
    take(draw_plan_board(view.board, model, view.tried(model), out), view, model);
}

/// The days, and beside them the forms and the sheet of the run when there is one to show: without, the days
/// have all the width; with too little width for both, what was opened covers them. They stand in a pane of
/// the same name either way, so that the focus stays on the run that was chosen.
void draw_plan(PlanView& view, const app::PlanModel& model, const app::LotsModel& lots,
               const app::Notice& notice, app::Intents& out) {
    const auto* run = run_of(model, view.board.selected);
    const auto days = [&] { draw_days(view, model, out); };
    const auto aside = [&] {
        if (std::exchange(view.sheet_takes_focus, false) && run != nullptr)
            focus("Open its card");
        if (view.form.is_open)
            draw(view.form, model, notice, out);
        if (view.is_what_if)
            draw(view.what_if, run, model, lots, notice, out);
        if (run != nullptr)
            draw_sheet(view, *run, model, out);
    };
    if (run == nullptr &&
        view.sheet.asked.is_known()) { // nobody looks at them: they need not follow the book
        out.emplace_back(app::ShowCures{});
        view.sheet.asked = {};
    }
    const bool is_aside = run != nullptr || view.form.is_open || view.is_what_if;
    if (!is_aside)
        panes({{.name = "Days", .share = 1, .least = Length{least_board}, .body = days}});
    else if (width_left().ems < least_board + sheet_width && !view.is_what_if && !view.board.hand)
        panes({{.name = "Run", .share = 1, .least = 10_em, .body = aside}});
    else
        panes({{.name = "Days", .share = 1, .least = Length{least_board}, .body = days},
               {.name = "Run", .share = 0, .least = Length{sheet_width}, .body = aside}});
}

void draw_page(PlanView& view, const app::PlanModel& model, const app::LotsModel& lots,
               const app::Notice& notice, app::Intents& out) {
    switch (view.page) {
    case PlanView::comparison_page:
        if (const auto run = draw_comparison(view.moved, model, out)) {
            view.page = PlanView::board_page;
            view.choose(run);
            view.board.show_selected = view.table.show_selected = true;
        }
        break;
    case PlanView::flour_page:
        draw(view.flour, view.question, model, lots, notice, out);
        break;
    default:
        draw_strips(view, model, out);
        draw_plan(view, model, lots, notice, out);
    }
}

} // namespace

void PlanView::choose(std::optional<std::int64_t> run) {
    if (board.selected != run || table.selected != run)
        board.lot = run == board.selected ? board.lot : std::nullopt;
    if (run)
        board.cell.reset();
    board.selected = table.selected = run;
}

int PlanView::days() const { return reaches[static_cast<std::size_t>(reach)]; }
double PlanView::seconds() const { return searches[static_cast<std::size_t>(search)]; }

Tried PlanView::tried(const app::PlanModel& model) const {
    const bool is_looked_at =
        model.standing == app::PlanModel::Standing::proposed || !model.suppositions.empty();
    return is_what_if || is_looked_at ? Tried::supposed : Tried::in_book;
}

void draw(PlanView& view, const app::PlanModel& model, const app::LotsModel& lots, const app::Notice& notice,
          const app::Overview&, app::Intents& out) {
    follow(view, model);
    view.form.take_answer(notice);
    take_keys(view, model, out);
    draw_tools(view, model, out);
    draw_page(view, model, lots, notice, out);
    draw(view.question, view.tried(model), model, lots, notice, out);
}

} // namespace mellowbin::views
