#pragma once

#include "core/day.h"

#include <optional>
#include <string>

namespace mellowbin::app {

/// What to order so that it can mature in time.
struct OrderAdvice {
    std::string flour;
    double kg = 0;
    std::optional<Day> order_by; ///< latest day to arrive naturally matured; none: it is too late for that
    std::string for_runs;        ///< "2 runs from Mon 7 Dec"
    std::string if_later;        ///< what oxidant or fermentation it costs if it comes later
};

} // namespace mellowbin::app
