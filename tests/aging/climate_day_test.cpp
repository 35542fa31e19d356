#include "aging/climate_course.h"
#include "aging/climate_day.h"
#include "aging/flour.h"
#include "support/catch.h"

#include <cmath>
#include <numbers>

using namespace mellowbin;
using namespace mellowbin::aging;

namespace {

const Day first = milled;
const Day midnight = milled + Days{25}; // before it only days are left
const Day last = milled + Days{30};

Place bay() {
    Place place;
    place.temperature = Celsius{17};
    place.humidity = RelativeHumidity{0.5};
    place.climate = {{milled + Days{10}, Celsius{19}}};
    return place;
}

/// A month of a bay, a reading so many hours after the one before: warm days, cool nights, a damp week, the
/// logger off over two midnights, and once more over the midnight before which only days are left.
std::vector<ClimateReading> month(int step_hours = 1) {
    std::vector<ClimateReading> readings;
    const auto is_off = [](double day) { return (day > 11.3 && day < 13.6) || (day > 24.7 && day < 25.4); };
    for (int hour = 7; hour < 24 * 30; hour += step_hours) {
        const double day = hour / 24.0, turn = 2 * std::numbers::pi * day;
        if (!is_off(day))
            readings.push_back({Instant{first} + std::chrono::hours{hour},
                                Celsius{20 + 3 * std::sin(turn) + 4 * std::sin(turn / 9)},
                                RelativeHumidity{0.6 + 0.1 * std::cos(turn) + 0.08 * std::cos(turn / 7)}});
    }
    return readings;
}

/// As the book hands them out: those from one midnight up to another, with what is beside them.
std::vector<ClimateReading> around(const std::vector<ClimateReading>& readings, Day from, Day until) {
    const auto at = [&](Day day) {
        return std::lower_bound(readings.begin(), readings.end(), Instant{day},
                                [](const ClimateReading& one, Instant wanted) { return one.at < wanted; });
    };
    const auto beside = static_cast<std::ptrdiff_t>(readings_beside);
    const auto begin = at(from), end = at(until);
    return {begin - std::min(beside, begin - readings.begin()), end + std::min(beside, readings.end() - end)};
}

/// Days up to the midnight, each summed by itself from the readings of its time; readings from there on.
ClimateCourse by_days(const std::vector<ClimateReading>& readings, Day from = first) {
    std::vector<ClimateDay> days;
    for (Day day = from; day < midnight; day += Days{1})
        days.push_back(sums_of(bay(), around(readings, day, day + Days{1}), day, day + Days{1}).front());
    return {bay(), days, around(readings, midnight, last)};
}

void check_same(const ClockRun& one, const ClockRun& other) {
    for (std::size_t node = 0; node < clock_nodes; ++node) {
        CHECK(one.all[node] == Approx(other.all[node]).epsilon(0).margin(1e-9));
        CHECK(one.assumed[node] == Approx(other.assumed[node]).epsilon(0).margin(1e-9));
        CHECK(one.cold[node] == Approx(other.cold[node]).epsilon(0).margin(1e-9));
        CHECK(one.cold_assumed[node] == Approx(other.cold_assumed[node]).epsilon(0).margin(1e-9));
    }
}

/// Between these moments all sums are those of the course from all readings.
void check_exact(const ClimateCourse& days, const ClimateCourse& whole, double from, double until) {
    INFO(from << " to " << until);
    for (const auto clock : {Clock::maturing, Clock::life, Clock::wholemeal_life})
        check_same(days.run(clock, from, until), whole.run(clock, from, until));
    CHECK(days.measured_days(from, until) == Approx(whole.measured_days(from, until)).margin(1e-9));
    const auto seen = days.temperature(from, until), expected = whole.temperature(from, until);
    CHECK(seen.low.value() == Approx(expected.low.value()).epsilon(1e-9));
    CHECK(seen.mean.value() == Approx(expected.mean.value()).epsilon(1e-9));
    CHECK(seen.high.value() == Approx(expected.high.value()).epsilon(1e-9));
    const auto moisture = days.moisture(Moisture{14.2}, from, until);
    REQUIRE(moisture);
    CHECK(moisture->value() == Approx(whole.moisture(Moisture{14.2}, from, until)->value()).epsilon(1e-9));
    CHECK(days.flour_temperature(Celsius{9}, from, until).value() ==
          Approx(whole.flour_temperature(Celsius{9}, from, until).value()).epsilon(1e-9));
}

void check_exact_from_midnight_to_midnight(const std::vector<ClimateReading>& readings) {
    const ClimateCourse whole(bay(), readings);
    const auto days = by_days(readings);
    for (const int from : {0, 1, 9, 12, 24})
        for (const int until : {13, 25, 26, 30, 40})
            if (from < until)
                check_exact(days, whole, days_of(first + Days{from}), days_of(first + Days{until}));
    // Where the readings themselves are at hand, at any moment.
    check_exact(days, whole, days_of(midnight) + 0.77, days_of(midnight) + 2.31);
    check_exact(days, whole, days_of(first), days_of(midnight) + 2.31);
}

} // namespace

