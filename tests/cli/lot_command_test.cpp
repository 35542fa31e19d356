#include "a_bakery.h"
#include "cli/command_line.h"
#include "support/catch.h"

using namespace mellowbin;
using Catch::Matchers::Contains;
using tests::ABakery;

TEST_CASE("A lot's page says what to do and why, when it is ready, what each run can count on, and what is "
          "not known") {
    ABakery bakery;
    bakery.done({"release", "W24-201"});
    bakery.done(
        {"add-run", "--product", "Pan bread", "--line", "Line 1", "--day", "2026-11-27", "--batches", "3"});
    bakery.done({"plan", "--make"});
    const auto story = bakery.json({"lot", "W24-201"});
    CHECK(story["lot"] == "W24-201");
    CHECK(story["mill"] == "Weir Mill");
    CHECK(story["milled_on"] == "2026-10-30");
    CHECK(story["places"][0]["place"] == "Bay 1");
    CHECK(story["places"][0]["kg"] == 1000);
    CHECK(story["as_of"] == "2026-11-25");
    CHECK_FALSE(story["reasons"].empty());
    CHECK(story["ready"]["p10"] < story["ready"]["p50"]);
    CHECK(story["ready"]["p50"] < story["ready"]["p90"]);
    REQUIRE(story["runs"].size() == 1);
    CHECK(story["runs"][0]["day"] == "2026-11-27");
    const double chance = story["runs"][0]["probability_mature"];
    CHECK(chance > 0.2);
    CHECK(chance < 0.9);
    CHECK(story["moisture_pct"] == Approx(13.6));
    CHECK_FALSE(story["retest_worth"].empty());
    REQUIRE(story["elsewhere"].size() == 1);
    CHECK(story["elsewhere"][0]["place"] == "Bay 2");
    CHECK(story["elsewhere"][0]["best_until"] > story["best_until"]); // 12 °C keep longer than 20 °C
    CHECK_FALSE(story["origins"].empty());
    CHECK_FALSE(story["reservations"].empty());

    const auto text = bakery.done({"lot", "W24-201"});
    const auto ready_on = story["ready_on"].get<std::string>();
    CHECK_THAT(text, Contains("Ready on       " + ready_on + "  with 80 % confidence"));
    CHECK_THAT(text, Contains("80 % interval " + story["ready"]["p10"].get<std::string>() + " to " +
                              story["ready"]["p90"].get<std::string>()));
    CHECK_THAT(text, Contains("\nMaturity       ") && Contains(" days at 20 °C (") &&
                         Contains(" % in 80 of 100)\n"));
    CHECK_THAT(text, Contains("As of 2026-11-25: " + story["advice"].get<std::string>() + "\n  - "));
    CHECK_THAT(text, Contains("2026-11-27  Pan bread, Line 1: 300 kg: mature with"));
    CHECK_THAT(text, Contains("What a retest now would be worth\n  - "));
    CHECK_THAT(text, Contains("Elsewhere, from this day on\n  - Bay 2, 12.0 °C"));
    CHECK_THAT(text, Contains("No logger measured its storage"));
    CHECK_THAT(text, Contains("Moisture 13.6 %, water activity"));
    CHECK_THAT(text, Contains("Fat acidity about"));
    CHECK_THAT(text, Contains("Where the numbers come from\n  - Maturing rate"));
    CHECK_THAT(text, Contains("Reservations\n  - "));
    CHECK_THAT(text, !Contains("Day by day"));
}

TEST_CASE("With --curve a lot's page has its days; JSON has them always") {
    ABakery bakery;
    const auto story = bakery.json({"lot", "W24-201"});
    const auto& days = story["maturity"];
    REQUIRE(days.size() >= 60);
    CHECK(days[0]["day"] == "2026-10-30");
    CHECK(days[30]["p10"] <= days[30]["p50"]);
    CHECK(days[30]["p50"] <= days[30]["p90"]);
    CHECK(story["storage"][0]["day"] == "2026-11-02");
    CHECK(story["storage"][0]["mean_c"] == Approx(20));
    CHECK(story["storage"][0]["measured_share"] == 0);
    bakery.retest("W24-201", "2026-11-03", "stability=12 @ @ ICC 115/1");
    bakery.retest("W24-201", "2026-11-24", "stability=13 @ @ ICC 115/1");
    const auto text = bakery.done({"lot", "W24-201", "--curve"});
    CHECK_THAT(text, Contains("Day by day") && Contains("2026-11-02") && Contains("20.0"));
    CHECK_THAT(text, Contains("Stability, min: its course by the estimate"));
}

TEST_CASE("A lot and the readiness of all can be asked for another day") {
    ABakery bakery;
    const auto today = bakery.json({"readiness"})["lots"][0];
    CHECK(bakery.json({"lot", "W24-201"})["advice"] == today["advice"]);
    CHECK(today["because"] != "");
    CHECK(today["measured_share"] == 0);
    CHECK(today["check"] == false);
    const auto later = bakery.json({"lot", "W24-201", "--day", "2027-12-31"});
    CHECK(later["as_of"] == "2027-12-31");
    CHECK(later["advice"] == "hold"); // past its best by then
    CHECK(bakery.json({"readiness", "--as-of", "2027-12-31"})["lots"][0]["advice"] == "hold");
    CHECK_THAT(bakery.done({"readiness", "--as-of", "2027-12-31"}),
               Contains("advice") && Contains("hold") && Contains("because") && Contains("Past its best"));
    CHECK_THAT(bakery.refused({"lot", "W24-201", "--day", "Tuesday"}),
               Contains("Day") && Contains("Tuesday"));
    CHECK_THAT(bakery.refused({"lot", "NONE"}), Contains("\"NONE\" is not in the book"));
    CHECK(bakery.terminal.on_book({"lot"}) == cli::bad_usage);
}
