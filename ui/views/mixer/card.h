#pragma once

#include "app/acts/intent.h"
#include "app/models/card.h"
#include "ui/widgets/ui.h"

#include <string>

namespace mellowbin::views {

/// kg in the unit of the house, as it stands on the scale.
std::string house_mass(const app::CardModel& card, double kg);

/// All that goes into the bowl, in the order of weighing: lots, water, ice, oxidant, the rest.
void draw_weighing(const app::CardModel& card);
/// What is aimed at: the dough's temperature, minutes of mixing and of fermentation.
void draw_aims(const app::CardModel& card);
/// The next batch is of another lot.
bool is_imminent(const app::CardModel& card);
/// What the next batch is like, and from which one on the run changes.
void draw_then(const app::CardModel& card);
/// What a stop means for the bowl and for the batches that are in; nothing where none stands.
void draw_aside(const app::CardModel& card);
/// Where no card can be given: every reason, with what to do.
void draw_no_card(const app::CardModel& card);
/// Where the figures come from, and what else there is to know of the batch; from where its flour is drawn
/// can be chosen there.
void draw_why(const app::CardModel& card, app::Intents& out);

} // namespace mellowbin::views