TEST_CASE("From midnight to midnight the sums of days are those of all readings") {
    check_exact_from_midnight_to_midnight(month());
}

TEST_CASE("So they are where somebody reads a thermometer twice a day, or once in 20 hours") {
    check_exact_from_midnight_to_midnight(month(12));
    check_exact_from_midnight_to_midnight(month(20));
}

TEST_CASE("So they are where a logger took the place of somebody with a thermometer") {
    auto readings = month(20);
    const auto hourly = month();
    std::erase_if(readings, [](const auto& one) { return one.at >= Instant{milled + Days{18}}; });
    std::copy_if(hourly.begin(), hourly.end(), std::back_inserter(readings),
                 [](const auto& one) { return one.at >= Instant{milled + Days{18}}; });
    check_exact_from_midnight_to_midnight(readings);
}

TEST_CASE(
    "Within a day whose air swings by 6 K moisture is off by less than 0.02 points, temperature by 0.7 K") {
    const ClimateCourse whole(bay(), month());
    const auto days = by_days(month());
    for (int hour = 24; hour < 24 * 29; hour += 5) {
        const double from = days_of(first) + 0.4, until = days_of(first) + hour / 24.0;
        const auto moisture = days.moisture(Moisture{14.2}, from, until);
        REQUIRE(moisture);
        CHECK(std::abs(moisture->value() - whole.moisture(Moisture{14.2}, from, until)->value()) < 0.02);
        CHECK(std::abs(days.flour_temperature(Celsius{9}, from, until).value() -
                       whole.flour_temperature(Celsius{9}, from, until).value()) < 0.7);
    }
}

TEST_CASE("So they are through nights at 6 C and days at 14: what ran in the cold is kept apart") {
    auto readings = month();
    for (auto& one : readings)
        one.temperature = one.temperature - CelsiusStep{10};
    check_exact_from_midnight_to_midnight(readings);
    const ClimateCourse whole(bay(), readings);
    CHECK(whole.run(Clock::maturing, days_of(first + Days{1}), days_of(last)).is_cold());
    CHECK_FALSE(whole.run(Clock::life, days_of(first + Days{1}), days_of(last)).is_cold());
}

TEST_CASE("Days tell of the log as its readings do: from when to when, how many, which gaps") {
    const ClimateCourse whole(bay(), month());
    const auto days = by_days(month());
    REQUIRE(days.logged());
    CHECK(days.logged()->first == first);
    CHECK(days.logged()->last == last - Days{1});
    CHECK(days.logged()->readings == static_cast<int>(month().size()));
    REQUIRE(whole.gaps().size() == 2);
    CHECK(days.gaps() == whole.gaps());
}

TEST_CASE("A place's days before its first reading are what is assumed of it") {
    const auto days = by_days(month(), first - Days{5});
    const ClimateCourse whole(bay(), month());
    check_exact(days, whole, days_of(first - Days{5}), days_of(first + Days{2}));
    check_exact(days, whole, days_of(first - Days{30}), days_of(first + Days{2}));
    CHECK(days.logged()->first == first);
}

TEST_CASE("Where the air's humidity was not known all day, the day's is not known") {
    auto readings = month();
    for (auto& one : readings)
        if (one.at >= Instant{first + Days{4}} + std::chrono::hours{9} && one.at < Instant{first + Days{5}})
            one.humidity.reset();
    auto place = bay();
    place.humidity.reset();
    const auto days = sums_of(place, readings, first + Days{3}, first + Days{6});
    CHECK(days[0].humidity);
    CHECK_FALSE(days[1].humidity);
    CHECK_FALSE(days[1].air.equilibrium);
    const ClimateCourse course(place, days, {});
    CHECK(course.moisture(Moisture{14}, days_of(first + Days{3}), days_of(first + Days{4})));
    CHECK_FALSE(course.moisture(Moisture{14}, days_of(first + Days{3}), days_of(first + Days{5})));
}

TEST_CASE("Days without readings after them go on with what is assumed") {
    const auto days = sums_of(bay(), month(), first, midnight);
    const ClimateCourse course(bay(), days, {});
    CHECK(course.temperature_at(days_of(midnight) + 3) == Celsius{19});
    CHECK(course.temperature_at(days_of(first) - 3) == Celsius{17});
    CHECK(course.measured_days(days_of(midnight), days_of(last)) == 0);
}
