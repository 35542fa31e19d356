#pragma once

#include "core/day.h"

#include <date/tz.h>

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace mellowbin::exchange {

/// A time on some clock, in the order in which it was written down.
struct WrittenTime {
    date::local_seconds local;
    std::optional<std::chrono::minutes> offset; ///< from UTC; not known: the plant's clock
};

struct PlantInstants {
    std::vector<std::optional<Instant>> of; ///< of each time; nothing where the plant's clocks skipped it
    std::vector<std::string> notes;
};

/// The instants of times that follow each other, forwards or backwards. Where the clocks went back, a time
/// stands for two instants: the first pass through the repeated hour is the earlier one, and once a time does
/// not go on it is the second. A file that has the hour once is taken where it leaves the shorter gap, and a
/// note says so. Without a zone the plant's clock is UTC.
PlantInstants to_instants(std::span<const WrittenTime> times, const date::time_zone* zone);

} // namespace mellowbin::exchange
