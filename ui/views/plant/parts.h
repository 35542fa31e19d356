#pragma once

#include "core/day.h"
#include "ui/views/plant/view.h"

namespace mellowbin::views {

/// The records of a kind, those retired last; with a button for a new one.
void draw_list(PlantView& view, PlantKind kind, const app::PlantModel& model, bool is_opened,
               app::Intents& out);
/// The form of one record.
void draw_record(PlantView& view, PlantRef record, const app::PlantModel& model, const app::Notice& notice,
                 Day today, app::Intents& out);
/// A mill is opened, and its record is looked at.
bool shows_mill_record(const PlantView& view);
/// Another one is looked at, or none: what others changed of it was read.
void leave(const PlantView& view, const app::PlantModel& model, app::Intents& out);

} // namespace mellowbin::views
