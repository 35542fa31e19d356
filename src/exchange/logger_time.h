#pragma once

#include <date/date.h>

#include <chrono>
#include <optional>
#include <string_view>

namespace mellowbin::exchange {

/// A point in time as a data logger wrote it, before it is known whose clock it is.
struct LoggerTime {
    int year = 0;
    int first = 0, second = 0; ///< month and day; of a slashed date as they stand, whichever is which
    bool is_slashed = false;   ///< "03/04/2026"
    std::chrono::seconds of_day{};
    std::optional<std::chrono::minutes> offset; ///< from UTC, where the text says it
};

/// Reads YYYY-MM-DD, YYYY/MM/DD, DD.MM.YYYY or a slashed date, a T or blanks, and HH:MM[:SS[.fff]] with AM or
/// PM where hours go to 12, then Z, UTC, GMT, an offset such as +01:00, or nothing. A part of a second is
/// dropped. Nothing where it is none of these.
std::optional<LoggerTime> read_logger_time(std::string_view text);

/// "+1", "-05:00", "+0530": what stands behind UTC; nothing where it is none, or further than a clock is.
std::optional<std::chrono::minutes> read_offset(std::string_view text);

enum class SlashedDates { day_first, month_first };

/// The date and time on the logger's clock; nothing where the calendar has no such day.
std::optional<date::local_seconds> on_its_clock(const LoggerTime& time, SlashedDates slashed);

} // namespace mellowbin::exchange
