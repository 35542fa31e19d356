#pragma once

#include "app/acts/state.h"

namespace mellowbin::app {

/// Fills the deliveries to come, what is spoken for, and the mills, flours and markets to choose from.
void show_supply(const App::State& state, PlanModel& model);

} // namespace mellowbin::app
