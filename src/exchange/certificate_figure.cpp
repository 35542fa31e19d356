#include "exchange/certificate_figure.h"

#include "core/typed_text.h"
#include "exchange/certificate_words.h"

#include <algorithm>
#include <array>

namespace mellowbin::exchange {
namespace {

using Kind = PrintedFigure::Kind;

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// What stands where nothing was measured, and what makes a limit of a figure: common practice, no source.
constexpr std::array nothing_words{"nd",
                                   "n d",
                                   "na",
                                   "n a",
                                   "nb",
                                   "n b",
                                   "ka",
                                   "k a",
                                   "nn",
                                   "n n",
                                   "ns",
                                   "not determined",
                                   "nicht bestimmt",
                                   "non determine",
                                   "no determinado",
                                   "not measured",
                                   "entfallt",
                                   "nil",
                                   "none"};
constexpr std::array<std::string_view, 17> limit_marks{"<",   ">",      "\u2264", "\u2265", "~",   "\u2248",
                                                       "min", "Min",    "MIN",    "max",    "Max", "MAX",
                                                       "ca.", "approx", "Ca.",    "circa",  "env."};

bool says_nothing(std::string_view text) {
    const auto words = folded(text);
    if (words.empty())
        return text.find_first_of("<>+~%") == std::string_view::npos;
    return std::find(nothing_words.begin(), nothing_words.end(), words) != nothing_words.end();
}

/// The blank or the apostrophe that parts thousands and stands there; 0 where none does.
std::size_t part_of_thousands(std::string_view text) {
    for (const std::string_view mark : {" ", "\u00A0", "\u2009", "\u202F", "'", "\u2019"})
        if (text.starts_with(mark))
            return mark.size();
    return 0;
}

bool begins_with_three_digits(std::string_view text) {
    return text.size() >= 3 && is_digit(text[0]) && is_digit(text[1]) && is_digit(text[2]) &&
           (text.size() == 3 || !is_digit(text[3]));
}

/// Digits with their marks, blanks and apostrophes of thousands taken out; the rest of the text stays.
std::string take_digits(std::string_view& text) {
    std::string digits;
    while (!text.empty()) {
        const auto parting = part_of_thousands(text);
        const bool is_mark =
            (text.front() == '.' || text.front() == ',') && text.size() > 1 && is_digit(text[1]);
        if (is_digit(text.front()) || (is_mark && !digits.empty())) {
            digits += text.front();
            text.remove_prefix(1);
        } else if (parting > 0 && !digits.empty() && digits.find_first_of(".,") == std::string::npos &&
                   begins_with_three_digits(text.substr(parting))) {
            text.remove_prefix(parting);
        } else {
            break;
        }
    }
    return digits;
}

DecimalMark mark_of(char c) { return c == '.' ? DecimalMark::point : DecimalMark::comma; }

/// Whether the marks part groups of three, the first of one to three.
bool are_thousands(std::string_view whole, char mark) {
    std::size_t in_group = 0;
    bool is_first = true;
    for (const char c : whole) {
        if (c != mark) {
            ++in_group;
            continue;
        }
        if (in_group == 0 || in_group > 3 || (!is_first && in_group != 3))
            return false;
        is_first = false;
        in_group = 0;
    }
    return is_first || in_group == 3;
}

std::string without(std::string_view text, char mark) {
    std::string left(text);
    std::erase(left, mark);
    return left;
}

/// What digits with points and commas mean.
void interpret(const std::string& digits, PrintedFigure& figure) {
    const auto last = digits.find_last_of(".,");
    if (last == std::string::npos) {
        figure.kind = Kind::figure;
        figure.value = digits;
        return;
    }
    const char mark = digits[last];
    const char other_mark = mark == '.' ? ',' : '.';
    const auto whole = std::string_view(digits).substr(0, last);
    const auto behind = digits.substr(last + 1);
    const bool stands_once = whole.find(mark) == std::string_view::npos;
    const bool has_other = whole.find(other_mark) != std::string_view::npos;
    if (!stands_once) {
        // 1.250.000: of thousands, for no decimal mark stands twice.
        if (has_other || !are_thousands(digits, mark))
            return;
        figure.kind = Kind::figure;
        figure.value = without(digits, mark);
        figure.mark = mark_of(other_mark);
        return;
    }
    if (has_other && !are_thousands(whole, other_mark))
        return;
    figure.value = without(whole, other_mark) + "." + behind;
    figure.mark = mark_of(mark);
    const bool may_be_thousands =
        !has_other && behind.size() == 3 && whole.size() <= 3 && whole.front() != '0';
    figure.kind = may_be_thousands ? Kind::two_readings : Kind::figure;
    if (may_be_thousands)
        figure.other = std::string(whole) + behind;
}

/// "± 0,3" goes to the note; a star or a raised letter for a foot note goes.
void take_rest(std::string_view text, PrintedFigure& figure) {
    text = trimmed(text);
    if (text.starts_with("\u00B1") || text.starts_with("+/-")) {
        const auto sign = text.starts_with("+/-") ? 3 : std::string_view("\u00B1").size();
        std::string_view behind = trimmed(text.substr(sign));
        const auto spread = take_digits(behind);
        figure.note = "\u00B1 " + spread;
        text = trimmed(behind);
    }
    while (!text.empty() && text.back() == '*')
        text = trimmed(text.substr(0, text.size() - 1));
    figure.rest = text;
}

/// "- 13", "– 13", "bis 13" behind a figure.
bool makes_a_range(std::string_view rest) {
    for (const std::string_view mark : {"-", "\u2013", "\u2014", "..", "bis ", "to "})
        if (rest.starts_with(mark)) {
            const auto behind = trimmed(rest.substr(mark.size()));
            return !behind.empty() && is_digit(behind.front());
        }
    return false;
}

} // namespace

PrintedFigure read_printed_figure(std::string_view text) {
    text = trimmed(text);
    PrintedFigure figure;
    if (says_nothing(text)) {
        figure.kind = Kind::missing;
        return figure;
    }
    if (std::any_of(limit_marks.begin(), limit_marks.end(),
                    [&](auto mark) { return text.starts_with(mark); })) {
        figure.kind = Kind::limit;
        return figure;
    }
    bool is_negative = false;
    for (const std::string_view sign : {"-", "\u2212", "+"})
        if (text.starts_with(sign)) {
            is_negative = sign != "+";
            text = trimmed(text.substr(sign.size()));
            break;
        }
    const auto digits = take_digits(text);
    if (digits.empty())
        return figure;
    interpret(digits, figure);
    if (figure.kind == Kind::none)
        return figure;
    if (is_negative)
        for (auto* value : {&figure.value, &figure.other})
            if (!value->empty())
                value->insert(0, "-");
    take_rest(text, figure);
    if (makes_a_range(figure.rest))
        figure.kind = Kind::limit;
    return figure;
}

bool is_bare_value(std::string_view text) {
    if (!units_named(text).empty())
        return false; // "10-4 J"
    const auto figure = read_printed_figure(text);
    if (figure.kind == Kind::limit)
        return true;
    if (figure.kind == Kind::figure || figure.kind == Kind::two_readings)
        if (figure.rest.empty() || !units_named(figure.rest).empty())
            return true;
    return read_printed_day(text).kind != PrintedDay::Kind::none && !trimmed(text).empty();
}

} // namespace mellowbin::exchange
