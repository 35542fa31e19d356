#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace mellowbin {

/// A row of a table that the program comes with.
struct TableRow {
    int number = 0; ///< of its line in the file, from 1
    std::vector<std::string> cells;
};

/// The rows of a shipped table: `#` lines, a head, rows of cells without comma or quote. Throws
/// std::logic_error, naming the line, at a row that has not as many cells as the head.
std::vector<TableRow> rows_of_table(std::string_view text);

} // namespace mellowbin
