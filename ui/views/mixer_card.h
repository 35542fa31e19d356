#pragma once

#include "app/read_models.h"
#include "ui/widgets/ui.h"

/// The card of a batch as the mixer reads it.
namespace mellowbin::views {

/// Lots at the left, water as the largest figure with temperature and ice, oxidant with its caution, the
/// aims; the cautions of the whole card and the blend's figures beneath.
void draw_card(const app::CardModel& card);

/// There is no card: every reason, as large as the water would be read.
void draw_no_card(const app::CardModel& card);

} // namespace mellowbin::views
