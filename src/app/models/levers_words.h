#pragma once

#include "app/acts/state.h"
#include "dough/levers.h"

namespace mellowbin::app {

/// The levers as people read them.
void show_levers(const App::State& s, const dough::LeversInput& input, const dough::Levers& levers,
                 LeversModel& model);

} // namespace mellowbin::app
