#pragma once

#include "core/climate.h"
#include "core/result.h"

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace mellowbin::exchange {

/// Which columns of a data logger's file say what, counted from 0.
struct ClimateColumns {
    std::size_t time = 0;            ///< the instant, or the time of the day where there is a column of dates
    std::optional<std::size_t> date; ///< of a column of its own
    std::optional<std::chrono::minutes> offset; ///< of the times from UTC, where their head says it
    std::size_t temperature = 0;
    TemperatureUnit unit = TemperatureUnit::celsius;
    std::optional<std::size_t> humidity;
};

/// Finds the columns by the words of their heads, in any order. Refused, naming the heads: no time, no
/// temperature, a temperature without its unit, two columns for one thing (dew points, set points, lowest
/// and highest values are none of them).
Result<ClimateColumns> find_climate_columns(const std::vector<std::string>& heads);

/// Whether a line of the file may be its head line: it names a time and a temperature.
bool looks_like_climate_heads(std::string_view line);

} // namespace mellowbin::exchange
