#pragma once

#include "app/acts/intent.h"
#include "app/models/plan.h"
#include "app/models/planned_run.h"
#include "ui/views/plan/view.h"

namespace mellowbin::views {

/// The chosen run beside the days: how it stands, what would cure it, each cure a button; its lots; why,
/// folded.
void draw_sheet(PlanView& view, const app::PlannedRun& run, const app::PlanModel& model, app::Intents& out);

/// F7 locks, F8 picks the chosen run up, F9 its chosen lot, F10 goes to the next short run, Escape closes the
/// sheet.
void take_keys(PlanView& view, const app::PlanModel& model, app::Intents& out);

/// Chooses the next run that is short, and brings it into view.
void go_to_next_short_run(PlanView& view, const app::PlanModel& model);

} // namespace mellowbin::views
