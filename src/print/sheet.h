#pragma once

#include "core/day.h"
#include "core/result.h"
#include "print/drawing.h"

#include <string>
#include <variant>
#include <vector>

/// A paper of running text and tables: what it says, whatever paper it comes on.
namespace mellowbin::print {

struct Heading {
    std::string words;
};
struct Paragraph {
    std::string words;
    bool is_bold = false;
    double points = 0; ///< 0: as the sheet's
};
/// What must not be overlooked: large, in a thick frame.
struct Loud {
    std::string words;
};
struct Bullets {
    std::vector<std::string> lines;
};

struct CellLine {
    std::string words;
    bool is_bold = false;
};
using Cell = std::vector<CellLine>; ///< one under another; empty: to be filled in by hand

struct Table {
    struct Column {
        std::string head;
        Side side = Side::left;
        double least_mm = 0; ///< for what is written by hand
    };
    std::vector<Column> columns;
    std::vector<std::vector<Cell>> rows; ///< each as long as the columns
    bool has_heads = true;               ///< which stand again on each page
    double points = 0;                   ///< 0: as the sheet's
    double least_row_mm = 0;             ///< for what is written by hand
};

using Block = std::variant<Heading, Paragraph, Loud, Bullets, Table>;

struct Sheet {
    std::string title;
    std::string made; ///< when and for whom, beneath each page: "Wed 25 Nov 2026, 04:10"
    Instant made_at;
    bool is_across = false;
    double points = 10;
    std::vector<Block> blocks;
};

/// Its pages, each with the title, when it was made and "page 2 of 3" beneath.
Drawing drawing_of(const Sheet& sheet, PageSize paper);
/// The same as PDF; refused where a text has what no font on this machine can show.
Result<std::string> pdf_of(const Sheet& sheet, PageSize paper);

} // namespace mellowbin::print
