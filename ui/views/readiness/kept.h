#pragma once

#include "app/acts/intent.h"
#include "app/models/readiness.h"
#include "ui/views/common/keep.h"
#include "ui/views/readiness/view.h"

namespace mellowbin::views {

/// Retests half logged in a lot's story.
void keep_begun(KeptWriter& k, const ReadinessView& view, const app::ReadinessModel& model);
/// `out` opens the lot that it is about.
void take_up(KeptReader& k, ReadinessView& view, app::Intents& out);

} // namespace mellowbin::views
