#pragma once

#include "app/acts/intent.h"
#include "app/models/plan.h"
#include "ui/views/plan/view.h"

#include <optional>

namespace mellowbin::views {

/// One row of tools over the days: which days, which page, what if, print, plan. What is seldom wanted (a
/// first day by date, how long to search, a run by its fields) stands in a second row, on request.
void draw_tools(PlanView& view, const app::PlanModel& model, app::Intents& out);

/// The first day as typed; refused beside its field where it is none.
std::optional<Day> first_day(PlanView& view);

} // namespace mellowbin::views
