#include "app/acts/climate.h"
#include "app/acts/looking.h"
#include "app/acts/notice.h"
#include "app/models/journal.h"
#include "app/models/readiness.h"
#include "app/models/settings.h"
#include "app/models/story.h"
#include "db/sqlite_connection.h"
#include "small_plant.h"
#include "support/catch.h"

#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <unistd.h>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

namespace {

/// A logger's file: every six hours from a day on.
std::string log_file(const std::string& from, int readings, double temperature) {
    static int count = 0;
    const auto path = std::filesystem::temp_directory_path() /
                      fmt::format("mellowbin-climate-{}-{}.csv", ::getpid(), ++count);
    std::ofstream file(path);
    file << "time,degC,%RH\n";
    Instant at{day_from_iso(from)};
    for (int i = 0; i < readings; ++i, at += std::chrono::hours{6})
        file << iso(at) << ',' << temperature + i % 4 << ",60\n";
    return path.string();
}

/// A plant whose bay is as warm as its logger will say.
std::string plant_with_bay_at(double temperature) {
    return fmt::format(R"({{
  "plant": "Small plant", "mills": ["Mill"], "flours": [{{"name": "Strong white", "class": "white"}}],
  "places": [{{"name": "Bay 1", "kind": "bay", "air": "breathable_bag", "temperature_c": {0}}},
             {{"name": "Bay 2", "kind": "bay", "air": "breathable_bag", "temperature_c": 20}}],
  "lines": [{{"name": "Line 1", "friction_factor_c": 24}}],
  "products": [{{"name": "Plain loaf", "flour": "Strong white", "market": "Canada", "food": "bread",
                 "batch_flour_kg": 100}}]}})",
                       temperature);
}

/// A lot of 10 November in Bay 1, which a logger has measured since the 8th; today is the 25th.
struct Measured {
    SmallPlant plant;
    LotId lot;

    Measured() { measure(18); }
    explicit Measured(double temperature)
        : plant(day_from_iso("2026-11-25"), plant_with_bay_at(temperature)) {
        measure(temperature);
    }
    void measure(double temperature) {
        auto draft = plant.draft("W24-118");
        draft.milled_on = "2026-11-08";
        draft.delivered_on = "2026-11-10";
        lot = plant.released_lot(draft);
        read(log_file("2026-11-08", 64, temperature));
    }
    void read(const std::string& file, const std::string& accept_reason = "") {
        plant.app().handle(ReadClimateLog{"Bay 1", file, accept_reason});
        INFO(plant.said() << plant.refusals());
        REQUIRE(plant.was_done());
    }
    /// Runs SQL on the book while the program is closed, which is then opened again.
    void open_again_after(const char* sql) {
        SqliteConnection book(plant.book_path());
        book.execute(sql);
        plant.open_again();
    }
    std::int64_t days_kept() {
        SqliteConnection book(plant.book_path());
        std::int64_t days = 0;
        book.query("SELECT COUNT(*) FROM climate_day", {}, [&](const Row& row) { days = row.integer(0); });
        return days;
    }
    /// What an estimate shows: maturity on each day, the air of each day, the flour's moisture.
    std::vector<double> estimate() {
        plant.app().handle(OpenLot{lot});
        REQUIRE(plant.app().readiness().opened);
        const auto& story = *plant.app().readiness().opened;
        std::vector<double> numbers{story.moisture_now.value_or(0)};
        for (const auto& day : story.curve)
            numbers.push_back(day.likely);
        for (const auto& day : story.storage) {
            numbers.insert(numbers.end(), {day.low, day.mean, day.high, day.measured});
            numbers.push_back(day.flour_moisture.value_or(0));
        }
        return numbers;
    }
    [[nodiscard]] std::string words() { return plant.app().settings().places.front().measured; }
};

void check_same(const std::vector<double>& one, const std::vector<double>& other) {
    REQUIRE(one.size() == other.size());
    for (std::size_t i = 0; i < one.size(); ++i)
        CHECK(one[i] == Approx(other[i]).epsilon(1e-9).margin(1e-9));
}

} // namespace

TEST_CASE("What days of a climate came to is kept, and the next start gives the same estimates by them") {
    Measured at;
    CHECK(at.days_kept() == 14); // from the 8th, two days before the lot came, to the 21st
    const auto running = at.estimate();
    const auto words = at.words();
    CHECK(words == "2026-11-08 to 2026-11-23: 64 readings, in the time of the lots here");
    at.plant.open_again();
    check_same(at.estimate(), running);
    CHECK(at.words() == words);
    at.open_again_after("DELETE FROM climate_day");
    check_same(at.estimate(), running);
    CHECK(at.days_kept() == 14);
}

TEST_CASE("A start reads the days that were kept, and makes anew what is broken or of another form") {
    Measured at;
    const auto before = at.estimate();
    at.open_again_after(
        "UPDATE climate_day SET numbers = replace(numbers, '\"readings\":4', '\"readings\":400') "
        "WHERE day = '2026-11-12'");
    CHECK_THAT(at.words(), Contains("460 readings"));
    at.open_again_after("UPDATE climate_day SET numbers = 'broken' WHERE day = '2026-11-12'");
    CHECK_THAT(at.words(), Contains("64 readings"));
    check_same(at.estimate(), before);
    at.open_again_after("UPDATE climate_day SET form = 'other', numbers = 'other'");
    check_same(at.estimate(), before);
}

