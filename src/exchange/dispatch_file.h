#pragma once

#include "core/dispatch.h"
#include "core/result.h"

#include <string_view>
#include <vector>

namespace mellowbin::exchange {

/// Reads a CSV file of dispatches (see read_csv() for what it takes) by the heads of its columns, whatever
/// their order and capitals: product, run, customer, pieces, kg, piece g, day, note, reason. "customer" must
/// be there, "run" or "product", and "pieces" or "kg". Other heads are refused, for a figure that is not read
/// is worse than a question. The drafts are as they stand; what they say is read by accept(). Refused: what
/// read_csv() refuses, more than 10,000 lines.
Result<std::vector<DispatchLine>> read_dispatches(std::string_view bytes);

} // namespace mellowbin::exchange
