#include "core/typed_text.h"
#include "exchange/certificate_figure.h"
#include "exchange/certificate_layout.h"
#include "exchange/certificate_lots_on_paper.h"
#include "exchange/certificate_phrases.h"
#include "exchange/certificate_property_heads.h"

#include <algorithm>
#include <array>

namespace mellowbin::exchange {
namespace {

class Lines {
public:
    Lines(const Sheet& sheet, std::size_t number, LabelBook& labels, CertificateLayout& layout)
        : sheet_(sheet), number_(number), labels_(labels), lots_(number, labels, layout), layout_(layout) {}

    void take(const TakenRows& taken) {
        for (row_ = 0; row_ < sheet_.rows.size(); ++row_) {
            if (taken[row_]) {
                heads_.reset();
                continue;
            }
            cells_ = filled_cells(sheet_, row_);
            if (!take_heads() && !take_property_row())
                take_line();
        }
        lots_.finish();
    }

private:
    [[nodiscard]] const SheetCell& cell(std::size_t i) const {
        return sheet_.rows[row_].cells[cells_[i].column];
    }

    LaidOutValue value_at(std::size_t i, std::size_t label) const {
        LaidOutValue value;
        value.label = label;
        value.sheet = number_;
        value.row = row_;
        value.column = cells_[i].column;
        value.text = cell(i).text;
        value.trouble = cell(i).trouble;
        value.is_number = cell(i).is_number;
        return value;
    }

    void leave_out(std::size_t i, std::string label, std::string text, LabelState state) {
        layout_.rest.push_back({number_, row_, cells_[i].column, std::move(label), std::move(text),
                                state == LabelState::of_grain   ? "is of the grain, not of the flour"
                                : state == LabelState::left_out ? "is no field of a lot"
                                                                : "is not understood"});
    }

    /// Heads of a table of properties; lots side by side have a column each in it.
    bool take_heads() {
        auto heads = property_heads(sheet_, row_, cells_);
        if (!heads)
            return false;
        heads_ = std::move(heads);
        if (const auto lots = heads_->lot_columns(); !lots.empty())
            open_lot_columns(lots);
        return true;
    }

    void open_lot_columns(const std::vector<std::size_t>& columns) {
        std::vector<LotColumn> lots;
        for (const auto i : columns) {
            const auto code = lot_number_in(heads_->texts[i], labels_);
            lots.push_back({heads_->columns[i], row_, code.empty() ? heads_->texts[i] : code,
                            labels_.number_of(name_of(LotFact::lot_number))});
        }
        lots_.open_columns(std::move(lots));
    }

    /// A line of a table of properties; false where it is none.
    bool take_property_row() {
        if (!heads_ || cells_.size() < 2)
            return false;
        const auto columns = columns_of(cells_, heads_->columns, sheet_.kind);
        const auto label_cell = std::find(columns.begin(), columns.end(), heads_->property);
        if (label_cell == columns.end() || label_and_value(cell(0).text, labels_))
            return false;
        const auto at = static_cast<std::size_t>(label_cell - columns.begin());
        // A figure under "unit": the heads do not fit the line, which is read by its words then.
        for (std::size_t i = 0; i < cells_.size(); ++i)
            if (columns[i] < heads_->says.size() && heads_->says[columns[i]] == TableHead::unit &&
                is_bare_value(cell(i).text))
                return false;
        const auto label = labels_.number_of(cell(at).text);
        std::array<std::string, 6> beside;
        for (std::size_t i = 0; i < cells_.size(); ++i)
            if (columns[i] < heads_->says.size() && heads_->says[columns[i]])
                beside[static_cast<std::size_t>(*heads_->says[columns[i]])] = cell(i).text;
        for (std::size_t i = 0; i < cells_.size(); ++i) {
            if (i == at || columns[i] >= heads_->says.size())
                continue;
            const auto says = heads_->says[columns[i]];
            if (says && says != TableHead::value)
                continue;
            put(i, label, beside, !says);
        }
        return true;
    }

