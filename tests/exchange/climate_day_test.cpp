#include "exchange/climate_day.h"
#include "support/catch.h"

using namespace mellowbin;

namespace {

aging::ClimateDay some_day() {
    aging::ClimateDay day;
    day.day = Day{} + Days{20'000};
    day.runs[0].all = {1.0 / 3, 0.1, 1e-300, 0, 0};
    day.runs[1].all = {0.5, 0, 0.7, 0.8, 1e9};
    day.runs[1].assumed = {0.25, 0, 0.1, 0, 0};
    day.low = Celsius{-3.3};
    day.mean = Celsius{1.0 / 7};
    day.high = Celsius{31};
    day.measured = 2.0 / 3;
    day.humidity = RelativeHumidity{0.61};
    day.air = {Celsius{0.2}, Moisture{13.1}};
    day.readings = 17;
    day.gaps = {{20'000.1, 20'003.3}, {20'000.9, 20'007}};
    return day;
}

} // namespace

TEST_CASE("A day of a climate comes back from its text to the last bit") {
    auto day = some_day();
    CHECK(exchange::climate_day_from_json(day.day, exchange::climate_day_as_json(day)) == day);
    day.humidity.reset();
    day.air.equilibrium.reset();
    day.gaps.clear();
    CHECK(exchange::climate_day_from_json(day.day, exchange::climate_day_as_json(day)) == day);
}

TEST_CASE("A broken text of a day is no day") {
    for (const char* text :
         {"", "{", "[]", "{\"runs\":[]}", "{\"runs\":[[[1,2,3,4,5,6],[]],[[],[]],[[],[]]]}"})
        CHECK_FALSE(exchange::climate_day_from_json(Day{}, text));
}
