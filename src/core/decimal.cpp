#include "core/decimal.h"

#include "core/typed_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

namespace mellowbin {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// Digits, at most one mark, at least one digit.
bool is_plain_decimal(std::string_view text) {
    if (!text.empty() && (text.front() == '-' || text.front() == '+'))
        text.remove_prefix(1);
    const auto marks = std::count_if(text.begin(), text.end(), [](char c) { return c == '.' || c == ','; });
    const auto digits = std::count_if(text.begin(), text.end(), is_digit);
    return marks <= 1 && digits >= 1 && digits <= 15 &&
           static_cast<std::size_t>(marks + digits) == text.size();
}

/// Spaces of any width that stand between thousands, as plain ones.
std::string with_plain_spaces(std::string_view text) {
    std::string plain(text);
    for (const std::string_view wide : {"\u00a0", "\u2009", "\u202f"})
        for (auto at = plain.find(wide); at != std::string::npos; at = plain.find(wide, at))
            plain.replace(at, wide.size(), " ");
    return plain;
}

/// "12 500,5" without its spaces; nothing where they do not stand before groups of three whole digits.
std::optional<std::string> without_thousands(const std::string& text) {
    if (text.find(' ') == std::string::npos)
        return text;
    const std::string_view whole = std::string_view(text).substr(0, text.find_first_of(".,"));
    if (text.find(' ', whole.size()) != std::string::npos)
        return {};
    std::string digits;
    std::size_t in_group = 0;
    bool is_first = true;
    for (const char c : whole) {
        if (c != ' ') {
            digits += c;
            in_group += is_digit(c) ? 1 : 0;
            continue;
        }
        if (in_group == 0 || in_group > 3 || (!is_first && in_group != 3))
            return {};
        is_first = false;
        in_group = 0;
    }
    if (in_group != 3)
        return {};
    return digits + text.substr(whole.size());
}

/// "from 0 to 30 %"; a bound is written out, never as 1e+06.
std::string in_words(const Bounds& bounds) {
    const std::string range = fmt::format("from {} to {}", bounds.low, bounds.high);
    return *bounds.unit == '\0' ? range : range + " " + bounds.unit;
}

Refusal not_a_number(std::string_view field, std::string_view text) {
    return {std::string(field),
            fmt::format("\"{}\" was read; a number such as 11.85 or 11,85 is expected", excerpt(text)),
            "Type digits with one decimal point or comma, no unit; between thousands a space, or nothing"};
}

} // namespace

Result<std::optional<double>> read_decimal(std::string_view field, std::string_view text) {
    const std::string_view typed = trimmed(text);
    if (typed.empty())
        return std::optional<double>{};
    const auto plain = without_thousands(with_plain_spaces(typed));
    if (!plain || !is_plain_decimal(*plain))
        return not_a_number(field, typed);

    std::string digits = plain->front() == '+' ? plain->substr(1) : *plain;
    std::replace(digits.begin(), digits.end(), ',', '.');
    double value = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    if (error != std::errc{} || end != digits.data() + digits.size())
        return not_a_number(field, typed);
    return std::optional<double>{value + 0.0}; // "-0" is 0
}

Result<std::optional<double>> read_decimal_within(std::string_view field, std::string_view text,
                                                  Bounds bounds) {
    auto read = read_decimal(field, text);
    if (!read || !*read)
        return read;
    const double value = **read;
    if (value < bounds.low || value > bounds.high) {
        return Refusal{std::string(field),
                       fmt::format("{} was read; {} is expected", trimmed(text), in_words(bounds)),
                       "Check the figure and its unit"};
    }
    return read;
}

Result<double> read_required_decimal(std::string_view field, std::string_view text, Bounds bounds) {
    auto read = read_decimal_within(field, text, bounds);
    if (!read)
        return read.refusals();
    if (!*read) {
        return Refusal{std::string(field), fmt::format("is empty; {} is expected", in_words(bounds)),
                       "Enter the figure"};
    }
    return **read;
}

std::string as_typed(double value) {
    constexpr int most_digits = 15; // that are read
    const double size = std::abs(value);
    const int before_point = size < 1 ? 1 : static_cast<int>(std::floor(std::log10(size))) + 1;
    auto text = fixed(value, std::max(0, most_digits - before_point));
    if (text.find('.') == std::string::npos)
        return text;
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.')
        text.pop_back();
    return text;
}

std::string fixed(double value, int decimals) {
    std::string text = fmt::format("{:.{}f}", value, decimals);
    // "-0.0" says nothing that "0.0" does not.
    if (text.front() == '-' && text.find_first_of("123456789") == std::string::npos)
        text.erase(0, 1);
    return text;
}

} // namespace mellowbin
