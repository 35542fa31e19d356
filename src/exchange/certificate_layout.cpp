#include "exchange/certificate_layout.h"

#include "core/typed_text.h"
#include "exchange/text_tokens.h"

#include <algorithm>
#include <cstdlib>
#include <tuple>

namespace mellowbin::exchange {
namespace {

/// What stands in front of a value has at most so many bytes, and words and marks.
constexpr std::size_t longest_label = 200;
constexpr std::size_t most_label_tokens = 10;

bool is_laid_out(SheetKind kind) { return kind == SheetKind::laid_out || kind == SheetKind::pages; }

/// How far two stretches of a line lie apart; 0 and less where they share a character.
long distance(const FilledCell& a, const FilledCell& b) {
    return std::max(static_cast<long>(a.from) - static_cast<long>(b.to),
                    static_cast<long>(b.from) - static_cast<long>(a.to));
}

/// Of columns under which the cell lies equally, the one whose middle is nearest.
long off_middle(const FilledCell& a, const FilledCell& b) {
    return std::abs(static_cast<long>(a.from + a.to) - static_cast<long>(b.from + b.to));
}

} // namespace

std::vector<FilledCell> filled_cells(const Sheet& sheet, std::size_t row) {
    const auto& cells = sheet.rows[row].cells;
    std::vector<FilledCell> filled;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        if (cells[i].text.empty() && cells[i].trouble.empty())
            continue;
        const bool has_place = is_laid_out(sheet.kind);
        filled.push_back({i, has_place ? cells[i].from : i, has_place ? cells[i].to : i});
    }
    return filled;
}

std::vector<std::size_t> columns_of(const std::vector<FilledCell>& cells,
                                    const std::vector<FilledCell>& columns, SheetKind kind) {
    std::vector<std::size_t> belongs;
    if (is_laid_out(kind) && cells.size() == columns.size()) {
        for (std::size_t i = 0; i < cells.size(); ++i)
            belongs.push_back(i);
        return belongs;
    }
    for (const auto& cell : cells) {
        std::size_t best = 0;
        for (std::size_t i = 1; i < columns.size(); ++i) {
            const auto now = std::max(0L, distance(cell, columns[i]));
            const auto before = std::max(0L, distance(cell, columns[best]));
            if (now < before ||
                (now == before && off_middle(cell, columns[i]) < off_middle(cell, columns[best])))
                best = i;
        }
        // Of separated fields one that lies under no head has no column.
        if (!is_laid_out(kind) && (columns.empty() || columns[best].from != cell.from))
            best = columns.size();
        if (!belongs.empty() && belongs.back() >= best && best < columns.size())
            return {};
        belongs.push_back(best);
    }
    return belongs;
}

std::string lot_number_in(std::string_view text, LabelBook& labels) {
    if (text.size() > longest_label)
        return "";
    const auto tokens = tokens_of(text);
    for (std::size_t count = std::min(tokens.size(), most_label_tokens); count-- > 1;) {
        const auto& label = labels.read(text.substr(0, tokens[count - 1].end));
        if (label.state != LabelState::known || label.means.front() != key_of(LotFact::lot_number))
            continue;
        const auto number = trimmed(text.substr(tokens[count - 1].end));
        const auto begin = number.find_first_not_of(":.= ");
        return begin == std::string_view::npos ? "" : std::string(number.substr(begin));
    }
    return "";
}

std::optional<LabelAndValue> label_and_value(std::string_view text, LabelBook& labels) {
    for (auto at = text.find_first_of(":="); at != std::string_view::npos;
         at = text.find_first_of(":=", at + 1)) {
        // "06:30", "ISO 712:2009"
        const bool is_within_figures = at > 0 && at + 1 < text.size() && text[at - 1] >= '0' &&
                                       text[at - 1] <= '9' && text[at + 1] >= '0' && text[at + 1] <= '9';
        if (is_within_figures)
            continue;
        if (at > longest_label)
            break;
        const auto& label = labels.read(text.substr(0, at));
        if (label.state != LabelState::not_known)
            return LabelAndValue{label.text, std::string(trimmed(text.substr(at + 1)))};
    }
    return {};
}

CertificateLayout lay_out(std::span<const Sheet> sheets, LabelBook& labels) {
    CertificateLayout layout;
    std::vector<TakenRows> taken;
    for (std::size_t i = 0; i < sheets.size(); ++i) {
        for (const auto& note : sheets[i].notes)
            layout.notes.push_back(note);
        taken.emplace_back(sheets[i].rows.size(), false);
        take_lot_tables(sheets[i], i, labels, taken.back(), layout);
    }
    for (std::size_t i = 0; i < sheets.size(); ++i)
        take_lines(sheets[i], i, labels, taken[i], layout);
    std::stable_sort(layout.values.begin(), layout.values.end(),
                     [](const LaidOutValue& a, const LaidOutValue& b) {
                         return std::tie(a.sheet, a.row, a.column) < std::tie(b.sheet, b.row, b.column);
                     });
    return layout;
}

} // namespace mellowbin::exchange
