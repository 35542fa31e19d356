#pragma once

#include "app/acts/trace.h"
#include "app/models/trace.h"
#include "core/result.h"

namespace mellowbin::app {

/// What is to be traced, as it stands in the book, or every reason why it cannot be.
Result<TraceQuery> read_trace(const State& state, const TraceTyped& typed);

} // namespace mellowbin::app
