#include "ui/views/plan/view.h"

#include "app/acts/looking.h"
#include "app/acts/notice.h"
#include "app/acts/plan.h"
#include "app/acts/print_plan.h"
#include "app/models/lots.h"
#include "app/models/overview.h"
#include "app/models/plan.h"
#include "ui/views/plan/board.h"
#include "ui/views/plan/proposal.h"
#include "ui/views/plan/sheet.h"
#include "ui/views/plan/shortages.h"

#include <algorithm>
#include <array>

namespace mellowbin::views {

using namespace ui;

namespace {

constexpr std::array reaches{1, 7, 14, 28};
constexpr std::array<std::string_view, 4> reach_words{"1", "7", "14", "28"};
constexpr std::array<std::string_view, 4> plan_verbs{"Plan the day", "Plan the week", "Plan 2 weeks",
                                                     "Plan 4 weeks"};
constexpr std::array searches{0.0, 10.0, 60.0, 300.0};
constexpr std::array<std::string_view, 4> search_words{"as set", "10 s", "1 min", "5 min"};
constexpr std::array<std::string_view, 3> page_words{"Days", "Compare", "Flour to come"};

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

std::optional<Day> first_day(PlanView& view) {
    const auto day = read_day("From", view.from);
    view.refusals = day ? Refusals{} : day.refusals();
    if (day && !*day)
        view.refusals = {
            {"From", "is empty; the first day to plan is expected", "Type it, or press a day's button"}};
    return day ? *day : std::nullopt;
}

void draw_planning(PlanView& view, const app::PlanModel& model, app::Intents& out) {
    flow([&] {
        const bool other_day = static_cast<bool>(
            date_field({.label = "From", .refusals = &view.refusals, .width = 8_em}, view.from, model.today));
        const bool other_reach = choice({.label = "Days"}, reach_words, view.reach);
        if (other_day || other_reach)
            if (const auto day = first_day(view))
                out.emplace_back(app::ShowPlan{*day, view.days()});
        choice({.label = "Search for"}, search_words, view.search);
        // While a plan waits to be adopted, that is what the screen is for.
        const bool is_main = model.standing == app::PlanModel::Standing::adopted;
        if (!model.is_planning && button(plan_verbs[static_cast<std::size_t>(view.reach)],
                                         {.kind = is_main ? ButtonKind::primary : ButtonKind::ordinary}))
            if (const auto day = first_day(view))
                out.emplace_back(app::PlanRuns{*day, view.days(), view.seconds()});
        if (!view.form.is_open && button("New run")) {
            view.form.open(model, view.from);
            view.page = PlanView::days_page;
        }
    });
}

void draw_pages(PlanView& view, app::Intents& out) {
    flow([&] {
        pages({.label = "Page", .label_place = LabelPlace::hidden}, page_words, view.page);
        if (button("Print"))
            out.emplace_back(app::PrintPlan{});
        if (view.page != PlanView::days_page)
            return;
        if (tick("What if", view.is_what_if))
            view.board.hand.reset();
        tick("Show as table", view.as_table);
    });
}

void draw_controls(PlanView& view, const app::PlanModel& model, app::Intents& out) {
    draw_planning(view, model, out);
    draw_pages(view, out);
    if (model.is_planning && progress({.label = view.days() == 1 ? std::string_view("Planning the day")
                                                                 : std::string_view("Planning"),
                                       .words = model.progress,
                                       .stop_verb = "Stop and keep the best"}))
        out.emplace_back(app::StopPlanning{});
}

void draw_stale(PlanView& view, const app::PlanModel& model, app::Intents& out) {
    loud_panel(Role::mind, "", [&] {
        status(Role::mind, "The plan in the book no longer holds. " + model.replan_words);
        if (!model.is_planning && button("Replan with few changes"))
            if (const auto day = first_day(view))
                out.emplace_back(app::Replan{*day, view.days()});
    });
}

/// Doses that law keeps back: that no plan mends them is said, and what does.
void draw_withheld(const app::PlanModel& model) {
    loud_panel(Role::mind, "Withheld by law, which no plan mends", [&] {
        for (const auto& words : model.withheld)
            status(Role::mind, words);
    });
}

/// What must be seen first, side by side where there is more than one, so that the days keep their height.
void draw_warnings(PlanView& view, const app::PlanModel& model, app::Intents& out) {
    const bool is_proposed = model.standing == app::PlanModel::Standing::proposed;
    const bool is_short = !model.shortages.empty();
    const bool is_stale = !is_proposed && !model.replan_words.empty();
    const bool is_withheld = !model.withheld.empty();
    const int panels = int{is_short} + int{is_proposed || is_stale} + int{is_withheld};
    if (panels == 0)
        return;
    grid(Length{panels > 1 ? 26.0F : 200.0F}, [&] {
        if (is_short && draw_shortages(view.with_cures, model))
            go_to_next_short_run(view, model);
        if (is_proposed && draw_proposal(model, out))
            view.page = PlanView::comparison_page;
        if (is_stale)
            draw_stale(view, model, out);
        if (is_withheld)
            draw_withheld(model);
    });
}

void draw_days(PlanView& view, const app::PlanModel& model, app::Intents& out) {
    const bool is_other = view.as_table ? draw_plan_table(view.table, model, out)
                                        : draw_plan_board(view.board, model, view.tried(model), out);
    if (is_other)
        view.choose(view.as_table ? view.table.selected : view.board.selected);
}

/// The days, and beside them the forms and the sheet of the run when there is one to show: without, the days
/// have all the width. They stand in a pane of the same name either way, so that the focus stays on the run
/// that was chosen.
void draw_plan(PlanView& view, const app::PlanModel& model, const app::LotsModel& lots,
               const app::Notice& notice, app::Intents& out) {
    const auto* run = run_of(model, view.board.selected);
    const auto days = [&] { draw_days(view, model, out); };
    const auto aside = [&] {
        if (view.form.is_open)
            draw(view.form, model, notice, out);
        if (view.is_what_if)
            draw(view.what_if, run, model, lots, notice, out);
        if (run != nullptr)
            draw_sheet(view, *run, model, out);
    };
    if (run == nullptr && !view.form.is_open && !view.is_what_if)
        panes({{.name = "Days", .share = 1, .least = 30_em, .body = days}});
    else
        panes({{.name = "Days", .share = 5, .least = 30_em, .body = days},
               {.name = "Run", .share = 1, .least = 20_em, .body = aside}});
}

void draw_page(PlanView& view, const app::PlanModel& model, const app::LotsModel& lots,
               const app::Notice& notice, app::Intents& out) {
    switch (view.page) {
    case PlanView::comparison_page:
        if (const auto run = draw_comparison(view.moved, model, out)) {
            view.page = PlanView::days_page;
            view.choose(run);
            view.board.show_selected = view.table.show_selected = true;
        }
        break;
    case PlanView::flour_page:
        draw(view.flour, view.question, model, lots, notice, out);
        break;
    default:
        draw_warnings(view, model, out);
        draw_plan(view, model, lots, notice, out);
    }
}

} // namespace

void PlanView::choose(std::optional<std::int64_t> run) {
    if (board.selected != run || table.selected != run)
        board.lot = run == board.selected ? board.lot : std::nullopt;
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
    draw_controls(view, model, out);
    draw_page(view, model, lots, notice, out);
    draw(view.question, view.tried(model), model, lots, notice, out);
}

} // namespace mellowbin::views
