#include "core/typed_text.h"
#include "exchange/certificate_figure.h"
#include "exchange/certificate_layout.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace mellowbin::exchange {
namespace {

/// Heads stand in up to so many rows: a name, a unit, and what is wrapped.
constexpr std::size_t most_head_rows = 5;
/// Heads of properties that make a table of lots where no head names the lot number.
constexpr std::size_t enough_properties = 3;

/// Heads over the columns of a table.
struct Heads {
    std::size_t first_row = 0, rows = 0;
    std::vector<FilledCell> columns; ///< where each lies
    std::vector<std::size_t> labels; ///< of each, in the label book
    std::size_t known = 0;           ///< of them that are understood
    std::size_t score = 0;           ///< the same, those of one meaning counted twice
    std::optional<std::size_t> lot_number;
};

class LotTables {
public:
    LotTables(const Sheet& sheet, std::size_t number, LabelBook& labels, TakenRows& taken,
              CertificateLayout& layout)
        : sheet_(sheet), number_(number), labels_(labels), taken_(taken), layout_(layout) {
        for (std::size_t row = 0; row < sheet.rows.size(); ++row)
            cells_.push_back(filled_cells(sheet, row));
    }

    void take() {
        for (std::size_t row = 1; row < sheet_.rows.size(); ++row) {
            if (taken_[row] || !is_row_of_values(row))
                continue;
            if (const auto heads = heads_above(row))
                row = take_table(*heads, row) - 1;
        }
    }

private:
    [[nodiscard]] const SheetCell& cell(std::size_t row, const FilledCell& filled) const {
        return sheet_.rows[row].cells[filled.column];
    }

    const CertificateLabel& label_of(std::size_t row, const FilledCell& filled) {
        return labels_.read(cell(row, filled).text);
    }

    [[nodiscard]] bool has_bare_value(std::size_t row) const {
        return std::any_of(cells_[row].begin(), cells_[row].end(), [&](const FilledCell& filled) {
            const auto& at = cell(row, filled);
            return !at.trouble.empty() || at.is_number || is_bare_value(at.text);
        });
    }

    /// Two cells and more, a value among them, and no label in front: such a line is read by its label.
    bool is_row_of_values(std::size_t row) {
        if (cells_[row].size() < 2 || !has_bare_value(row))
            return false;
        const auto& first = cells_[row].front();
        if (label_and_value(cell(row, first).text, labels_))
            return false;
        const auto state = label_of(row, first).state;
        return state == LabelState::not_known || state == LabelState::partial;
    }

    /// Of the heads that one, two and more rows above make, those of which most are understood; of equals the
    /// fewest rows.
    std::optional<Heads> heads_above(std::size_t row) {
        std::optional<Heads> best;
        for (std::size_t rows = 1; rows <= std::min(most_head_rows, row); ++rows) {
            const std::size_t first = row - rows;
            if (taken_[first] || has_bare_value(first))
                break;
            auto heads = heads_in(first, rows);
            if (!best || heads.score > best->score)
                best = std::move(heads);
        }
        if (!best || best->known < 2)
            return {};
        const auto properties =
            std::count_if(best->labels.begin(), best->labels.end(), [&](std::size_t label) {
                return says_what(labels_.at(label)) &&
                       meaning_from_key(labels_.at(label).means.front())->property;
            });
        if (!best->lot_number && static_cast<std::size_t>(properties) < enough_properties)
            return {};
        return best;
    }

    Heads heads_in(std::size_t first, std::size_t rows) {
        Heads heads{first, rows, {}, {}, 0, 0, {}};
        std::vector<std::string> texts;
        for (std::size_t row = first + rows; row-- > first;)
            put_heads(row, heads.columns, texts);
        for (std::size_t i = 0; i < texts.size(); ++i) {
            heads.labels.push_back(labels_.number_of(texts[i]));
            const auto& label = labels_.at(heads.labels.back());
            if (label.state != LabelState::known && label.state != LabelState::ambiguous)
                continue;
            ++heads.known;
            heads.score += label.state == LabelState::known ? 2 : 1;
            if (label.means.front() == key_of(LotFact::lot_number) && !heads.lot_number)
                heads.lot_number = i;
        }
        return heads;
    }

