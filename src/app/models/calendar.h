#pragma once

#include "exchange/calendar.h"

#include <string>
#include <vector>

namespace mellowbin::app {

struct Station;

/// What is due on which day, for calendars: when lots are ready, their last days, runs, and by when to order.
struct CalendarModel {
    std::string name; ///< "Hearth Bakery: flour"
    std::vector<exchange::CalendarDay> days;
};

/// Of live lots with stock: the day by which each is ready with the confidence set, and its last day. Of the
/// book's plan for the next four weeks: its runs, from a week ago on, and by when to order what they are
/// short of.
CalendarModel make_calendar(const Station& station);

} // namespace mellowbin::app
