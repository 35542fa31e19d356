#include "exchange/laid_out_text.h"

#include "core/typed_text.h"
#include "exchange/csv.h"
#include "exchange/page_words.h"
#include "exchange/text_encoding.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <span>

namespace mellowbin::exchange {
namespace {

struct Line {
    std::string_view text;
    std::size_t page = 1;
    std::size_t number = 0; ///< on its page
};

/// The lines, however they end; a form feed ends one, too, and begins a page.
std::vector<Line> lines_of(std::string_view text) {
    std::vector<Line> lines;
    std::size_t page = 1;
    std::size_t number = 0;
    while (!text.empty()) {
        const auto end = std::min(text.find_first_of("\r\n\f"), text.size());
        lines.push_back({text.substr(0, end), page, ++number});
        if (end < text.size() && text[end] == '\f') {
            ++page;
            number = 0;
        }
        text.remove_prefix(std::min(text.size(), end + (text.substr(end).starts_with("\r\n") ? 2 : 1)));
    }
    return lines;
}

bool says_something(std::string_view text) {
    // Rules of dashes and the like part a table for the eye only.
    return text.find_first_not_of(" \t\v-=_+|:;,.*#") != std::string_view::npos;
}

/// How often the separator stands in the line, outside quotation marks and brackets.
std::size_t count_of(std::string_view line, char separator) {
    std::size_t count = 0;
    int brackets = 0;
    bool is_quoted = false;
    for (const char c : line) {
        is_quoted = is_quoted != (c == '"');
        brackets += c == '(' ? 1 : c == ')' ? -1 : 0;
        count += c == separator && !is_quoted && brackets <= 0 ? 1 : 0;
    }
    return count;
}

/// Whether a comma stands there that is not between two digits, as in 12,5.
bool has_comma_of_words(std::string_view line) {
    const auto is_digit = [&](std::size_t i) { return i < line.size() && line[i] >= '0' && line[i] <= '9'; };
    for (std::size_t i = 0; i < line.size(); ++i)
        if (line[i] == ',' && !(i > 0 && is_digit(i - 1) && is_digit(i + 1)))
            return true;
    return false;
}

/// Commas part fields where nearly every line has as many; one a line may be a decimal mark, unless words
/// stand beside it.
bool are_parted_by_commas(std::span<const Line> lines, std::size_t spoken) {
    const auto first =
        std::find_if(lines.begin(), lines.end(), [](const Line& line) { return says_something(line.text); });
    if (first == lines.end() || spoken < 2)
        return false;
    const auto commas = count_of(first->text, ',');
    std::size_t as_many = 0, of_words = 0;
    for (const auto& line : lines) {
        as_many += says_something(line.text) && count_of(line.text, ',') == commas ? 1 : 0;
        of_words += has_comma_of_words(line.text) ? 1 : 0;
    }
    return commas > 0 && of_words > 0 && as_many * 10 >= spoken * 8 && (commas > 1 || of_words * 2 > spoken);
}

/// What parts the fields of all lines; nothing where blanks do.
std::optional<char> separator_of(std::span<const Line> lines) {
    std::size_t spoken = 0;
    std::size_t with_blanks = 0;
    for (const auto& line : lines) {
        spoken += says_something(line.text) ? 1 : 0;
        with_blanks += trimmed(line.text).find("  ") != std::string_view::npos ? 1 : 0;
    }
    for (const char separator : {'\t', ';', '|'}) {
        const auto having = std::count_if(lines.begin(), lines.end(), [&](const Line& line) {
            return says_something(line.text) && count_of(line.text, separator) > 0;
        });
        if (having > 0 && static_cast<std::size_t>(having) * 2 >= spoken)
            return separator;
    }
    if (with_blanks * 2 > spoken || !are_parted_by_commas(lines, spoken))
        return {};
    return ',';
}

std::size_t blank_length(std::string_view text) {
    for (const std::string_view blank : {" ", "\t", "\v", "\u00A0", "\u2009", "\u202F"})
        if (text.starts_with(blank))
            return blank.size();
    return 0;
}

/// Fields parted by two and more blanks, a tab or a pipe, each with the character where it begins.
std::vector<SheetCell> fields_in_blanks(std::string_view line) {
    std::vector<SheetCell> fields;
    std::size_t character = 1;
    bool is_new = true;
    std::string blanks; // not yet known to be within a field
    while (!line.empty()) {
        const std::size_t blank = blank_length(line);
        const std::size_t length =
            std::max<std::size_t>(blank, std::max<std::size_t>(1, character_length(line)));
        const bool parts = line.front() == '\t' || line.front() == '|';
        if (parts || blank > 0) {
            is_new = is_new || parts || !blanks.empty();
            blanks = " ";
        } else {
            if (is_new)
                fields.push_back({"", "", character, character, false});
            else
                fields.back().text += blanks;
            fields.back().text += line.substr(0, length);
            fields.back().to = character;
            is_new = false;
            blanks.clear();
        }
        line.remove_prefix(length);
        ++character;
    }
    return fields;
}

Refusal too_much(std::string where, std::string what) {
    return {std::move(where), std::move(what), "Give only the pages or lines with the certificate"};
}

/// Puts rows that say something into the sheet as long as they keep to the limits.
class SheetFiller {
public:
    SheetFiller(Sheet& sheet, const SheetLimits& limits) : sheet_(sheet), limits_(limits) {}

