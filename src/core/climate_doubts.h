#pragma once

#include "core/climate.h"
#include "core/plant.h"
#include "core/result.h"

#include <span>
#include <string>

/// What is looked at and asked before a logger's file counts.
namespace mellowbin {

/// How the file's temperatures were read.
struct TemperatureAsRead {
    TemperatureUnit unit{};
    std::string head; ///< of their column, as the file has it: "Temp °F"
};

/// What a person must decide before the readings count for the place; each at its own field. The figures are
/// assumptions, in constants.csv:
/// - "Temperature": most of the time over 8 K from what is said of the place. Where the figures, read in the
///   other unit, would come near it, °C against °F is named.
/// - "Sensor": the same temperature to the last digit for two days, with no gap of over a day in between.
/// - "Step": over 10 K within an hour, after which the day's middle temperature stays away: at least half of
///   the step from that of the day before, over an hour of readings behind it.
/// Readings by instant, each instant once.
Refusals what_stands_against(std::span<const ClimateReading> readings, const Place& place,
                             const TemperatureAsRead& as_read);

} // namespace mellowbin
