#pragma once

#include "ui/views/trace/view.h"

namespace mellowbin::views {

/// All that is found: lots, batches, dispatches, each as a line.
void draw_found(TraceView& view, const app::TraceModel& trace);
/// Received, used, in stock and what is not explained, a line for each lot.
void draw_balances(TraceView& view, const app::TraceModel& trace);
/// Drills: begin, end, those that were.
void draw_drills(TraceView& view, const app::TracePage& page, const app::Notice& notice, app::Intents& out);

} // namespace mellowbin::views
