#pragma once

#include "app/book/clock.h"

#include <string>

namespace mellowbin::app {

/// The day of an instant by the plant's clock.
Day plant_day(const Clock& clock, Instant instant);

/// When something was done, by the plant's clock: "24 Nov 14:20", with the year where it is not `today`'s:
/// "24 Nov 2025 14:20".
std::string time_in_words(const Clock& clock, Instant instant, Day today);

} // namespace mellowbin::app
