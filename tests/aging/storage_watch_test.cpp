#include "aging/flour.h"
#include "aging/storage_watch.h"
#include "support/catch.h"

#include <cmath>

// Dew points against printed tables: fixtures/published/aging_dew_point.csv.

using namespace mellowbin;
using namespace mellowbin::aging;

namespace {

ClimatePtr air_of(double temperature, std::optional<double> humidity = {}, Air air = Air::breathable_bag) {
    Place place;
    place.temperature = Celsius{temperature};
    place.air = air;
    if (humidity)
        place.humidity = RelativeHumidity{*humidity};
    return std::make_shared<ClimateCourse>(place);
}

double at(double on) { return days_of(milled) + on; }

/// So many days in the first place, then in the second.
StoragePath moved(ClimatePtr first, int days, ClimatePtr second) {
    return then(stay_from(milled, std::move(first)), day(days), std::move(second));
}

std::vector<StorageAlarm> alarms(double moisture, double temperature) {
    return moisture_alarms(Moisture{moisture}, Celsius{temperature}, true);
}
bool any_is_stop(const std::vector<StorageAlarm>& found) {
    for (const auto& alarm : found)
        if (alarm.is_stop)
            return true;
    return false;
}
bool has(const std::vector<StorageAlarm>& found, const std::string& part) {
    for (const auto& alarm : found)
        if (alarm.words.find(part) != std::string::npos)
            return true;
    return false;
}

} // namespace

TEST_CASE("Water activity undoes equilibrium moisture, within flour's own law and outside it") {
    for (const double t : {12.0, 20.0, 28.0})
        for (const double rh : {0.3, 0.4, 0.6, 0.65, 0.7, 0.8}) {
            INFO(t << " C, " << rh);
            const auto moisture = equilibrium_moisture(RelativeHumidity{rh}, Celsius{t}).moisture;
            CHECK(water_activity(moisture, Celsius{t}).value() == Approx(rh).margin(1e-9));
        }
    for (const double rh : {0.3, 0.5, 0.7}) {
        const auto moisture = equilibrium_moisture(RelativeHumidity{rh}, Celsius{4}).moisture;
        CHECK(water_activity(moisture, Celsius{4}).value() == Approx(rh).margin(1e-9));
    }
}

TEST_CASE("Damper and warmer flour has the higher water activity") {
    for (double m = 9; m < 16; m += 0.5) {
        INFO(m);
        CHECK(water_activity(Moisture{m + 0.5}, Celsius{20}) > water_activity(Moisture{m}, Celsius{20}));
    }
    CHECK(water_activity(Moisture{13.5}, Celsius{28}) > water_activity(Moisture{13.5}, Celsius{14}));
}

TEST_CASE("Flour of 13.5 % at 25 C lies at the limit for long storage, water activity 0.65") {
    CHECK(water_activity(Moisture{13.483}, Celsius{25}).value() == Approx(0.65).margin(0.001));
}

TEST_CASE(
    "The dew point falls by about 1 C for every 5 % of humidity, as Lawrence's rule says of moist air") {
    // Lawrence 2005, Bull. Am. Meteorol. Soc. 86:225-233: t - (100 - RH)/5, RH above 50 %; within a degree
    // here
    for (const double t : {5.0, 10.0, 20.0, 30.0})
        for (const double rh : {0.6, 0.7, 0.8, 0.9, 1.0}) {
            INFO(t << " C, " << rh);
            CHECK(dew_point(Celsius{t}, RelativeHumidity{rh}).value() == Approx(t - (1 - rh) * 20).margin(1));
        }
    CHECK(dew_point(Celsius{20}, RelativeHumidity{1}).value() == Approx(20));
}

TEST_CASE("Moisture alarms begin above 14 % and stop above 15.5 %") {
    CHECK(alarms(13.9, 10).empty());
    const auto mind = alarms(14.1, 10);
    REQUIRE(mind.size() == 1);
    CHECK(has(mind, "Moisture 14.1 % (measured): keep below 14 %"));
    CHECK_FALSE(any_is_stop(mind));
    CHECK(has(alarms(15.5, 10), "keep below"));
    const auto stop = alarms(15.6, 10);
    CHECK(any_is_stop(stop));
    CHECK(has(stop, "above 15.5 %"));
    CHECK(has(moisture_alarms(Moisture{14.1}, Celsius{10}, false), "14.1 % (predicted)"));
}

TEST_CASE("Water activity is minded above 0.65 and stops above 0.70, at whatever moisture that is") {
    // At 20 C flour's law puts 0.65 at 13.888 % and 0.70 at 14.442 %.
    CHECK(alarms(13.87, 20).empty());
    const auto mind = alarms(13.9, 20);
    REQUIRE(mind.size() == 1);
    CHECK(has(mind, "Water activity"));
    CHECK_FALSE(any_is_stop(mind));
    CHECK_FALSE(any_is_stop(alarms(14.43, 20)));
    CHECK(any_is_stop(alarms(14.45, 20)));
}

