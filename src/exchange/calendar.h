#pragma once

#include "core/day.h"

#include <span>
#include <string>
#include <string_view>
#include <vector>

/// A calendar that other programs subscribe to: iCalendar, RFC 5545, written by hand.
namespace mellowbin::exchange {

/// A whole day with what is due on it.
struct CalendarDay {
    std::string uid; ///< globally unique, and the same as long as it is about the same record
    Day day;
    std::string summary;     ///< one line
    std::string description; ///< may have several lines; may be empty
};

/// The calendar as a file: CRLF, lines of at most 75 octets that part no character, text escaped (RFC
/// 5545, 3.1 and 3.3.11). What was written before is its memory: an event that is as it was there keeps its
/// SEQUENCE and DTSTAMP, one that differs gets the next SEQUENCE and `now`; one that is gone and lies before
/// `today` is left out, and else stays as CANCELLED. `before` may be empty, or anything: what is no event of
/// ours is not looked at. Two events of one uid are our mistake. Equal input gives equal bytes.
std::string write_calendar(std::string_view name, std::span<const CalendarDay> days, Instant now, Day today,
                           std::string_view before = {});

/// Folded as RFC 5545, 3.1 asks, with its CRLF.
std::string folded_line(std::string_view line);

} // namespace mellowbin::exchange
