#include "core/climate_doubts.h"
#include "support/catch.h"
#include "support/refusal_words.h"

#include <chrono>
#include <cmath>
#include <functional>
#include <numbers>

using namespace mellowbin;
using Catch::Matchers::Contains;
using std::chrono::minutes;

namespace {

const Instant first{date::sys_days{date::year{2026} / 11 / 2}};

/// A log of so many days from 2 November on, a reading every so many minutes.
std::vector<ClimateReading> log_of(int days, const std::function<double(double hour)>& celsius,
                                   int every = 15) {
    std::vector<ClimateReading> readings;
    for (int minute = 0; minute <= days * 24 * 60; minute += every)
        readings.push_back({first + minutes{minute}, Celsius{celsius(minute / 60.0)}, {}});
    return readings;
}

/// A room that is a little warmer by day.
double room(double hour) { return 20 + 1.5 * std::sin(2 * std::numbers::pi * hour / 24); }

Place bay(double celsius = 20) {
    Place place;
    place.name = "Bay 1";
    place.temperature = Celsius{celsius};
    return place;
}

std::string doubts_of(const std::vector<ClimateReading>& readings, const Place& place = bay(),
                      const TemperatureAsRead& as_read = {TemperatureUnit::celsius, "Temp °C"}) {
    return testing::all_words(what_stands_against(readings, place, as_read));
}

} // namespace

TEST_CASE("Against a log of a room near what is said of its place nothing stands, whatever its interval") {
    for (const int every : {1, 5, 60, 360})
        CHECK(doubts_of(log_of(14, room, every)).empty());
    CHECK(what_stands_against({}, bay(), {}).empty());
}

TEST_CASE("A log over 8 K away for most of its time is asked about, one that is so for less is not") {
    // 8 K and "most" are assumptions.
    const auto away = [](double from_hour, double kelvin) {
        return log_of(
            10, [=](double hour) { return room(hour) + (hour / 24 >= from_hour ? kelvin : 0); }, 60);
    };
    CHECK_THAT(doubts_of(away(0, 9.6)),
               Contains("Temperature: over 8 K from what is said of Bay 1, 20.0 °C, for ") &&
                   Contains("its middle reading is 29.6 °C"));
    CHECK(doubts_of(away(0, 6.4)).empty());
    CHECK_THAT(doubts_of(away(0, -9.6)), Contains("its middle reading is 10.4 °C"));
    CHECK(doubts_of(away(5.5, 9.6)).empty());
    CHECK_THAT(doubts_of(away(4.5, 9.6)), Contains("for 55 % of the file's time"));
}

TEST_CASE("Time is what is counted, not lines: a hot day by the minute is no hot month by the hour") {
    auto readings = log_of(
        1, [](double hour) { return 31 + std::sin(hour); }, 1);
    for (int hour = 25; hour < 30 * 24; ++hour)
        readings.push_back({first + std::chrono::hours{hour}, Celsius{room(hour)}, {}});
    const auto words = doubts_of(readings);
    CHECK_THAT(words, !Contains("Temperature"));
}

TEST_CASE("What is said of a place counts from its day on") {
    Place place = bay(5);
    place.climate = {{date::sys_days{date::year{2026} / 11 / 4}, Celsius{20}}};
    CHECK(doubts_of(log_of(14, room), place).empty()); // two days of fourteen are far away
    place.climate.front().from = date::sys_days{date::year{2026} / 11 / 14};
    CHECK_THAT(doubts_of(log_of(14, room), place), Contains("for 86 % of the file's time"));
}

