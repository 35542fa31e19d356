#pragma once

#include "core/day.h"

#include <optional>
#include <string_view>

/// How a lot's estimate is told wherever it stands.
namespace mellowbin::app {

enum class Readiness { young, usable, ready, use_first, past_best };

std::string_view in_words(Readiness readiness);

/// A day with its spread; nullopt where it does not come within the studied time.
struct DaySpread {
    std::optional<Day> early, likely, late; ///< 10 %, 50 %, 90 %
};

struct CurveDay {
    Day day;
    double low = 0, likely = 0, high = 0; ///< maturity: 10 %, 50 %, 90 %
};

enum class Advice { wait, use, use_first, hold };

std::string_view in_words(Advice advice);

} // namespace mellowbin::app
