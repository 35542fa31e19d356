#pragma once

#include "app/models/plan.h"
#include "ui/widgets/ui.h"

#include <cstdint>
#include <optional>

namespace mellowbin::views {

/// How much is short in all, in a strip. True when the next short run is to be shown: its cures stand there.
bool draw_shortages(const app::PlanModel& model);

/// The first run that is short after this one, in the order of days; after the last, the first again.
std::optional<std::int64_t> next_short_run(const app::PlanModel& model, std::optional<std::int64_t> after);

} // namespace mellowbin::views
