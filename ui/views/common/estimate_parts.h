#pragma once

#include "app/models/outlook.h"
#include "ui/widgets/curve.h"

#include <span>
#include <string_view>
#include <vector>

/// How an estimate is shown wherever it stands: a day with its spread, a course over days as points and as a
/// table.
namespace mellowbin::views {

/// The likely day, and between which two it lies in 80 of 100 cases.
void spread_fact(std::string_view label, const app::DaySpread& spread);

/// Maturity as people read it, 0 to 100.
std::vector<app::CurveDay> in_percent(std::span<const app::CurveDay> days);
std::vector<ui::CurvePoint> points_of(std::span<const app::CurveDay> days);

/// Day, 10, 50 and 90 %.
void course_table(std::string_view name, std::span<const app::CurveDay> days, int decimals);

/// The quiet button under a chart that shows it as a table, and the table as a chart.
void table_switch(bool& as_table);

} // namespace mellowbin::views
