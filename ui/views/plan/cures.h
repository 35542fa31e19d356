#pragma once

#include "app/acts/intent.h"
#include "app/models/plan.h"
#include "app/models/planned_run.h"
#include "ui/views/plan/view.h"

/// How the chosen run stands, and what would cure it.
namespace mellowbin::views {

/// One word, one sentence, and the same flour on the days around it.
void draw_standing(const app::PlannedRun& run, const app::PlanModel& model);
/// Each cure as a button that does it, with what comes of it beneath.
void draw_cures(PlanView& view, const app::PlannedRun& run, const app::PlanModel& model, app::Intents& out);

} // namespace mellowbin::views
