#pragma once

#include "core/climate.h"

#include <cmath>
#include <numbers>
#include <random>
#include <vector>

namespace mellowbin {

/// Invented, but like a store's: a season, days and nights, spells of weather and the noise of a logger;
/// colder than 0 and warmer than 35 C now and then.
inline std::vector<ClimateReading> hourly_climate(Day from, int days, unsigned seed) {
    std::mt19937 random(seed);
    std::normal_distribution<double> normal;
    std::vector<ClimateReading> readings;
    double spell = 0;
    for (int hour = 0; hour < days * 24; ++hour) {
        const double day = hour / 24.0;
        spell = 0.99 * spell + 0.5 * normal(random);
        const double season = 17 - 14 * std::cos(2 * std::numbers::pi * (day + 140) / 365);
        const double clock = 3 * std::sin(2 * std::numbers::pi * (day - 0.4));
        const double temperature = season + clock + spell + 0.2 * normal(random);
        const double humidity = 0.62 - 0.01 * (temperature - 17) + 0.03 * normal(random);
        readings.push_back({Instant{from} + std::chrono::hours{hour}, Celsius{temperature},
                            RelativeHumidity{std::min(0.98, std::max(0.05, humidity))}});
    }
    return readings;
}

} // namespace mellowbin
