#include "app/acts/silos.h"

#include "app/acts/looking.h"
#include "core/decimal.h"
#include "core/place_care.h"
#include "ui/views/common/day_words.h"
#include "ui/views/common/words.h"
#include "ui/views/trace/parts.h"
#include "ui/widgets/form_row.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <array>
#include <utility>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using ui::Role;

constexpr std::array<std::string_view, 3> cares{"Emptied", "Cleaned", "Sanitised"};

void parts(const std::vector<app::SiloPart>& parts) {
    for (const auto& part : parts)
        ui::fact({.label = part.code,
                  .value = kilograms(part.kg),
                  .unit = "kg",
                  .note = fmt::format("{} %{}{}", fixed(part.percent, 0), part.certainty.empty() ? "" : ", ",
                                      part.certainty),
                  .role = part.certainty == in_words(Certainty::may_contain) ? Role::mind : Role::ink});
}

void said_form(TraceView& view, const app::SiloRow& silo, const app::Notice& notice, app::Intents& out) {
    auto& form = view.silos;
    if (!form.is_open_for(silo.place)) {
        if (ui::button("Change how it mixes, or how much it takes", {.kind = ui::ButtonKind::quiet}))
            form.open_for(
                silo.place,
                {silo.zone_typed, silo.capacity_kg ? fmt::format("{:g}", *silo.capacity_kg) : std::string()});
        return;
    }
    auto& draft = form.begin(silo.place);
    const auto& refusals = form.refusals_of(silo.place);
    ui::form("What is known of the silo", [&] {
        if (std::exchange(form.wants_focus, false))
            ui::focus("Mixing zone");
        ui::form_row(
            {.label = "Mixing zone",
             .refusals = &refusals,
             .note = "kg at its foot that are one mixture; none: first in, first out; all: one mixture",
             .label_width = 8_em,
             .box_width = 10_em},
            [&] { ui::text_field(ui::field_in_row("Mixing zone", refusals), draft.zone); });
        ui::form_row({.label = "Holds at most",
                      .refusals = &refusals,
                      .note = "no more comes into it; empty: not known",
                      .label_width = 8_em,
                      .box_width = 10_em},
                     [&] { ui::number_field(ui::field_in_row("Holds at most", refusals, "kg"), draft.kg); });
        const std::string_view blocked = form.is_sent(silo.place) ? "is being written" : "";
        ui::flow([&] {
            if (ui::button("Keep how it mixes", {.kind = ui::ButtonKind::primary, .blocked = blocked})) {
                form.ask(silo.place, notice);
                out.emplace_back(app::SetSiloZone{silo.name, draft.zone});
            }
            if (ui::button("Keep how much it takes", {.blocked = blocked})) {
                form.ask(silo.place, notice);
                out.emplace_back(app::SetSiloCapacity{silo.name, draft.kg});
            }
            if (ui::button("Close form", {.kind = ui::ButtonKind::quiet}))
                form.open.reset();
        });
        ui::all_refusals(all_but(refusals, {"Mixing zone", "Holds at most"}));
    });
}

void care_form(TraceView& view, const app::SiloRow& silo, Day today, const app::Notice& notice,
               app::Intents& out) {
    auto& form = view.care;
    if (!form.is_open_for(silo.place)) {
        if (ui::button("Write down what was done to it"))
            form.open_for(silo.place);
        return;
    }
    auto& draft = form.begin(silo.place);
    const auto& refusals = form.refusals_of(silo.place);
    ui::form("What was done to the silo", [&] {
        const bool empties = draft.what == static_cast<int>(CareKind::emptied);
        const std::string_view note_label = empties ? "Reason" : "Note";
        const auto row = [&](std::string_view label, std::string_view note, ui::Body box) {
            ui::form_row({.label = label,
                          .refusals = &refusals,
                          .note = note,
                          .label_width = 8_em,
                          .box_width = 20_em},
                         box);
        };
        row("What was done", "",
            [&] { ui::choice(ui::field_in_row("What was done", refusals), cares, draft.what); });
        row("Day", "",
            [&] { ui::date_field(ui::field_in_row("Day", refusals, {}, "empty: today"), draft.day, today); });
        row("By", "who did it; empty: who writes it down",
            [&] { ui::text_field(ui::field_in_row("By", refusals), draft.by); });
        row(note_label,
            empties && silo.kg > 0
                ? fmt::format("the book has {} kg in it, which go off the book as a count that found nothing",
                              kilograms(silo.kg))
                : std::string(),
            [&] { ui::text_field(ui::field_in_row(note_label, refusals), draft.note); });
        ui::flow([&] {
            if (ui::button("Write it down",
                           {.kind = ui::ButtonKind::primary,
                            .blocked = form.is_sent(silo.place) ? "is being written" : ""})) {
                form.ask(silo.place, notice);
                out.emplace_back(app::NoteCare{silo.name,
                                               std::string(key_of(static_cast<CareKind>(draft.what))),
                                               draft.day, draft.by, draft.note});
            }
            if (ui::button("Close form", {.kind = ui::ButtonKind::quiet}))
                form.open.reset();
        });
        ui::all_refusals(all_but(refusals, {"What was done", "Day", "By", note_label}));
        ui::hint("Flour dust burns and can explode: no spark, no light that is not made for it, and into a "
                 "silo only "
                 "by the plant's own rules for closed spaces.");
    });
}

void silo(TraceView& view, const app::SiloRow& row, Day today, const app::Notice& notice, app::Intents& out) {
    ui::part(row.name);
    const auto room =
        row.capacity_kg ? fmt::format(" of at most {}", kilograms(*row.capacity_kg)) : std::string();
    ui::paragraph(fmt::format("{}{} kg; {}", kilograms(row.kg), room, row.zone),
                  {.weight = ui::Weight::bold});
    if (!row.layers.empty()) {
        ui::hint("Lies in it, the lowest first:");
        parts(row.layers);
        ui::hint(fmt::format("A draw of {} kg:", kilograms(row.draw_kg)));
        parts(row.draw);
        for (const auto& figure : row.figures) {
            const auto [value, unit] = shown(figure);
            ui::fact({.label = figure.label, .value = value, .unit = unit, .note = figure.note});
        }
    }
    for (const auto& care : row.care)
        ui::hint(care);
    care_form(view, row, today, notice, out);
    said_form(view, row, notice, out);
}

} // namespace

void draw_silos(TraceView& view, const app::TracePage& page, Day today, const app::Notice& notice,
                app::Intents& out) {
    if (page.silos.empty()) {
        ui::hint("The plant has no silo.");
        return;
    }
    ui::form("What a draw would hold", [&] {
        ui::flow([&] {
            ui::number_field(
                {.label = "Draw", .unit = "kg", .refusals = &view.draw_asked.refusals, .width = 8_em},
                view.draw_kg);
            if (ui::button("Show the draw", {.kind = ui::ButtonKind::primary})) {
                view.draw_asked.ask(notice);
                out.emplace_back(app::ShowSiloDraw{view.draw_kg});
            }
        });
    });
    for (const auto& row : page.silos)
        ui::scope(row.place.number(), [&] { silo(view, row, today, notice, out); });
}

} // namespace mellowbin::views