    void put(std::size_t i, std::size_t label, const std::array<std::string, 6>& beside, bool is_lot_column) {
        if (!says_what(labels_.at(label))) {
            leave_out(i, labels_.at(label).text, cell(i).text, labels_.at(label).state);
            return;
        }
        auto value = value_at(i, label);
        value.unit = beside[static_cast<std::size_t>(TableHead::unit)];
        value.basis = beside[static_cast<std::size_t>(TableHead::basis)];
        value.method = beside[static_cast<std::size_t>(TableHead::method)];
        lots_.put(std::move(value), is_lot_column || lots_.has_columns() ? &cells_[i] : nullptr);
    }

    /// Labels with their values behind them, in one field or in several.
    void take_line() {
        if (take_stated_basis())
            return;
        for (std::size_t i = 0; i < cells_.size();) {
            if (!cell(i).trouble.empty() && cell(i).text.empty()) {
                ++i;
            } else if (const auto both = label_and_value(cell(i).text, labels_)) {
                i = take_behind(i, labels_.number_of(both->label), both->value);
            } else if (const auto label = labels_.number_of(cell(i).text); is_label(label, i)) {
                i = take_behind(i, label, "");
            } else {
                take_single(i);
                ++i;
            }
        }
    }

    /// A label with something behind it; what is not understood is one only in front of a value.
    bool is_label(std::size_t label, std::size_t i) {
        const auto& read = labels_.at(label);
        if (i + 1 >= cells_.size() || is_bare_value(cell(i).text))
            return false;
        const auto& next = cell(i + 1);
        const bool has_value = !next.trouble.empty() || next.is_number || is_bare_value(next.text);
        return read.state == LabelState::known || read.state == LabelState::ambiguous ||
               (read.state != LabelState::not_known && has_value) || (i == 0 && has_value);
    }

    [[nodiscard]] bool ends_values(std::size_t i) {
        if (label_and_value(cell(i).text, labels_))
            return true;
        const auto& label = labels_.read(cell(i).text);
        return label.state == LabelState::known && !is_bare_value(cell(i).text) &&
               basis_in_words(cell(i).text) == std::nullopt && units_named(cell(i).text).empty();
    }

    /// Takes the fields behind a label up to the next label; gives the field behind them.
    std::size_t take_behind(std::size_t at, std::size_t label, const std::string& inside) {
        std::size_t end = at + 1;
        while (end < cells_.size() && !ends_values(end))
            ++end;
        if (!says_what(labels_.at(label))) {
            const auto text = !inside.empty() ? inside : at + 1 < end ? cell(at + 1).text : "";
            if (!text.empty())
                leave_out(at, labels_.at(label).text, text, labels_.at(label).state);
            return end;
        }
        const auto meaning = meaning_from_key(labels_.at(label).means.front());
        if (meaning && meaning->fact)
            return take_fact(at, end, label, inside);
        take_result(at, end, label, inside);
        return end;
    }

    /// A fact's value is the next field as it stands, with a unit of its own behind it. Gives the field
    /// behind.
    std::size_t take_fact(std::size_t at, std::size_t end, std::size_t label, const std::string& inside) {
        if (!inside.empty()) {
            auto value = value_at(at, label);
            value.text = inside;
            value.is_number = false;
            const bool has_unit = at + 1 < end && !units_named(cell(at + 1).text).empty();
            if (has_unit)
                value.unit = cell(at + 1).text;
            lots_.put(std::move(value), nullptr);
            return has_unit ? at + 2 : at + 1;
        }
        std::string unit;
        std::vector<std::size_t> values;
        std::size_t i = at + 1;
        for (; i < end; ++i) {
            const std::string& text = cell(i).text;
            if (!units_named(text).empty() && unit.empty())
                unit = text;
            // A second day or figure is asked about; other words behind the first are their own affair.
            else if (values.empty() || lots_.has_columns() || is_lot_number(label) || is_bare_value(text))
                values.push_back(i);
            else
                break;
        }
        if (is_lot_number(label) && values.size() > 1) {
            std::vector<LotColumn> numbers;
            for (const auto value : values)
                numbers.push_back({cells_[value], row_, cell(value).text, label, cell(value).trouble});
            lots_.open_columns(std::move(numbers));
            return i;
        }
        // What stands once beside several lots is of all of them.
        const bool is_each = lots_.has_columns() && values.size() > 1;
        for (const auto found : values) {
            auto value = value_at(found, label);
            value.unit = unit;
            lots_.put(std::move(value), is_each ? &cells_[found] : nullptr);
        }
        return i;
    }

