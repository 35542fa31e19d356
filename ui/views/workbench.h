#pragma once

#include "app/acts/notice.h"
#include "app/models/overview.h"
#include "ui/widgets/body.h"

#include <optional>
#include <string>
#include <string_view>

namespace mellowbin::views {

enum class Screen { intake, lots, readiness, plan, mixer, settings };
inline constexpr int screen_count = 6;
/// "Intake": on the rail, and after --screen.
std::string_view name_of(Screen screen);
/// Reads a screen's name in any case; nothing for another word.
std::optional<Screen> screen_named(std::string_view name);

/// What stands around every screen: the rail with what waits on each, the line on top, what was just done.
struct WorkbenchView {
    Screen current = Screen::intake;
    std::string search;
};

/// Draws the frame of the window and the body inside it.
void draw(WorkbenchView& view, const app::Notice& notice, const app::Overview& overview, ui::Body body,
          app::Intents& out);

} // namespace mellowbin::views
