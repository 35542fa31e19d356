#include "exchange/bag_scan.h"

#include "core/typed_text.h"

#include <algorithm>
#include <array>
#include <cctype>

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

/// Of the form "(01)…(10)…"; a bracket that belongs to a value is written "\\(".
std::optional<std::string> lot_in_brackets(std::string_view scan) {
    while (!scan.empty() && scan.front() == '(') {
        const auto close = scan.find(')');
        if (close == std::string_view::npos)
            return {};
        const auto identifier = scan.substr(1, close - 1);
        scan.remove_prefix(close + 1);
        std::string value;
        while (!scan.empty() && scan.front() != '(') {
            const bool is_escaped = scan.size() > 1 && scan[0] == '\\' && scan[1] == '(';
            value += is_escaped ? '(' : scan.front();
            scan.remove_prefix(is_escaped ? 2 : 1);
        }
        if (identifier == "10")
            return value;
    }
    return {};
}

std::optional<std::string> lot_in_elements(std::string_view rest) {
    while (!rest.empty()) {
        if (rest.front() == group_separator) {
            rest.remove_prefix(1);
            continue;
        }
        if (!are_digits(rest, 2))
            return {};
        if (rest.substr(0, 2) == "10")
            return std::string(rest.substr(2, rest.find(group_separator) - 2));
        const auto length = predefined_length(rest.substr(0, 2));
        const auto end = length > 0 ? length : rest.find(group_separator);
        if (end >= rest.size())
            return {};
        rest.remove_prefix(end);
    }
    return {};
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

} // namespace

std::optional<std::string> lot_number_in(std::string_view scan) {
    auto text = std::string_view(trimmed(scan));
    constexpr std::size_t identifier = 3; // "]C1"
    const bool has_symbology = text.size() > identifier && text.front() == ']';
    const bool is_gs1 = has_symbology && is_gs1_symbology(text.substr(0, identifier));
    if (has_symbology)
        text.remove_prefix(identifier);
    std::optional<std::string> lot;
    if (is_gs1)
        lot = lot_in_elements(text);
    else if (!text.empty() && text.front() == '(')
        lot = lot_in_brackets(text);
    else if (is_element_string(text))
        lot = lot_in_elements(text);
    else
        lot = std::string(text);
    return lot && !lot->empty() ? lot : std::nullopt;
}

} // namespace mellowbin
