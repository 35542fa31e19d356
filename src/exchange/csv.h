#pragma once

#include "core/result.h"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin {

/// One record of a CSV file. A quoted field may run over line breaks, so lines are counted in the file.
struct CsvRow {
    std::size_t line = 0; ///< where the record begins, from 1
    std::vector<std::string> fields;
};

/// A CSV file with a head line, as read. Fields are as they stand: blanks kept, nothing turned into numbers.
struct CsvTable {
    char separator = ',';
    std::size_t head_line = 1;
    std::vector<std::string> heads; ///< without the blanks around them
    std::vector<CsvRow> rows;
    bool ends_with_line_break = true; ///< a file without may have been cut off
};

/// The most columns a head line may have; a table of more is none that a person made.
inline constexpr std::size_t most_csv_columns = 1000;

/// What to do with a record that has fewer or more fields than the head line.
enum class RaggedRows {
    refuse, ///< the file is refused, every such line named
    keep,   ///< the rows are given as they are; the reader of the table refuses them one by one
};

/// Reads RFC 4180 and what spreadsheets make of it: records end with CRLF, LF or CR; fields are quoted with
/// ", doubled inside; the separator is the comma, semicolon or tab that the head line has most of (outside
/// quotes and brackets); a byte order mark and a first line "sep=;" are skipped, and so are empty lines and
/// those where every field is. UTF-8 only. Refused, naming the line: other encodings, a NUL byte, a quotation
/// mark in the midst of a field, a quoted field that is never closed (a torn file), two heads with the same
/// words, more columns than a table has.
Result<CsvTable> read_csv(std::string_view bytes, RaggedRows ragged = RaggedRows::refuse);

/// The records of a text in UTF-8 that has no head line of its own, empty ones left out; refused as
/// read_csv() does. Lines count from `first_line`.
Result<std::vector<CsvRow>> read_csv_records(std::string_view text, char separator,
                                             std::size_t first_line = 1);

/// Takes the line "sep=;" off, which some spreadsheets write in front; gives its separator.
std::optional<char> take_separator_line(std::string_view& text);

/// Why a record of another width than the head line cannot be read: field "Line 7".
Refusal ragged_row(const CsvTable& table, const CsvRow& row);

/// Writes a CSV file for spreadsheets: UTF-8 with a byte order mark, commas, CRLF, decimal points. All text
/// is quoted; a text that a spreadsheet would take for a formula (it begins with = + - @, a tab, a carriage
/// return or a line feed: OWASP/www-community, pages/attacks/CSV_Injection.md) gets an apostrophe in front.
/// Numbers are never altered.
class CsvWriter {
public:
    explicit CsvWriter(std::span<const std::string_view> heads);

    CsvWriter& text(std::string_view words);
    CsvWriter& number(double value, int decimals);
    CsvWriter& number(std::int64_t value);
    /// With as many decimals as it takes to read the same number back, and no exponent; missing where it is
    /// none.
    CsvWriter& exact(double value);
    /// A value that is missing: an empty field.
    CsvWriter& missing();
    /// Ends the record; it must have as many fields as there are heads.
    void end_row();

    [[nodiscard]] const std::string& bytes() const { return bytes_; }

private:
    void begin_field();

    std::string bytes_;
    std::size_t width_;
    std::size_t fields_in_row_ = 0;
};

} // namespace mellowbin