TEST_CASE("Days that were summed by an older law are made anew: an old book says what a new one says") {
    // As the law before this one kept them: no part of its own for the cold, and the sums of a clamped
    // factor.
    Measured at(3.0); // a cold bay
    const auto before = at.estimate();
    CHECK(before != Measured(13.0).estimate());
    at.open_again_after("UPDATE climate_day SET form = '1-0123456789abcdef', numbers = "
                        "json_set(numbers, '$.runs', json('[[[0.37,0.31,0.26],[]],[[0.3],[]],[[0.2],[]]]'))");
    check_same(at.estimate(), before);
    CHECK(at.days_kept() == 14);
    // Those sums would have said something else: the form is what keeps them out.
    at.open_again_after("UPDATE climate_day SET numbers = "
                        "json_set(numbers, '$.runs', json('[[[0.37,0.31,0.26],[]],[[0.3],[]],[[0.2],[]]]'))");
    CHECK(at.estimate() != before);
}

TEST_CASE("A late log of old days changes the estimate in the running program as after a start; "
          "taken back, it is as before") {
    Measured at;
    const auto before = at.estimate();
    at.read(log_file("2026-11-12", 12, 30), "the heating ran over");
    const auto undo = at.plant.app().notice().undoing;
    const auto warmer = at.estimate();
    CHECK(warmer != before);
    at.plant.open_again();
    check_same(at.estimate(), warmer);
    at.open_again_after("DELETE FROM climate_day");
    check_same(at.estimate(), warmer);
    for (const auto& intent : undo)
        at.plant.app().handle(intent);
    check_same(at.estimate(), before);
    at.plant.open_again();
    check_same(at.estimate(), before);
}

TEST_CASE("On the next days the days that went by are added, and the estimates go on") {
    Measured at;
    at.plant.open_again_on(day_from_iso("2026-11-27"));
    CHECK(at.days_kept() == 16);
    const auto by_days = at.estimate();
    at.open_again_after("DELETE FROM climate_day");
    check_same(at.estimate(), by_days);
    CHECK(at.words() == "2026-11-08 to 2026-11-23: 64 readings, in the time of the lots here");
}

TEST_CASE("A place that no logger measures has no days to keep") {
    SmallPlant plant;
    plant.released_lot(plant.draft("W24-118"));
    SqliteConnection book(plant.book_path());
    book.query("SELECT COUNT(*) FROM climate_day", {}, [](const Row& row) { CHECK(row.integer(0) == 0); });
}

TEST_CASE(
    "A log that something stands against does not count before a person says why; then it does, by name "
    "and reason, until it is taken back") {
    Measured at;
    const auto before = at.estimate();
    const auto logs = at.plant.app().settings().places.front().logs.size();
    const auto lines = at.plant.app().journal(100).size();
    const auto warm = log_file("2026-11-12", 12, 30);
    for (const char* reason : {"", "  "}) {
        at.plant.app().handle(ReadClimateLog{"Bay 1", warm, reason});
        REQUIRE(at.plant.was_refused());
        CHECK_THAT(at.plant.refusals(),
                   Contains("Temperature: over 8 K from what is said of Bay 1, 20.0 °C") &&
                       Contains("Why take it in all the same: is empty"));
    }
    check_same(at.estimate(), before);
    CHECK(at.plant.app().settings().places.front().logs.size() == logs);
    CHECK(at.plant.app().journal(100).size() == lines);

    at.read(warm, " the heating ran over ");
    const auto undo = at.plant.app().notice().undoing;
    const auto line = at.plant.app().journal(1).front();
    CHECK(line.what == "read_climate");
    CHECK(line.who == "Tomas");
    CHECK_THAT(line.words, Contains("taken in all the same: Temperature: over 8 K") &&
                               Contains("; because: the heating ran over ("));
    CHECK_THAT(at.plant.app().settings().places.front().logs.front().words,
               Contains("because: the heating ran over"));
    CHECK(at.estimate() != before);

    at.plant.app().handle(ReadClimateLog{"Bay 1", warm}); // the same file again is asked about again
    CHECK(at.plant.was_refused());
    for (const auto& intent : undo)
        at.plant.app().handle(intent);
    check_same(at.estimate(), before);
}

TEST_CASE("A log that nothing stands against needs no reason, and one that is given is not kept") {
    Measured at;
    at.read(log_file("2026-11-14", 12, 17), "by the way");
    CHECK_THAT(at.plant.said(), !Contains("by the way") && !Contains("all the same"));
}

TEST_CASE("A log begun long before the first flour is taken from where it matters, and says so") {
    Measured at; // its flour was milled on 8 November
    at.read(log_file("2025-11-01", 4 * 388, 18));
    // 60 days before the milling (an assumption): 312 days of four readings were left out, of 388
    CHECK_THAT(at.plant.said(), Contains("304 readings from 2026-09-09 to 2026-11-23") &&
                                    Contains("1248 before that left out, long before this plant had flour"));
}
