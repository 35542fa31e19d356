#include "exchange/bag_scan.h"

#include "core/day.h"
#include "core/typed_text.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <utility>
#include <vector>

namespace mellowbin {
namespace {

constexpr char group_separator = '\x1d';

bool is_digit(char c) { return c >= '0' && c <= '9'; }

bool are_digits(std::string_view text, std::size_t count) {
    return text.size() >= count &&
           std::all_of(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(count), is_digit);
}

/// Length of identifier and value together where it is fixed by the first two digits (GS1 General
/// Specifications, element strings of predefined length); 0 where a separator ends them.
std::size_t predefined_length(std::string_view first_two) {
    struct Row {
        std::string_view begin;
        std::size_t length;
    };
    static constexpr std::array rows{
        Row{"00", 20}, Row{"01", 16}, Row{"02", 16}, Row{"03", 16}, Row{"04", 18}, Row{"11", 8},
        Row{"12", 8},  Row{"13", 8},  Row{"14", 8},  Row{"15", 8},  Row{"16", 8},  Row{"17", 8},
        Row{"18", 8},  Row{"19", 8},  Row{"20", 4},  Row{"31", 10}, Row{"32", 10}, Row{"33", 10},
        Row{"34", 10}, Row{"35", 10}, Row{"36", 10}, Row{"41", 16},
    };
    for (const auto& row : rows)
        if (first_two == row.begin)
            return row.length;
    return 0;
}

/// An identifier and its value; of a plain string an identifier of two digits, of a measure one of four.
using Elements = std::vector<std::pair<std::string, std::string>>;

/// Of the form "(01)…(10)…"; a bracket that belongs to a value is written "\\(".
Elements elements_in_brackets(std::string_view scan) {
    Elements elements;
    while (!scan.empty() && scan.front() == '(') {
        const auto close = scan.find(')');
        if (close == std::string_view::npos)
            return elements;
        const auto identifier = scan.substr(1, close - 1);
        scan.remove_prefix(close + 1);
        std::string value;
        while (!scan.empty() && scan.front() != '(') {
            const bool is_escaped = scan.size() > 1 && scan[0] == '\\' && scan[1] == '(';
            value += is_escaped ? '(' : scan.front();
            scan.remove_prefix(is_escaped ? 2 : 1);
        }
        elements.emplace_back(identifier, value);
    }
    return elements;
}

/// As far as it can be taken apart.
Elements elements_in_plain(std::string_view rest) {
    Elements elements;
    while (!rest.empty()) {
        if (rest.front() == group_separator) {
            rest.remove_prefix(1);
            continue;
        }
        if (!are_digits(rest, 2))
            return elements;
        const auto length = predefined_length(rest.substr(0, 2));
        if (length > rest.size())
            return elements;
        const auto element = rest.substr(0, length > 0 ? length : rest.find(group_separator));
        const std::size_t digits = element.front() == '3' && length == 10 ? 4 : 2;
        elements.emplace_back(element.substr(0, digits), element.substr(digits));
        rest.remove_prefix(element.size());
    }
    return elements;
}

/// Symbologies whose data is an element string (ISO/IEC 15424 identifiers); any other's is as it stands.
bool is_gs1_symbology(std::string_view identifier) {
    static constexpr std::array<std::string_view, 5> all{"]C1", "]e0", "]d2", "]Q3", "]J1"};
    return std::find(all.begin(), all.end(), identifier) != all.end();
}

/// A plain string of elements begins with a trade item or logistic unit number, or has separators.
bool is_element_string(std::string_view scan) {
    const bool has_number = (scan.substr(0, 2) == "01" && are_digits(scan, 16)) ||
                            (scan.substr(0, 2) == "02" && are_digits(scan, 16)) ||
                            (scan.substr(0, 2) == "00" && are_digits(scan, 20));
    return has_number || scan.find(group_separator) != std::string_view::npos;
}

/// Nothing: the scan is no element string.
std::optional<Elements> elements_in(std::string_view text) {
    constexpr std::size_t identifier = 3; // "]C1"
    const bool has_symbology = text.size() > identifier && text.front() == ']';
    if (has_symbology && is_gs1_symbology(text.substr(0, identifier)))
        return elements_in_plain(text.substr(identifier));
    if (has_symbology)
        text.remove_prefix(identifier);
    if (!has_symbology && !text.empty() && text.front() == '(')
        return elements_in_brackets(text);
    if (is_element_string(text))
        return elements_in_plain(text);
    return {};
}

std::string_view without_symbology(std::string_view text) {
    constexpr std::size_t identifier = 3;
    return text.size() > identifier && text.front() == ']' ? text.substr(identifier) : text;
}

std::string value_of(const Elements& elements, std::string_view identifier) {
    for (const auto& [one, value] : elements)
        if (one == identifier)
            return value;
    return {};
}

/// "2026-11-24" of "261124"; a day of 00 is the month's last. Empty where it is no day.
std::string day_of(std::string_view digits) {
    if (digits.size() != 6 || !are_digits(digits, 6))
        return {};
    const auto two = [&](std::size_t at) { return (digits[at] - '0') * 10 + (digits[at + 1] - '0'); };
    const auto month = date::year{2000 + two(0)} / date::month{static_cast<unsigned>(two(2))};
    if (!month.ok())
        return {};
    const date::year_month_day day =
        two(4) == 0 ? date::year_month_day(month / date::last)
                    : date::year_month_day(month / date::day{static_cast<unsigned>(two(4))});
    return day.ok() ? iso(Day{day}) : std::string();
}

/// "1000.5" of "010005" with one decimal; its zeros in front and behind are the label's.
std::string kilograms_of(std::string_view digits, int decimals) {
    if (digits.size() != 6 || !are_digits(digits, 6) || decimals < 0 || decimals > 5)
        return {};
    std::string number(digits);
    number.insert(number.size() - static_cast<std::size_t>(decimals), ".");
    number.erase(0, std::min(number.find_first_not_of('0'), number.find('.') - 1));
    number.erase(number.find_last_not_of('0') + 1);
    if (number.back() == '.')
        number.pop_back();
    if (!number.empty() && number.front() == '.')
        number.insert(0, "0");
    return number.empty() ? "0" : number;
}

} // namespace

std::optional<std::string> lot_number_in(std::string_view scan) {
    auto lot = label_in(scan).lot;
    return lot.empty() ? std::nullopt : std::optional(std::move(lot));
}

LabelWords label_in(std::string_view scan) {
    const auto text = trimmed(scan);
    const auto elements = elements_in(text);
    if (!elements)
        return {std::string(without_symbology(text)), "", "", ""};
    LabelWords label{value_of(*elements, "10"), day_of(value_of(*elements, "11")),
                     day_of(value_of(*elements, "15")), ""};
    for (const auto& [identifier, value] : *elements)
        if (identifier.size() == 4 && identifier.starts_with("310") && value_of(*elements, "37").empty())
            label.kg = kilograms_of(value, identifier.back() - '0');
    return label;
}

} // namespace mellowbin
