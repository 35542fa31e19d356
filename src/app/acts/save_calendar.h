#pragma once

#include "app/acts/act.h"

#include <string>

/// What is due on which day, as a file that calendars read.
namespace mellowbin::app {

/// Writes the calendar into the file, by what stands there: events that did not change stay as they are,
/// those that are gone are cancelled. Changes no book.
struct SaveCalendar {
    std::string file; ///< ends with .ics
};

Result<Told> carry_out(State& state, const SaveCalendar& act);

/// Writes the plant's calendar file anew where it has one and something in it changed. Why it could not, in
/// words; empty: it is as it should be.
std::string keep_calendar_file(const State& state);

} // namespace mellowbin::app