    Refusals add(SheetRow row) {
        if (std::none_of(row.cells.begin(), row.cells.end(),
                         [](const SheetCell& cell) { return says_something(cell.text); }))
            return {};
        if (row.cells.size() > limits_.columns)
            return {
                too_much(fmt::format("Line {}", row.line), fmt::format("{} fields were read; {} at most are",
                                                                       row.cells.size(), limits_.columns))};
        cells_ += row.cells.size();
        if (cells_ > limits_.cells)
            return {too_much(fmt::format("Line {}", row.line),
                             fmt::format("the text has more than {} fields", limits_.cells))};
        sheet_.rows.push_back(std::move(row));
        return {};
    }

private:
    Sheet& sheet_;
    const SheetLimits& limits_;
    std::size_t cells_ = 0;
};

Refusals read_separated(std::string_view text, char separator, std::size_t first_line,
                        std::span<const Line> lines, SheetFiller& filler) {
    const auto records = read_csv_records(text, separator, first_line);
    if (!records)
        return records.refusals();
    for (const auto& record : *records) {
        SheetRow row;
        row.line = record.line;
        row.source = lines[std::min(record.line - first_line, lines.size() - 1)].text;
        for (const auto& field : record.fields)
            row.cells.push_back({std::string(trimmed(field)), "", 0, 0, false});
        if (auto refusals = filler.add(std::move(row)); !refusals.empty())
            return refusals;
    }
    return {};
}

Refusals read_in_blanks(std::span<const Line> lines, bool has_pages, SheetFiller& filler) {
    for (const auto& line : lines) {
        SheetRow row{line.number, has_pages ? line.page : 0, fields_in_blanks(line.text),
                     std::string(line.text)};
        if (auto refusals = filler.add(std::move(row)); !refusals.empty())
            return refusals;
    }
    return {};
}

} // namespace

Result<Sheet> read_laid_out_text(std::string_view bytes, SheetKind kind, const SheetLimits& limits) {
    if (bytes.size() > limits.file_bytes)
        return too_much(
            "", fmt::format("the text has {} bytes; {} at most are read", bytes.size(), limits.file_bytes));
    auto decoded = as_utf8(bytes);
    if (!decoded)
        return decoded.refusals();
    if (kind == SheetKind::pages && are_page_words(*decoded))
        return read_page_words(*decoded, limits);
    std::string_view text = *decoded;
    std::optional<char> stated;
    if (kind != SheetKind::pages)
        stated = take_separator_line(text);
    const std::size_t first_line = stated ? 2 : 1;
    const auto lines = lines_of(text);
    if (lines.size() > limits.lines)
        return too_much(
            "", fmt::format("the text has {} lines; {} at most are read", lines.size(), limits.lines));
    if (!lines.empty() && lines.back().page > limits.pages)
        return too_much(
            "", fmt::format("the text has {} pages; {} at most are read", lines.back().page, limits.pages));

    const bool has_pages = kind == SheetKind::pages || (!lines.empty() && lines.back().page > 1);
    auto separator = stated;
    if (!separator && !has_pages)
        separator = separator_of(lines);
    Sheet sheet;
    sheet.kind = has_pages ? SheetKind::pages : separator ? SheetKind::text : SheetKind::laid_out;
    if (!bytes.starts_with("\xFF\xFE") && !bytes.starts_with("\xFE\xFF") && !is_utf8(bytes))
        sheet.notes.push_back(
            "The text is no UTF-8 and was read as Windows-1252: look at letters with accents");
    SheetFiller filler(sheet, limits);
    if (separator && !text.empty() && text.back() != '\n' && text.back() != '\r')
        sheet.notes.push_back(
            "The last line has no line break: if the file was cut off, its last figure may be too");
    const auto refusals = separator ? read_separated(text, *separator, first_line, lines, filler)
                                    : read_in_blanks(lines, has_pages, filler);
    if (!refusals.empty())
        return refusals;
    return sheet;
}

} // namespace mellowbin::exchange
