#pragma once

#include "core/day.h"

#include <functional>
#include <optional>
#include <string>

namespace date {
class time_zone;
}

namespace mellowbin::app {

/// Where the time comes from: the machine, or a day given for repeatable work.
struct Clock {
    std::function<Instant()> now; ///< UTC
    std::optional<Day> fixed_day; ///< today, whatever the machine says
    std::string time_zone;        ///< IANA name of the plant's zone; empty: the machine's own

    [[nodiscard]] Day today() const;
    /// The plant's zone; nothing on a machine without zone tables.
    [[nodiscard]] const date::time_zone* zone() const;
    [[nodiscard]] std::string in_words() const; ///< "Wed 25 Nov 2026, 04:10"
    /// By the plant's clock: "04:10", with its day where that is another than `today`: "Thu 26 Nov, 04:10".
    [[nodiscard]] std::string in_words(Instant instant, Day today) const;

    /// The machine's clock.
    static Clock of_the_machine();
    /// Noon of a given day: for repeatable work.
    static Clock standing_at(Day day);
};

} // namespace mellowbin::app
