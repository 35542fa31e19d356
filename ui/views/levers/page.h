#pragma once

#include "app/acts/notice.h"
#include "app/models/levers.h"
#include "app/models/mixer.h"
#include "ui/views/common/form.h"

namespace mellowbin::views {

/// The ways to make up a run's missing strength, side by side, and what they reach together. Nothing is typed
/// here; of another run of today they are asked for by choosing it.
struct LeversPage {
    Asked asked; ///< for last
};

/// The levers of a run as they were weighed. Where `out` is given, what the plan can do of one is a button.
void draw_levers(const app::LeversModel& levers, app::Intents* out = nullptr);

void draw(LeversPage& page, const app::MixerModel& model, const app::Notice& notice, app::Intents& out);

} // namespace mellowbin::views
