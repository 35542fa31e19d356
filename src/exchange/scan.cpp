#include "exchange/scan.h"

#include "core/house_units.h"
#include "core/typed_text.h"
#include "exchange/application_identifier.h"

#include <date/date.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace mellowbin::exchange {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

constexpr std::size_t identifier_length = 3; // "]C1"
constexpr std::array<std::string_view, 5> of_elements{"]C1", "]e0", "]d2", "]Q3", "]J1"};

Refusal of_scanner(std::string what, std::string remedy) {
    return {"Scan", std::move(what), std::move(remedy)};
}

constexpr const char* see_test_page =
    "Scan the test symbols on Settings, and set the scanner by what they say";

std::string with_separators(std::string_view text, const std::string& sent) {
    std::string plain(text);
    for (const std::string_view one : {std::string_view(sent), shown_separator})
        for (auto at = one.empty() ? std::string::npos : plain.find(one); at != std::string::npos;
             at = plain.find(one, at + 1))
            plain.replace(at, one.size(), 1, group_separator);
    return plain;
}

std::string_view without_terminator(std::string_view text) {
    while (!text.empty() && (text.back() == '\r' || text.back() == '\n' || text.back() == '\t'))
        text.remove_suffix(1);
    return text;
}

/// The identifier that the text would begin with had nothing been bent on the way: letters of the other case,
/// or another sign for the bracket.
bool is_bent(std::string_view text, bool case_is_bent) {
    if (text.size() < identifier_length + 2 || !is_digit(text[3]) || !is_digit(text[4]))
        return false;
    return std::any_of(of_elements.begin(), of_elements.end(), [&](std::string_view one) {
        if (text[2] != one[2] || text.starts_with("]E0")) // which is EAN's own
            return false;
        return case_is_bent ? text[0] == one[0] && (text[1] ^ 0x20) == one[1]
                            : text[0] != one[0] && !is_digit(text[0]) && text[0] != '(' && text[1] == one[1];
    });
}

Result<Scan> of_gs1(Result<Elements> read) {
    if (!read)
        return read.refusals();
    return Scan{std::move(*read), ""};
}

/// EAN and UPC symbols hold a GTIN alone.
Result<Scan> of_gtin(std::string_view digits) {
    std::string gtin(digits);
    if (gtin.size() < 14)
        gtin.insert(0, 14 - gtin.size(), '0');
    return of_gs1(read_element_string("01" + gtin));
}

Result<Scan> with_identifier(std::string_view identifier, std::string_view data) {
    if (std::find(of_elements.begin(), of_elements.end(), identifier) != of_elements.end())
        return of_gs1(read_element_string(data));
    const bool is_letter =
        (identifier[1] >= 'A' && identifier[1] <= 'Z') || (identifier[1] >= 'a' && identifier[1] <= 'z');
    const bool is_modifier = is_digit(identifier[2]) || (identifier[2] >= 'A' && identifier[2] <= 'F');
    if (!is_letter || !is_modifier || data.empty())
        return of_scanner(fmt::format("\"{}\" is no kind of symbol", excerpt(identifier)), see_test_page);
    if (identifier == "]E0" || identifier == "]E4")
        return of_gtin(data);
    if (is_uri(data))
        return of_gs1(read_digital_link(data));
    return Scan{{}, std::string(trimmed(data))};
}

/// Without an identifier: an element string begins with what a pallet or an item is known by, or has
/// separators, and can be read to its end.
std::optional<Elements> elements_in(std::string_view text) {
    const bool begins_so = text.starts_with("00") || text.starts_with("01") || text.starts_with("02");
    if (!begins_so && text.find(group_separator) == std::string_view::npos)
        return {};
    auto read = read_element_string(text);
    return read ? std::optional(std::move(*read)) : std::nullopt;
}

/// YYMMDD, in the century that is at most 49 years back or 50 ahead.
std::optional<Day> day_in(std::string_view digits, Day today) {
    if (digits.size() != 6)
        return {};
    const auto two = [&](std::size_t at) { return (digits[at] - '0') * 10 + (digits[at + 1] - '0'); };
    const int this_year = static_cast<int>(date::year_month_day(today).year());
    const int apart = two(0) - this_year % 100;
    const int century = this_year / 100 * 100 + (apart >= 51 ? -100 : apart <= -50 ? 100 : 0);
    const auto month = date::year{century + two(0)} / date::month{static_cast<unsigned>(two(2))};
    if (!month.ok())
        return {};
    const auto day = two(4) == 0 ? date::year_month_day(month / date::last)
                                 : date::year_month_day(month / date::day{static_cast<unsigned>(two(4))});
    return day.ok() ? std::optional(Day{day}) : std::nullopt;
}

