#include "fuzz/sheet_checks.h"

#include "core/typed_text.h"
#include "fuzz/target.h"

#include <algorithm>

namespace mellowbin::fuzz {

using namespace exchange;

namespace {

void expect_sound(const SheetCell& cell) {
    expect_text(cell.text);
    expect_text(cell.trouble);
    expect(trimmed(cell.text) == cell.text, "a cell has no blanks around");
    expect(cell.text.empty() || cell.trouble.empty(), "a cell that is in trouble says nothing else");
}

} // namespace

void expect_sound(const Sheet& sheet, const SheetLimits& limits) {
    expect_text(sheet.name);
    for (const auto& note : sheet.notes)
        expect_text(note);
    std::size_t cells = 0;
    const SheetRow* before = nullptr;
    for (std::size_t i = 0; i < sheet.rows.size(); ++i) {
        const auto& row = sheet.rows[i];
        expect(row.cells.size() <= limits.columns, "a row has no more columns than may be");
        expect(std::any_of(row.cells.begin(), row.cells.end(),
                           [](const SheetCell& cell) { return !cell.text.empty() || !cell.trouble.empty(); }),
               "a row without anything is left out");
        for (const auto& cell : row.cells)
            expect_sound(cell);
        cells += row.cells.size();
        expect(!before || row.page > before->page || (row.page == before->page && row.line >= before->line),
               "rows stand in their order");
        before = &row;
        expect(!where(sheet, i).empty() && !where(sheet, i, 0).empty(), "a row has a place");
        expect_text(source_line(sheet, i));
    }
    expect(cells <= limits.cells, "a table has no more cells than may be");
}

SheetLimits low_limits() {
    SheetLimits limits;
    limits.unpacked_bytes = 100'000;
    limits.cells = 2'000;
    limits.columns = 60;
    limits.lines = 500;
    limits.pages = 5;
    return limits;
}

} // namespace mellowbin::fuzz
