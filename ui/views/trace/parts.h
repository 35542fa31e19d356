#pragma once

#include "ui/views/trace/view.h"

namespace mellowbin::views {

/// All that is found: lots, batches, dispatches, each as a line.
void draw_found(TraceView& view, const app::TraceModel& trace);
/// Received, used, in stock and what is not explained, a line for each lot.
void draw_balances(TraceView& view, const app::TraceModel& trace);
/// What left, what was put back, and forms for both.
void draw_dispatches(TraceView& view, const app::TracePage& page, Day today, const app::Notice& notice,
                     app::Intents& out);
/// What lies in silos, what a draw would hold, and what is said of them.
void draw_silos(TraceView& view, const app::TracePage& page, Day today, const app::Notice& notice,
                app::Intents& out);
/// What lies where, now or at a time that has been.
void draw_stock(TraceView& view, const app::TracePage& page, const app::Notice& notice, app::Intents& out);
/// Drills: begin, end, those that were.
void draw_drills(TraceView& view, const app::TracePage& page, const app::Notice& notice, app::Intents& out);

} // namespace mellowbin::views
