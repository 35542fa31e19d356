#include "exchange/csv.h"

#include "core/decimal.h"
#include "core/promised.h"
#include "core/typed_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <map>
#include <optional>
#include <set>

namespace mellowbin {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
constexpr std::string_view line_ends = "\r\n";
constexpr std::string_view separators = ",;\t";

std::string line_words(std::size_t line) { return fmt::format("Line {}", line); }

/// The line a place in the file stands on; CRLF, LF and CR each end one.
std::size_t line_of(std::string_view bytes, std::size_t place) {
    std::size_t line = 1;
    for (std::size_t i = 0; i < place; ++i)
        if (bytes[i] == '\n' || (bytes[i] == '\r' && (i + 1 >= bytes.size() || bytes[i + 1] != '\n')))
            ++line;
    return line;
}

/// The text without its byte order mark; refused when it is no UTF-8.
Result<std::string_view> utf8_text(std::string_view bytes) {
    constexpr const char* save_as_utf8 = "Save the file again as CSV in UTF-8";
    if (bytes.starts_with("\xFF\xFE") || bytes.starts_with("\xFE\xFF"))
        return Refusal{"Line 1", "the file is in UTF-16; UTF-8 is expected", save_as_utf8};
    if (bytes.starts_with(byte_order_mark))
        bytes.remove_prefix(byte_order_mark.size());
    for (std::size_t i = 0; i < bytes.size();) {
        if (bytes[i] == '\0')
            return Refusal{line_words(line_of(bytes, i)), "a NUL byte was read; the file is no plain text",
                           save_as_utf8};
        const std::size_t length = character_length(bytes.substr(i));
        if (length == 0)
            return Refusal{line_words(line_of(bytes, i)),
                           fmt::format("the byte {:02X} was read, which is no UTF-8",
                                       static_cast<unsigned char>(bytes[i])),
                           save_as_utf8};
        i += length;
    }
    return bytes;
}

/// The one of , ; tab that stands most often in the first record, outside quotes and brackets: a head may
/// read "damaged starch % (14 % moisture; AACC 76-31)".
char detected_separator(std::string_view text) {
    std::map<char, int> counts;
    for (const char separator : separators)
        counts[separator] = 0;
    bool is_quoted = false;
    int brackets = 0;
    for (const char c : text) {
        if (c == '"')
            is_quoted = !is_quoted;
        if (is_quoted)
            continue;
        if (line_ends.find(c) != std::string_view::npos)
            break;
        if (c == '(')
            ++brackets;
        else if (c == ')')
            --brackets;
        else if (brackets <= 0 && counts.contains(c))
            ++counts[c];
    }
    return std::max_element(counts.begin(), counts.end(),
                            [](const auto& a, const auto& b) { return a.second < b.second; })
        ->first;
}

/// Cuts the text into records.
class RecordReader {
public:
    RecordReader(std::string_view text, char separator, std::size_t first_line)
        : text_(text), separator_(separator), line_(first_line) {}

    [[nodiscard]] bool at_end() const { return at_ >= text_.size(); }

    Result<CsvRow> next() {
        CsvRow row{line_, {}};
        while (true) {
            auto field = peek() == '"' ? quoted_field() : plain_field();
            if (!field)
                return field.refusals();
            row.fields.push_back(*std::move(field));
            if (at_end() || peek() != separator_)
                break;
            ++at_;
        }
        take_line_end();
        return row;
    }

private:
    [[nodiscard]] char peek() const { return at_end() ? '\0' : text_[at_]; }

    void take_line_end() {
        if (at_end())
            return;
        at_ += text_.substr(at_).starts_with("\r\n") ? 2 : 1;
        ++line_;
    }

    Result<std::string> plain_field() {
        const std::size_t begin = at_;
        while (!at_end() && peek() != separator_ && line_ends.find(peek()) == std::string_view::npos) {
            if (peek() == '"')
                return Refusal{line_words(line_),
                               fmt::format("a quotation mark was read in the midst of a field, after \"{}\"",
                                           excerpt(text_.substr(begin, at_ - begin))),
                               "Put the whole field in quotation marks and double those inside"};
            ++at_;
        }
        return std::string(text_.substr(begin, at_ - begin));
    }

    Result<std::string> quoted_field() {
        const std::size_t opened_on = line_;
        std::string field;
        for (++at_; !at_end(); ++at_) {
            const bool is_doubled = text_.substr(at_).starts_with("\"\"");
            if (peek() == '"' && !is_doubled)
                return after_closing(std::move(field));
            if (is_doubled)
                ++at_;
            field += peek();
            if (peek() == '\n' || (peek() == '\r' && !text_.substr(at_).starts_with("\r\n")))
                ++line_;
        }
        return Refusal{line_words(opened_on),
                       fmt::format("a quoted field that begins \"{}\" is not closed before the file ends",
                                   excerpt(field)),
                       "The file is torn or lacks a quotation mark: get it again, whole"};
    }

    Result<std::string> after_closing(std::string field) {
        ++at_; // the closing mark
        if (at_end() || peek() == separator_ || line_ends.find(peek()) != std::string_view::npos)
            return field;
        return Refusal{line_words(line_),
                       fmt::format("\"{}\" was read after a closing quotation mark",
                                   excerpt(text_.substr(at_, text_.find_first_of(line_ends, at_) - at_))),
                       "Double the quotation marks that stand inside a quoted field"};
    }

