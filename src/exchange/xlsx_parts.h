#pragma once

#include "core/result.h"
#include "exchange/number_format.h"
#include "exchange/sheet.h"

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::exchange {

// The parts of an Open XML spreadsheet (ECMA-376 part 1), each read from its unpacked document.

/// A relation of a part to another: what kind of part, and where it lies.
struct XlsxRelation {
    std::string kind; ///< the last word of its type: "worksheet", "sharedStrings"
    std::string target;
};
/// By the relation's name.
Result<std::map<std::string, XlsxRelation>> read_xlsx_relations(const std::string& document);

struct XlsxSheetName {
    std::string name;
    std::string relation;
    bool is_hidden = false;
};
struct XlsxWorkbook {
    std::vector<XlsxSheetName> sheets; ///< in their order
    DayCount days = DayCount::from_1900;
};
Result<XlsxWorkbook> read_xlsx_workbook(const std::string& document);

/// The texts that cells name by number; at most so many.
Result<std::vector<std::string>> read_xlsx_strings(const std::string& document, std::size_t most);

/// The number formats that cells name by number.
Result<std::vector<NumberFormat>> read_xlsx_formats(const std::string& document);

/// What the cells of a sheet lean on.
struct XlsxBeside {
    std::vector<std::string> strings;
    std::vector<NumberFormat> formats;
    DayCount days = DayCount::from_1900;
    SheetLimits limits;
};
/// The sheet's rows. Hidden rows and columns are left out and noted. `cells_left` of the file's limit goes
/// down with every cell.
Result<Sheet> read_xlsx_sheet(const std::string& document, const XlsxBeside& beside, std::size_t& cells_left);

/// What of a text a cell shows: line breaks as blanks, no blanks around.
std::string cell_text(std::string_view text);

} // namespace mellowbin::exchange
