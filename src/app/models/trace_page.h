#pragma once

#include "app/models/silos.h"
#include "app/models/stock.h"
#include "app/models/trace.h"
#include "core/drill.h"
#include "db/dispatch_store.h"

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace mellowbin::app {

/// What the screen Trace shows.
struct TracePage {
    std::optional<TraceModel> trace;
    std::string summary;       ///< of the trace, in one line
    std::vector<Drill> drills; ///< the newest first, without their reports
    DrillId running;           ///< the drill that was begun here
    std::vector<SiloRow> silos;
    std::vector<TraceDispatch> dispatches; ///< of the last fortnight, the newest first; countered ones too
    std::optional<StockModel> stock;       ///< where it was asked for
    std::uint64_t logged =
        0; ///< counts dispatches, rework and what was said of silos: forms empty when it changes
};

struct Station;
struct LookedAt;

TracePage make_trace_page(const Station& station, const LookedAt& looked_at);
/// Of these days, by day; countered ones too. Their certainty says nothing.
std::vector<TraceDispatch> dispatches_of(const Station& station, const DispatchQuery& query);

} // namespace mellowbin::app
