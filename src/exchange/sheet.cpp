#include "exchange/sheet.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::exchange {

std::string column_letters(std::size_t column) {
    constexpr std::size_t letters = 26;
    std::string name;
    for (std::size_t left = column + 1; left > 0; left = (left - 1) / letters)
        name.insert(name.begin(), static_cast<char>('A' + (left - 1) % letters));
    return name;
}

std::string where(const Sheet& sheet, std::size_t row) {
    const SheetRow& at = sheet.rows.at(row);
    const std::string in_file = sheet.name.empty() ? "" : sheet.name + "!";
    if (sheet.kind == SheetKind::spreadsheet)
        return fmt::format("{}row {}", in_file, at.line);
    return at.page > 0 ? fmt::format("page {}, line {}", at.page, at.line) : fmt::format("line {}", at.line);
}

std::string where(const Sheet& sheet, std::size_t row, std::size_t column) {
    const SheetRow& at = sheet.rows.at(row);
    if (sheet.kind == SheetKind::spreadsheet)
        return fmt::format("{}{}{}", sheet.name.empty() ? "" : sheet.name + "!", column_letters(column),
                           at.line);
    const auto fields = std::count_if(at.cells.begin(), at.cells.end(),
                                      [](const SheetCell& cell) { return !cell.text.empty(); });
    return fields < 2 ? where(sheet, row) : fmt::format("{}, column {}", where(sheet, row), column + 1);
}

std::string source_line(const Sheet& sheet, std::size_t row) {
    const SheetRow& at = sheet.rows.at(row);
    if (sheet.kind != SheetKind::spreadsheet)
        return at.source;
    std::string line;
    for (const auto& cell : at.cells)
        if (!cell.text.empty() || !cell.trouble.empty())
            line += (line.empty() ? "" : " | ") + (cell.text.empty() ? cell.trouble : cell.text);
    return line;
}

} // namespace mellowbin::exchange
