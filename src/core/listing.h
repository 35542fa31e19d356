#pragma once

#include "core/day.h"

#include <string>
#include <variant>
#include <vector>

namespace mellowbin {

/// A list on its way out of the program: the same value goes onto paper, into CSV and into a spreadsheet.
struct Listing {
    enum class Holds { text, number, day, instant };
    struct Column {
        std::string head; ///< "Weight"
        std::string unit; ///< "kg"; empty for none
        Holds holds = Holds::text;
        int decimals = 0; ///< of numbers, as they are shown; the value keeps all of them
    };
    /// Nothing where a value is missing: it is never a zero.
    using Cell = std::variant<std::monostate, std::string, double, Day, Instant>;

    std::string name;               ///< of a file or a sheet: "lots"
    std::string title;              ///< "Lots in stock"
    std::vector<std::string> notes; ///< what stands above it: which lots, of which day
    std::vector<Column> columns;
    std::vector<std::vector<Cell>> rows; ///< each as long as the columns
};

/// "Weight kg": head and unit in one.
std::string head_of(const Listing::Column& column);
/// As it is read: 12.50, 2026-11-25, 2026-11-25T04:10:00Z; empty where it is missing.
std::string in_words(const Listing::Column& column, const Listing::Cell& cell);

} // namespace mellowbin
