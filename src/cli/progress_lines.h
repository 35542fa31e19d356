#pragma once

#include "db/progress.h"

#include <chrono>
#include <functional>
#include <iosfwd>

namespace mellowbin::cli {

/// Says on the stream how far an older book is brought to its present form: nothing within the first second,
/// then a line every two seconds. `now` is the clock; the stream outlives what is given.
Progress
progress_lines(std::ostream& err,
               std::function<std::chrono::steady_clock::time_point()> now = std::chrono::steady_clock::now);

} // namespace mellowbin::cli