    /// Rows come from below: a head over the words of one or several columns is in front of theirs, as
    /// "Farinograph" over three; any other begins a column.
    void put_heads(std::size_t row, std::vector<FilledCell>& columns, std::vector<std::string>& texts) const {
        const auto below = columns;
        for (const auto& filled : cells_[row]) {
            const std::string& text = cell(row, filled).text;
            bool is_over = false;
            for (const auto& column : below) {
                if (filled.from > column.to || column.from > filled.to)
                    continue;
                is_over = true;
                const auto at = std::find_if(columns.begin(), columns.end(),
                                             [&](const FilledCell& c) { return c.from == column.from; });
                auto& words = texts[static_cast<std::size_t>(at - columns.begin())];
                words = text + " " + words;
            }
            if (is_over)
                continue;
            const auto behind = std::find_if(columns.begin(), columns.end(), [&](const FilledCell& column) {
                return column.from > filled.from;
            });
            texts.insert(texts.begin() + (behind - columns.begin()), text);
            columns.insert(behind, filled);
        }
    }

    /// Takes the rows under the heads; gives the row behind them.
    std::size_t take_table(const Heads& heads, std::size_t row) {
        for (std::size_t i = heads.first_row; i < heads.first_row + heads.rows; ++i)
            taken_[i] = true;
        layout_.is_own_file = layout_.is_own_file || are_own(heads);
        std::map<std::string, std::size_t> codes; // and the row that brought each
        const std::size_t first = layout_.lots.size();
        for (; row < sheet_.rows.size(); ++row) {
            if (taken_[row] || repeats(heads, row))
                taken_[row] = true;
            else if (is_row_of_values(row) || names_a_lot(heads, row))
                take_row(heads, row, codes);
            else if (begins_other_heads(row))
                break;
        }
        leave_out_columns(heads, first);
        return row;
    }

    /// Heads of this program's own files, with the two that each of these has.
    bool are_own(const Heads& heads) const {
        const auto is_own = [&](std::size_t label) { return labels_.at(label).is_own; };
        const auto has = [&](LotFact fact) {
            return std::any_of(heads.labels.begin(), heads.labels.end(), [&](std::size_t label) {
                return is_own(label) && labels_.at(label).means.front() == key_of(fact);
            });
        };
        return has(LotFact::lot_number) && has(LotFact::weight) &&
               std::all_of(heads.labels.begin(), heads.labels.end(),
                           [&](std::size_t label) { return is_own(label) || !says_what(labels_.at(label)); });
    }

    bool repeats(const Heads& heads, std::size_t row) const {
        for (std::size_t i = heads.first_row; i < heads.first_row + heads.rows; ++i) {
            const auto& a = sheet_.rows[i].cells;
            const auto& b = sheet_.rows[row].cells;
            if (std::equal(a.begin(), a.end(), b.begin(), b.end(),
                           [](const SheetCell& x, const SheetCell& y) { return x.text == y.text; }))
                return true;
        }
        return false;
    }

    /// A lot of which nothing else is printed stands there all the same.
    bool names_a_lot(const Heads& heads, std::size_t row) {
        if (!heads.lot_number || cells_[row].size() < 2 ||
            label_and_value(cell(row, cells_[row].front()).text, labels_))
            return false;
        const auto columns = columns_of(cells_[row], heads.columns, sheet_.kind);
        return !columns.empty() && columns.front() <= *heads.lot_number &&
               std::find(columns.begin(), columns.end(), *heads.lot_number) != columns.end() &&
               label_of(row, cells_[row].front()).state == LabelState::not_known && !begins_other_heads(row);
    }

    bool begins_other_heads(std::size_t row) {
        std::size_t labels = 0;
        std::size_t heads = 0;
        for (const auto& filled : cells_[row]) {
            const auto& label = label_of(row, filled);
            labels += label.state == LabelState::known || label.state == LabelState::ambiguous ? 1 : 0;
            heads += table_head(cell(row, filled).text) ? 1 : 0;
        }
        return labels >= 2 || heads >= 2;
    }

