#include "book_support.h"
#include "db/climate_store.h"

#include <cmath>

namespace mellowbin {
namespace {

using std::chrono::hours;

ClimateReading reading(int hour, double celsius, std::optional<RelativeHumidity> humidity = {}) {
    return {noon + hours{hour}, Celsius{celsius}, humidity};
}

ClimateLog log_of(PlaceId place, std::string file) {
    return {{}, place, std::move(file), "", {}, "3 readings, 1 set aside", false};
}

ClimateLogId added(Connection& book, const ClimateLog& log, const std::vector<ClimateReading>& readings) {
    Change change(book, line(log.file + " was read"));
    const auto id = ClimateStore(book).add(change, log, readings);
    change.commit();
    return id.value();
}

Result<Done> withdrawn(Connection& book, ClimateLogId id) {
    Change change(book, line("A log was withdrawn"));
    auto done = ClimateStore(book).withdraw(change, id, "Of another bay");
    if (done)
        change.commit();
    return done;
}

} // namespace

TEST_CASE("A log comes back as it was read, by the person of the change, with its readings") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    auto log = log_of(plant.bay, "bay1.csv");
    const std::vector readings{reading(-1, 17.25, RelativeHumidity{0.61}), reading(0, -40),
                               reading(1, 60, RelativeHumidity{1})};
    log.id = added(book, log, readings);
    log.who = "Ada Example";
    log.read_at = noon;
    const ClimateStore store(book);
    CHECK(store.logs() == std::vector{log});
    CHECK(store.readings(plant.bay) == readings);
    CHECK(store.readings(plant.silo).empty());
    CHECK(store.all_readings() == std::map<PlaceId, std::vector<ClimateReading>>{{plant.bay, readings}});
}

TEST_CASE("Logs of a place become one series; where they have the same instant the later log holds") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    added(book, log_of(plant.bay, "b.csv"), {reading(2, 12), reading(3, 13), reading(5, 15)});
    added(book, log_of(plant.silo, "other.csv"), {reading(3, 30)});
    added(book, log_of(plant.bay, "a.csv"), {reading(1, 21), reading(3, 23), reading(4, 24)});
    const ClimateStore store(book);
    const std::vector expected{reading(1, 21), reading(2, 12), reading(3, 23), reading(4, 24),
                               reading(5, 15)};
    CHECK(store.readings(plant.bay) == expected);
    const auto all = store.all_readings();
    REQUIRE(all.size() == 2);
    CHECK(all.at(plant.bay) == expected);
    CHECK(all.at(plant.silo) == std::vector{reading(3, 30)});
}

TEST_CASE("A withdrawn log stays in the list as withdrawn and measures nothing any more") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    added(book, log_of(plant.bay, "a.csv"), {reading(1, 21)});
    const auto wrong = added(book, log_of(plant.bay, "b.csv"), {reading(1, 31), reading(2, 32)});
    added(book, log_of(plant.silo, "c.csv"), {reading(1, 19)});
    REQUIRE(withdrawn(book, wrong));
    const ClimateStore store(book);
    CHECK(store.readings(plant.bay) == std::vector{reading(1, 21)});
    CHECK(store.all_readings().at(plant.bay) == std::vector{reading(1, 21)});
    const auto logs = store.logs();
    REQUIRE(logs.size() == 3);
    CHECK(logs[1].is_withdrawn);
    CHECK(logs[1].words == "3 readings, 1 set aside");
    CHECK_FALSE(logs[0].is_withdrawn);
    CHECK(count_of(book, "climate_reading") == 4);
}

TEST_CASE("A log is withdrawn once, and only if it is there; refused, nothing is written") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    const auto id = added(book, log_of(plant.bay, "a.csv"), {reading(1, 21)});
    REQUIRE(withdrawn(book, id));
    const auto lines = count_of(book, "journal");
    const auto again = withdrawn(book, id);
    REQUIRE_FALSE(again);
    CHECK(again.refusals().at(0) ==
          Refusal{"Climate log", "was withdrawn before", "Look at the place's list"});
    CHECK_FALSE(withdrawn(book, ClimateLogId{id.number() + 1})); // the withdrawal itself
    CHECK_FALSE(withdrawn(book, ClimateLogId{99}));
    CHECK(count_of(book, "climate_log") == 2);
    CHECK(count_of(book, "journal") == lines);
}

TEST_CASE("A log without readings is refused") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    Change change(book, line("A log was read"));
    CHECK(ClimateStore(book).add(change, log_of(plant.bay, "a.csv"), {}).refusals().at(0).field == "File");
}

TEST_CASE("The book takes no reading that no store has, and a log is whole or not there") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    const auto is_refused = [&](const std::vector<ClimateReading>& readings) {
        return fault_of([&] { added(book, log_of(plant.bay, "a.csv"), readings); }).fault() ==
               BookFault::rule_broken;
    };
    CHECK(is_refused({reading(1, 20), reading(2, -40.1)}));
    CHECK(is_refused({reading(1, 20), reading(2, 60.1)}));
    CHECK(is_refused({reading(1, 20), reading(2, NAN)}));
    CHECK(is_refused({reading(1, 20, RelativeHumidity{-0.01})}));
    CHECK(is_refused({reading(1, 20, RelativeHumidity{1.01})}));
    CHECK(is_refused({reading(1, 20), reading(1, 20)}));
    CHECK(fault_of([&] { added(book, log_of(PlaceId{9}, "a.csv"), {reading(1, 20)}); }).fault() ==
          BookFault::rule_broken);
    CHECK(count_of(book, "climate_log") == 0);
    CHECK(count_of(book, "climate_reading") == 0);
}

TEST_CASE("By SQL, too, no log is edited or deleted, and a withdrawal has no readings") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    const auto id = added(book, log_of(plant.bay, "a.csv"), {reading(1, 21)});
    REQUIRE(withdrawn(book, id));
    added(book, log_of(plant.bay, "b.csv"), {reading(2, 22)});
    const auto before = ClimateStore(book).logs();
    // 1 is a log, 2 its withdrawal, 3 another log of the bay
    for (const char* sql : {
             "INSERT INTO climate_reading VALUES (2, 1795852800, 20, NULL)",
             "INSERT INTO climate_log VALUES (4, 1, 'a.csv', '', '2026-11-25T12:00:00Z', '', 1)",
             "INSERT INTO climate_log VALUES (4, 1, 'a.csv', '', '2026-11-25T12:00:00Z', '', 2)",
             "INSERT INTO climate_log VALUES (4, 2, 'b.csv', '', '2026-11-25T12:00:00Z', '', 3)",
             "UPDATE climate_log SET place_id = 2",
             "DELETE FROM climate_log WHERE id = 2",
             "UPDATE climate_reading SET temperature_c = 20",
             "REPLACE INTO climate_reading SELECT log_id, at, 20, NULL FROM climate_reading",
             "DELETE FROM climate_reading",
         }) {
        INFO(sql);
        CHECK(fault_of([&] { book.execute(sql); }).fault() == BookFault::rule_broken);
    }
    CHECK(ClimateStore(book).logs() == before);
    CHECK(ClimateStore(book).readings(plant.bay) == std::vector{reading(2, 22)});
}

} // namespace mellowbin
