#include "dough/limits.h"

#include "core/decimal.h"
#include "core/shipped_table.h"
#include "dough/limits_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

namespace mellowbin::dough {
namespace {

using Line = TableRow;

template <class T> T known(std::optional<T> value, const Line& line, const std::string& cell) {
    if (!value)
        throw std::logic_error(fmt::format("line {}: \"{}\" is not known", line.number, cell));
    return *value;
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

std::vector<PropionateRow> read_propionates(std::string_view text) {
    std::vector<PropionateRow> rows;
    for (const auto& line : rows_of_table(text)) {
        const auto& c = line.cells;
        PropionateRow row;
        row.market = c[0];
        row.bread = c[1];
        if (!c[2].empty())
            row.sold_as = known(sold_as_from_key(c[2]), line, c[2]);
        row.status = known(limit_status_from_key(c[3]), line, c[3]);
        row.mg_per_kg = number_of(line, c[4]);
        row.counted_as = known(propionate_count_from_key(c[5]), line, c[5]);
        row.is_confirmed = c[6] == "yes";
        row.rule = c[7];
        row.source = c[8];
        row.source_date = dated(c[9], c[10]);
        rows.push_back(std::move(row));
    }
    return rows;
}

bool takes_its_place(const LimitRow& now, const LimitRow& was) {
    return now.market == was.market && now.substance == was.substance && now.food == was.food &&
           now.sum_group == was.sum_group;
}

bool takes_its_place(const PropionateRow& now, const PropionateRow& was) {
    return now.market == was.market && now.bread == was.bread;
}

/// Throws std::logic_error at a former row in whose place not exactly one is shipped.
template <class Row>
std::vector<Correction<Row>> corrections(const std::vector<Row>& former, const std::vector<Row>& shipped) {
    std::vector<Correction<Row>> all;
    for (const auto& was : former) {
        const auto fits = [&](const Row& now) { return takes_its_place(now, was); };
        if (std::count_if(shipped.begin(), shipped.end(), fits) != 1)
            throw std::logic_error(fmt::format("a former row of {} has not one in its place", was.market));
        all.push_back({was, *std::find_if(shipped.begin(), shipped.end(), fits)});
    }
    return all;
}

} // namespace

std::vector<LimitRow> read_limit_table(std::string_view text) {
    std::vector<LimitRow> rows;
    for (const auto& line : rows_of_table(text)) {
        const auto& c = line.cells;
        if (c.size() != 13)
            throw std::logic_error(fmt::format("line {}: {} cells, 13 expected", line.number, c.size()));
        LimitRow row;
        row.market = c[0];
        row.substance = known(substance_from_key(c[1]), line, c[1]);
        row.food = known(food_class_from_key(c[2]), line, c[2]);
        row.status = known(limit_status_from_key(c[3]), line, c[3]);
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

const std::vector<Correction<LimitRow>>& limit_corrections() {
    static const auto all = corrections(read_limit_table(tables::former_oxidant_limits), shipped_limits());
    return all;
}

const std::vector<Market>& markets() {
    static const auto all = [] {
        std::vector<Market> found;
        for (const auto& line : rows_of_table(tables::markets))
            found.push_back({line.cells[0], line.cells[1], line.cells[2]});
        return found;
    }();
    return all;
}

std::string_view note_of(std::string_view market) {
    static const auto rows = rows_of_table(tables::markets);
    for (const auto& line : rows)
        if (line.cells[0] == market)
            return line.cells[3];
    return {};
}

const std::vector<PropionateRow>& shipped_propionate_limits() {
    static const auto rows = read_propionates(tables::propionate_limits);
    return rows;
}

const std::vector<Correction<PropionateRow>>& propionate_corrections() {
    static const auto all =
        corrections(read_propionates(tables::former_propionate_limits), shipped_propionate_limits());
    return all;
}

} // namespace mellowbin::dough
