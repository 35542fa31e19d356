#include "ui/views/lots/sorted.h"

#include "app/models/lots.h"

#include <algorithm>
#include <array>
#include <numeric>
#include <string_view>

namespace mellowbin::views {
namespace {

using enum LotColumn;
using ui::Align;

constexpr std::array columns{
    ui::Column{.head = "Lot", .sample = "W24-118", .stretch = 1},
    ui::Column{.head = "Mill", .sample = "Harrow Mill", .stretch = 1, .gives_way = 5},
    ui::Column{.head = "Flour", .sample = "Strong white", .stretch = 1, .gives_way = 2},
    ui::Column{.head = "State", .sample = "▲ in quarantine"},
    ui::Column{.head = "Stock", .unit = "kg", .sample = "12 000", .align = Align::right, .gives_way = 1},
    ui::Column{.head = "Place", .sample = "Bay 2, Silo 1", .stretch = 1, .gives_way = 4},
    ui::Column{.head = "Protein", .unit = "%", .sample = "12.4", .align = Align::right, .gives_way = 7},
    ui::Column{.head = "Absorption", .unit = "%", .sample = "61.2", .align = Align::right, .gives_way = 9},
    ui::Column{.head = "Falling no.", .unit = "s", .sample = "412", .align = Align::right, .gives_way = 8},
    ui::Column{.head = "Moisture", .unit = "%", .sample = "14.2", .align = Align::right, .gives_way = 10},
    ui::Column{.head = "Readiness", .sample = "past its best", .gives_way = 11},
    ui::Column{.head = "Ready", .sample = "M 15 Jan 2027"},
    ui::Column{.head = "Past best on", .sample = "15 Jan 2027", .gives_way = 6},
};
constexpr std::array every_column{code,         flour,   state,          stock,      ready,    place,    mill,
                                  past_best_on, protein, falling_number, absorption, moisture, readiness};

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

bool holds(std::string_view text, std::string_view lowered) {
    return std::search(text.begin(), text.end(), lowered.begin(), lowered.end(),
                       [](char a, char b) { return lower(a) == b; }) != text.end();
}

std::vector<std::string> words_of(std::string_view typed) {
    std::vector<std::string> words(1);
    for (const char c : typed) {
        if (c != ' ')
            words.back() += lower(c);
        else if (!words.back().empty())
            words.emplace_back();
    }
    std::erase(words, "");
    return words;
}

bool passes(const app::LotRow& row, const std::vector<std::string>& words) {
    return std::all_of(words.begin(), words.end(), [&](std::string_view word) {
        return holds(row.code, word) || holds(row.mill, word) || holds(row.flour, word) ||
               holds(row.places, word) || holds(name_of(row.state, row.standing), word) ||
               holds(app::in_words(row.readiness), word);
    });
}

int compared(const std::string& a, const std::string& b) { return a.compare(b); }
template <class T> int compared(const T& a, const T& b) { return a < b ? -1 : b < a ? 1 : 0; }

/// Sorts by what `key` gives; equal ones stay in the model's order, and missing values stand last in both
/// directions.
template <class Key> void sort_by(std::vector<std::uint32_t>& rows, ui::Direction direction, Key key) {
    const int sign = direction == ui::Direction::up ? 1 : -1;
    std::stable_sort(rows.begin(), rows.end(), [&](std::uint32_t a, std::uint32_t b) {
        const auto& left = key(a);
        const auto& right = key(b);
        if constexpr (requires { left.has_value(); }) {
            if (!left || !right)
                return left.has_value() && !right.has_value();
            return compared(*left, *right) * sign < 0;
        } else {
            return compared(left, right) * sign < 0;
        }
    });
}

void sort_rows(std::vector<std::uint32_t>& rows, const std::vector<app::LotRow>& lots, LotColumn column,
               ui::Direction direction) {
    const auto by = [&](auto member) {
        sort_by(
            rows, direction, [&lots, member ](std::uint32_t i) -> const auto& { return lots[i].*member; });
    };
    using Row = app::LotRow;
    switch (column) {
    case code:
        return by(&Row::code);
    case mill:
        return by(&Row::mill);
    case flour:
        return by(&Row::flour);
    case state:
        return by(&Row::state);
    case stock:
        return by(&Row::stock_kg);
    case place:
        return by(&Row::places);
    case protein:
        return by(&Row::protein_14);
    case absorption:
        return by(&Row::absorption_14);
    case falling_number:
        return by(&Row::falling_number_s);
    case moisture:
        return by(&Row::moisture);
    case readiness:
        return by(&Row::readiness);
    case ready:
        return by(&Row::ready_on);
    case past_best_on:
        return by(&Row::past_best_on);
    }
}

} // namespace

const ui::Column& column_of(LotColumn column) { return columns[static_cast<std::size_t>(column)]; }
const ui::Column& long_state_column() {
    static constexpr ui::Column column{.head = "State", .sample = "✕ concession ended 27 Nov"};
    return column;
}
std::span<const LotColumn> all_lot_columns() { return every_column; }

const std::vector<std::uint32_t>& SortedLots::rows(const std::vector<app::LotRow>& lots,
                                                   const Wanted& wanted) {
    if (is_made_ && wanted == made_for_ && lots.data() == lots_ && lots.size() == count_)
        return rows_;
    made_for_ = wanted;
    lots_ = lots.data();
    count_ = lots.size();
    is_made_ = true;
    rows_.resize(lots.size());
    std::iota(rows_.begin(), rows_.end(), 0U);
    const auto words = words_of(wanted.filter);
    if (!words.empty())
        std::erase_if(rows_, [&](std::uint32_t i) { return !passes(lots[i], words); });
    if (wanted.column >= 0)
        sort_rows(rows_, lots, static_cast<LotColumn>(wanted.column), wanted.direction);
    return rows_;
}

} // namespace mellowbin::views
