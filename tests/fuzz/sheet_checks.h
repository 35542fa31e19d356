#pragma once

#include "exchange/sheet.h"

#include <vector>

namespace mellowbin::fuzz {

/// What holds of every table, whatever file it came from: text without blanks around, no row without
/// anything, rows in their order, each cell with a place that can be named.
void expect_sound(const exchange::Sheet& sheet, const exchange::SheetLimits& limits);

/// Limits so low that a fuzzer reaches them.
exchange::SheetLimits low_limits();

} // namespace mellowbin::fuzz
