#pragma once

#include "app/models/card.h"

namespace mellowbin::views {

/// What to beware of at the bowl: of the oxidant, and of the flour. Known by heart, so in ink and not in
/// amber, beside what is weighed.
void draw_cautions(const app::CardModel& card);

} // namespace mellowbin::views