TEST_CASE("Warmth alone brings flour over the limit of water activity") {
    CHECK(alarms(13.8, 15).empty());
    CHECK(has(alarms(13.8, 30), "Water activity"));
}

TEST_CASE("Cold flour that comes into warm damp air is wetted") {
    const auto path = moved(air_of(5, 0.6), 30, air_of(25, 0.8));
    const auto alarm = condensation_alarm(path, at(31));
    REQUIRE(alarm);
    CHECK(alarm->is_stop);
    CHECK(alarm->words.find("wetted") != std::string::npos);
    CHECK(alarm->words.find("21.3") != std::string::npos); // dew point of 25 C and 80 %
    CHECK_FALSE(condensation_alarm(path, at(29)));
}

TEST_CASE("Warm flour that comes into cold damp air is not wetted") {
    CHECK_FALSE(condensation_alarm(moved(air_of(25, 0.5), 30, air_of(5, 0.8)), at(31)));
}

TEST_CASE("Cold flour in warm dry air stays dry, and near the dew point it needs a look") {
    const auto in_air_of = [](double humidity) {
        return condensation_alarm(moved(air_of(12, 0.6), 30, air_of(25, humidity)), at(31));
    };
    CHECK_FALSE(in_air_of(0.35));      // dew point 8.5 C
    const auto near = in_air_of(0.42); // 11.2 C
    REQUIRE(near);
    CHECK_FALSE(near->is_stop);
    CHECK(in_air_of(0.5)->is_stop); // 13.9 C
}

TEST_CASE("Condensation is spoken of for a week, and only where the humidity is known") {
    const auto path = moved(air_of(5, 0.6), 30, air_of(25, 0.8));
    CHECK(condensation_alarm(path, at(36)));
    CHECK_FALSE(condensation_alarm(path, at(42)));
    CHECK_FALSE(condensation_alarm(moved(air_of(5), 30, air_of(25)), at(31)));
}

TEST_CASE("A part of the lot that lies elsewhere does not make the air of the rest wet it") {
    // All of it has lain long in its own place; one place is warm and damp, one cold and dry.
    const StoragePath split{{air_of(25, 0.8), at(0), for_ever, 0.5}, {air_of(5, 0.4), at(0), for_ever, 0.5}};
    CHECK_FALSE(condensation_alarm(split, at(60)));
}

TEST_CASE("Predicted moisture drifts from place to place, from the day it was measured") {
    const auto path = moved(air_of(20, 0.55), 14, air_of(20, 0.7));
    const KnownMoisture known{Moisture{14.5}, at(0)};
    CHECK(moisture_on(path, known, at(14))->value() == Approx(13.8592).margin(0.0005));
    // 8.3150 + 11.0674 x 0.7 - 0.08102 x 20 = 14.4418; time constant 30 d
    const double later = 14.4418 + (13.8592 - 14.4418) * std::exp(-10 / 30.0);
    CHECK(moisture_on(path, known, at(24))->value() == Approx(later).margin(0.001));
    CHECK(moisture_on(path, known, at(0)) == Moisture{14.5});
    CHECK_FALSE(moisture_on(path, {Moisture{14.5}, at(5)}, at(4)));
}

TEST_CASE("Moisture measured before the delivery is kept until then") {
    const auto path = stay_from(day(3), air_of(20, 0.55));
    CHECK(moisture_on(path, {Moisture{14.5}, at(0)}, at(17))->value() == Approx(13.8592).margin(0.0005));
}

TEST_CASE("Moisture is not predicted through a place whose humidity nobody knows") {
    const auto path = moved(air_of(20, 0.55), 14, air_of(20));
    CHECK(moisture_on(path, {Moisture{14.5}, at(0)}, at(14)));
    CHECK_FALSE(moisture_on(path, {Moisture{14.5}, at(0)}, at(15)));
}

TEST_CASE("The moisture of a split lot is the mean of its parts by mass") {
    const StoragePath split{{air_of(20, 0.55), at(0), for_ever, 0.25},
                            {air_of(20, 0.7), at(0), for_ever, 0.75}};
    const auto part = [&](double humidity) {
        return moisture_on(stay_from(milled, air_of(20, humidity)), {Moisture{14}, at(0)}, at(20))->value();
    };
    CHECK(moisture_on(split, {Moisture{14}, at(0)}, at(20))->value() ==
          Approx(0.25 * part(0.55) + 0.75 * part(0.7)));
}

TEST_CASE("Flour comes with the temperature of its first place and follows the next one with a lag") {
    const auto path = moved(air_of(5), 10, air_of(25));
    CHECK(flour_temperature_on(path, at(9)).value() == Approx(5));
    CHECK(flour_temperature_on(path, at(12)).value() == Approx(25 - 20 * std::exp(-1)));
}
