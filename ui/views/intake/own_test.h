#pragma once

#include "app/acts/intent.h"
#include "app/acts/mills.h"
#include "app/models/intake.h"
#include "core/lot.h"

namespace mellowbin::views {

/// Whether the plant's own plan asks for a test of the lot at hand: asked once mill, flour and number are
/// typed, and again when one of them is another.
struct OwnTestAsked {
    app::AskWhetherToTest asked; ///< last; empty: nothing
};

/// Nothing where the plant has no plan.
void draw_own_test(OwnTestAsked& asked, const LotDraft& draft, const app::IntakeModel& model,
                   app::Intents& out);
/// Another screen is looked at: it is not worked out any more.
void leave(OwnTestAsked& asked, app::Intents& out);

} // namespace mellowbin::views
