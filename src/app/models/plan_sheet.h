#pragma once

#include "app/models/paper_head.h"
#include "app/models/plan.h"
#include "print/sheet.h"

namespace mellowbin::app {

/// The plan shown, for paper across: a table a day, then what is short with its cures and what to order.
/// Masses in kg, oxidant in mg/kg of flour, maturity in % (an estimate). When it was made is told as it is.
print::Sheet plan_sheet(const PlanModel& model, const PaperHead& head);

} // namespace mellowbin::app
