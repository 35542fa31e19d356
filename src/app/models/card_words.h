#pragma once

#include "app/book/station.h"
#include "app/models/card.h"
#include "app/models/run_card.h"

namespace mellowbin::app {

/// The card as people read it, in the units of the house.
void show_card(const Station& s, const RunCard& made_from, const dough::Card& card, CardModel& model);

/// Whether it may be mixed, as people read it.
CardVerdict shown(const dough::Verdict& verdict);

/// From which batch on other lots go in, and what changes with them; words for the batch that is next.
void show_ahead(const RunCard& made_from, const dough::Card& card, CardModel& model);

/// The run's batches, newest first.
void show_logged(const Station& s, const Run& run, CardModel& model);

} // namespace mellowbin::app