TEST_CASE("°C against °F is named where it would explain the temperatures, and only there") {
    const auto in_fahrenheit = [](double hour) { return room(hour) * 9 / 5 + 32; };
    const auto cold = [](double hour) { return (room(hour) - 10) * 9 / 5 + 32; };
    CHECK_THAT(
        doubts_of(log_of(4, cold), bay(10)),
        Contains("Read in °F it would be 10.0 °C: the head \"Temp °C\" seems to name the wrong unit") &&
            Contains("Write °F into the head of that column"));
    CHECK_THAT(doubts_of(log_of(4, in_fahrenheit), bay(20)), Contains("Read in °F it would be 20.0 °C"));
    const auto celsius_as_fahrenheit = [](double hour) { return (room(hour) - 32) * 5 / 9; };
    CHECK_THAT(doubts_of(log_of(4, celsius_as_fahrenheit), bay(), {TemperatureUnit::fahrenheit, "t (F)"}),
               Contains("Read in °C it would be 20.0 °C: the head \"t (F)\"") &&
                   Contains("Write °C into the head"));
    CHECK_THAT(doubts_of(log_of(4, [](double hour) { return room(hour) + 12; })),
               Contains("See that the file is of this place") && !Contains("°F"));
}

TEST_CASE("A sensor that does not move for two days is asked about, with when it stood still") {
    // Two days are an assumption.
    const auto still = [](double days) {
        return log_of(8, [=](double hour) {
            return hour >= 48 && hour <= 48 + days * 24 ? 21.5 : room(hour) + 0.001 * hour;
        });
    };
    CHECK_THAT(doubts_of(still(2)), Contains("Sensor: does not move: 21.50 °C in each of 193 readings from "
                                             "2026-11-04T00:00:00Z to 2026-11-06T00:00:00Z"));
    CHECK(doubts_of(still(1.9)).empty());
}

TEST_CASE("A hole of days between two equal readings is no sensor that stands still") {
    auto readings = log_of(1, room);
    readings.back().temperature = Celsius{20.5};
    readings.push_back({readings.back().at + std::chrono::hours{24 * 5}, Celsius{20.5}, {}});
    CHECK(doubts_of(readings).empty());
}

TEST_CASE("A step of over 10 K within an hour that stays is asked about, up or down, by any interval") {
    // 10 K and the hour are assumptions. The room is said to be half way between, so that only the step is
    // seen.
    for (const double height : {11.0, -11.0})
        for (const int every : {1, 15, 60}) {
            const auto readings = log_of(
                10, [=](double hour) { return room(hour) + (hour > 120 ? height : 0); }, every);
            CHECK_THAT(doubts_of(readings, bay(20 + height / 2)), Contains("Step: from ") &&
                                                                      Contains("and it does not come back") &&
                                                                      Contains("2026-11-07T0"));
        }
}

TEST_CASE("A step that comes back, one over many hours and one of less are not asked about") {
    const auto door = [](double hour) { return room(hour) + (hour > 100 && hour < 103 ? 15 : 0); };
    CHECK(doubts_of(log_of(10, door)).empty());
    const auto spikes = [](double hour) { return room(hour) + (std::fmod(hour + 6, 12) < 0.2 ? 20 : 0); };
    CHECK(doubts_of(log_of(10, spikes, 5)).empty());
    const auto slow = [](double hour) { return room(hour) + std::clamp(hour - 100, 0.0, 14.0); };
    CHECK(doubts_of(log_of(10, slow), bay(27)).empty());
    const auto small = [](double hour) { return room(hour) + (hour > 120 ? 9 : 0); };
    CHECK(doubts_of(log_of(10, small), bay(24)).empty());
}

TEST_CASE("A logger that was started in the office and then hung in the cold is a step that stays") {
    const auto hung = [](double hour) { return hour < 0.4 ? 21 : 4 + 0.3 * std::sin(hour); };
    CHECK_THAT(doubts_of(log_of(5, hung, 10), bay(4)), Contains("Step: from 21.0 to 4."));
}

TEST_CASE("The last reading of a file is too little to say that a step stays") {
    auto readings = log_of(5, room);
    readings.back().temperature = Celsius{40};
    CHECK(doubts_of(readings).empty());
}
