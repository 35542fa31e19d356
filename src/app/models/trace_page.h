#pragma once

#include "app/models/trace.h"
#include "core/drill.h"
#include "db/dispatch_store.h"

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace mellowbin::app {

/// A silo, and how it gives its flour.
struct SiloRow {
    std::string name;
    std::string zone; ///< in words
};

/// What the screen Trace shows.
struct TracePage {
    std::optional<TraceModel> trace;
    std::string summary;       ///< of the trace, in one line
    std::vector<Drill> drills; ///< the newest first, without their reports
    DrillId running;           ///< the drill that was begun here
    std::vector<SiloRow> silos;
    std::vector<TraceDispatch> dispatches; ///< of the last fortnight, the newest first; countered ones too
};

struct Station;
struct LookedAt;

TracePage make_trace_page(const Station& station, const LookedAt& looked_at);
/// Of these days, by day; countered ones too. Their certainty says nothing.
std::vector<TraceDispatch> dispatches_of(const Station& station, const DispatchQuery& query);

} // namespace mellowbin::app
