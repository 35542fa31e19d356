#pragma once

#include "app/models/lots.h"

#include <vector>

namespace mellowbin::app {

/// What became of the lot's flour, movement by movement, in words, in the order they were written.
std::vector<MovementRow> movement_rows(const Station& station, LotId lot);

} // namespace mellowbin::app
