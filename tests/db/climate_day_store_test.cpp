#include "book_support.h"
#include "db/climate_day_store.h"
#include "db/climate_store.h"
#include "db/journal_store.h"

namespace mellowbin {
namespace {

using std::chrono::hours;

constexpr Day first = 2026_y / 11 / 1, past = 2026_y / 11 / 21;

/// Every day of the first three weeks of November.
std::vector<KeptClimateDay> three_weeks(PlaceId place) {
    std::vector<KeptClimateDay> days;
    for (Day day = first; day < past; day += Days{1})
        days.push_back({place, day, "numbers of " + iso(day)});
    return days;
}

bool kept(Connection& book, const std::vector<KeptClimateDay>& days, std::string_view form = "1") {
    return ClimateDayStore(book).keep(days, form, JournalStore(book).version());
}

/// Days of the month that are missing.
std::vector<unsigned> missing(Connection& book, PlaceId place) {
    std::vector<unsigned> days;
    const auto there = ClimateDayStore(book).days(place, first, past, "1");
    for (Day day = first; day < past; day += Days{1})
        if (std::none_of(there.begin(), there.end(), [&](const auto& one) { return one.day == day; }))
            days.push_back(unsigned{date::year_month_day{day}.day()});
    return days;
}

/// Readings so many hours apart, from one hour after the first midnight of the month up to another.
std::vector<ClimateReading> readings(int from, int until, int step) {
    std::vector<ClimateReading> readings;
    for (int hour = from; hour < until; hour += step)
        readings.push_back({Instant{first} + hours{hour}, Celsius{20}, {}});
    return readings;
}

ClimateLogId added(Connection& book, PlaceId place, const std::vector<ClimateReading>& readings) {
    Change change(book, line("A log was read"));
    const auto id = ClimateStore(book).add(change, {{}, place, "a.csv", "", {}, "", false}, readings);
    change.commit();
    return id.value();
}

void withdraw(Connection& book, ClimateLogId log) {
    Change change(book, line("A log was withdrawn"));
    REQUIRE(ClimateStore(book).withdraw(change, log));
    change.commit();
}

} // namespace

TEST_CASE("Days of a climate come back as they were kept, by day, with no line in the journal") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    const auto lines = count_of(book, "journal");
    REQUIRE(kept(book, three_weeks(plant.bay)));
    CHECK(ClimateDayStore(book).days(plant.bay, first, past, "1") == three_weeks(plant.bay));
    CHECK(ClimateDayStore(book).days(plant.silo, first, past, "1").empty());
    const auto two = ClimateDayStore(book).days(plant.bay, first + Days{3}, first + Days{5}, "1");
    REQUIRE(two.size() == 2);
    CHECK(two[0].day == first + Days{3});
    CHECK(count_of(book, "journal") == lines);
}

TEST_CASE("A day of another form is passed over, and the next one that is kept takes its place") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    REQUIRE(kept(book, three_weeks(plant.bay), "1"));
    CHECK(ClimateDayStore(book).days(plant.bay, first, past, "2").empty());
    REQUIRE(kept(book, {{plant.bay, first, "other numbers"}}, "2"));
    CHECK(ClimateDayStore(book).days(plant.bay, first, past, "2").at(0).numbers == "other numbers");
    CHECK(missing(book, plant.bay) == std::vector{1U});
}

TEST_CASE("Days that were made before somebody wrote to the book are not kept") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    const auto version = JournalStore(book).version();
    added(book, plant.bay, readings(0, 24, 1));
    CHECK_FALSE(ClimateDayStore(book).keep(three_weeks(plant.bay), "1", version));
    CHECK(count_of(book, "climate_day") == 0);
}

TEST_CASE("A log makes the book forget the days that it changes, and no others; so does its withdrawal") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    added(book, plant.bay, readings(0, 24 * 20, 1));
    REQUIRE(kept(book, three_weeks(plant.bay)));
    REQUIRE(kept(book, three_weeks(plant.silo)));
    // Another log of the 10th, from 14 to 20 o'clock; 13 hours on either side tell how its readings join.
    const auto log = added(book, plant.bay, readings(9 * 24 + 14, 9 * 24 + 20, 1));
    CHECK(missing(book, plant.bay) == std::vector{10U, 11U});
    CHECK(missing(book, plant.silo).empty());
    REQUIRE(kept(book, three_weeks(plant.bay)));
    withdraw(book, log);
    CHECK(missing(book, plant.bay) == std::vector{10U, 11U});
}

TEST_CASE("A log in a gap makes the book forget the days of the gap and those beside it") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    added(book, plant.bay, readings(0, 24 * 5 + 18, 1));
    added(book, plant.bay, readings(24 * 14 + 2, 24 * 20, 1));
    REQUIRE(kept(book, three_weeks(plant.bay)));
    added(book, plant.bay, readings(24 * 9, 24 * 10, 1));
    CHECK(missing(book, plant.bay) == std::vector{6U, 7U, 8U, 9U, 10U, 11U, 12U, 13U, 14U, 15U});
}

TEST_CASE("Of a place that is saved anew all days are forgotten: what is assumed of it is in them") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    REQUIRE(kept(book, three_weeks(plant.bay)));
    REQUIRE(kept(book, three_weeks(plant.silo)));
    auto place = PlantStore(book).places().front();
    REQUIRE(place.id == plant.bay);
    place.temperature = Celsius{11};
    Change change(book, line("The bay is cooler"));
    REQUIRE(PlantStore(book).save(change, place));
    change.commit();
    CHECK(missing(book, plant.bay).size() == 20);
    CHECK(missing(book, plant.silo).empty());
}

TEST_CASE("Readings come with those beside them, whatever logs they are of") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    added(book, plant.bay, readings(0, 24 * 10, 2));
    added(book, plant.bay, readings(1, 24 * 10, 2));
    const auto all = readings(0, 24 * 10, 1);
    const auto beside = static_cast<int>(readings_beside);
    const ClimateStore store(book);
    CHECK(store.readings_around(plant.bay, Instant{first + Days{4}}, Instant{first + Days{5}}) ==
          readings(24 * 4 - beside, 24 * 5 + beside, 1));
    CHECK(store.readings_around(plant.bay, Instant{first + Days{4}}) ==
          readings(24 * 4 - beside, 24 * 10, 1));
    CHECK(store.readings_around(plant.bay, Instant{first}, Instant{past}) == all);
    CHECK(store.readings_around(plant.bay, Instant{past}) == readings(24 * 10 - beside, 24 * 10, 1));
    CHECK(store.readings_around(plant.silo, Instant{first}).empty());
}

} // namespace mellowbin
