#pragma once

#include "ui/views/common/keep.h"
#include "ui/views/intake/view.h"

namespace mellowbin::views {

/// Something is typed; what is only remembered of the delivery before is none.
bool is_begun(const IntakeView& view);
/// The delivery as it is typed: lots, answers at the door, a number half scanned.
void keep_begun(KeptWriter& k, const IntakeView& view);
/// Its lots stand behind those that are typed already.
void take_up(KeptReader& k, IntakeView& view, app::Intents& out);

} // namespace mellowbin::views
