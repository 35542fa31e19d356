#pragma once

#include "core/result.h"

#include <date/date.h>

#include <optional>
#include <string>
#include <string_view>

namespace mellowbin {

/// A day of the plant's calendar.
using Day = date::sys_days;
using Days = date::days;
/// An instant, UTC.
using Instant = date::sys_seconds;

/// Reads an ISO 8601 date, YYYY-MM-DD. Anything else, or a day the calendar does not have, is refused under
/// `field`. An empty text is missing, not wrong.
Result<std::optional<Day>> read_day(std::string_view field, std::string_view text);

/// YYYY-MM-DD
std::string iso(Day day);
/// YYYY-MM-DDTHH:MM:SSZ
std::string iso(Instant instant);
/// "Wed 25 Nov": how a screen names a day near today.
std::string short_day(Day day);

} // namespace mellowbin
