#include "db/connection.h"

#include <fmt/format.h>

namespace mellowbin {
namespace {

[[noreturn]] void throw_misplaced(std::string_view text, std::string_view belongs) {
    throw BookError(
        BookFault::damaged,
        fmt::format("The book holds \"{}\" where {} belongs. Nothing was changed. Keep the file as it "
                    "is, and open a saved copy.",
                    text.substr(0, 60), belongs));
}

bool is_two_digits(std::string_view text, std::size_t at, int below) {
    const auto digit = [&](std::size_t i) { return text[i] >= '0' && text[i] <= '9'; };
    return digit(at) && digit(at + 1) && (text[at] - '0') * 10 + (text[at + 1] - '0') < below;
}

int two_digits(std::string_view text, std::size_t at) { return (text[at] - '0') * 10 + (text[at + 1] - '0'); }

} // namespace

Day Row::day(int column) const {
    const auto read = read_day("", text(column));
    if (!read || !*read)
        throw_misplaced(text(column), "a day");
    return **read;
}

std::optional<Day> Row::maybe_day(int column) const {
    return is_null(column) ? std::nullopt : std::optional(day(column));
}

// Taken apart here and not by a stream: a book of thousands of movements is read at every start.
Instant Row::instant(int column) const {
    const std::string_view at = text(column);
    if (at.size() != 20 || at[10] != 'T' || at[13] != ':' || at[16] != ':' || at[19] != 'Z' ||
        !is_two_digits(at, 11, 24) || !is_two_digits(at, 14, 60) || !is_two_digits(at, 17, 60))
        throw_misplaced(at, "an instant");
    const auto read = read_day("", at.substr(0, 10));
    if (!read || !*read)
        throw_misplaced(at, "an instant");
    return **read + std::chrono::hours(two_digits(at, 11)) + std::chrono::minutes(two_digits(at, 14)) +
           std::chrono::seconds(two_digits(at, 17));
}

void Row::unknown_key(int column) const { throw_misplaced(text(column), "a word this version knows"); }

} // namespace mellowbin
