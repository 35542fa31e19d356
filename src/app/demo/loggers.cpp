#include "app/demo/loggers.h"

#include <fmt/format.h>

#include <array>
#include <chrono>
#include <cmath>
#include <numbers>

namespace mellowbin::app {
namespace {

constexpr std::array loggers{
    DemoLogger{"Bay 1", 17.5, 1.2, 2.5, 58, 41, 36},
    DemoLogger{"Warm bay", 25.5, 0.8, 1.0, 46, 0, 0},
    DemoLogger{"Cool room", 11.0, 0.3, 0.8, 66, 0, 0},
};
constexpr int logged_days = 75;

} // namespace

std::span<const DemoLogger> demo_loggers() { return loggers; }

std::string log_of(const DemoLogger& logger, Day today) {
    std::string csv = "time,degC,%RH\n";
    for (int hour = 0; hour < logged_days * 24; ++hour) {
        const double before = logged_days - hour / 24.0;
        if (before < logger.dead_from && before > logger.dead_until)
            continue;
        const double sun = std::sin(2 * std::numbers::pi * (hour - 9) / 24);
        const double front = std::sin(hour / 61.0) + 0.6 * std::sin(hour / 23.0);
        const double temperature = logger.mean + logger.day * sun + logger.weather * front / 2;
        const double humidity = logger.humidity - 2 * sun + 3 * std::sin(hour / 47.0);
        csv += fmt::format("{},{:.1f},{:.0f}\n",
                           iso(Instant{today - Days{logged_days}} + std::chrono::hours{hour}), temperature,
                           humidity);
    }
    return csv;
}

} // namespace mellowbin::app
