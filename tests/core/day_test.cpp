#include "core/day.h"
#include "support/iso.h"
#include "support/refusal_words.h"

namespace mellowbin {

using date::year;
using testing::says;

TEST_CASE("A day is read as year-month-day only") {
    CHECK(**read_day("Milled on", "2026-11-25") == Day{year{2026} / 11 / 25});
    CHECK(**read_day("Milled on", "  2026-11-25\t") == Day{year{2026} / 11 / 25});
    CHECK(**read_day("Milled on", "2024-02-29") == Day{year{2024} / 2 / 29});
    for (const char* text :
         {"25.11.2026", "11/25/2026", "2026-1-5", "26-11-25", "2026/11/25", "2026-11-25T00:00", "20261125",
          "2026-11-2x", "-026-11-25", "yesterday", "2026-W48-3", "45306"}) {
        INFO(text);
        const auto read = read_day("Milled on", text);
        REQUIRE(!read);
        CHECK(read.refusals().front().field == "Milled on");
        CHECK(says(read.refusals().front().what, "2026-11-25 (year-month-day) is expected"));
    }
}

TEST_CASE("A day the calendar does not have is refused") {
    for (const char* text :
         {"2026-02-29", "2100-02-29", "2026-04-31", "2026-13-01", "2026-00-10", "2026-01-00", "2026-01-32"}) {
        INFO(text);
        CHECK(!read_day("Milled on", text));
    }
}

TEST_CASE("An empty day is missing, not wrong") {
    const auto read = read_day("Milled on", " ");
    REQUIRE(read);
    CHECK(!read->has_value());
}

TEST_CASE("Every day of eight years is written and read back as itself") {
    for (Day day{year{2023} / 1 / 1}; day < Day{year{2031} / 1 / 1}; day += Days{1}) {
        REQUIRE(day_from_iso(iso(day)) == day);
        REQUIRE(**read_day("Any", iso(day)) == day);
    }
}

TEST_CASE("An instant is written in UTC with its seconds and read back as itself") {
    const Instant instant = Day{year{2026} / 3 / 2} + std::chrono::hours{6} + std::chrono::minutes{12};
    CHECK(iso(instant) == "2026-03-02T06:12:00Z");
    CHECK(instant_from_iso(iso(instant)) == instant);
}

TEST_CASE("A day or an instant of a broken book is an exception, not a guess") {
    CHECK_THROWS_AS(day_from_iso("2026-02-30"), std::runtime_error);
    CHECK_THROWS_AS(day_from_iso(""), std::runtime_error);
    CHECK_THROWS_AS(instant_from_iso("2026-03-02"), std::runtime_error);
    CHECK_THROWS_AS(instant_from_iso("2026-03-02T06:12:00Z and more"), std::runtime_error);
    CHECK_THROWS_AS(instant_from_iso("2026-03-02T25:12:00Z"), std::runtime_error);
}

TEST_CASE("A day near today is shown by its weekday") {
    CHECK(short_day(Day{year{2026} / 11 / 25}) == "Wed 25 Nov");
}

} // namespace mellowbin
