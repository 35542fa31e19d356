#pragma once

#include "app/acts/intent.h"
#include "core/kept_text.h"
#include "ui/views/screens.h"

/// Work begun on any screen, as text and back. A screen joins by a line in the table of kept.cpp.
namespace mellowbin::views {

/// All that is begun; costs some microseconds.
KeptText kept_of(const Screens& screens, const Models& models);
/// The same fields on the same screen, as they were typed; what was typed since stays. `out` opens the
/// records that they are about.
void take_up(Screens& screens, const Models& models, const KeptText& kept, app::Intents& out);

} // namespace mellowbin::views
