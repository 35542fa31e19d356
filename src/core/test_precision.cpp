#include "core/test_precision.h"

#include "core/decimal.h"
#include "core/promised.h"
#include "core/shipped_table.h"
#include "core/test_precision_text.h"
#include "core/typed_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

namespace mellowbin {
namespace {

constexpr std::array<std::string_view, 3> kinds{"absolute", "relative", "does not repeat"};

// Rows

TestPrecision row_from(const TableRow& line) {
    const auto& cells = line.cells;
    const auto fault = [&](std::string_view what) {
        throw std::logic_error(fmt::format("test precision, line {}: {}", line.number, what));
    };
    const auto number = [&](const std::string& cell) {
        const auto read = read_decimal("", cell);
        if (!read)
            fault("a number is expected");
        return *read;
    };
    if (cells.size() != 9)
        fault("9 cells are expected");
    TestPrecision row;
    const auto property = property_from_key(cells[0]);
    const auto given = precision_given_from_key(cells[2]);
    if (!property || !given)
        fault("a property's key and how its limits are given are expected");
    row.property = *property;
    row.methods = methods_in(cells[1]);
    row.given = *given;
    row.r = number(cells[3]);
    row.R = number(cells[4]);
    row.low = number(cells[5]);
    row.high = number(cells[6]);
    row.source = cells[7];
    row.confidence = cells[8];
    if (row.source.empty() || row.confidence.empty())
        fault("a source, and how it was read, are expected");
    if (row.r && row.R && *row.r > *row.R)
        fault("r is above R");
    return row;
}

bool names_method(const TestPrecision& row, std::string_view method) {
    return std::any_of(row.methods.begin(), row.methods.end(),
                       [&](const std::string& name) { return same_method(name, method); });
}

/// A method that a result does not state is taken for the row's.
bool is_about(const TestPrecision& row, const CertificateValue& mill, const CertificateValue& own) {
    const auto fits = [&](const std::string& method) {
        return row.methods.empty() || method.empty() || names_method(row, method);
    };
    return row.property == mill.property && fits(mill.method) && fits(own.method);
}

bool is_one_method(const CertificateValue& mill, const CertificateValue& own,
                   std::span<const TestPrecision> rows) {
    if (mill.method.empty() || own.method.empty())
        return !depends_on_method(mill.property);
    return same_method(mill.property, mill.method, own.method, rows);
}

// Words

std::string with_unit(const std::string& figure, Property property) {
    const auto unit = traits(property).unit;
    return unit.empty() ? figure : fmt::format("{} {}", figure, unit);
}

/// As many decimals as are reported, and more where rounding would say the opposite of which is larger.
std::pair<std::string, std::string> told_apart(double difference, double allowed, Property property) {
    constexpr int most_decimals = 6;
    const bool is_larger = difference > allowed;
    for (int decimals = traits(property).decimals; decimals < most_decimals; ++decimals) {
        const double scale = std::pow(10.0, decimals);
        const double a = std::round(difference * scale), b = std::round(allowed * scale);
        if ((a > b) == is_larger && b > 0)
            return {fixed(difference, decimals), fixed(allowed, decimals)};
    }
    return {fixed(difference, most_decimals), fixed(allowed, most_decimals)};
}

std::string limit_words(const TestPrecision& row, bool are_single) {
    return fmt::format("{}, {}, {}", are_single ? "R" : "critical difference by R and r", row.source,
                       row.confidence);
}

ComparedResult not_said(Property property, std::string words, std::optional<double> difference = {}) {
    return {property, ComparedResult::Verdict::not_said, difference, {}, std::move(words)};
}

ComparedResult judged(const TestPrecision& row, double mill, double own) {
    const double factor = row.given == PrecisionGiven::relative ? std::abs(mill + own) / 2 / 100 : 1;
    // Where r is not known the means are judged as single results, which is the wider limit.
    const int n1 = row.r ? row.mill_replicates : 1, n2 = row.r ? row.own_replicates : 1;
    const double allowed = factor * critical_difference(row.r.value_or(0), *row.R, n1, n2);
    const double difference = std::abs(own - mill);
    constexpr double rounding = 1e-9;
    const bool agrees = difference <= allowed + rounding;
    const auto [differs, chance] =
        told_apart(agrees ? std::min(difference, allowed) : difference, allowed, row.property);
    return {row.property, agrees ? ComparedResult::Verdict::agrees : ComparedResult::Verdict::contradicts,
            own - mill, allowed,
            fmt::format("{}: differs {}, {}up to {} is chance ({})", agrees ? "agrees" : "contradicts",
                        with_unit(differs, row.property), agrees ? "" : "only ",
                        with_unit(chance, row.property), limit_words(row, n1 == 1 && n2 == 1))};
}

std::string method_words(const std::string& method) {
    return method.empty() ? std::string("a method that is not stated") : method;
}

ComparedResult compare_one(const Certificate& mill, const Certificate& own, Property property,
                           std::span<const TestPrecision> rows) {
    const auto& by_mill = *mill.find(property);
    const auto& by_us = *own.find(property);
    for (const auto* results : {&mill, &own})
        if (const auto value = value_at_14(*results, property); !value)
            return not_said(property,
                            fmt::format("not compared: {} {}", results == &mill ? "the mill's" : "our own",
                                        value.refusals().front().what));
    if (!is_one_method(by_mill, by_us, rows))
        return not_said(property, fmt::format("not compared: the mill's is by {}, ours by {}",
                                              method_words(by_mill.method), method_words(by_us.method)));
    const double a = **value_at_14(mill, property), b = **value_at_14(own, property);
    for (const auto& row : rows) {
        const double mean = (a + b) / 2;
        const bool is_within = (!row.low || mean >= *row.low) && (!row.high || mean <= *row.high);
        if (!is_about(row, by_mill, by_us) || !is_within)
            continue;
        if (row.given == PrecisionGiven::does_not_repeat)
            return not_said(
                property,
                fmt::format("nothing is said of the difference, for it does not repeat: {}", row.source),
                b - a);
        if (row.R)
            return judged(row, a, b);
    }
    const auto& method = by_us.method.empty() ? by_mill.method : by_us.method;
    const auto name = lower_case(traits(property).name);
    return not_said(property,
                    fmt::format("no published R at hand for {}{}", name,
                                method.empty() ? std::string() : " by " + method),
                    b - a);
}

} // namespace

std::vector<std::string> methods_in(std::string_view names) {
    std::vector<std::string> parts;
    for (std::size_t at = 0; at <= names.size();) {
        const auto end = std::min(names.find('|', at), names.size());
        if (const auto name = trimmed(names.substr(at, end - at)); !name.empty())
            parts.emplace_back(name);
        at = end + 1;
    }
    return parts;
}

std::string in_one(const std::vector<std::string>& methods) {
    std::string all;
    for (const auto& name : methods)
        all += (all.empty() ? "" : " | ") + name;
    return all;
}

std::string_view key_of(PrecisionGiven given) { return kinds[static_cast<std::size_t>(given)]; }

std::optional<PrecisionGiven> precision_given_from_key(std::string_view key) {
    const auto at = std::find(kinds.begin(), kinds.end(), key);
    if (at == kinds.end())
        return {};
    return static_cast<PrecisionGiven>(at - kinds.begin());
}

std::vector<TestPrecision> read_test_precision(std::string_view table) {
    std::vector<TestPrecision> rows;
    for (const auto& line : rows_of_table(table))
        rows.push_back(row_from(line));
    return rows;
}

const std::vector<TestPrecision>& published_test_precision() {
    static const auto rows = read_test_precision(tables::test_precision);
    return rows;
}

std::vector<TestPrecision> before_published(std::vector<TestPrecision> own) {
    const auto& published = published_test_precision();
    own.insert(own.end(), published.begin(), published.end());
    return own;
}

double critical_difference(double r, double R, int n1, int n2) {
    promised(r >= 0 && r <= R && n1 >= 1 && n2 >= 1);
    return std::sqrt(R * R - r * r * (1 - 1.0 / (2 * n1) - 1.0 / (2 * n2)));
}

std::vector<ComparedResult> compare(const Certificate& mill, const Certificate& own,
                                    std::span<const TestPrecision> rows) {
    std::vector<ComparedResult> all;
    for (const auto& value : own.values())
        if (mill.find(value.property))
            all.push_back(compare_one(mill, own, value.property, rows));
    return all;
}

std::string limits_in_words(const TestPrecision& row) {
    if (row.given == PrecisionGiven::does_not_repeat)
        return "does not repeat";
    const auto limit = [&](std::string_view name, double value) {
        return row.given == PrecisionGiven::relative
                   ? fmt::format("{} {:g} % of the mean", name, value)
                   : fmt::format("{} {}", name, with_unit(fmt::format("{:g}", value), row.property));
    };
    std::string words;
    if (row.r)
        words = limit("r", *row.r);
    if (row.R)
        words += (words.empty() ? "" : ", ") + limit("R", *row.R);
    return words.empty() ? "not known" : words;
}

bool same_method(std::string_view a, std::string_view b) {
    const auto plain = [](std::string_view name) { return trimmed(name.substr(0, name.find(':'))); };
    return same_words(plain(a), plain(b));
}

bool same_method(Property property, std::string_view a, std::string_view b,
                 std::span<const TestPrecision> rows) {
    return same_method(a, b) || std::any_of(rows.begin(), rows.end(), [&](const TestPrecision& row) {
               return row.property == property && names_method(row, a) && names_method(row, b);
           });
}

} // namespace mellowbin
