#include "ui/views/plan/tools.h"

#include "app/acts/intent.h"
#include "app/acts/looking.h"
#include "app/acts/plan.h"
#include "app/acts/print_plan.h"
#include "app/models/plan.h"
#include "ui/views/common/day_words.h"

#include <fmt/format.h>

#include <array>

namespace mellowbin::views {

using namespace ui;

namespace {

constexpr std::array<std::string_view, 4> reach_words{"1 day", "7 days", "14", "28"};
constexpr std::array<std::string_view, 4> reach_in_full{"1 day", "7 days", "14 days", "28 days"};
constexpr std::array<std::string_view, 4> plan_verbs{"Plan the day", "Plan the week", "Plan 2 weeks",
                                                     "Plan 4 weeks"};
constexpr std::array<std::string_view, 4> search_words{"as set", "10 s", "1 min", "5 min"};
constexpr std::array<std::string_view, 4> page_words{"Board", "Table", "Compare", "Flour to come"};
constexpr std::array<std::string_view, 4> short_page_words{"Board", "Table", "Compare", "To come"};
/// How much stands in the row: with less room, choices fold to their chosen word and the rest goes to the
/// second row, so that the first stays one.
enum class Room { little, some, all };
Room room_here() {
    constexpr float for_all = 78, for_some = 58; // ems
    const float ems = width_left().ems;
    return ems >= for_all ? Room::all : ems >= for_some ? Room::some : Room::little;
}

/// "29 Nov to 5 Dec"; the first day alone where there is little room.
std::string days_in_words(const app::PlanModel& model, Room room) {
    const Day last = model.from + Days{model.days - 1};
    const auto without_weekday = [](const std::string& words) { // nor a leading zero
        return words.substr(words.find_first_not_of(" 0", words.find(' ')));
    };
    const auto first = without_weekday(short_day(model.from));
    return model.days == 1 || room == Room::little
               ? first
               : fmt::format("{} to {}", first, without_weekday(short_day(last)));
}

void show_from(PlanView& view, Day day, app::Intents& out) {
    view.from = iso(day);
    view.refusals.clear();
    out.emplace_back(app::ShowPlan{day, view.days()});
}

void draw_days(PlanView& view, const app::PlanModel& model, Room room, app::Intents& out) {
    const Days step{model.days};
    const auto words = days_in_words(model, room);
    switch (stepper({.back = "Earlier days", .here = words, .on = "Later days"})) {
    case Stepped::back:
        show_from(view, model.from - step, out);
        break;
    case Stepped::on:
        show_from(view, model.from + step, out);
        break;
    case Stepped::here:
        view.with_more = !view.with_more;
        break;
    case Stepped::not_at_all:
        break;
    }
}

void draw_reach(PlanView& view, Room room, app::Intents& out) {
    const bool is_folded = room != Room::all;
    if (choice({.label = "Days", .width = is_folded ? 7_em : Length{}, .label_place = LabelPlace::hidden},
               is_folded ? reach_in_full : reach_words, view.reach))
        if (const auto day = first_day(view))
            out.emplace_back(app::ShowPlan{*day, view.days()});
}

void draw_plan_button(PlanView& view, const app::PlanModel& model, Room room, app::Intents& out) {
    // While a plan waits to be adopted, that is what the screen is for.
    const bool is_main = model.standing == app::PlanModel::Standing::adopted;
    const auto verb =
        room == Room::little ? std::string_view("Plan") : plan_verbs[static_cast<std::size_t>(view.reach)];
    if (!model.is_planning && button(verb, {.kind = is_main ? ButtonKind::primary : ButtonKind::ordinary}))
        if (const auto day = first_day(view))
            out.emplace_back(app::PlanRuns{*day, view.days(), view.seconds()});
}

void draw_what_if_and_print(PlanView& view, app::Intents& out) {
    if (button("What if", {.kind = view.is_what_if ? ButtonKind::ordinary : ButtonKind::quiet})) {
        view.is_what_if = !view.is_what_if;
        view.board.hand.reset();
        if (view.is_what_if && !view.shows_days())
            view.page = PlanView::board_page;
    }
    if (button("Print", {.kind = ButtonKind::quiet}))
        out.emplace_back(app::PrintPlan{});
}

void draw_more(PlanView& view, const app::PlanModel& model, Room room, app::Intents& out) {
    flow([&] {
        if (date_field({.label = "From", .refusals = &view.refusals, .width = 8_em}, view.from, model.today))
            if (const auto day = first_day(view))
                out.emplace_back(app::ShowPlan{*day, view.days()});
        choice({.label = "Search for"}, search_words, view.search);
        if (!view.form.is_open && button("New run")) {
            view.form.open(model, view.from);
            if (!view.shows_days())
                view.page = PlanView::board_page;
        }
        if (room == Room::little) {
            draw_reach(view, room, out);
            draw_what_if_and_print(view, out);
        }
        if (button("Fewer tools", {.kind = ButtonKind::quiet}))
            view.with_more = false;
    });
}

} // namespace

std::optional<Day> first_day(PlanView& view) {
    const auto day = read_day("From", view.from);
    view.refusals = day ? Refusals{} : day.refusals();
    if (day && !*day)
        view.refusals = {
            {"From", "is empty; the first day to plan is expected", "Type it, or press a day's button"}};
    view.with_more = view.with_more || !view.refusals.empty(); // where the field stands
    return day ? *day : std::nullopt;
}

void draw_tools(PlanView& view, const app::PlanModel& model, app::Intents& out) {
    const Room room = room_here();
    flow([&] {
        draw_days(view, model, room, out);
        if (room != Room::little)
            draw_reach(view, room, out);
        pages({.label = "Page",
               .width = room == Room::little ? 7_em : Length{},
               .label_place = LabelPlace::hidden},
              room == Room::all ? page_words : short_page_words, view.page);
        at_right("Acts", [&] {
            if (room != Room::little)
                draw_what_if_and_print(view, out);
            draw_plan_button(view, model, room, out);
        });
    });
    if (view.with_more)
        draw_more(view, model, room, out);
    if (model.is_planning && progress({.label = view.days() == 1 ? std::string_view("Planning the day")
                                                                 : std::string_view("Planning"),
                                       .words = model.progress,
                                       .stop_verb = "Stop and keep the best"}))
        out.emplace_back(app::StopPlanning{});
}

} // namespace mellowbin::views