std::optional<int> number_in(std::string_view digits) {
    int number = 0;
    const auto read = std::from_chars(digits.data(), digits.data() + digits.size(), number);
    return read.ec == std::errc() && !digits.empty() ? std::optional(number) : std::nullopt;
}

/// "55.11" of "005511" with two decimals.
std::string decimal_of(std::string_view digits, int decimals) {
    return fmt::format("{:.{}f}", number_in(digits).value_or(0) / std::pow(10.0, decimals), decimals);
}

void read_net(const Element& element, LabelFacts& facts) {
    const bool is_kg = is_of_pattern(element.identifier, "310n");
    if (!is_kg && !is_of_pattern(element.identifier, "320n"))
        return;
    const int decimals = element.identifier.back() - '0';
    const double value = number_in(element.value).value_or(0) / std::pow(10.0, decimals);
    facts.net = Grams{std::llround(value * 1000 * (is_kg ? 1 : kilograms_per_pound))};
    facts.net_words = decimal_of(element.value, decimals) + (is_kg ? " kg" : " lb");
}

} // namespace

Result<Scan> read_scan(std::string_view bytes, const ScannerSetup& setup) {
    if (bytes.size() > longest_scan)
        return of_scanner(fmt::format("{} characters were read; no symbol holds as many", bytes.size()),
                          "Scan one label, or type its lot number");
    const auto whole = with_separators(without_terminator(bytes), setup.separator);
    const std::string_view text = whole;
    if (trimmed(text).empty())
        return of_scanner("is empty", "Scan a label, or type its lot number");
    if (is_bent(text, true))
        return of_scanner("its letters are of the other case: Caps Lock is on",
                          "Switch Caps Lock off, and scan again");
    if (is_bent(text, false))
        return of_scanner(fmt::format("\"{}\" was read where ] is expected: the scanner writes for another "
                                      "keyboard layout",
                                      excerpt(text.substr(0, 1))),
                          see_test_page);
    if (text.front() == ']') {
        if (text.size() < identifier_length)
            return of_scanner(fmt::format("\"{}\" is no kind of symbol", excerpt(text)), see_test_page);
        return with_identifier(text.substr(0, identifier_length), text.substr(identifier_length));
    }
    if (text.front() == '(')
        return of_gs1(read_bracketed(text));
    if (is_uri(text))
        return of_gs1(read_digital_link(text));
    if (auto elements = elements_in(text))
        return Scan{std::move(*elements), ""};
    return Scan{{}, std::string(trimmed(text))};
}

Result<std::string> lot_number_in(std::string_view bytes, const ScannerSetup& setup) {
    const auto scan = read_scan(bytes, setup);
    if (!scan)
        return scan.refusals();
    auto lot = scan->is_gs1() ? value_of(scan->elements, "10") : scan->text;
    if (lot.empty())
        return of_scanner("the label has no lot number", "Scan the label with the lot, or type its number");
    return lot;
}

LabelFacts facts_of(const Elements& elements, Day today) {
    const auto day = [&](std::string_view identifier) {
        return day_in(value_of(elements, identifier), today);
    };
    LabelFacts facts;
    facts.sscc = value_of(elements, "00");
    facts.gtin = value_of(elements, "01");
    facts.content_gtin = value_of(elements, "02");
    facts.lot = value_of(elements, "10");
    facts.order = value_of(elements, "400");
    facts.produced = day("11");
    facts.packed = day("13");
    facts.best_before = day("15");
    facts.expires = day("17");
    facts.count = number_in(value_of(elements, "37"));
    if (!facts.count)
        facts.count = number_in(value_of(elements, "30"));
    facts.ship_to = value_of(elements, "410");
    facts.purchased_from = value_of(elements, "412");
    for (const auto& element : elements)
        read_net(element, facts);
    return facts;
}

std::optional<SeparatorDoubt> separator_doubt(const Elements& elements) {
    if (elements.empty() || elements.back().identifier != "10")
        return {};
    constexpr std::size_t date_element = 8; // two digits of the identifier, six of the day
    const auto& lot = elements.back().value;
    if (lot.size() <= date_element)
        return {};
    const auto end = std::string_view(lot).substr(lot.size() - date_element);
    for (const std::string_view identifier : {"11", "13", "15", "16", "17"}) {
        const auto value = end.substr(2);
        if (!end.starts_with(identifier) || fault_of(*application_identifier(identifier), value))
            continue;
        return SeparatorDoubt{
            lot, lot.substr(0, lot.size() - date_element), {std::string(identifier), std::string(value)}};
    }
    return {};
}

std::optional<std::string> why_not_on_label(std::string_view lot) {
    constexpr std::size_t longest = 20;
    if (!is_of_set_82(lot))
        return "it has characters that no such symbol can hold";
    if (lot.size() > longest)
        return fmt::format("it has {} characters, and such a symbol holds up to {}", lot.size(), longest);
    return {};
}

} // namespace mellowbin::exchange
