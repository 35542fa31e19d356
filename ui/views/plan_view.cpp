#include "ui/views/plan_view.h"

#include "ui/views/plan_board.h"
#include "ui/views/plan_words.h"
#include "ui/views/planned_run.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

namespace mellowbin::views {

using namespace ui;

namespace {

constexpr std::array reaches{1, 7, 14, 28};
constexpr std::array<std::string_view, 4> reach_words{"1", "7", "14", "28"};
constexpr std::array<std::string_view, 4> plan_verbs{"Plan the day", "Plan the week", "Plan 2 weeks",
                                                     "Plan 4 weeks"};
constexpr std::size_t shortages_at_first = 2;

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

void draw_controls(PlanView& view, const app::PlanModel& model, app::Intents& out) {
    flow([&] {
        const bool other_day = static_cast<bool>(
            date_field({.label = "From", .refusals = &view.refusals, .width = 8_em}, view.from, model.today));
        const bool other_reach = choice({.label = "Days"}, reach_words, view.reach);
        if (other_day || other_reach)
            if (const auto day = first_day(view))
                out.emplace_back(app::ShowPlan{*day, view.days()});
        // While a plan waits to be adopted, that is what the screen is for.
        const bool is_main = model.standing == app::PlanModel::Standing::adopted;
        if (!model.is_planning && button(plan_verbs[static_cast<std::size_t>(view.reach)],
                                         {.kind = is_main ? ButtonKind::primary : ButtonKind::ordinary}))
            if (const auto day = first_day(view))
                out.emplace_back(app::PlanRuns{*day, view.days()});
        if (!view.form.is_open && button("New run"))
            view.form.open(model, view.from);
        tick("Show as table", view.as_table);
    });
    if (model.is_planning && progress({.label = view.days() == 1 ? std::string_view("Planning the day")
                                                                 : std::string_view("Planning"),
                                       .words = model.progress,
                                       .stop_verb = "Stop and keep the best"}))
        out.emplace_back(app::StopPlanning{});
}

void draw_proposal(const app::PlanModel& model, app::Intents& out) {
    loud_panel(Role::accent, "A new plan is proposed", [&] {
        flow([&] {
            if (button("Adopt plan", {.kind = ButtonKind::primary,
                                      .blocked = model.can_adopt               ? std::string_view{}
                                                 : model.adopt_blocked.empty() ? "It cannot be adopted now"
                                                                               : model.adopt_blocked}))
                out.emplace_back(app::AdoptPlan{});
            if (button("Discard"))
                out.emplace_back(app::DiscardPlan{});
        });
        if (!model.objective.empty())
            hint(model.objective);
        if (model.changes.empty())
            paragraph("It changes nothing in the adopted plan.");
        else
            scroll_area("Changes", {std::min(5.2F, 1.75F * static_cast<float>(model.changes.size()))}, [&] {
                for (const auto& change : model.changes)
                    paragraph(change);
            });
    });
}

/// The first sentence says what is short; what follows is the cure.
std::pair<std::string, std::string> with_its_cure(const std::string& shortage) {
    const auto end = shortage.find(". ");
    if (end == std::string::npos)
        return {shortage, {}};
    return {shortage.substr(0, end), shortage.substr(end + 2)};
}

void draw_shortages(PlanView& view, const app::PlanModel& model) {
    const auto count = model.shortages.size();
    const auto shown = view.all_shortages ? count : std::min(count, shortages_at_first);
    const auto first = with_its_cure(model.shortages.front());
    const auto title = count == 1 ? fmt::format("{} {}", sign(Role::stop), first.first)
                                  : fmt::format("{} runs are short", count);
    loud_panel(Role::stop, title, [&] {
        if (count == 1 && !first.second.empty())
            paragraph(first.second);
        grid(26_em, [&] {
            for (std::size_t i = 0; count > 1 && i < shown; ++i)
                stack({}, [&] {
                    const auto [words, cure] = with_its_cure(model.shortages[i]);
                    status(Role::stop, words);
                    if (!cure.empty())
                        paragraph(cure);
                });
        });
        if (count > shortages_at_first &&
            button(view.all_shortages ? "Show fewer shortages" : fmt::format("Show all {} shortages", count),
                   {.kind = ButtonKind::quiet}))
            view.all_shortages = !view.all_shortages;
    });
}

const app::PlannedRun* run_of(const app::PlanModel& model, std::optional<std::int64_t> id) {
    const auto run = std::find_if(model.runs.begin(), model.runs.end(),
                                  [&](const app::PlannedRun& r) { return id && r.id.number() == *id; });
    return run == model.runs.end() ? nullptr : &*run;
}

void draw_sheet(PlanView& view, const app::PlannedRun& run, const app::PlanModel& model, app::Intents& out) {
    panel(run.product, [&] {
        draw_run(run, model, out);
        gap();
        flow([&] {
            if (button("Open its card"))
                out.emplace_back(app::OpenRun{run.id});
            if (!run.is_past && button("Drop this run", {.kind = ButtonKind::stop}))
                view.dropping = run.id;
            if (button("Close sheet", {.kind = ButtonKind::quiet}))
                view.choose({});
        });
    });
}

void draw_days(PlanView& view, const app::PlanModel& model, app::Intents& out) {
    const bool is_other =
        view.as_table ? draw_plan_table(view.table, model, out) : draw_plan_board(view.board, model, out);
    if (is_other)
        view.choose(view.as_table ? view.table.selected : view.board.selected);
}

/// The days, and beside them the form and the sheet of the run when there is one to show: without, the days
/// have all the width. They stand in a pane of the same name either way, so that the focus stays on the run
/// that was chosen.
void draw_plan(PlanView& view, const app::PlanModel& model, const app::Notice& notice, app::Intents& out) {
    const auto* run = run_of(model, view.board.selected);
    const auto days = [&] { draw_days(view, model, out); };
    const auto aside = [&] {
        if (view.form.is_open)
            draw(view.form, model, notice, out);
        if (run != nullptr)
            draw_sheet(view, *run, model, out);
    };
    if (run == nullptr && !view.form.is_open)
        panes({{.name = "Days", .share = 1, .least = 30_em, .body = days}});
    else
        panes({{.name = "Days", .share = 5, .least = 30_em, .body = days},
               {.name = "Run", .share = 1, .least = 20_em, .body = aside}});
}

void ask_about_drop(PlanView& view, const app::PlanModel& model, app::Intents& out) {
    const auto* run = view.dropping ? run_of(model, view.dropping->number()) : nullptr;
    if (run == nullptr) {
        view.dropping.reset();
        return;
    }
    const auto title = fmt::format("Drop {} on {}?", run->product, short_day(run->day));
    const auto answer =
        ask({.title = title, .harmless = "Keep run", .deed = "Drop run", .deed_kind = ButtonKind::stop}, [&] {
            paragraph(fmt::format("Its {} kg of flour become free for other runs.",
                                  kilograms(run->need_kg - run->short_kg)));
        });
    if (answer == Answer::deed)
        out.emplace_back(app::DropRun{run->id});
    if (answer != Answer::none_yet)
        view.dropping.reset();
}

} // namespace

void PlanView::choose(std::optional<std::int64_t> run) { board.selected = table.selected = run; }

int PlanView::days() const { return reaches[static_cast<std::size_t>(reach)]; }

void draw(PlanView& view, const app::PlanModel& model, const app::Notice& notice, const app::Overview&,
          app::Intents& out) {
    follow(view, model);
    view.form.take_answer(notice);
    draw_controls(view, model, out);
    const bool is_proposed = model.standing == app::PlanModel::Standing::proposed;
    const bool is_short = !model.shortages.empty();
    // Side by side where both are there, so that the days keep their height.
    grid(Length{is_proposed && is_short ? 26.0F : 200.0F}, [&] {
        if (is_short)
            draw_shortages(view, model);
        if (is_proposed)
            draw_proposal(model, out);
    });
    draw_plan(view, model, notice, out);
    ask_about_drop(view, model, out);
}

} // namespace mellowbin::views
