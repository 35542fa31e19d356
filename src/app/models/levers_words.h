#pragma once

#include "app/book/station.h"
#include "app/models/levers.h"
#include "dough/levers.h"

namespace mellowbin::app {

/// The levers as people read them; `rate` of maturing, 1/d at 20 °C, turns maturity into days.
void show_levers(const dough::LeversInput& input, const dough::Levers& levers, double rate,
                 LeversModel& model);

} // namespace mellowbin::app