    [[nodiscard]] bool is_lot_number(std::size_t label) const {
        return labels_.at(label).means.front() == key_of(LotFact::lot_number);
    }

    /// Of a result's fields, in any order, figures are values; units, bases and methods are told by their
    /// words.
    void take_result(std::size_t at, std::size_t end, std::size_t label, const std::string& inside) {
        std::string unit, basis, method, factor;
        std::vector<LaidOutValue> values;
        if (!inside.empty()) {
            values.push_back(value_at(at, label));
            values.back().text = inside;
            values.back().is_number = false;
        }
        for (std::size_t i = at + 1; i < end; ++i) {
            const auto& found = cell(i);
            if (!found.trouble.empty() || found.is_number)
                values.push_back(value_at(i, label));
            else if (unit.empty() && !units_named(bare_unit(found.text)).empty())
                unit = bare_unit(found.text);
            else if (is_figure(found.text) &&
                     (values.empty() || !basis.empty() || !is_worded_basis(found.text)))
                values.push_back(value_at(i, label));
            else if (const auto stated = basis_in_words(found.text); stated && basis.empty())
                basis = *stated;
            else if (const auto phrases = take_phrases(found.text); folded(phrases.rest).empty()) {
                method = phrases.method.empty() ? method : phrases.method;
                factor = phrases.nitrogen_factor.empty() ? factor : phrases.nitrogen_factor;
            }
        }
        for (auto& value : values) {
            value.unit = unit;
            value.basis = basis;
            value.method = method;
            value.nitrogen_factor = factor;
            const auto in_row = std::find_if(cells_.begin(), cells_.end(), [&](const FilledCell& filled) {
                return filled.column == value.column;
            });
            lots_.put(std::move(value), lots_.has_columns() ? &*in_row : nullptr);
        }
    }

    /// "14 % moisture"; "14 %" alone may as well be a second figure.
    static bool is_worded_basis(std::string_view text) {
        return basis_in_words(text) && folded(text).find_first_not_of("0123456789 ") != std::string::npos;
    }

    static bool is_figure(std::string_view text) {
        const auto kind = read_printed_figure(text).kind;
        return kind == PrintedFigure::Kind::figure || kind == PrintedFigure::Kind::two_readings;
    }

    /// "[%]", "(s)"
    static std::string bare_unit(std::string_view text) {
        text = trimmed(text);
        if (text.size() > 2 && (text.front() == '[' || text.front() == '(') &&
            (text.back() == ']' || text.back() == ')'))
            text = text.substr(1, text.size() - 2);
        return std::string(text);
    }

    /// A line of one field, as pasted text is.
    void take_single(std::size_t i) {
        const auto read = single_line(cell(i).text, labels_);
        if (!read)
            return;
        auto value = value_at(i, read->label);
        value.text = read->value;
        value.is_number = false;
        value.basis = read->basis;
        value.method = read->method;
        value.nitrogen_factor = read->nitrogen_factor;
        lots_.put(std::move(value), nullptr);
    }

    bool take_stated_basis() {
        if (cells_.size() != 1 || label_and_value(cell(0).text, labels_))
            return false;
        auto basis = basis_of_all(cell(0).text);
        if (basis.empty())
            return false;
        if (layout_.basis.basis.empty())
            layout_.basis = {std::move(basis), where(sheet_, row_)};
        return true;
    }

    const Sheet& sheet_;
    std::size_t number_;
    LabelBook& labels_;
    LotsOnPaper lots_;
    CertificateLayout& layout_;
    std::size_t row_ = 0;
    std::vector<FilledCell> cells_;
    std::optional<PropertyHeads> heads_;
};

} // namespace

void take_lines(const Sheet& sheet, std::size_t number, LabelBook& labels, const TakenRows& taken,
                CertificateLayout& layout) {
    Lines(sheet, number, labels, layout).take(taken);
}

} // namespace mellowbin::exchange
