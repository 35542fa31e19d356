#pragma once

#include "app/acts/intent.h"
#include "app/models/learning.h"

namespace mellowbin::views {

/// What the plant's own retests say against the published figures, and which of the two hold.
void draw_learned(const app::LearningModel& model, app::Intents& out);

} // namespace mellowbin::views
