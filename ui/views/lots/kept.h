#pragma once

#include "app/acts/intent.h"
#include "app/models/lots.h"
#include "ui/views/common/keep.h"
#include "ui/views/lots/view.h"

namespace mellowbin::views {

/// Retests and loaves half logged, and what is asked before a lot is held, counted, moved, ….
void keep_begun(KeptWriter& k, const LotsView& view, const app::LotsModel& model);
/// `out` opens the lot that it is about.
void take_up(KeptReader& k, LotsView& view, app::Intents& out);

} // namespace mellowbin::views
