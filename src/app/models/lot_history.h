#pragma once

#include "app/models/journal.h"
#include "core/lot.h"

#include <string_view>
#include <vector>

namespace mellowbin::app {

struct Station;

/// Of a sentence about a lot: "was put on hold".
std::string_view what_happened(LotState to);

/// The journal's lines about the lot as sentences, in the plant's time, oldest first.
std::vector<JournalRow> lot_history(const Station& station, LotId lot);

} // namespace mellowbin::app
