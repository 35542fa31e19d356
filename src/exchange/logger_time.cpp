#include "exchange/logger_time.h"

#include "core/typed_text.h"

#include <string>

namespace mellowbin::exchange {
namespace {

/// What is left of a text, taken off from the front.
class Rest {
public:
    explicit Rest(std::string_view text) : text_(text) {}
    [[nodiscard]] bool is_empty() const { return text_.empty(); }
    [[nodiscard]] std::string_view text() const { return text_; }

    bool take(std::string_view word) {
        if (lower_case(text_.substr(0, word.size())) != word)
            return false;
        text_.remove_prefix(word.size());
        return true;
    }
    bool take_blanks() {
        const auto before = text_.size();
        while (!text_.empty() && (text_.front() == ' ' || text_.front() == '\t'))
            text_.remove_prefix(1);
        return text_.size() < before;
    }
    struct Number {
        int value = 0;
        std::size_t digits = 0;
    };
    /// As many digits as stand there, up to a number of them.
    Number number(std::size_t most_digits) {
        Number read;
        while (read.digits < most_digits && !text_.empty() && is_digit(text_.front())) {
            read.value = read.value * 10 + (text_.front() - '0');
            ++read.digits;
            text_.remove_prefix(1);
        }
        return read;
    }
    void drop_digits() {
        while (!text_.empty() && is_digit(text_.front()))
            text_.remove_prefix(1);
    }

private:
    static bool is_digit(char c) { return c >= '0' && c <= '9'; }
    std::string_view text_;
};

bool read_date(Rest& rest, LoggerTime& time) {
    const auto begin = rest.number(4);
    if (begin.digits == 4) {
        const std::string_view between = rest.take("-") ? "-" : rest.take("/") ? "/" : "";
        const auto month = rest.number(2);
        if (between.empty() || !rest.take(between))
            return false;
        const auto day = rest.number(2);
        time.year = begin.value;
        time.first = month.value;
        time.second = day.value;
        return month.digits > 0 && day.digits > 0;
    }
    const bool is_dotted = rest.take(".");
    time.is_slashed = !is_dotted && rest.take("/");
    const auto next = rest.number(2);
    if (!(is_dotted ? rest.take(".") : time.is_slashed && rest.take("/")))
        return false;
    const auto year = rest.number(4);
    time.year = year.value;
    time.first = is_dotted ? next.value : begin.value;
    time.second = is_dotted ? begin.value : next.value;
    return (begin.digits == 1 || begin.digits == 2) && next.digits > 0 && year.digits == 4;
}

bool read_time_of_day(Rest& rest, LoggerTime& time) {
    const auto hour = rest.number(2);
    if (hour.digits == 0 || !rest.take(":"))
        return false;
    const auto minute = rest.number(2);
    Rest::Number second{0, 2};
    if (rest.take(":")) {
        second = rest.number(2);
        if (rest.take(".") || rest.take(","))
            rest.drop_digits();
    }
    if (minute.digits != 2 || second.digits != 2 || minute.value > 59 || second.value > 59)
        return false;
    int hours = hour.value;
    rest.take_blanks();
    const bool is_morning = rest.take("am");
    if (is_morning || rest.take("pm")) {
        if (hours < 1 || hours > 12)
            return false;
        hours = hours % 12 + (is_morning ? 0 : 12);
    }
    time.of_day =
        std::chrono::hours(hours) + std::chrono::minutes(minute.value) + std::chrono::seconds(second.value);
    return hours <= 23;
}

} // namespace

std::optional<std::chrono::minutes> read_offset(std::string_view text) {
    Rest rest(trimmed(text));
    const bool is_behind = rest.take("-") || rest.take("\u2212"); // the hyphen, or the true minus
    if (!is_behind && !rest.take("+"))
        return {};
    const auto hours = rest.number(2);
    const bool has_colon = rest.take(":");
    const auto minutes = rest.number(2);
    constexpr int furthest_hours = 14; // the Line Islands' clocks
    if (!rest.is_empty() || hours.digits == 0 || hours.value > furthest_hours || minutes.value > 59 ||
        minutes.digits == 1 || (has_colon && minutes.digits == 0))
        return {};
    const std::chrono::minutes offset = std::chrono::hours(hours.value) + std::chrono::minutes(minutes.value);
    return is_behind ? -offset : offset;
}

std::optional<LoggerTime> read_logger_time(std::string_view text) {
    Rest rest(trimmed(text));
    LoggerTime time;
    if (!read_date(rest, time) || !(rest.take("t") || rest.take_blanks()) || !read_time_of_day(rest, time))
        return {};
    rest.take_blanks();
    if (rest.take("z") || rest.take("utc") || rest.take("gmt"))
        time.offset = std::chrono::minutes{0};
    if (rest.is_empty())
        return time;
    time.offset = read_offset(rest.text());
    if (!time.offset)
        return {};
    return time;
}

std::optional<date::local_seconds> on_its_clock(const LoggerTime& time, SlashedDates slashed) {
    const bool day_first = time.is_slashed && slashed == SlashedDates::day_first;
    const int month = day_first ? time.second : time.first;
    const int day = day_first ? time.first : time.second;
    const auto date = date::year{time.year} / month / day;
    if (!date.ok())
        return {};
    return date::local_days{date} + time.of_day;
}

} // namespace mellowbin::exchange
