#pragma once

#include "core/day.h"

namespace mellowbin::app {

struct Clock;

/// The day of an instant by the plant's clock.
Day plant_day(const Clock& clock, Instant instant);

} // namespace mellowbin::app
