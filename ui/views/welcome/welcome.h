#pragma once

#include "app/models/welcome.h"

#include <string_view>

namespace mellowbin::views {

enum class WelcomeWish { none, set_up, look_at_demo };

/// The window where there is no plant yet: two ways to begin, and what stood against the one chosen.
WelcomeWish draw_welcome(const app::WelcomeModel& model);

/// The window while the demo's book is made: what is being done, and the share of it that is done, 0 to 1.
void draw_making_demo(std::string_view what, double share);

} // namespace mellowbin::views
