#pragma once

#include "core/day.h"
#include "core/result.h"
#include "exchange/logger_time.h"

#include <chrono>
#include <optional>
#include <span>
#include <string>

namespace mellowbin::exchange {

/// How far a logger's clock may run ahead of ours before a reading counts as one of the future.
inline constexpr std::chrono::hours clock_tolerance{1};

/// Before its first flour came, a plant may have measured its store for a while (an assumption).
inline constexpr Days longest_before_flour{60};

/// Why the clock that wrote these instants was wrong: half or more of them lie after now; or over 60 days
/// before `earliest` lie all of them, or half and more with a hole of as long before the others (a log that
/// was merely begun long before goes on without one). By how much is told by the newest of those, as a log is
/// read soon after it ends.
std::optional<Refusal> why_clock_is_wrong(std::span<const Instant> instants, Instant now,
                                          std::optional<Instant> earliest);

/// The one way to read the slashed dates of a file; either where both give the same days. Refused, under no
/// field, where no date has a day above 12, or where the dates contradict each other.
Result<SlashedDates> way_of_slashed_dates(std::span<const LoggerTime> times);

} // namespace mellowbin::exchange
