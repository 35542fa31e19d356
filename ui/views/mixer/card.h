#pragma once

#include "app/models/card.h"
#include "ui/widgets/ui.h"

/// The card of a batch as the mixer reads it.
namespace mellowbin::views {

/// A mass in the unit of the house.
std::string house_mass(const app::CardModel& card, double kg);

/// Lots at the left, water as the largest figure with temperature and ice and what comes then, oxidant with
/// its solution and caution, the aims; the cautions of the whole card and the blend's figures beneath.
/// `solution` is drawn beside the oxidant, `beneath` under the aims.
void draw_card(const app::CardModel& card, ui::Body solution, ui::Body beneath);

/// There is no card: every reason, as large as the water would be read.
void draw_no_card(const app::CardModel& card);

} // namespace mellowbin::views
