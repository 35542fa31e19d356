#pragma once

#include "app/models/plan.h"
#include "ui/widgets/ui.h"

#include <cstdint>
#include <optional>

namespace mellowbin::views {

/// How much is short in all, in one line; each shortage with its cure on request, which `with_cures` keeps.
/// True when the next short run is asked for.
bool draw_shortages(bool& with_cures, const app::PlanModel& model);

/// The first run that is short after this one, in the order of days; after the last, the first again.
std::optional<std::int64_t> next_short_run(const app::PlanModel& model, std::optional<std::int64_t> after);

} // namespace mellowbin::views