    void take_row(const Heads& heads, std::size_t row, std::map<std::string, std::size_t>& codes) {
        taken_[row] = true;
        const auto columns = columns_of(cells_[row], heads.columns, sheet_.kind);
        LaidOutLot lot{number_, row, where(sheet_, row), {}};
        std::string code;
        if (columns.empty())
            lot.refusals.push_back({lot.where,
                                    "the fields of the row cannot be told apart: two lie under one head",
                                    "Give the table as XLSX or CSV"});
        for (std::size_t i = 0; i < columns.size(); ++i) {
            if (heads.lot_number && columns[i] == *heads.lot_number)
                code = cell(row, cells_[row][i]).text;
            if (columns[i] == heads.columns.size())
                lot.refusals.push_back(
                    {where(sheet_, row, cells_[row][i].column),
                     fmt::format("\"{}\" was read under no head", excerpt(cell(row, cells_[row][i]).text)),
                     "Name the column in the head line, or empty it"});
        }
        if (is_summary(code) ||
            (cells_[row].front().column == 0 && is_summary(cell(row, cells_[row].front()).text))) {
            layout_.rest.push_back(
                {number_, row, 0, code, source_line(sheet_, row), "sums up and is no lot"});
            return;
        }
        check_width(heads, row, lot);
        if (const auto [earlier, is_new] = codes.try_emplace(code_and_mill(heads, row, columns, code), row);
            !is_new && !code.empty())
            lot.refusals.push_back({fmt::format("{}, Lot number", lot.where),
                                    fmt::format("\"{}\" was read, which {} has already", excerpt(code),
                                                where(sheet_, earlier->second)),
                                    "One row a lot: take one of the two out"});
        layout_.lots.push_back(std::move(lot));
        put_values(heads, row, columns);
    }

    /// A mill uses a lot number once; two mills may use one.
    std::string code_and_mill(const Heads& heads, std::size_t row, const std::vector<std::size_t>& columns,
                              const std::string& code) {
        std::string mill;
        for (std::size_t i = 0; i < columns.size(); ++i)
            if (columns[i] < heads.labels.size() &&
                labels_.at(heads.labels[columns[i]]).means == std::vector{std::string(key_of(LotFact::mill))})
                mill = cell(row, cells_[row][i]).text;
        return mill + '\n' + code;
    }

    /// A row of separated fields that is shorter or longer than its heads was cut off, or holds a separator.
    void check_width(const Heads& heads, std::size_t row, LaidOutLot& lot) const {
        const auto fields = sheet_.rows[row].cells.size();
        const auto expected = sheet_.rows[heads.first_row].cells.size();
        if (sheet_.kind == SheetKind::text && fields != expected)
            lot.refusals.push_back(
                {lot.where,
                 fmt::format("{} fields were read; {} are expected, as in the head line", fields, expected),
                 "Was the line cut off? A separator inside a field must stand in quotation marks"});
    }

    void put_values(const Heads& heads, std::size_t row, const std::vector<std::size_t>& columns) {
        for (std::size_t head = 0; head < heads.columns.size(); ++head) {
            const auto& label = labels_.at(heads.labels[head]);
            const auto at = std::find(columns.begin(), columns.end(), head);
            LaidOutValue value;
            value.lot = layout_.lots.size() - 1;
            value.label = heads.labels[head];
            value.sheet = number_;
            value.row = row;
            value.column = at == columns.end()
                               ? heads.columns[head].column
                               : cells_[row][static_cast<std::size_t>(at - columns.begin())].column;
            if (at != columns.end()) {
                const auto& found = sheet_.rows[row].cells[value.column];
                value.text = found.text;
                value.trouble = found.trouble;
                value.is_number = found.is_number;
            }
            if (says_what(label))
                layout_.values.push_back(std::move(value));
        }
    }

    /// A column whose head says nothing known is named once, by its first row.
    void leave_out_columns(const Heads& heads, std::size_t first) {
        if (layout_.lots.size() == first)
            return;
        for (std::size_t i = 0; i < heads.labels.size(); ++i) {
            const auto& label = labels_.at(heads.labels[i]);
            if (says_what(label) || label.text.empty())
                continue;
            layout_.rest.push_back({number_, heads.first_row, heads.columns[i].column, label.text, "",
                                    label.state == LabelState::of_grain ? "is of the grain, not of the flour"
                                    : label.state == LabelState::left_out ? "is no field of a lot"
                                                                          : "is not understood"});
        }
    }

    const Sheet& sheet_;
    std::size_t number_;
    LabelBook& labels_;
    TakenRows& taken_;
    CertificateLayout& layout_;
    std::vector<std::vector<FilledCell>> cells_;
};

} // namespace

void take_lot_tables(const Sheet& sheet, std::size_t number, LabelBook& labels, TakenRows& taken,
                     CertificateLayout& layout) {
    LotTables(sheet, number, labels, taken, layout).take();
}

} // namespace mellowbin::exchange
