#include "ui/views/lots/pages.h"

#include "app/acts/print_papers.h"
#include "app/models/lots.h"
#include "ui/views/common/day_words.h"
#include "ui/views/common/estimate_parts.h"
#include "ui/views/common/words.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using ui::Role;
using Deed = LotQuestion::Deed;

/// A course as shares of a hundred.
std::vector<app::CurveDay> in_percent(std::vector<app::CurveDay> course) {
    for (auto& day : course)
        for (double* value : {&day.low, &day.likely, &day.high})
            *value *= 100;
    return course;
}

void place_row(LotsView& view, const app::LotSheet& sheet, const app::PlaceShare& place) {
    ui::flow([&] {
        ui::text(fmt::format("{}: {} kg", place.name, kilograms(place.kg)));
        const auto ask = [&](Deed deed) { view.question = question_about(sheet, place, deed); };
        if (ui::button("Move"))
            ask(Deed::move);
        if (ui::button("Count"))
            ask(Deed::count);
        if (ui::button("Write off"))
            ask(Deed::waste);
        if (may_go_back(sheet) && ui::button("Back to the mill"))
            ask(Deed::to_mill);
    });
}

void movement_row(LotsView& view, const app::LotSheet& sheet, const app::MovementRow& movement) {
    ui::paragraph(movement.words);
    ui::hint(fmt::format("{} · {}", movement.at, movement.who));
    if (movement.can_counter && ui::button("Take back", {.kind = ui::ButtonKind::quiet})) {
        view.question = question_about(sheet, Deed::take_back);
        view.question->movement = movement.id;
        view.question->movement_words = movement.words;
    }
    ui::rule();
}

} // namespace

LotQuestion question_about(const app::LotSheet& sheet, Deed deed) {
    LotQuestion question;
    question.deed = deed;
    question.lot = sheet.row.id;
    question.code = sheet.row.code;
    question.state = sheet.row.state;
    if (deed == Deed::judge_anew && sheet.concession)
        question.concession = question.first = sheet.concession->draft;
    return question;
}

bool may_go_back(const app::LotSheet& sheet) {
    const auto state = sheet.row.state;
    return state != LotState::released && state != LotState::used_up && !sheet.places.empty();
}

LotQuestion question_about(const app::LotSheet& sheet, const app::PlaceShare& place, Deed deed) {
    auto question = question_about(sheet, deed);
    question.place = place.place;
    question.place_name = place.name;
    question.booked = kilograms(place.kg);
    return question;
}

void draw_aging(LotsView& view, const app::LotSheet& sheet, Day today) {
    ui::status(Role::model, fmt::format("An estimate. {}: mature today with a probability of {}.",
                                        as_sentence(std::string(app::in_words(sheet.row.readiness))),
                                        percent(sheet.row.probability_mature)));
    spread_fact("Ready", sheet.ready);
    spread_fact("Past its best", sheet.past_best);
    const auto course = in_percent(sheet.curve);
    if (view.shows_curve_as_table) {
        course_table("Maturity by day", course, 0);
    } else {
        const auto points = points_of(course);
        const auto name = fmt::format("Maturity of {}", sheet.row.code);
        ui::curve({.name = name,
                   .y_axis = "maturity",
                   .unit = "%",
                   .decimals = 0,
                   .points = points,
                   .today = ui::day_number(today),
                   .height = 14_em});
    }
    table_switch(view.shows_curve_as_table);
    for (const auto& words : sheet.reservations)
        ui::status(Role::model, words);
}

void draw_places(LotsView& view, const app::LotSheet& sheet, app::Intents& out) {
    if (sheet.places.empty())
        ui::hint("Nothing of it is in stock.");
    for (const auto& place : sheet.places)
        ui::scope(place.name, [&] { place_row(view, sheet, place); });
    if (!sheet.out.empty() && ui::button("Bring back"))
        view.question = question_about(sheet, Deed::give_back);
    if (!sheet.places.empty() && ui::button("Print pallet labels", {.kind = ui::ButtonKind::quiet}))
        out.emplace_back(app::PrintPalletLabels{sheet.row.id});
    ui::gap(2);
    ui::part("Movements");
    if (sheet.movements.empty())
        ui::hint("None yet.");
    for (const auto& movement : sheet.movements)
        ui::scope(movement.id.number(), [&] { movement_row(view, sheet, movement); });
}

void draw_history(const app::LotSheet& sheet) {
    if (sheet.history.empty())
        ui::hint("None yet.");
    for (auto line = sheet.history.rbegin(); line != sheet.history.rend(); ++line) {
        ui::paragraph(line->words.empty() ? line->what : line->words);
        ui::hint(fmt::format("{} · {}", line->at, line->who));
        ui::gap(1);
    }
}

} // namespace mellowbin::views
