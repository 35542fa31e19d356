#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

namespace mellowbin::ui {

/// A symbol to be scanned from the screen.
struct Modules {
    std::string_view label;                  ///< names it: "GS1 DataMatrix"
    std::size_t columns = 0, rows = 0;       ///< one row: bars
    std::size_t quiet = 0;                   ///< light modules on each side
    const std::vector<bool>* dark = nullptr; ///< row by row
};

/// Black on white in any palette, each module the same whole number of pixels: as large as the place is wide,
/// and no more than a scanner reads in one look. Where it cannot be so small, the words say it.
void modules(const Modules& symbol);

} // namespace mellowbin::ui