    std::string_view text_;
    char separator_;
    std::size_t line_;
    std::size_t at_ = 0;
};

bool is_empty(const CsvRow& row) {
    return std::all_of(row.fields.begin(), row.fields.end(),
                       [](const std::string& field) { return trimmed(field).empty(); });
}

/// Heads without blanks around; the same words twice are refused, an unnamed column is not a second of
/// another.
Refusals take_heads(const CsvRow& row, CsvTable& table) {
    table.head_line = row.line;
    Refusals refusals;
    std::set<std::string> earlier;
    for (const auto& field : row.fields) {
        const std::string head(trimmed(field));
        const bool stands_twice = !head.empty() && !earlier.insert(bare_words(head)).second;
        if (stands_twice)
            refusals.push_back({line_words(row.line),
                                fmt::format("the head \"{}\" stands over two columns", excerpt(head)),
                                "Take one of the two columns out"});
        table.heads.push_back(head);
    }
    return refusals;
}

} // namespace

std::optional<char> take_separator_line(std::string_view& text) {
    const bool is_one = text.size() >= 5 && lower_case(text.substr(0, 4)) == "sep=" &&
                        separators.find(text[4]) != std::string_view::npos &&
                        (text.size() == 5 || line_ends.find(text[5]) != std::string_view::npos);
    if (!is_one)
        return {};
    const char separator = text[4];
    const bool is_crlf = text.substr(5).starts_with("\r\n");
    text.remove_prefix(std::min<std::size_t>(text.size(), is_crlf ? 7 : 6));
    return separator;
}

Result<std::vector<CsvRow>> read_csv_records(std::string_view text, char separator, std::size_t first_line) {
    std::vector<CsvRow> records;
    RecordReader reader(text, separator, first_line);
    while (!reader.at_end()) {
        auto row = reader.next();
        if (!row)
            return row.refusals();
        if (!is_empty(*row))
            records.push_back(*std::move(row));
    }
    return records;
}

Result<CsvTable> read_csv(std::string_view bytes, RaggedRows ragged) {
    const auto decoded = utf8_text(bytes);
    if (!decoded)
        return decoded.refusals();
    std::string_view text = *decoded;
    const auto stated = take_separator_line(text);
    const std::size_t first_line = stated ? 2 : 1;
    const auto head_begin = std::min(text.find_first_not_of(line_ends), text.size());

    CsvTable table;
    table.separator = stated ? *stated : detected_separator(text.substr(head_begin));
    table.ends_with_line_break = !text.empty() && line_ends.find(text.back()) != std::string_view::npos;
    auto records = read_csv_records(text, table.separator, first_line);
    if (!records)
        return records.refusals();
    if (records->empty())
        return Refusal{"", "the file is empty; a head line and a line for each record are expected",
                       "Choose another file"};

    const CsvRow& heads = records->front();
    if (heads.fields.size() > most_csv_columns)
        return Refusal{
            line_words(heads.line),
            fmt::format("{} columns were read; up to {} are expected", heads.fields.size(), most_csv_columns),
            "See whether this is the file that was meant"};

    Refusals refusals = take_heads(heads, table);
    table.rows.assign(std::make_move_iterator(records->begin() + 1), std::make_move_iterator(records->end()));
    if (ragged == RaggedRows::refuse)
        for (const auto& row : table.rows)
            if (row.fields.size() != table.heads.size())
                refusals.push_back(ragged_row(table, row));
    if (!refusals.empty())
        return refusals;
    return table;
}

Refusal ragged_row(const CsvTable& table, const CsvRow& row) {
    const bool is_long = row.fields.size() > table.heads.size();
    const char* remedy =
        is_long && table.separator == ','
            ? "A decimal comma in a file that separates by commas must stand in quotation marks"
        : is_long ? "A separator inside a field must stand in quotation marks"
                  : "Was the line cut off? Fields at its end that are empty need their separators";
    return {line_words(row.line),
            fmt::format("{} fields were read; {} are expected, as in the head line", row.fields.size(),
                        table.heads.size()),
            remedy};
}

CsvWriter::CsvWriter(std::span<const std::string_view> heads)
    : bytes_(byte_order_mark), width_(heads.size()) {
    for (const auto head : heads)
        text(head);
    end_row();
}

void CsvWriter::begin_field() {
    promised(fields_in_row_ < width_);
    if (fields_in_row_++ > 0)
        bytes_ += ',';
}

CsvWriter& CsvWriter::text(std::string_view words) {
    constexpr std::string_view formula_beginnings = "=+-@\t\r\n";
    begin_field();
    bytes_ += '"';
    if (!words.empty() && formula_beginnings.find(words.front()) != std::string_view::npos)
        bytes_ += '\'';
    for (const char c : words) {
        if (c == '"')
            bytes_ += '"';
        bytes_ += c;
    }
    bytes_ += '"';
    return *this;
}

CsvWriter& CsvWriter::number(double value, int decimals) {
    begin_field();
    bytes_ += fixed(value, decimals);
    return *this;
}

CsvWriter& CsvWriter::number(std::int64_t value) {
    begin_field();
    bytes_ += fmt::format("{}", value);
    return *this;
}

CsvWriter& CsvWriter::exact(double value) {
    begin_field();
    if (!std::isfinite(value))
        return *this;
    std::array<char, 400> digits; // the largest number has 309 before its point
    const auto end = std::to_chars(digits.begin(), digits.end(), value, std::chars_format::fixed).ptr;
    bytes_.append(digits.begin(), end);
    return *this;
}

CsvWriter& CsvWriter::missing() {
    begin_field();
    return *this;
}

void CsvWriter::end_row() {
    promised(fields_in_row_ == width_);
    bytes_ += "\r\n";
    fields_in_row_ = 0;
}

} // namespace mellowbin
