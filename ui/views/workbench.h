#pragma once

#include "app/acts/notice.h"
#include "app/models/overview.h"
#include "ui/widgets/body.h"
#include "ui/widgets/workbench.h"

#include <cstdint>
#include <optional>
#include <span>
#include <string>

namespace mellowbin::views {

/// What stands around every screen: the rail with what waits on each, the line on top, what was just done.
struct WorkbenchView {
    std::string search;
    std::uint64_t notice = 0; ///< the one that is shown
    float notice_seconds = 0; ///< how long it has stood there, while nobody was on it
};

/// Draws the frame of the window and the body inside it; the place on the rail that was chosen.
std::optional<int> draw(WorkbenchView& view, std::span<const ui::RailItem> rail, int current,
                        const app::Notice& notice, const app::Overview& overview, ui::Around around,
                        ui::Body body, app::Intents& out);

} // namespace mellowbin::views
