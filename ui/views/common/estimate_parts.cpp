#include "ui/views/common/estimate_parts.h"

#include "app/models/outlook.h"
#include "ui/views/common/words.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <array>

namespace mellowbin::views {

using namespace ui::literals;
using ui::Role;

void spread_fact(std::string_view label, const app::DaySpread& spread) {
    if (!spread.likely) {
        ui::fact({.label = label, .value = "not within the studied time"});
        return;
    }
    const auto note = fmt::format("between {} and {} in 80 of 100 cases", day_words(spread.early),
                                  spread.late ? iso(*spread.late) : "a day beyond the studied time");
    ui::fact({.label = label, .value = iso(*spread.likely), .note = note, .role = Role::model});
}

std::vector<app::CurveDay> in_percent(std::span<const app::CurveDay> days) {
    std::vector<app::CurveDay> percent(days.begin(), days.end());
    for (auto& day : percent)
        for (double* value : {&day.low, &day.likely, &day.high})
            *value *= 100;
    return percent;
}

std::vector<ui::CurvePoint> points_of(std::span<const app::CurveDay> days) {
    std::vector<ui::CurvePoint> points;
    points.reserve(days.size());
    for (const auto& day : days)
        points.push_back({ui::day_number(day.day), day.low, day.likely, day.high});
    return points;
}

void course_table(std::string_view name, std::span<const app::CurveDay> days, int decimals) {
    static constexpr std::array columns{
        ui::Column{.head = "Day", .sample = "2026-11-25", .sortable = false},
        ui::Column{.head = "10 %", .sample = "0.00", .align = ui::Align::right, .sortable = false},
        ui::Column{.head = "50 %", .sample = "0.00", .align = ui::Align::right, .sortable = false},
        ui::Column{.head = "90 %", .sample = "0.00", .align = ui::Align::right, .sortable = false},
    };
    ui::TableState state;
    const auto record = [&](std::size_t i) { return static_cast<std::int64_t>(i) + 1; };
    const auto write = [&](std::size_t i, ui::RowWriter& row) {
        row.cell(iso(days[i].day));
        for (const double value : {days[i].low, days[i].likely, days[i].high})
            row.cell(number_words(value, decimals));
    };
    ui::table({.name = name,
               .columns = columns,
               .rows = days.size(),
               .record = record,
               .write_row = write,
               .density = ui::Density::close,
               .height = 14_em},
              state);
}

void table_switch(bool& as_table) {
    if (ui::button(as_table ? "Show the curve" : "Show as a table", {.kind = ui::ButtonKind::quiet}))
        as_table = !as_table;
}

} // namespace mellowbin::views
