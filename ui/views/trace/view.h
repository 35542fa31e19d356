#pragma once

#include "app/acts/notice.h"
#include "app/acts/trace.h"
#include "app/models/overview.h"
#include "app/models/trace_page.h"
#include "ui/views/common/form.h"
#include "ui/views/common/take_back.h"
#include "ui/widgets/table.h"

#include <cstdint>
#include <optional>
#include <string>

namespace mellowbin::views {

/// What is asked before everything concerned is put on hold. Stays open, with the reason as typed, until it
/// is done or given up.
struct HoldQuestion {
    std::string reason;
    Asked asked;
};

/// What is said of a silo, as typed.
struct SiloSaid {
    std::string zone, kg;
};
/// What was done to a silo, as typed.
struct CareTyped {
    int what = 0; ///< by place in CareKind
    std::string day, by, note;
};

/// From a lot to where it went, and from bread back to its lots; what left, what lies in silos, and what lies
/// where.
struct TraceView {
    enum Page { trace_page, dispatches_page, silos_page, stock_page };
    int page = trace_page;
    int asks = 0; ///< by place in TraceOf
    std::string of, day;
    Asked looked_for;       ///< what was said of these fields
    bool has_asked = false; ///< the page was asked for, and follows the book
    bool wants_focus = true;
    ui::TableState rows, balances, drills;
    std::optional<HoldQuestion> holding;
    Form<std::int64_t, DispatchDraft> dispatch; ///< one, under 0
    Form<std::int64_t, ReworkDraft> rework;     ///< one, under 0
    Form<PlaceId, SiloSaid> silos;
    Form<PlaceId, CareTyped> care;
    std::optional<TakeBack> taking_back; ///< a dispatch; open over the screen
    std::string draw_kg = "1000";
    Asked draw_asked;
    std::string stock_at; ///< an instant as typed; empty: now
    Asked stock_asked;
    bool has_stock = false; ///< it was asked for, and follows the book
    ui::TableState stock_rows;
};

void draw(TraceView& view, const app::TracePage& page, const app::Notice& notice,
          const app::Overview& overview, app::Intents& out);
/// Something else is looked at: the trace is not made any more, and is asked for again when one comes back.
void leave(TraceView& view, app::Intents& out);

} // namespace mellowbin::views
