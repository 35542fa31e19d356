#pragma once

#include "core/day.h"
#include "core/id.h"
#include "core/quantity.h"

#include <optional>
#include <string>
#include <vector>

namespace mellowbin {

/// One line of a data logger.
struct ClimateReading {
    Instant at;
    Celsius temperature;
    std::optional<RelativeHumidity> humidity; ///< of the air; not every logger measures it
    friend bool operator==(const ClimateReading&, const ClimateReading&) = default;
};

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
