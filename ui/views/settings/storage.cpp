#include "ui/views/settings/storage.h"

#include "app/acts/climate.h"
#include "app/acts/notice.h"
#include "app/models/settings.h"
#include "app/models/storage.h"
#include "core/door.h"
#include "ui/views/common/figure_fields.h"
#include "ui/views/common/words.h"
#include "ui/widgets/form_row.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <array>
#include <cstdint>
#include <vector>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using ui::Role;

std::string_view missing(const StoragePage& page) {
    if (page.path.empty())
        return "Give the file";
    return page.place.empty() ? "Choose the place" : "";
}

void ask_to_read(StoragePage& page, const app::Notice& notice, app::Intents& out) {
    page.asked.ask(notice);
    page.asked_path = page.path;
    page.asked_place = page.place;
    out.emplace_back(app::ReadClimateLog{page.place, page.path, page.accept_reason});
}

void forget_question(StoragePage& page) {
    page.asked.refusals.clear();
    page.accept_reason.clear();
}

/// What was seen in the file, before it counts.
void question(StoragePage& page, const app::Notice& notice, app::Intents& out) {
    ui::loud_panel(Role::mind, "Something stands against this file", [&] {
        for (const auto& doubt : all_but(page.asked.refusals, {accept_field})) {
            ui::paragraph(fmt::format("{} {}: {}", sign(Role::mind), doubt.field, doubt.what),
                          {.role = Role::mind});
            ui::hint(doubt.remedy + ".");
        }
        ui::paragraph(
            "Nothing of it counts yet. Say why it is taken in all the same: it goes into the journal "
            "with your name.");
        ui::text_field({.label = accept_field, .refusals = &page.asked.refusals}, page.accept_reason);
        ui::flow([&] {
            const bool is_taken = ui::button(
                "Take it in all the same",
                {.kind = ui::ButtonKind::primary, .blocked = page.accept_reason.empty() ? "Say why" : ""});
            if (is_taken)
                ask_to_read(page, notice, out);
            if (ui::button("Leave the file out", {.kind = ui::ButtonKind::quiet}))
                forget_question(page);
        });
    });
}

void file_form(StoragePage& page, const app::SettingsModel& model, const app::Notice& notice,
               app::Intents& out) {
    std::vector<std::string> names;
    for (const auto& place : model.places)
        names.push_back(place.name);
    ui::panel("A data logger's file", [&] {
        ui::hint("Lines of time, temperature and humidity, separated by commas or semicolons. What cannot be "
                 "read is named and left out; a gap is bridged by what is assumed of the place.");
        ui::form("File", [&] {
            const auto row = [&](std::string_view label, ui::Body boxes) {
                ui::form_row({.label = label,
                              .refusals = &page.asked.refusals,
                              .label_width = 8_em,
                              .box_width = 24_em},
                             boxes);
            };
            row("Logger's file", [&] {
                ui::text_field({.label = "Logger's file",
                                .hint = "path of the file",
                                .refusals = &page.asked.refusals,
                                .width = 24_em,
                                .label_place = ui::LabelPlace::hidden},
                               page.path);
            });
            row("Place", [&] {
                name_choice({.label = "Place",
                             .refusals = &page.asked.refusals,
                             .width = 24_em,
                             .label_place = ui::LabelPlace::hidden},
                            names, page.place);
            });
            if (is_refused(page.asked.refusals, accept_field)) {
                if (page.path == page.asked_path && page.place == page.asked_place)
                    return question(page, notice, out);
                forget_question(page);
            }
            ui::all_refusals(all_but(page.asked.refusals, {"Logger's file", "Place"}));
            const bool is_pressed = ui::button("Read the logger's file",
                                               {.kind = ui::ButtonKind::primary, .blocked = missing(page)});
            if (is_pressed)
                ask_to_read(page, notice, out);
        });
    });
}

/// What of the file read last does not count: line, what was read, why.
void set_aside(StoragePage& page, const app::LogRead& read) {
    if (read.set_aside.empty() && read.notes.empty())
        return;
    static constexpr std::array columns{
        ui::Column{.head = "Line", .sample = "000 000", .align = ui::Align::right, .sortable = false},
        ui::Column{
            .head = "What was read", .sample = "Temperature °C: \"-999\"", .stretch = 1, .sortable = false},
        ui::Column{.head = "Why it is set aside", .sample = "no reading", .stretch = 2, .sortable = false}};
    const auto head = app::set_aside_head(read);
    ui::panel(head.empty() ? "Nothing set aside" : head, [&] {
        ui::hint(fmt::format("{}, read for {}", read.file, read.place));
        const auto record = [&](std::size_t i) { return static_cast<std::int64_t>(i) + 1; };
        const auto write = [&](std::size_t i, ui::RowWriter& row) {
            const auto& line = read.set_aside[i];
            row.cell(fmt::format("{}", line.line));
            row.cell(line.what);
            row.cell(line.why);
        };
        if (!read.set_aside.empty())
            ui::table({.name = "Lines set aside",
                       .columns = columns,
                       .rows = read.set_aside.size(),
                       .record = record,
                       .write_row = write,
                       .density = ui::Density::close,
                       .height = 14_em},
                      page.set_aside);
        for (const auto& note : read.notes)
            ui::hint(note);
    });
}

void log_line(StoragePage& page, const app::PlaceRow& place, const app::ClimateLogRow& log) {
    ui::scope(log.id.number(), [&] {
        ui::paragraph(log.file, {.role = log.is_withdrawn ? Role::quiet : Role::ink});
        ui::hint(fmt::format("{}{}{}{}", log.is_withdrawn ? "Taken back · " : "", log.words,
                             log.who.empty() ? "" : " · ", log.who));
        if (log.is_withdrawn || !ui::button("Take back", {.kind = ui::ButtonKind::quiet}))
            return;
        page.taking_back.emplace();
        page.taking_back->what = log.id;
        page.taking_back->words = fmt::format("{}, read for {}", log.file, place.name);
    });
}

void place_panel(StoragePage& page, const app::PlaceRow& place) {
    ui::panel(place.name, [&] {
        ui::fact({.label = "Assumed", .value = place.assumed, .role = Role::model});
        ui::fact({.label = "Measured", .value = place.measured.empty() ? "nothing yet" : place.measured});
        for (const auto& log : place.logs)
            log_line(page, place, log);
    });
}

} // namespace

void draw(StoragePage& page, const app::SettingsModel& model, const app::Notice& notice, app::Intents& out) {
    if (page.asked.is_done(notice)) {
        page.path.clear();
        page.accept_reason.clear();
    }
    ui::scroll_area("Storage", {}, [&] {
        file_form(page, model, notice, out);
        set_aside(page, model.log_read);
        if (model.places.empty())
            ui::hint("The plant has no places yet.");
        for (const auto& place : model.places)
            ui::scope(place.id.number(), [&] { place_panel(page, place); });
    });
    draw(page.taking_back, notice, out);
}

} // namespace mellowbin::views
