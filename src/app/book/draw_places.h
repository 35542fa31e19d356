#pragma once

#include "app/book/book.h"

#include <vector>

namespace mellowbin::app {

/// From which places a run draws so much of a lot: first from where somebody scanned or chose, then from
/// where it drew last, then from the others as drawn_from() does. Less than needed where less lies there.
std::vector<PlacedFlour> draw_places(const Book& book, RunId run, LotId lot, Grams needed);

/// "Bay 2", or of several "Bay 2 120 kg, Bay 3 80 kg".
std::string in_words(const Book& book, const std::vector<PlacedFlour>& places);

} // namespace mellowbin::app
