#pragma once

#include "app/models/plan.h"
#include "ui/views/common/keep.h"
#include "ui/views/plan/view.h"

namespace mellowbin::views {

/// Runs half added or changed, flour half expected or reserved, what is about to be supposed.
void keep_begun(KeptWriter& k, const PlanView& view, const app::PlanModel& model);
/// Products and lines that the plant no longer has are chosen anew.
void take_up(KeptReader& k, PlanView& view, const app::PlanModel& model);

} // namespace mellowbin::views
