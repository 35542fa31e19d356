#include "app/acts/looking.h"
#include "app/acts/print_papers.h"
#include "app/acts/save_listing.h"
#include "core/decimal.h"
#include "ui/views/common/day_words.h"
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

constexpr std::array columns{
    ui::Column{.head = "Place", .sample = "Silo 12", .stretch = 1, .sortable = false},
    ui::Column{.head = "Lot", .sample = "W24-1180", .stretch = 1, .sortable = false},
    ui::Column{.head = "Flour", .sample = "Strong white", .stretch = 1, .sortable = false, .gives_way = 3},
    ui::Column{.head = "Mill", .sample = "Harrow Mill", .stretch = 1, .sortable = false, .gives_way = 4},
    ui::Column{.head = "State", .sample = "In quarantine", .sortable = false, .gives_way = 2},
    ui::Column{
        .head = "Stock", .unit = "kg", .sample = "12000.0", .align = ui::Align::right, .sortable = false},
    ui::Column{
        .head = "Bags", .sample = "480.0", .align = ui::Align::right, .sortable = false, .gives_way = 1},
    ui::Column{.head = "Age", .unit = "d", .sample = "365", .align = ui::Align::right, .sortable = false},
    ui::Column{.head = "Days left", .sample = "! -12", .align = ui::Align::right, .sortable = false},
};

void write(const app::StockRow& row, ui::RowWriter& cells) {
    cells.cell(row.place);
    cells.cell(row.code);
    cells.cell(row.flour);
    cells.cell(row.mill);
    cells.cell(row.state);
    cells.cell(kilograms(row.kg));
    if (row.bags)
        cells.cell(fixed(*row.bags, 1));
    else
        cells.empty();
    cells.cell(std::to_string(row.age_days));
    if (row.days_left)
        cells.cell(std::to_string(*row.days_left), *row.days_left < 0 ? Role::mind : Role::ink);
    else
        cells.empty();
}

void totals(const app::StockModel& stock) {
    ui::part("In all");
    for (const auto& flour : stock.flours)
        ui::fact({.label = flour.flour, .value = kilograms(flour.kg), .unit = "kg"});
    ui::part("How old it is");
    for (const auto& age : stock.ages)
        ui::fact({.label = age.words, .value = kilograms(age.kg), .unit = "kg"});
}

} // namespace

void draw_stock(TraceView& view, const app::TracePage& page, const app::Notice& notice, app::Intents& out) {
    ui::form("When", [&] {
        ui::flow([&] {
            ui::text_field({.label = "At",
                            .hint = "now, or 2026-11-20 08:00",
                            .refusals = &view.stock_asked.refusals,
                            .width = 14_em},
                           view.stock_at);
            if (ui::button("Show stock", {.kind = ui::ButtonKind::primary})) {
                view.stock_asked.ask(notice);
                out.emplace_back(app::ShowStock{view.stock_at});
            }
            if (ui::button("Save as a spreadsheet", {.kind = ui::ButtonKind::quiet})) {
                view.stock_asked.ask(notice);
                app::SaveListing saving{"stock"};
                saving.at = view.stock_at;
                out.emplace_back(saving);
            }
            if (ui::button("Print the list to count by", {.kind = ui::ButtonKind::quiet}))
                out.emplace_back(app::PrintStockToCount{});
        });
    });
    if (!page.stock)
        return;
    const auto& stock = *page.stock;
    ui::paragraph(fmt::format("{}: {} kg", stock.as_of, kilograms(stock.kg)), {.weight = ui::Weight::bold});
    constexpr std::size_t most_rows = 16;
    const auto record = [](std::size_t i) { return static_cast<std::int64_t>(i); };
    const auto write_row = [&](std::size_t i, ui::RowWriter& cells) { write(stock.rows[i], cells); };
    const auto rows = std::clamp<std::size_t>(stock.rows.size(), 2, most_rows);
    ui::table({.name = "Stock",
               .columns = columns,
               .rows = stock.rows.size(),
               .record = record,
               .write_row = write_row,
               .when_empty = "Nothing lay there.",
               .density = ui::Density::close,
               .height = ui::Length{2.6F + 2.1F * static_cast<float>(rows)}},
              view.stock_rows);
    totals(stock);
}

} // namespace mellowbin::views
