#pragma once

#include "app/acts/notice.h"
#include "app/acts/trace.h"
#include "app/models/overview.h"
#include "app/models/trace_page.h"
#include "ui/views/common/form.h"
#include "ui/widgets/table.h"

#include <optional>
#include <string>

namespace mellowbin::views {

/// What is asked before everything concerned is put on hold. Stays open, with the reason as typed, until it
/// is done or given up.
struct HoldQuestion {
    std::string reason;
    Asked asked;
};

/// From a lot to where it went, and from bread back to its lots.
struct TraceView {
    int asks = 0; ///< by place in TraceOf
    std::string of, day;
    Asked looked_for;       ///< what was said of these fields
    bool has_asked = false; ///< the page was asked for, and follows the book
    bool wants_focus = true;
    ui::TableState rows, balances, drills;
    std::optional<HoldQuestion> holding;
};

void draw(TraceView& view, const app::TracePage& page, const app::Notice& notice,
          const app::Overview& overview, app::Intents& out);
/// Something else is looked at: the trace is not made any more, and is asked for again when one comes back.
void leave(TraceView& view, app::Intents& out);

} // namespace mellowbin::views
