#include "core/typed_text.h"
#include "exchange/xlsx_parts.h"
#include "exchange/xml_walk.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <optional>

namespace mellowbin::exchange {
namespace {

/// Of a number with more digits a spreadsheet has lost the last ones: a lot number typed as a figure.
constexpr double past_all_digits = 1e15;
constexpr const char* without_result = "a formula without a result";

template <class Number> std::optional<Number> number_in(std::string_view text) {
    Number number{};
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc{} || end != text.data() + text.size())
        return {};
    return number;
}

/// "AB12" -> column 27, line 12; nothing where it is no name of a cell.
struct Place {
    std::size_t column = 0;
    std::size_t line = 0;
};
std::optional<Place> place_named(std::string_view name) {
    Place place;
    std::size_t letters = 0;
    while (letters < name.size() && letters < 4 && name[letters] >= 'A' && name[letters] <= 'Z')
        place.column = place.column * 26 + static_cast<std::size_t>(name[letters++] - 'A') + 1;
    const auto line = number_in<std::size_t>(name.substr(letters));
    if (letters == 0 || !line || *line == 0)
        return {};
    --place.column;
    place.line = *line;
    return place;
}

struct Stop {
    Refusal why;
};

class SheetListener : public XmlListener {
public:
    SheetListener(const XlsxBeside& beside, std::size_t& cells_left)
        : beside_(beside), cells_left_(cells_left) {}

    void begin(std::string_view element, const XmlAttributes& attributes) override {
        if (element == "col")
            take_columns(attributes);
        else if (element == "row")
            begin_row(attributes);
        else if (element == "c")
            begin_cell(attributes);
        else if (element == "f")
            is_formula_ = true;
        has_value_ = has_value_ || element == "v" || element == "is";
        is_value_ = element == "v" || (element == "t" && !is_spoken_);
        is_spoken_ = is_spoken_ || element == "rPh";
    }

    void text(std::string_view characters) override {
        if (is_value_)
            value_ += characters;
    }

    void end(std::string_view element) override {
        is_value_ = false;
        if (element == "rPh")
            is_spoken_ = false;
        if (element == "c" && is_row_)
            end_cell();
        else if (element == "row")
            end_row();
    }

    Sheet sheet;

private:
    static bool is_true(const XmlAttributes& attributes, std::string_view name) {
        const auto text = attribute(attributes, name).value_or("");
        return text == "1" || text == "true";
    }

    void take_columns(const XmlAttributes& attributes) {
        const auto first = number_in<std::size_t>(attribute(attributes, "min").value_or(""));
        const auto last = number_in<std::size_t>(attribute(attributes, "max").value_or(""));
        if (!is_true(attributes, "hidden") || !first || !last || *first == 0)
            return;
        hidden_columns_.resize(beside_.limits.columns);
        for (std::size_t column = *first; column <= std::min(*last, hidden_columns_.size()); ++column)
            hidden_columns_[column - 1] = true;
    }

    void begin_row(const XmlAttributes& attributes) {
        const auto line = number_in<std::size_t>(attribute(attributes, "r").value_or(""));
        row_ = {};
        row_.line = line.value_or(line_ + 1);
        line_ = row_.line;
        next_column_ = 0;
        is_row_ = true;
        is_hidden_row_ = is_true(attributes, "hidden");
    }

    void begin_cell(const XmlAttributes& attributes) {
        const auto place = place_named(attribute(attributes, "r").value_or(""));
        column_ = place ? place->column : next_column_;
        next_column_ = column_ + 1;
        type_ = attribute(attributes, "t").value_or("n");
        format_ = number_in<std::size_t>(attribute(attributes, "s").value_or("0")).value_or(0);
        value_.clear();
        is_formula_ = has_value_ = is_spoken_ = false;
    }

    [[nodiscard]] std::string name_of_cell() const {
        return fmt::format("{}{}", column_letters(column_), line_);
    }

