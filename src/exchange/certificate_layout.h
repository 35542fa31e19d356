#pragma once

#include "core/result.h"
#include "exchange/certificate_label.h"
#include "exchange/sheet.h"

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace mellowbin::exchange {

/// A value that stands for every lot of the file: a mill, a delivery note above a table of lots.
inline constexpr std::size_t of_every_lot = static_cast<std::size_t>(-1);

/// A value and the label it stands under or behind, as the paper has them.
struct LaidOutValue {
    std::size_t lot = of_every_lot; ///< in CertificateLayout::lots
    std::size_t label = 0;          ///< in the label book
    std::size_t sheet = 0, row = 0, column = 0;
    std::string text, trouble;
    bool is_number = false;                           ///< a spreadsheet's: its point is a decimal point
    std::string unit, basis, method, nitrogen_factor; ///< of fields or words of their own beside it
};

struct LaidOutLot {
    std::size_t sheet = 0, row = 0;
    std::string where;
    Refusals refusals; ///< a torn row, a value under no head
};

/// What was not made a value of, and could have been.
struct LaidOutRest {
    std::size_t sheet = 0, row = 0, column = 0;
    std::string label, text, why;
};

/// A basis that a paper states once for all its figures.
struct StatedBasis {
    std::string basis, where;
};

/// Where on the paper the lots, labels and values stand.
struct CertificateLayout {
    std::vector<LaidOutLot> lots;
    std::vector<LaidOutValue> values; ///< in the order of the paper
    std::vector<LaidOutRest> rest;
    std::vector<std::string> notes;
    StatedBasis basis;
    bool is_own_file = false; ///< a table of lots with this program's own heads throughout
};

/// Finds out where things stand; understands labels, and of values only that they are some.
CertificateLayout lay_out(std::span<const Sheet> sheets, LabelBook& labels);

// Parts of it, each reading what the one before left.

/// A row that was taken is not read again.
using TakenRows = std::vector<bool>;

/// Takes tables with a lot a row out of a sheet.
void take_lot_tables(const Sheet& sheet, std::size_t number, LabelBook& labels, TakenRows& taken,
                     CertificateLayout& layout);

/// Takes everything else: tables of properties, and labels with their values behind or beside.
void take_lines(const Sheet& sheet, std::size_t number, LabelBook& labels, const TakenRows& taken,
                CertificateLayout& layout);

/// A field of a row that says something.
struct FilledCell {
    std::size_t column = 0;       ///< in the row
    std::size_t from = 0, to = 0; ///< where it lies on the line, or its column where separators part it
};
std::vector<FilledCell> filled_cells(const Sheet& sheet, std::size_t row);

/// Of columns that lie somewhere, the one each cell belongs to; nothing where two cells would share one. As
/// many cells as columns are taken in their order where blanks part them.
std::vector<std::size_t> columns_of(const std::vector<FilledCell>& cells,
                                    const std::vector<FilledCell>& columns, SheetKind kind);

/// "Lot 4711": the number behind words for one; empty where there is none.
std::string lot_number_in(std::string_view text, LabelBook& labels);

/// A label and its value in one field, "Mill: Weir Mill", "W = 280"; nothing where it is none.
struct LabelAndValue {
    std::string label, value;
};
std::optional<LabelAndValue> label_and_value(std::string_view text, LabelBook& labels);

/// "Protein (N x 5.7) 12.5 % 14 % moisture ICC 167": a line as it is pasted, taken apart by its words;
/// nothing where no known label begins it.
struct SingleLine {
    std::size_t label = 0; ///< in the label book
    std::string value, basis, method, nitrogen_factor;
};
std::optional<SingleLine> single_line(std::string_view text, LabelBook& labels);

/// "All results on 14 % moisture basis": the basis, which holds for figures that say none; else empty.
std::string basis_of_all(std::string_view text);

} // namespace mellowbin::exchange
