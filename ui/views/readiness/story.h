#pragma once

#include "app/acts/notice.h"
#include "app/models/readiness.h"
#include "app/models/story.h"
#include "ui/views/common/retest_form.h"
#include "ui/views/common/take_back.h"
#include "ui/views/readiness/story_charts.h"

#include <optional>

namespace mellowbin::views {

/// One lot opened on Readiness: what to do with it and why, how it matures, what was measured, the air where
/// it lies, and where each number comes from.
struct LotStory {
    StoryCharts charts;
    RetestForm retest;
    std::optional<TakeBack> withdrawing;
};

/// True when the person closed it.
[[nodiscard]] bool draw(LotStory& view, const app::AgingStory& story, const app::ReadinessModel& model,
                        const app::Notice& notice, app::Intents& out);

} // namespace mellowbin::views
