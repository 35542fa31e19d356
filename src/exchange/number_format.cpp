#include "exchange/number_format.h"

#include "core/day.h"
#include "core/decimal.h"
#include "core/typed_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin::exchange {
namespace {

using Kind = NumberFormat::Kind;

/// The first section of a code, its marks for a reader apart from its words.
struct Marks {
    std::string marks; ///< lower case: "0.00%", "yyyymmdd"
    std::string before, after;
};

bool is_place_of_digit(char c) { return c == '0' || c == '#' || c == '?'; }

/// What stands in [ ]: an elapsed time is a mark, colours, conditions and languages are nothing; a currency
/// ([$€-407]) is a word.
std::string word_in_brackets(std::string_view inside, Marks& to) {
    const std::string lower = lower_case(inside);
    if (lower.find_first_not_of("hms") == std::string::npos)
        to.marks += lower;
    if (inside.starts_with('$'))
        return std::string(inside.substr(1, inside.find('-') - 1));
    return {};
}

Marks marks_of(std::string_view code) {
    Marks read;
    bool is_behind = false; // the figure
    const auto add_words = [&](std::string_view words) { (is_behind ? read.after : read.before) += words; };
    for (std::size_t i = 0; i < code.size() && code[i] != ';'; ++i) {
        const char c = code[i];
        if (c == '"' || c == '[') {
            const auto close = std::min(code.find(c == '"' ? '"' : ']', i + 1), code.size());
            const auto inside = code.substr(i + 1, close - i - 1);
            add_words(c == '"' ? std::string(inside) : word_in_brackets(inside, read));
            i = close;
        } else if (c == '\\' && i + 1 < code.size()) {
            // The character behind may be of several bytes; the rest of them are words, too.
            add_words(code.substr(++i, 1));
        } else if (c == '_' || c == '*') {
            ++i; // a blank as wide as the next character; filled with it
        } else if (c == ' ' || c == '-' || c == '+' || (static_cast<unsigned char>(c) & 0x80U) != 0) {
            add_words(std::string_view(&c, 1));
        } else {
            is_behind = is_behind || is_place_of_digit(c) || c == 'G' || c == 'g'; // General
            read.marks += c;
        }
    }
    read.marks = lower_case(read.marks);
    return read;
}

bool has(std::string_view marks, std::string_view any) {
    return marks.find_first_of(any) != std::string_view::npos;
}

Kind kind_of(std::string_view marks) {
    if (marks.starts_with("general"))
        return Kind::plain;
    const bool has_clock = has(marks, "hs") || marks.find("am/pm") != std::string_view::npos;
    // m is a month beside a day or a year, a minute beside an hour or a second.
    if (has(marks, "yd") || (marks.find('m') != std::string_view::npos && !has_clock))
        return !has(marks, "d") ? Kind::month : has_clock ? Kind::day_and_time : Kind::day;
    return has_clock ? Kind::time : marks.find('%') != std::string_view::npos ? Kind::percent : Kind::plain;
}

/// Commas behind the last place of a digit: "0.0,," is in millions.
int commas_behind(std::string_view marks) {
    const auto last = marks.find_last_of("0#?");
    if (last == std::string_view::npos)
        return 0;
    int commas = 0;
    for (auto i = last + 1; i < marks.size() && marks[i] == ','; ++i)
        ++commas;
    return commas;
}

std::string words_only(std::string_view words) {
    // A minus of a format is no word: "0.0-" is how books show what is owed.
    std::string kept(words);
    std::erase_if(kept, [](char c) { return c == '-' || c == '+'; });
    return trimmed(kept).empty() ? std::string{} : kept;
}

/// 1899-12-30: so that day 61 is 1900-03-01, as all programs count that pass over the leap day of 1900 which
/// never was (ECMA-376 part 1, 18.17.4.1). Days before it have no one meaning.
constexpr Day zero_of_1900{date::year{1899} / 12 / 30};
constexpr Days from_1900_to_1904{1462};
constexpr double first_day = 61;
constexpr double last_day = 2'958'465; // 9999-12-31

std::string shown_day(double value, Kind kind, DayCount count) {
    const double days = std::floor(value) + (count == DayCount::from_1904 ? from_1900_to_1904.count() : 0);
    if (!(days >= first_day && days <= last_day))
        return {};
    const std::string day = iso(zero_of_1900 + Days{static_cast<int>(days)});
    return kind == Kind::month ? day.substr(0, 7) : day;
}

std::string shown_time(double value) {
    constexpr int minutes_a_day = 1440;
    const int minutes =
        static_cast<int>(std::lround((value - std::floor(value)) * minutes_a_day)) % minutes_a_day;
    return fmt::format("{:02}:{:02}", minutes / 60, minutes % 60);
}

} // namespace

NumberFormat read_number_format(std::string_view code) {
    Marks read = marks_of(code);
    NumberFormat format;
    format.kind = kind_of(read.marks);
    if (format.kind != Kind::plain && format.kind != Kind::percent)
        return format;
    format.before = words_only(read.before);
    format.after = words_only(read.after);
    format.thousands_off = commas_behind(read.marks);
    if (!read.marks.empty() && read.marks.find_first_not_of('0') == std::string::npos)
        format.least_digits = static_cast<int>(std::min<std::size_t>(read.marks.size(), 20));
    return format;
}

NumberFormat known_number_format(int number) {
    NumberFormat format;
    if (number == 9 || number == 10)
        format.kind = Kind::percent;
    else if ((number >= 14 && number <= 16) || (number >= 27 && number <= 31) || number == 36 ||
             (number >= 50 && number <= 58))
        format.kind = Kind::day;
    else if (number == 17)
        format.kind = Kind::month;
    else if (number == 22)
        format.kind = Kind::day_and_time;
    else if ((number >= 18 && number <= 21) || (number >= 32 && number <= 35) ||
             (number >= 45 && number <= 47))
        format.kind = Kind::time;
    return format;
}

std::string shown_number(double value, const NumberFormat& format, DayCount count) {
    switch (format.kind) {
    case Kind::day:
    case Kind::month:
        return shown_day(value, format.kind, count);
    case Kind::day_and_time: {
        const auto day = shown_day(value, format.kind, count);
        return day.empty() ? day : day + " " + shown_time(value);
    }
    case Kind::time:
        return shown_time(value);
    case Kind::percent:
    case Kind::plain:
        break;
    }
    const double of_thousands = value / std::pow(1000.0, format.thousands_off);
    std::string figure = as_typed(format.kind == Kind::percent ? of_thousands * 100 : of_thousands);
    if (figure.find_first_not_of("0123456789") == std::string::npos)
        while (figure.size() < static_cast<std::size_t>(format.least_digits))
            figure.insert(figure.begin(), '0');
    return std::string(
        trimmed(format.before + figure + (format.kind == Kind::percent ? " %" : "") + format.after));
}

} // namespace mellowbin::exchange
