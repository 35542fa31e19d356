#include "core/shipped_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

namespace mellowbin {
namespace {

std::vector<std::string> cells_of(std::string_view line) {
    std::vector<std::string> cells;
    for (std::size_t at = 0; at <= line.size();) {
        const auto comma = std::min(line.find(',', at), line.size());
        cells.emplace_back(line.substr(at, comma - at));
        at = comma + 1;
    }
    return cells;
}

} // namespace

std::vector<TableRow> rows_of_table(std::string_view text) {
    std::vector<TableRow> rows;
    std::size_t columns = 0;
    int number = 0;
    for (std::size_t at = 0; at < text.size();) {
        const auto end = std::min(text.find('\n', at), text.size());
        const auto line = text.substr(at, end - at);
        at = end + 1;
        ++number;
        if (line.empty() || line.front() == '#')
            continue;
        auto cells = cells_of(line);
        if (columns == 0) {
            columns = cells.size();
            continue;
        }
        if (cells.size() != columns)
            throw std::logic_error(
                fmt::format("line {}: {} cells, {} expected", number, cells.size(), columns));
        rows.push_back({number, std::move(cells)});
    }
    return rows;
}

} // namespace mellowbin
