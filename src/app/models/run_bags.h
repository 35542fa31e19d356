#pragma once

#include "dough/card.h"

namespace mellowbin::app {

struct Station;

/// Bags that were scanned for the run's batch of this number, which has this card. A wrong one stands until
/// quality cleared it, or until a bag of each of the card's lots was scanned and one of them after it. What
/// was scanned for a batch that was taken back says nothing of the next one.
dough::BagsScanned bags_of(const Station& s, RunId run, int batch, const Result<dough::Card>& card);

} // namespace mellowbin::app
