#include "exchange/application_identifier.h"

#include "core/pallet.h"
#include "core/shipped_table.h"
#include "core/typed_text.h"
#include "exchange/application_identifiers_text.h"

#include <date/date.h>
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <stdexcept>

namespace mellowbin::exchange {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool are_digits(std::string_view text) { return std::all_of(text.begin(), text.end(), is_digit); }

std::vector<std::string> words_of(std::string_view text, char parted_by = ' ') {
    std::vector<std::string> words;
    while (!text.empty()) {
        const auto end = std::min(text.find(parted_by), text.size());
        if (end > 0)
            words.emplace_back(text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return words;
}

[[noreturn]] void refuse(int line, std::string_view cell) {
    throw std::logic_error(fmt::format("application identifiers, line {}: \"{}\"", line, cell));
}

PartCheck check_named(std::string_view name, int line) {
    if (name == "check")
        return PartCheck::check_digit;
    if (name == "day0")
        return PartCheck::day_or_month;
    if (name == "day")
        return PartCheck::day;
    if (name == "time")
        return PartCheck::time;
    refuse(line, name);
}

/// "N14:check", "X..20", "[N4:time]"
ValuePart part_in(std::string word, int line) {
    ValuePart part;
    if (word.front() == '[' && word.back() == ']') {
        part.may_be_missing = true;
        word = word.substr(1, word.size() - 2);
    }
    if (const auto colon = word.find(':'); colon != std::string::npos) {
        part.check = check_named(std::string_view(word).substr(colon + 1), line);
        word.resize(colon);
    }
    part.is_digits = word.front() == 'N';
    std::string_view length = std::string_view(word).substr(1);
    const bool is_open = length.starts_with("..");
    if (is_open)
        length.remove_prefix(2);
    const auto read = std::from_chars(length.data(), length.data() + length.size(), part.most);
    if (read.ec != std::errc() || (word.front() != 'N' && word.front() != 'X'))
        refuse(line, word);
    part.least = is_open ? 1 : part.most;
    return part;
}

ApplicationIdentifier identifier_in(const TableRow& row) {
    const auto& cells = row.cells;
    ApplicationIdentifier one;
    one.first = cells.at(0);
    one.last = cells.at(1);
    one.is_predefined = cells.at(2) == "yes";
    for (auto& word : words_of(cells.at(3)))
        one.parts.push_back(part_in(std::move(word), row.number));
    for (const auto& group : words_of(cells.at(4), ';'))
        one.needs.push_back(words_of(group));
    one.forbidden = words_of(cells.at(5));
    if (const std::string_view key = cells.at(6); !key.empty()) {
        auto& qualifiers = one.link_qualifiers.emplace();
        for (const auto& way : words_of(key.substr(1), '/'))
            qualifiers.push_back(words_of(way));
    }
    one.title = cells.at(7);
    return one;
}

const std::vector<ApplicationIdentifier>& all_identifiers() {
    static const auto all = [] {
        std::vector<ApplicationIdentifier> identifiers;
        for (const auto& row : rows_of_table(tables::application_identifiers))
            identifiers.push_back(identifier_in(row));
        return identifiers;
    }();
    return all;
}

int two_digits(std::string_view text, std::size_t at) { return (text[at] - '0') * 10 + (text[at + 1] - '0'); }

/// Of YYMMDD, in any century: 2000 has the leap year that the standard's examples have.
std::optional<std::string> fault_of_day(std::string_view digits, bool may_be_month) {
    const date::year_month month{date::year{2000 + two_digits(digits, 0)},
                                 date::month{static_cast<unsigned>(two_digits(digits, 2))}};
    if (!month.ok())
        return fmt::format("\"{}\" has no month {}", digits, digits.substr(2, 2));
    const int day = two_digits(digits, 4);
    if (day == 0 && may_be_month)
        return {};
    if (day == 0 || !(month / date::day{static_cast<unsigned>(day)}).ok())
        return fmt::format("\"{}\" has no day {} in its month", digits, digits.substr(4, 2));
    return {};
}

std::optional<std::string> fault_of_part(const ValuePart& part, std::string_view text) {
    if (part.is_digits && !are_digits(text))
        return fmt::format("\"{}\" was read; digits are expected", excerpt(text));
    if (!is_of_set_82(text))
        return fmt::format("\"{}\" has a character that no such value can have", excerpt(text));
    switch (part.check) {
    case PartCheck::none:
        return {};
    case PartCheck::check_digit: {
        const char expected = check_digit_of(text.substr(0, text.size() - 1));
        if (text.back() != expected)
            return fmt::format("the check digit of \"{}\" is wrong: {} is expected", text, expected);
        return {};
    }
    case PartCheck::day_or_month:
        return fault_of_day(text, true);
    case PartCheck::day:
        return fault_of_day(text, false);
    case PartCheck::time:
        if (two_digits(text, 0) > 23 || two_digits(text, 2) > 59)
            return fmt::format("\"{}\" is no time of a day", text);
        return {};
    }
    return {};
}

} // namespace

std::size_t ApplicationIdentifier::least() const {
    std::size_t sum = 0;
    for (const auto& part : parts)
        sum += part.may_be_missing ? 0 : part.least;
    return sum;
}

std::size_t ApplicationIdentifier::most() const {
    std::size_t sum = 0;
    for (const auto& part : parts)
        sum += part.most;
    return sum;
}

const ApplicationIdentifier* application_identifier(std::string_view digits) {
    for (const auto& one : all_identifiers())
        if (digits.size() == one.first.size() && digits >= one.first && digits <= one.last)
            return &one;
    return nullptr;
}

std::string_view identifier_at_start(std::string_view data) {
    for (const std::size_t length : {2U, 3U, 4U})
        if (data.size() >= length && application_identifier(data.substr(0, length)))
            return data.substr(0, length);
    return {};
}

bool is_of_pattern(std::string_view digits, std::string_view pattern) {
    return digits.size() == pattern.size() &&
           std::equal(digits.begin(), digits.end(), pattern.begin(),
                      [](char digit, char wanted) { return wanted == 'n' || digit == wanted; });
}

std::optional<std::string> fault_of(const ApplicationIdentifier& identifier, std::string_view value) {
    if (value.size() < identifier.least() || value.empty())
        return fmt::format("\"{}\" is too short: {} characters are expected", excerpt(value),
                           identifier.least());
    if (value.size() > identifier.most())
        return fmt::format("\"{}\" is too long: up to {} characters are expected", excerpt(value),
                           identifier.most());
    for (const auto& part : identifier.parts) {
        if (value.empty() && part.may_be_missing)
            continue;
        if (value.size() < part.least)
            return fmt::format("\"{}\" is too short", excerpt(value));
        const auto text = value.substr(0, std::min(part.most, value.size()));
        if (auto fault = fault_of_part(part, text))
            return fault;
        value.remove_prefix(text.size());
    }
    return value.empty() ? std::nullopt : std::optional(fmt::format("\"{}\" is left over", excerpt(value)));
}

char check_digit_of(std::string_view digits) { return gs1_check_digit(digits); }

bool is_of_set_82(std::string_view text) {
    constexpr std::string_view signs = "!\"%&'()*+,-./:;<=>?_";
    return std::all_of(text.begin(), text.end(), [&](char c) {
        return is_digit(c) || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') ||
               signs.find(c) != std::string_view::npos;
    });
}

} // namespace mellowbin::exchange
