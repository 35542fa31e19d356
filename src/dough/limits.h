#pragma once

#include "core/limit.h"
#include "core/limit_update.h"

#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::dough {

/// The limits the program comes with, one row a market, substance, food and day range. A book keeps its own
/// copy, which the plant corrects and confirms; judge by that copy. `source_date` also tells how the figure
/// was come by
/// ("2024-12-18; read", "from memory").
const std::vector<LimitRow>& shipped_limits();

/// Every row that was shipped otherwise once, with the one that is shipped in its place.
const std::vector<Correction<LimitRow>>& limit_corrections();

/// The markets the program knows, each with the wider one it lies in.
const std::vector<Market>& markets();

/// What to know in a market beside its limits (label duties, stock held on a day); empty for nothing.
std::string_view note_of(std::string_view market);

using mellowbin::PropionateCount;
using mellowbin::PropionateRow;

/// The same for propionates in bread; a book keeps its own copy of these, too.
const std::vector<PropionateRow>& shipped_propionate_limits();
const std::vector<Correction<PropionateRow>>& propionate_corrections();

/// Reads a table in the form of the shipped ones: `#` lines, a head, rows of cells without comma or quote.
/// Throws std::logic_error, naming the line, at a row that does not fit.
std::vector<LimitRow> read_limit_table(std::string_view text);

} // namespace mellowbin::dough
