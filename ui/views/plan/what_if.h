#pragma once

#include "app/acts/notice.h"
#include "app/models/lots.h"
#include "app/models/plan.h"
#include "app/models/planned_run.h"
#include "ui/views/common/form.h"

#include <string>

namespace mellowbin::views {

/// What if: what is supposed, tried on a copy and never in the book. What is typed of each kind stays until
/// it is supposed.
struct WhatIf {
    int kind = 0; ///< a run moved, an order, no oxidant, a lot held
    RunId run;    ///< whose line, day and place stand in the fields
    int line = -1;
    std::string day, place;
    std::string flour, kg, arrives;
    std::string market;
    std::string lot;
    Asked asked;
    int asked_kind = 0; ///< whose refusals stand there
};

/// The list of what is supposed, a form for one thing more, and the button that plans with it. `chosen` is
/// the run chosen on the board, null for none.
void draw(WhatIf& what_if, const app::PlannedRun* chosen, const app::PlanModel& model,
          const app::LotsModel& lots, const app::Notice& notice, app::Intents& out);

} // namespace mellowbin::views
