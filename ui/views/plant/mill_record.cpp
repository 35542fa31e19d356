#include "ui/views/plant/mill_record.h"

#include "app/acts/looking.h"
#include "app/acts/mills.h"
#include "core/decimal.h"
#include "core/lot_words.h"
#include "ui/views/common/day_words.h"
#include "ui/views/common/words.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>
#include <vector>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using ui::Role;

// Which days

void ask(MillRecordView& view, const MillRecordView::Wanted& wanted, const app::Notice& notice,
         app::Intents& out) {
    if (view.has_asked && view.asked == wanted)
        return;
    view.asked = wanted;
    view.has_asked = true;
    view.span.ask(notice);
    out.emplace_back(app::ShowMillRecord{wanted.mill, wanted.from, wanted.to, wanted.page});
}

/// True when other days are to be shown.
bool days_row(MillRecordView& view, Day today) {
    bool is_pressed = false;
    ui::form("Days", [&] {
        ui::flow([&] {
            ui::date_field(
                {.label = "From", .hint = "a year before", .refusals = &view.span.refusals, .width = 8_em},
                view.from, today);
            ui::date_field({.label = "To", .hint = "today", .refusals = &view.span.refusals, .width = 8_em},
                           view.to, today);
            is_pressed = ui::button("Show these days", {.kind = ui::ButtonKind::primary});
        });
    });
    return is_pressed;
}

// In figures

void figure(std::string_view label, const std::string& number, const std::string& note,
            Role role = Role::ink) {
    ui::figure({.label = label, .number = number, .note = note, .size = ui::TextSize::heading, .role = role});
}

std::string of_all(int count, int all) { return fmt::format("{} of {}", count, all); }

void figures(const app::MillRecordModel& record) {
    int out = 0, own_out = 0;
    for (const auto& flour : record.flours) {
        out += flour.certificate.outside;
        own_out += flour.own.outside;
    }
    const auto& days = record.days;
    const int expected = days.on_time + days.late;
    ui::grid(11_em, [&] {
        figure("Lots", fmt::format("{}", record.lots), kilograms(record.kg) + " kg");
        figure("Out of specification", of_all(out, record.lots),
               fmt::format("by certificate; {} by own tests", own_out),
               out + own_out > 0 ? Role::mind : Role::ink);
        figure("Tested by ourselves", of_all(record.tested, record.lots), "plan: " + record.plan);
        figure("On time", expected > 0 ? of_all(days.on_time, expected) : "–",
               expected == 0 ? "none was expected"
               : days.late > 0
                   ? fmt::format("late by {} at most",
                                 counted(static_cast<std::size_t>(days.most_days_late), "day", "days"))
                   : "deliveries that were expected",
               days.late > 0 ? Role::mind : Role::ink);
        figure("Held, rejected", fmt::format("{}, {}", record.held, record.rejected),
               record.returned_kg > 0 ? kilograms(record.returned_kg) + " kg went back" : "nothing went back",
               record.held + record.rejected > 0 ? Role::mind : Role::ink);
        figure("Complaints open", fmt::format("{}", record.open), fmt::format("{} answered", record.answered),
               record.open > 0 ? Role::mind : Role::ink);
    });
    for (const auto& words : days.overdue)
        ui::status(Role::mind, "Overdue: " + words);
}

// Against the specification

std::string outside_words(const app::MillSide& side) {
    std::string words;
    for (const auto& one : side.outsides)
        if (one.outside > 0)
            words += fmt::format("{}{} in {} of {}", words.empty() ? ": " : ", ", traits(one.property).name,
                                 one.outside, one.lots);
    return words;
}

void side(std::string_view whose, const app::MillSide& side) {
    const int all = side.inside + side.outside + side.unknown;
    if (all == 0)
        return;
    ui::status(
        side.outside > 0 ? Role::stop : Role::ink,
        fmt::format("{}: {} inside, {} outside{}{}", whose, side.inside, side.outside, outside_words(side),
                    side.unknown > 0 ? fmt::format("; {} without a figure to compare", side.unknown) : ""));
}

void flours(const app::MillRecordModel& record) {
    ui::part("Against the specification");
    if (record.flours.empty())
        ui::hint("No lot of this mill came in these days.");
    for (const auto& flour : record.flours)
        ui::scope(flour.name, [&] {
            ui::paragraph(fmt::format("{}: {}, {} kg", flour.name,
                                      counted(static_cast<std::size_t>(flour.lots), "lot", "lots"),
                                      kilograms(flour.kg)),
                          {.weight = ui::Weight::bold});
            side("By certificate", flour.certificate);
            side("By own tests", flour.own);
            if (!flour.testing.empty())
                ui::hint(
                    fmt::format("Own tests of the next lots ({}): {}", record.plan_source, flour.testing));
        });
}

void differences(const app::MillRecordModel& record) {
    if (record.differences.empty())
        return;
    ui::part("Own test minus certificate");
    for (const auto& [row, words] : record.differences) {
        const auto& kind = traits(row.property);
        ui::status(row.differs.value_or(false) ? Role::mind : Role::ink,
                   fmt::format("{}: {}", kind.name, words));
        if (row.lots > 0)
            ui::hint(fmt::format(
                "{}, mean {} {}, spread {}", counted(static_cast<std::size_t>(row.lots), "lot", "lots"),
                fixed(row.mean, kind.decimals + 1), kind.unit, number_words(row.spread, kind.decimals + 1)));
    }
}

void returns(const app::MillRecordModel& record) {
    if (record.returns.empty())
        return;
    ui::part("Went back to the mill");
    for (const auto& row : record.returns)
        ui::paragraph(fmt::format("{}: {} kg of lot {}, {}{} · {}", row.at, kilograms(row.kg), row.lot,
                                  row.reason, row.document.empty() ? "" : ", " + row.document, row.who));
}

