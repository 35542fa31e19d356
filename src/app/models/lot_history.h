#pragma once

#include "app/models/journal.h"
#include "core/lot.h"

#include <vector>

namespace mellowbin::app {

struct Station;

/// The journal's lines about the lot as sentences, in the plant's time, oldest first.
std::vector<JournalRow> lot_history(const Station& station, LotId lot);

} // namespace mellowbin::app
