#pragma once

#include "app/models/readiness.h"
#include "app/models/story.h"

#include <optional>

/// A lot's courses over one time axis, under each other: its maturity, what was measured of it, the air where
/// it lay and will lie.
namespace mellowbin::views {

struct StoryCharts {
    bool maturity_as_table = false, results_as_table = false, storage_as_table = false;
    std::optional<Property> property; ///< whose course is shown
    std::optional<double> looked_at;  ///< the day that was under the pointer in the frame before
};

void draw_charts(StoryCharts& view, const app::AgingStory& story, const app::ReadinessModel& model);

} // namespace mellowbin::views
