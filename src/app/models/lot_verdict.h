#pragma once

#include "app/models/lots.h"

namespace mellowbin::app {

/// From the sheet's state, days, door and results: what fails is told with its figure, what is well in a word
/// or not at all.
LotVerdict lot_verdict(const LotSheet& sheet, Day today);

} // namespace mellowbin::app
