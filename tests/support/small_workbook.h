#pragma once

#include "support/packed_parts.h"

#include <string>
#include <vector>

namespace mellowbin::tests {

/// A spreadsheet of one sheet. A cell that begins with "=" is a formula without a saved result, one that is a
/// number a number, all else text.
inline std::string small_workbook(const std::vector<std::vector<std::string>>& rows) {
    std::string cells;
    for (std::size_t r = 0; r < rows.size(); ++r) {
        cells += "<row r=\"" + std::to_string(r + 1) + "\">";
        for (std::size_t c = 0; c < rows[r].size(); ++c) {
            const auto& text = rows[r][c];
            const auto at = std::string(1, static_cast<char>('A' + c)) + std::to_string(r + 1);
            if (text.starts_with('='))
                cells += "<c r=\"" + at + "\"><f>" + text.substr(1) + "</f></c>";
            else if (!text.empty() && text.find_first_not_of("0123456789.") == std::string::npos)
                cells += "<c r=\"" + at + "\"><v>" + text + "</v></c>";
            else
                cells += "<c r=\"" + at + "\" t=\"inlineStr\"><is><t>" + text + "</t></is></c>";
        }
        cells += "</row>";
    }
    return testing::spreadsheet(cells);
}

} // namespace mellowbin::tests