    void end_cell() {
        SheetCell cell = cell_read();
        if (cell.text.empty() && cell.trouble.empty())
            return;
        if (column_ < hidden_columns_.size() && hidden_columns_[column_]) {
            has_hidden_columns_ = true;
            return;
        }
        if (column_ >= beside_.limits.columns)
            throw Stop{{name_of_cell(),
                        fmt::format("lies beyond column {}, the last that is read",
                                    column_letters(beside_.limits.columns - 1)),
                        "Save only the sheet with the certificate as a new file"}};
        if (column_ >= row_.cells.size()) {
            const std::size_t more = column_ + 1 - row_.cells.size();
            if (more > cells_left_)
                throw Stop{{name_of_cell(),
                            fmt::format("the file has more than {} cells", beside_.limits.cells),
                            "Save only the sheet with the certificate as a new file"}};
            cells_left_ -= more;
            row_.cells.resize(column_ + 1);
        }
        row_.cells[column_] = std::move(cell);
    }

    [[nodiscard]] SheetCell cell_read() const {
        SheetCell cell;
        if (is_formula_ && !has_value_)
            cell.trouble = without_result;
        else if (type_ == "e")
            cell.trouble = cell_text(value_);
        else if (type_ == "s")
            cell.text = shared_text();
        else if (type_ == "b")
            cell.text = value_ == "1" ? "TRUE" : "FALSE";
        else if (type_ == "str" || type_ == "inlineStr")
            cell.text = cell_text(value_);
        else if (type_ == "d")
            cell.text = value_.substr(0, value_.find('T'));
        else if (!value_.empty())
            take_number(cell);
        else if (is_formula_)
            cell.trouble = without_result;
        return cell;
    }

    [[nodiscard]] std::string shared_text() const {
        const auto number = number_in<std::size_t>(value_);
        if (!number || *number >= beside_.strings.size())
            throw Stop{{name_of_cell(), "the file is torn: the cell names a text that the file does not hold",
                        "Get it again, whole"}};
        return beside_.strings[*number];
    }

    void take_number(SheetCell& cell) const {
        const auto number = number_in<double>(trimmed(value_));
        if (!number || !std::isfinite(*number)) {
            cell.trouble = fmt::format("\"{}\" stands there, which is no number", excerpt(value_));
            return;
        }
        const NumberFormat format =
            format_ < beside_.formats.size() ? beside_.formats[format_] : NumberFormat{};
        if (std::abs(*number) >= past_all_digits) {
            cell.trouble = "a number with more digits than a spreadsheet keeps";
            return;
        }
        cell.text = shown_number(*number, format, beside_.days);
        if (cell.text.empty())
            cell.trouble = fmt::format("{} stands there as a day, which is none", excerpt(value_));
        cell.is_number =
            format.kind == NumberFormat::Kind::plain || format.kind == NumberFormat::Kind::percent;
    }

    void end_row() {
        is_row_ = false;
        if (row_.cells.empty())
            return;
        if (is_hidden_row_) {
            cells_left_ += row_.cells.size();
            hidden_rows_ += hidden_rows_.empty() ? "" : ", ";
            hidden_rows_ += fmt::format("{}", row_.line);
            return;
        }
        sheet.rows.push_back(std::move(row_));
    }

public:
    /// After the walk: rows in their order, notes.
    void finish() {
        std::stable_sort(sheet.rows.begin(), sheet.rows.end(),
                         [](const SheetRow& a, const SheetRow& b) { return a.line < b.line; });
        if (!hidden_rows_.empty())
            sheet.notes.push_back(fmt::format("Hidden rows were not read: {}", excerpt(hidden_rows_)));
        if (has_hidden_columns_)
            sheet.notes.push_back("Hidden columns were not read");
    }

private:
    const XlsxBeside& beside_;
    std::size_t& cells_left_;
    SheetRow row_;
    std::size_t line_ = 0, column_ = 0, next_column_ = 0, format_ = 0;
    std::string type_, value_, hidden_rows_;
    std::vector<bool> hidden_columns_;
    bool is_row_ = false, has_value_ = false, is_hidden_row_ = false, is_formula_ = false, is_value_ = false,
         is_spoken_ = false;
    bool has_hidden_columns_ = false;
};

} // namespace

Result<Sheet> read_xlsx_sheet(const std::string& document, const XlsxBeside& beside,
                              std::size_t& cells_left) {
    SheetListener listener(beside, cells_left);
    try {
        if (const auto walked = walk_xml(document, listener); !walked)
            return walked.refusals();
    } catch (const Stop& stop) {
        return stop.why;
    }
    listener.finish();
    listener.sheet.kind = SheetKind::spreadsheet;
    return std::move(listener.sheet);
}

} // namespace mellowbin::exchange
