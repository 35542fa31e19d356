#include "core/typed_text.h"
#include "exchange/certificate_figure.h"
#include "exchange/certificate_words.h"
#include "exchange/text_tokens.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <vector>

namespace mellowbin::exchange {
namespace {

/// Names of months in English, German, French and Spanish, without accents; read by their beginning, of three
/// letters and more, where that is of one month alone ("jui" is not).
constexpr std::array<std::array<std::string_view, 6>, 12> months{{
    {"january", "januar", "janner", "janvier", "enero", "ene"},
    {"february", "februar", "fevrier", "febrero", "feb", "fev"},
    {"march", "marz", "maerz", "mars", "marzo", "mrz"},
    {"april", "avril", "abril", "apr", "avr", "abr"},
    {"may", "mai", "mayo", "may", "may", "may"},
    {"june", "juni", "juin", "junio", "jun", "jun"},
    {"july", "juli", "juillet", "julio", "jul", "juil"},
    {"august", "aout", "agosto", "aug", "ago", "aou"},
    {"september", "septembre", "septiembre", "setiembre", "sep", "sept"},
    {"october", "oktober", "octobre", "octubre", "oct", "okt"},
    {"november", "novembre", "noviembre", "nov", "nov", "nov"},
    {"december", "dezember", "decembre", "diciembre", "dec", "dic"},
}};

constexpr unsigned shortest_month = 3;

/// 1 to 12; 0 where the word is no month, or may be two.
unsigned month_named(std::string_view word) {
    if (word.size() < shortest_month)
        return 0;
    unsigned found = 0;
    for (unsigned month = 0; month < months.size(); ++month)
        for (const auto name : months[month]) {
            if (name == word)
                return month + 1;
            if (name.starts_with(word))
                found = found == 0 || found == month + 1 ? month + 1 : 13;
        }
    return found > 12 ? 0 : found;
}

unsigned number_in(std::string_view digits) {
    unsigned number = 0;
    std::from_chars(digits.data(), digits.data() + digits.size(), number);
    return number;
}

std::optional<Day> day_of(unsigned year, unsigned month, unsigned day) {
    const auto date = date::year{static_cast<int>(year)} / static_cast<int>(month) / static_cast<int>(day);
    if (year > 9999 || !date.ok())
        return {};
    return Day{date};
}

/// A part of a date: digits or the name of a month.
struct DatePart {
    unsigned number = 0;
    std::size_t digits = 0; ///< 0: a month by name
    char before = ' ';      ///< the mark that stands in front
};

/// The parts of the text; empty where something else stands there.
std::vector<DatePart> parts_of(std::string_view text) {
    constexpr std::array between{"de", "del", "of", "le", "el", "den", "am",
                                 "du", "the", "st", "nd", "rd", "th",  "er"};
    std::vector<DatePart> parts;
    char mark = ' ';
    for (std::size_t at = 0; at < text.size();) {
        const char c = text[at];
        std::size_t end = at + 1;
        if (c >= '0' && c <= '9') {
            while (end < text.size() && text[end] >= '0' && text[end] <= '9')
                ++end;
            parts.push_back({number_in(text.substr(at, std::min<std::size_t>(end - at, 9))), end - at, mark});
            mark = ' ';
        } else if (std::string_view("./-, \t").find(c) != std::string_view::npos) {
            mark = c == ' ' || c == '\t' ? mark : c;
        } else {
            while (end < text.size() &&
                   std::string_view("./-, \t0123456789").find(text[end]) == std::string_view::npos)
                ++end;
            const auto word = folded(text.substr(at, end - at));
            const auto month = month_named(word);
            if (month > 0)
                parts.push_back({month, 0, mark});
            else if (std::find(between.begin(), between.end(), word) == between.end())
                return {};
            mark = ' ';
        }
        at = end;
    }
    return parts;
}

unsigned full_year(const DatePart& part) { return part.digits <= 2 ? 2000 + part.number : part.number; }
bool is_year(const DatePart& part) { return part.digits == 4; }

PrintedDay the_day(std::optional<Day> day) {
    PrintedDay read;
    read.day = day;
    read.kind = day ? PrintedDay::Kind::day : PrintedDay::Kind::none;
    return read;
}

/// Two numbers and a year, in one of the two orders.
PrintedDay either_order(const DatePart& first, const DatePart& second, unsigned year) {
    const auto day_first = day_of(year, second.number, first.number);
    const auto month_first = day_of(year, first.number, second.number);
    // 02.11.2026: with points the day stands first; common practice, no source.
    if (second.before == '.' || !month_first || day_first == month_first) {
        auto read = the_day(day_first);
        if (!month_first && second.before != '.')
            read.order = DateOrder::day_first;
        return read;
    }
    if (!day_first) {
        auto read = the_day(month_first);
        read.order = DateOrder::month_first;
        return read;
    }
    PrintedDay read;
    read.kind = PrintedDay::Kind::two_readings;
    read.day = day_first;
    read.other = month_first;
    return read;
}

PrintedDay of_three(const std::vector<DatePart>& parts) {
    const auto& [first, second, third] = std::tie(parts[0], parts[1], parts[2]);
    if (first.digits == 0)
        return the_day(second.digits == 0 || third.digits == 0
                           ? std::nullopt
                           : day_of(full_year(third), first.number, second.number));
    if (second.digits == 0)
        return the_day(third.digits == 0 ? std::nullopt
                                         : day_of(full_year(third), second.number, first.number));
    if (third.digits == 0)
        return {};
    if (is_year(first))
        return the_day(day_of(first.number, second.number, third.number));
    return either_order(first, second, full_year(third));
}

/// The text without a time of day behind a date: "2026-11-02 06:30", "2026-11-02T06:30:00".
std::string_view without_time(std::string_view text) {
    const auto colon = text.find(':');
    if (colon == std::string_view::npos)
        return text;
    const auto begin = text.find_last_of(" T", colon);
    return begin == std::string_view::npos ? text : trimmed(text.substr(0, begin));
}

} // namespace

PrintedDay read_printed_day(std::string_view text) {
    text = without_time(trimmed(text));
    PrintedDay read;
    if (folded(text).empty()) {
        read.kind = text.empty() || text.find_first_not_of("-/.") == std::string_view::npos
                        ? PrintedDay::Kind::missing
                        : PrintedDay::Kind::none;
        return read;
    }
    constexpr std::size_t longest_date = 40;
    if (text.size() > longest_date)
        return read;
    const auto parts = parts_of(text);
    if (parts.size() == 1 && parts.front().digits == 8)
        return the_day(day_of(parts.front().number / 10'000, parts.front().number / 100 % 100,
                              parts.front().number % 100));
    if (parts.size() == 2) {
        const bool has_year = is_year(parts[0]) || is_year(parts[1]);
        const auto month = is_year(parts[0]) ? parts[1].number : parts[0].number;
        const bool is_parted = parts[0].digits == 0 || parts[1].before == '/' || parts[1].before == '-' ||
                               parts[1].before == '.';
        if (has_year && is_parted && month >= 1 && month <= 12)
            read.kind = PrintedDay::Kind::month;
        return read;
    }
    return parts.size() == 3 ? of_three(parts) : read;
}

} // namespace mellowbin::exchange
