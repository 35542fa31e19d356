#include "app/acts/notice.h"
#include "app/models/lots.h"
#include "app/models/readiness.h"
#include "ui/views/common/day_words.h"
#include "ui/views/common/estimate_parts.h"
#include "ui/views/common/results.h"
#include "ui/views/common/words.h"
#include "ui/views/lots/findings.h"
#include "ui/views/lots/view.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <array>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using ui::Role;
using Deed = LotQuestion::Deed;

LotQuestion question_about(const app::LotSheet& sheet, Deed deed) {
    LotQuestion question;
    question.deed = deed;
    question.lot = sheet.row.id;
    question.code = sheet.row.code;
    question.state = sheet.row.state;
    return question;
}

void state_buttons(LotsView& view, const app::LotSheet& sheet) {
    struct Choice {
        LotState to;
        Deed deed;
        std::string_view label;
        ui::ButtonKind kind;
    };
    constexpr std::array choices{
        Choice{LotState::released, Deed::release, "Release lot", ui::ButtonKind::primary},
        Choice{LotState::held, Deed::hold, "Put on hold", ui::ButtonKind::ordinary},
        Choice{LotState::rejected, Deed::reject, "Reject lot", ui::ButtonKind::stop},
    };
    ui::flow([&] {
        for (const auto& choice : choices)
            if (may_become(sheet.row.state, choice.to) && ui::button(choice.label, {.kind = choice.kind}))
                view.question = question_about(sheet, choice.deed);
        if (sheet.best_before && ui::button("Extend best before"))
            view.question = question_about(sheet, Deed::extend);
        if (ui::button("Close", {.kind = ui::ButtonKind::quiet}))
            view.shows_sheet = false;
    });
}

std::string readiness_words(const app::LotRow& row) {
    return fmt::format("{}: mature today with a probability of {}", app::in_words(row.readiness),
                       percent(row.probability_mature));
}

void head(LotsView& view, const app::LotSheet& sheet) {
    const auto& row = sheet.row;
    ui::panel({}, [&] {
        ui::heading(fmt::format("Lot {}", row.code));
        ui::hint(fmt::format("{} · {} · delivered {} · milled {}", row.mill, row.flour, iso(row.delivered_on),
                             row.milled_on ? iso(*row.milled_on) : "day not known"));
        ui::gap(1);
        ui::status(role_of(row.state), sheet.state_words.empty() ? name_of(row.state) : sheet.state_words);
        draw_best_before(sheet);
        ui::status(role_of(row.readiness), readiness_words(row));
        if (!row.mill_additions.empty())
            ui::status(Role::mind, fmt::format("The mill added {}", row.mill_additions));
        ui::gap(1);
        ui::grid(8_em, [&] {
            ui::figure({.label = "In stock", .number = kilograms(row.stock_kg), .unit = "kg"});
            ui::figure({.label = "Ready on", .number = day_or_dash(row.ready_on), .role = Role::model});
            ui::figure(
                {.label = "Past best on", .number = day_or_dash(row.past_best_on), .role = Role::model});
        });
        state_buttons(view, sheet);
    });
}

void bars(const std::vector<app::CheckedWindow>& windows) {
    for (const auto& checked : windows) {
        const auto& kind = traits(checked.judgement.window.property);
        const auto verdict = checked.judgement.verdict;
        ui::window_bar({.label = kind.name,
                        .value = checked.judgement.value,
                        .low = checked.low,
                        .high = checked.high,
                        .unit = kind.unit,
                        .decimals = kind.decimals,
                        .note = verdict == Verdict::not_comparable ? std::string_view(checked.judgement.words)
                                                                   : word_for(verdict)});
    }
}

/// How retests stand, the newest first, and then the certificate.
void results(const app::LotSheet& sheet) {
    ui::panel("Results against specification", [&] {
        if (sheet.windows.empty())
            ui::hint("The flour has no specification yet: nothing to compare with.");
        else
            draw_findings(sheet.results);
        for (const auto& retest : sheet.retests)
            ui::scope(retest.id.number(), [&] {
                if (retest.windows.empty())
                    return;
                ui::paragraph(retest.words, {.weight = ui::Weight::bold});
                bars(retest.windows);
            });
        if (!sheet.windows.empty())
            ui::paragraph("Certificate", {.weight = ui::Weight::bold});
        bars(sheet.windows);
        ui::hint("Percentages at 14 % moisture.");
        for (const auto& words : sheet.fits)
            ui::status(words.find(": inside") != std::string::npos ? Role::good : Role::mind, words);
    });
}

