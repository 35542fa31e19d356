#include "dough/limits.h"

#include "core/decimal.h"
#include "dough/limits_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

namespace mellowbin::dough {
namespace {

struct Line {
    int number = 0;
    std::vector<std::string> cells;
};

std::vector<std::string> cells_of(std::string_view line) {
    std::vector<std::string> cells;
    for (std::size_t at = 0; at <= line.size();) {
        const auto comma = std::min(line.find(',', at), line.size());
        cells.emplace_back(line.substr(at, comma - at));
        at = comma + 1;
    }
    return cells;
}

/// The table's rows without remarks and head; every row has as many cells as the head.
std::vector<Line> rows_of(std::string_view text) {
    std::vector<Line> rows;
    std::size_t columns = 0;
    int number = 0;
    for (std::size_t at = 0; at < text.size();) {
        const auto end = std::min(text.find('\n', at), text.size());
        const auto line = text.substr(at, end - at);
        at = end + 1;
        ++number;
        if (line.empty() || line.front() == '#')
            continue;
        auto cells = cells_of(line);
        if (columns == 0) {
            columns = cells.size();
            continue;
        }
        if (cells.size() != columns)
            throw std::logic_error(
                fmt::format("line {}: {} cells, {} expected", number, cells.size(), columns));
        rows.push_back({number, std::move(cells)});
    }
    return rows;
}

template <class T> T known(std::optional<T> value, const Line& line, const std::string& cell) {
    if (!value)
        throw std::logic_error(fmt::format("line {}: \"{}\" is not known", line.number, cell));
    return *value;
}

LimitStatus status_of(const Line& line, const std::string& cell) {
    if (cell == "permitted")
        return LimitStatus::permitted;
    if (cell == "permitted_gmp")
        return LimitStatus::permitted_gmp;
    if (cell == "not_permitted")
        return LimitStatus::not_permitted;
    return known(cell == "unclear" ? std::optional{LimitStatus::unclear} : std::nullopt, line, cell);
}

std::optional<double> number_of(const Line& line, const std::string& cell) {
    const auto number = read_decimal("limit", cell);
    return number ? *number : known(std::optional<std::optional<double>>{}, line, cell);
}

std::optional<Day> day_of(const Line& line, const std::string& cell) {
    const auto day = read_day("day", cell);
    return day ? *day : known(std::optional<std::optional<Day>>{}, line, cell);
}

std::string dated(const std::string& date, const std::string& confidence) {
    return date.empty() ? confidence : date + "; " + confidence;
}

PropionateCount count_of(const Line& line, const std::string& cell) {
    if (cell == "acid")
        return PropionateCount::acid;
    if (cell == "salt")
        return PropionateCount::salt;
    return known(cell == "not_stated" ? std::optional{PropionateCount::not_stated} : std::nullopt, line,
                 cell);
}

std::vector<PropionateRow> read_propionates() {
    std::vector<PropionateRow> rows;
    for (const auto& line : rows_of(tables::propionate_limits)) {
        const auto& c = line.cells;
        rows.push_back({c[0], c[1], status_of(line, c[2]), number_of(line, c[3]), count_of(line, c[4]),
                        c[5] == "yes", c[6], c[7], dated(c[8], c[9])});
    }
    return rows;
}

} // namespace

std::vector<LimitRow> read_limit_table(std::string_view text) {
    std::vector<LimitRow> rows;
    for (const auto& line : rows_of(text)) {
        const auto& c = line.cells;
        if (c.size() != 13)
            throw std::logic_error(fmt::format("line {}: {} cells, 13 expected", line.number, c.size()));
        LimitRow row;
        row.market = c[0];
        row.substance = known(substance_from_key(c[1]), line, c[1]);
        row.food = known(food_class_from_key(c[2]), line, c[2]);
        row.status = status_of(line, c[3]);
        if (const auto figure = number_of(line, c[4]))
            row.limit = OxidantPpm{*figure};
        row.sum_group = c[5];
        row.valid_from = day_of(line, c[6]);
        row.valid_to = day_of(line, c[7]);
        row.is_confirmed = c[8] == "yes";
        row.rule = c[9];
        row.source = c[10];
        row.source_date = dated(c[11], c[12]);
        rows.push_back(std::move(row));
    }
    return rows;
}

const std::vector<LimitRow>& shipped_limits() {
    static const auto rows = read_limit_table(tables::oxidant_limits);
    return rows;
}

const std::vector<Market>& markets() {
    static const auto all = [] {
        std::vector<Market> found;
        for (const auto& line : rows_of(tables::markets))
            found.push_back({line.cells[0], line.cells[1], line.cells[2]});
        return found;
    }();
    return all;
}

std::string_view note_of(std::string_view market) {
    static const auto rows = rows_of(tables::markets);
    for (const auto& line : rows)
        if (line.cells[0] == market)
            return line.cells[3];
    return {};
}

const std::vector<PropionateRow>& shipped_propionate_limits() {
    static const auto rows = read_propionates();
    return rows;
}

} // namespace mellowbin::dough
