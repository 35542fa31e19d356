#pragma once

#include "core/day.h"

#include <span>
#include <string>

namespace mellowbin::app {

/// An invented logger of a place: a mean temperature, how far it swings by day and with the weather, and days
/// back from today on which it had no battery.
struct DemoLogger {
    const char* place;
    double mean, day, weather, humidity;
    int dead_from, dead_until;
};
std::span<const DemoLogger> demo_loggers();

/// Its file, hourly.
std::string log_of(const DemoLogger& logger, Day today);

} // namespace mellowbin::app
