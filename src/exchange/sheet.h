#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::exchange {

/// One field of a table as a person reads it. Who reads on need not know where it came from: a percent cell
/// that holds 0.142 is "14.2 %", a cell with a date format is "2026-11-02", a plain number is as_typed().
struct SheetCell {
    std::string text;    ///< UTF-8, without the blanks around it
    std::string trouble; ///< why it says nothing: "a formula without a result", "#DIV/0!"; empty for none
    std::size_t from =
        0; ///< of text laid out: where on the line it begins, from 1: in characters, on a page of
    std::size_t to = 0;     ///< a PDF in points; and where it ends, itself included. Else 0
    bool is_number = false; ///< the cell itself is a number: its point is a decimal point

    friend bool operator==(const SheetCell&, const SheetCell&) = default;
};

struct SheetRow {
    std::size_t line = 0; ///< row of a spreadsheet, line of a file, line on its page; from 1
    std::size_t page = 0; ///< of a PDF, from 1; else 0
    std::vector<SheetCell> cells;
    std::string source; ///< of text: the line as it stood there; of a spreadsheet empty

    friend bool operator==(const SheetRow&, const SheetRow&) = default;
};

/// Of text, whether separators part the fields, so that each is in its column, or blanks, so that its place
/// on the line says in which column it is.
enum class SheetKind { spreadsheet, text, laid_out, pages };

/// A table, whatever file it came from. Rows without anything in them are left out.
struct Sheet {
    std::string name; ///< of a spreadsheet's sheet, where the file has several; else empty
    SheetKind kind = SheetKind::text;
    std::vector<SheetRow> rows;
    std::vector<std::string> notes; ///< what a reader of it must know: "Sheet \"B\" is hidden"

    friend bool operator==(const Sheet&, const Sheet&) = default;
};

/// What a file may be at most; more is refused before it costs anything.
struct SheetLimits {
    std::size_t file_bytes = 50'000'000;
    std::size_t unpacked_bytes = 200'000'000; ///< of all parts of a packed file
    std::size_t unpacked_ratio = 200; ///< of a part, unpacked to packed, where it unpacks to over 1 MB
    std::size_t cells = 1'000'000; ///< with something in them; far more than a table a person looks through
    std::size_t columns = 1'000;
    std::size_t lines = 200'000;
    std::size_t pages = 500;
};

/// The letters of a spreadsheet's column, from 0: "A", "Z", "AA".
std::string column_letters(std::size_t column);

/// Names a cell (row and column count from 0 in the table): "B7" of a spreadsheet (with its sheet in front,
/// "Lot 2!B7", where a file has several), "line 7", "page 2, line 7"; of a line with several fields with
/// ", column 3".
std::string where(const Sheet& sheet, std::size_t row, std::size_t column);
/// Names a row: "row 7", "line 7", "page 2, line 7".
std::string where(const Sheet& sheet, std::size_t row);
/// The row as it stood there; of a spreadsheet its cells with " | " between them.
std::string source_line(const Sheet& sheet, std::size_t row);

} // namespace mellowbin::exchange
