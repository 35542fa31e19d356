#include "core/day.h"

#include "core/typed_text.h"

#include <fmt/format.h>

#include <sstream>
#include <stdexcept>

namespace mellowbin {
namespace {

std::optional<Day> parsed_day(std::string_view text) {
    const auto digit = [&](std::size_t i) { return text[i] >= '0' && text[i] <= '9'; };
    if (text.size() != 10 || text[4] != '-' || text[7] != '-')
        return {};
    for (std::size_t i : {0, 1, 2, 3, 5, 6, 8, 9})
        if (!digit(i))
            return {};
    const auto number = [&](std::size_t from, std::size_t count) {
        int n = 0;
        for (std::size_t i = from; i < from + count; ++i)
            n = n * 10 + (text[i] - '0');
        return n;
    };
    const auto ymd = date::year{number(0, 4)} / number(5, 2) / number(8, 2);
    if (!ymd.ok())
        return {};
    return Day{ymd};
}

} // namespace

Result<std::optional<Day>> read_day(std::string_view field, std::string_view text) {
    text = trimmed(text);
    if (text.empty())
        return std::optional<Day>{};
    if (auto day = parsed_day(text))
        return day;
    return Refusal{
        std::string(field),
        fmt::format("\"{}\" was read; a date such as 2026-11-25 (year-month-day) is expected", excerpt(text)),
        "Type the day as year-month-day"};
}

std::string iso(Day day) { return date::format("%F", day); }

std::string iso(Instant instant) { return date::format("%FT%TZ", instant); }

std::string short_day(Day day) { return date::format("%a %d %b", day); }

} // namespace mellowbin