// The lots

std::string late_words(const std::optional<int>& days) {
    if (!days)
        return "–";
    if (*days == 0)
        return "on the day";
    return fmt::format("{} {}", counted(static_cast<std::size_t>(std::abs(*days)), "day", "days"),
                       *days > 0 ? "late" : "early");
}

void write_value(const app::MillValue& value, Property property, ui::RowWriter& cells) {
    const int decimals = traits(property).decimals;
    if (!value.mill && !value.own)
        return cells.empty();
    auto words = number_words(value.mill, decimals);
    if (value.own)
        words += " / " + number_words(value.own, decimals);
    cells.cell(words, value.is_mill_out || value.is_own_out ? Role::stop : Role::ink);
}

void write_lot(const app::MillLotRow& row, const std::vector<Property>& properties, ui::RowWriter& cells) {
    cells.cell(row.code);
    cells.cell(iso(row.delivered_on));
    cells.cell(late_words(row.days_late), row.days_late.value_or(0) > 0 ? Role::mind : Role::ink);
    cells.cell(std::string(in_words(row.state)) +
                   (row.was_held && row.state != LotState::held ? ", was on hold" : ""),
               role_of(row.state));
    for (std::size_t i = 0; i < properties.size(); ++i)
        write_value(row.values[i], properties[i], cells);
    cells.cell(row.flour);
}

std::vector<ui::Column> columns_of(const std::vector<Property>& properties) {
    std::vector<ui::Column> columns{
        {.head = "Lot", .sample = "W24-1180", .stretch = 1, .sortable = false},
        {.head = "Delivered", .sample = "2026-11-25", .sortable = false},
        {.head = "Expected", .sample = "10 days late", .sortable = false, .gives_way = 2},
        {.head = "State", .sample = "✕ rejected", .stretch = 1, .sortable = false, .gives_way = 1}};
    int place = 4;
    for (const auto property : properties)
        columns.push_back({.head = traits(property).name,
                           .unit = traits(property).unit,
                           .sample = "✕ 1000 / 1000",
                           .align = ui::Align::right,
                           .sortable = false,
                           .gives_way = place++});
    columns.push_back(
        {.head = "Flour", .sample = "Strong white", .stretch = 1, .sortable = false, .gives_way = 3});
    return columns;
}

/// Which of them are shown, and the ways to the others.
void page_row(MillRecordView::Wanted& wanted, const app::MillLotsPage& page) {
    ui::flow([&] {
        ui::text(page.all == 0 ? std::string("none")
                               : fmt::format("{} to {} of {}, the newest first", page.first,
                                             page.first + static_cast<int>(page.rows.size()) - 1, page.all),
                 {.role = Role::quiet});
        if (ui::button("Newer lots", {.kind = ui::ButtonKind::quiet,
                                      .blocked = page.page == 0 ? "these are the newest" : ""}))
            wanted.page = page.page - 1;
        if (ui::button("Older lots", {.kind = ui::ButtonKind::quiet,
                                      .blocked = page.page + 1 >= page.pages ? "these are the oldest" : ""}))
            wanted.page = page.page + 1;
    });
}

void lots(MillRecordView& view, MillRecordView::Wanted& wanted, const app::MillLotsPage& page,
          app::Intents& out) {
    ui::part("Lots");
    page_row(wanted, page);
    const auto columns = columns_of(page.properties);
    const auto record = [&](std::size_t i) { return page.rows[i].id.number(); };
    const auto write = [&](std::size_t i, ui::RowWriter& cells) {
        write_lot(page.rows[i], page.properties, cells);
    };
    constexpr std::size_t most_rows = 10;
    const auto rows = std::clamp<std::size_t>(page.rows.size(), 2, most_rows);
    const auto events = ui::table({.name = "Lots of the mill",
                                   .columns = columns,
                                   .rows = page.rows.size(),
                                   .record = record,
                                   .write_row = write,
                                   .when_empty = "No lot of this mill came in these days.",
                                   .density = ui::Density::close,
                                   .height = ui::Length{2.6F + 2.1F * static_cast<float>(rows)}},
                                  view.lots);
    ui::hint("Certificate / own test, on 14 % moisture; ✕ is out of specification. Enter opens the lot.");
    if (events.opened && view.lots.selected)
        out.emplace_back(app::OpenFound{LotId{*view.lots.selected}, {}});
}

void rules(const app::MillRecordModel& record) {
    ui::part("How it was counted");
    for (const auto& rule : record.rules)
        ui::hint(rule);
}

} // namespace

void draw_mill_record(MillRecordView& view, MillId mill, const app::PlantModel& model,
                      const app::Notice& notice, Day today, app::Intents& out) {
    view.span.take_answer(notice);
    auto wanted = view.asked;
    if (wanted.mill != mill)
        wanted = {mill, view.from, view.to, 0};
    const bool is_there = model.mill_record && model.mill_record->query.mill == mill;
    ui::scroll_area("Record", {}, [&] {
        if (days_row(view, today))
            wanted = {mill, view.from, view.to, 0};
        if (!is_there)
            return;
        const auto& record = *model.mill_record;
        ui::hint(fmt::format("{} to {}", iso(record.query.from), iso(record.query.until)));
        figures(record);
        flours(record);
        differences(record);
        draw_complaints(view.complaints, record, model.complaints_changed, today, notice, out);
        returns(record);
        lots(view, wanted, record.page, out);
        rules(record);
    });
    ask(view, wanted, notice, out);
}

void leave(MillRecordView& view, app::Intents& out) {
    if (std::exchange(view.has_asked, false))
        out.emplace_back(app::ShowMillRecord{});
}

} // namespace mellowbin::views
