#pragma once

#include "app/acts/notice.h"
#include "app/models/lots.h"
#include "app/models/readiness.h"
#include "ui/views/lots/question.h"
#include "ui/views/lots/view.h"

/// The pages of a lot's sheet.
namespace mellowbin::views {

/// What is asked of this lot.
LotQuestion question_about(const app::LotSheet& sheet, LotQuestion::Deed deed);
/// The same of what lies in a place.
LotQuestion question_about(const app::LotSheet& sheet, const app::PlaceShare& place, LotQuestion::Deed deed);

/// Some of it lies there, and it is not released: it may go back to the mill.
bool may_go_back(const app::LotSheet& sheet);

/// Results in their specification, the form of a retest, the door, what the lot is good for by itself.
void draw_certificate(LotsView& view, const app::LotSheet& sheet, const app::ReadinessModel& readiness,
                      const app::Notice& notice, app::Intents& out);
/// With which delivery it came, and on which pallets; nothing where nobody kept that.
void draw_arrival(LotsView& view, const app::LotSheet& sheet);
/// How it matures by the estimate.
void draw_aging(LotsView& view, const app::LotSheet& sheet, Day today);
/// Where it lies, what can be done there, and how it moved.
void draw_places(LotsView& view, const app::LotSheet& sheet, app::Intents& out);
/// What was done to it, the newest first.
void draw_history(const app::LotSheet& sheet);

} // namespace mellowbin::views
