#include "core/decimal.h"
#include "ui/views/common/words.h"
#include "ui/views/trace/parts.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using ui::Role;

constexpr float head_and_rows(std::size_t rows) { return 2.6F + 2.1F * static_cast<float>(rows); }

std::string_view kind_of(app::TraceRow::Kind kind) {
    switch (kind) {
    case app::TraceRow::Kind::lot:
        return "Lot";
    case app::TraceRow::Kind::batch:
        return "Batch";
    case app::TraceRow::Kind::dispatch:
        return "Sent";
    }
    return {};
}

void write_kg(const std::optional<double>& kg, ui::RowWriter& cells) {
    if (kg)
        cells.cell(fixed(*kg, 1));
    else
        cells.empty();
}

void write_found(const app::TraceRow& row, ui::RowWriter& cells) {
    cells.cell(kind_of(row.kind));
    cells.cell(row.what);
    if (row.certainty)
        cells.cell(in_words(*row.certainty), *row.certainty == Certainty::contains ? Role::stop : Role::mind);
    else
        cells.empty();
    cells.cell(row.when);
    write_kg(row.kg, cells);
    write_kg(row.likely, cells);
    cells.cell(row.where);
    cells.cell(row.why);
    cells.cell(row.who);
}

constexpr std::array found_columns{
    ui::Column{.head = "Kind", .sample = "Batch", .sortable = false, .gives_way = 4},
    ui::Column{.head = "What", .sample = "Batch 12 of run R-1125-1", .stretch = 2, .sortable = false},
    ui::Column{.head = "Contains", .sample = "! may contain", .sortable = false},
    ui::Column{.head = "When", .sample = "2026-11-25 04:10", .sortable = false},
    ui::Column{
        .head = "Booked", .unit = "kg", .sample = "12000.0", .align = ui::Align::right, .sortable = false},
    ui::Column{
        .head = "Likely", .unit = "kg", .sample = "12000.0", .align = ui::Align::right, .sortable = false},
    ui::Column{.head = "Where", .sample = "customer K-17", .stretch = 2, .sortable = false},
    ui::Column{.head = "Why", .sample = "a silo in which", .stretch = 2, .sortable = false, .gives_way = 3},
    ui::Column{.head = "Who", .sample = "Joris", .stretch = 1, .sortable = false, .gives_way = 5},
};

constexpr std::array balance_columns{
    ui::Column{.head = "Lot", .sample = "W24-1180", .stretch = 1, .sortable = false},
    ui::Column{
        .head = "Received", .unit = "kg", .sample = "25000.0", .align = ui::Align::right, .sortable = false},
    ui::Column{.head = "Counted",
               .unit = "kg",
               .sample = "-250.0",
               .align = ui::Align::right,
               .sortable = false,
               .gives_way = 3},
    ui::Column{
        .head = "Used", .unit = "kg", .sample = "25000.0", .align = ui::Align::right, .sortable = false},
    ui::Column{
        .head = "In stock", .unit = "kg", .sample = "25000.0", .align = ui::Align::right, .sortable = false},
    ui::Column{.head = "Waste",
               .unit = "kg",
               .sample = "250.0",
               .align = ui::Align::right,
               .sortable = false,
               .gives_way = 2},
    ui::Column{.head = "To the mill",
               .unit = "kg",
               .sample = "25000.0",
               .align = ui::Align::right,
               .sortable = false,
               .gives_way = 1},
    ui::Column{.head = "Unexplained",
               .unit = "kg",
               .sample = "! 250.0",
               .align = ui::Align::right,
               .sortable = false},
    ui::Column{
        .head = "of received", .unit = "%", .sample = "10.00", .align = ui::Align::right, .sortable = false},
};

void write_balance(const app::MassBalance& one, ui::RowWriter& cells) {
    cells.cell(one.code);
    for (const Grams mass : {one.received, one.counted, one.used, one.in_stock, one.waste, one.to_mill})
        cells.cell(fixed(to_kilograms(mass).value(), 1));
    cells.cell(fixed(to_kilograms(one.unexplained).value(), 1),
               one.unexplained == Grams{} ? Role::ink : Role::mind);
    cells.cell(fixed(one.unexplained_percent, 2));
}

} // namespace

void draw_found(TraceView& view, const app::TraceModel& trace) {
    constexpr std::size_t most_rows = 14;
    const auto record = [](std::size_t i) { return static_cast<std::int64_t>(i); };
    const auto write = [&](std::size_t i, ui::RowWriter& cells) { write_found(trace.rows[i], cells); };
    ui::table({.name = "Trace",
               .columns = found_columns,
               .rows = trace.rows.size(),
               .record = record,
               .write_row = write,
               .when_empty = "Nothing of it is in the book.",
               .density = ui::Density::close,
               .height = ui::Length{head_and_rows(std::clamp<std::size_t>(trace.rows.size(), 2, most_rows))}},
              view.rows);
}

void draw_balances(TraceView& view, const app::TraceModel& trace) {
    if (trace.balances.empty())
        return;
    ui::part("Mass balance");
    constexpr std::size_t most_rows = 6;
    const auto record = [&](std::size_t i) { return trace.balances[i].lot.number(); };
    const auto write = [&](std::size_t i, ui::RowWriter& cells) { write_balance(trace.balances[i], cells); };
    ui::table(
        {.name = "Mass balance",
         .columns = balance_columns,
         .rows = trace.balances.size(),
         .record = record,
         .write_row = write,
         .density = ui::Density::close,
         .height = ui::Length{head_and_rows(std::clamp<std::size_t>(trace.balances.size(), 1, most_rows))}},
        view.balances);
}

} // namespace mellowbin::views
