#pragma once

#include "ui/views/common/keep.h"
#include "ui/views/trace/view.h"

namespace mellowbin::views {

/// What is traced, and the reason of a hold that stands open.
void keep_begun(KeptWriter& k, const TraceView& view);
void take_up(KeptReader& k, TraceView& view);

} // namespace mellowbin::views
