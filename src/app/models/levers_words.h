#pragma once

#include "app/book/station.h"
#include "app/models/levers.h"
#include "dough/levers.h"

namespace mellowbin::app {

/// The levers as people read them.
void show_levers(const dough::LeversInput& input, const dough::Levers& levers, LeversModel& model);

} // namespace mellowbin::app
