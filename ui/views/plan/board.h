#pragma once

#include "app/acts/intent.h"
#include "app/models/plan.h"
#include "ui/views/plan/moves.h"
#include "ui/widgets/ui.h"

/// The runs of the days shown, as cards over lines and days, and as a table of the same facts.
namespace mellowbin::views {

/// True when another run was chosen. A lot tapped on a card is opened, a run opened leads to its card; a run
/// or a lot carried elsewhere becomes the intent that `judge` told of.
bool draw_plan_board(ui::BoardState& state, const app::PlanModel& model, Tried tried, app::Intents& out);
bool draw_plan_table(ui::TableState& state, const app::PlanModel& model, app::Intents& out);

} // namespace mellowbin::views