void door(const app::LotSheet& sheet) {
    ui::panel("At the door", [&] { draw_door(sheet); });
}

void maturity(LotsView& view, const app::LotSheet& sheet, Day today) {
    ui::panel("Maturity, an estimate", [&] {
        spread_fact("Ready", sheet.ready);
        spread_fact("Past its best", sheet.past_best);
        if (view.shows_curve_as_table) {
            course_table("Maturity by day", sheet.curve, 2);
        } else {
            const auto points = points_of(sheet.curve);
            const auto name = fmt::format("Maturity of {}", sheet.row.code);
            ui::curve({.name = name,
                       .y_axis = "maturity, 0 to 1",
                       .points = points,
                       .today = ui::day_number(today),
                       .height = 12_em});
        }
        table_switch(view.shows_curve_as_table);
        for (const auto& words : sheet.reservations)
            ui::status(Role::model, words);
    });
}

void places(LotsView& view, const app::LotSheet& sheet) {
    ui::panel("Where it lies", [&] {
        if (sheet.places.empty())
            ui::hint("Nothing of it is in stock.");
        for (const auto& place : sheet.places)
            ui::scope(place.name, [&] {
                ui::flow([&] {
                    ui::text(fmt::format("{}: {} kg", place.name, kilograms(place.kg)));
                    const auto ask = [&](Deed deed) {
                        view.question = question_about(sheet, deed);
                        view.question->place = place.place;
                        view.question->place_name = place.name;
                        view.question->booked = kilograms(place.kg);
                    };
                    if (ui::button("Move"))
                        ask(Deed::move);
                    if (ui::button("Count"))
                        ask(Deed::count);
                    if (ui::button("Write off"))
                        ask(Deed::waste);
                });
            });
        if (!sheet.out.empty() && ui::button("Bring back"))
            view.question = question_about(sheet, Deed::give_back);
    });
}

void movements(LotsView& view, const app::LotSheet& sheet) {
    ui::panel("Movements", [&] {
        if (sheet.movements.empty())
            ui::hint("None yet.");
        for (const auto& movement : sheet.movements)
            ui::scope(movement.id.number(), [&] {
                ui::paragraph(movement.words);
                ui::hint(fmt::format("{} · {}", movement.at, movement.who));
                if (movement.can_counter && ui::button("Take back", {.kind = ui::ButtonKind::quiet})) {
                    view.question = question_about(sheet, Deed::take_back);
                    view.question->movement = movement.id;
                    view.question->movement_words = movement.words;
                }
                ui::rule();
            });
    });
}

void history(const app::LotSheet& sheet) {
    ui::panel("History", [&] {
        if (sheet.history.empty())
            ui::hint("None yet.");
        for (const auto& line : sheet.history) {
            ui::paragraph(line.words.empty() ? line.what : line.words);
            ui::hint(fmt::format("{} · {}", line.at, line.who));
        }
    });
}

void retests(LotsView& view, const app::LotSheet& sheet, const app::ReadinessModel& readiness,
             const app::Notice& notice, app::Intents& out) {
    ui::panel("Results", [&] {
        if (readiness.opened && readiness.opened->lot == sheet.row.id)
            draw_results(readiness.opened->tests, view.withdrawing);
        draw(view.retest, {sheet.row.id, sheet.row.code}, readiness, notice, out);
    });
}

} // namespace

void draw_sheet(LotsView& view, const app::LotSheet& sheet, const app::ReadinessModel& readiness,
                const app::Notice& notice, app::Intents& out) {
    ui::scope(sheet.row.id.number(), [&] {
        head(view, sheet);
        door(sheet);
        results(sheet);
        maturity(view, sheet, readiness.today);
        retests(view, sheet, readiness, notice, out);
        draw_bakes(view.bakes, sheet, view.withdrawing, readiness.today, notice, out);
        places(view, sheet);
        movements(view, sheet);
        history(sheet);
    });
}

} // namespace mellowbin::views
