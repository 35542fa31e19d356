#pragma once

#include "core/day.h"
#include "core/id.h"
#include "core/quantity.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace mellowbin {

enum class TemperatureUnit { celsius, fahrenheit };

/// One line of a data logger.
struct ClimateReading {
    Instant at;
    Celsius temperature;
    std::optional<RelativeHumidity> humidity; ///< of the air; not every logger measures it
    friend bool operator==(const ClimateReading&, const ClimateReading&) = default;
};

/// Whether a log's reading joins the next is told by its usual step there: of so many steps on either side.
/// An assumption.
inline constexpr std::size_t steps_beside = 12;
/// So many readings on either side of a span say all that is to be said of it.
inline constexpr std::size_t readings_beside = steps_beside + 1;

/// A logger's file that was read into the book for a place. It is taken back by a second line, never edited.
struct ClimateLog {
    ClimateLogId id;
    PlaceId place;
    std::string file; ///< its name, for the people who look for it
    std::string who;
    Instant read_at;
    std::string words; ///< what was read and what was set aside, in one line
    bool is_withdrawn = false;
    friend bool operator==(const ClimateLog&, const ClimateLog&) = default;
};

} // namespace mellowbin
