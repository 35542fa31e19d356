#include "a_bakery.h"
#include "cli/command_line.h"
#include "support/catch.h"

#include <fmt/format.h>

using namespace mellowbin;
using Catch::Matchers::Contains;
using tests::a_log_with_a_gap;
using tests::ABakery;

namespace {

/// The day of a lot's storage.
nlohmann::json stored_on(const nlohmann::json& story, const std::string& day) {
    for (const auto& one : story["storage"])
        if (one["day"] == day)
            return one;
    return {};
}

} // namespace

TEST_CASE("A logger's file in °F with a gap changes a lot's ready date; taken back, the old one holds") {
    ABakery bakery;
    const auto before = bakery.json({"lot", "W24-201"});
    bakery.terminal.write("bay1.csv", a_log_with_a_gap("Time (UTC),Temp °F,RH %", "86.0,55"));
    const auto read = bakery.json({"read-climate", "Bay 1", bakery.terminal.file("bay1.csv"), "--accept",
                                   "kept so by the heating"}); // 10 K away, and it does not move
    CHECK_THAT(read["words"].get<std::string>(),
               Contains("Climate of Bay 1: 490 readings from 2026-11-02 to 2026-11-25, 30.0 to 30.0 °C") &&
                   Contains("because: kept so by the heating"));
    CHECK(read["set_aside"].empty());

    const auto after = bakery.json({"lot", "W24-201"});
    CHECK(after["ready_on"] < before["ready_on"]); // 30 °C instead of the 20 °C assumed
    const auto measured = stored_on(after, "2026-11-05"), gap = stored_on(after, "2026-11-11");
    CHECK(measured["mean_c"] == Approx(30));
    CHECK(measured["humidity_pct"] == Approx(55));
    CHECK(measured["measured_share"] == Approx(1));
    CHECK(measured["flour_moisture_pct"] < 13.6); // dries in air of 55 %
    CHECK(gap["mean_c"] == Approx(20));
    CHECK(gap["measured_share"] == Approx(0).margin(0.05));
    CHECK_THAT(after["storage_words"].get<std::string>(), Contains("1 gap is bridged"));
    const double share = bakery.json({"readiness"})["lots"][0]["measured_share"];
    CHECK(share > 0.7); // 20 days of 26 since the milling
    CHECK(share < 0.85);

    const auto places = bakery.json({"climate"});
    REQUIRE(places.size() == 2);
    CHECK(places[0]["place"] == "Bay 1");
    CHECK_THAT(places[0]["assumed"].get<std::string>(), Contains("20.0 °C"));
    CHECK_THAT(places[0]["measured"].get<std::string>(), Contains("490 readings, 1 gap"));
    CHECK(places[0]["logs"][0]["log"] == read["log"]);
    CHECK(places[0]["logs"][0]["file"] == "bay1.csv");
    CHECK(places[1]["logs"].empty());
    const auto number = std::to_string(read["log"].get<int>());
    CHECK_THAT(bakery.done({"climate"}),
               Contains("log " + number + "  bay1.csv, by tester") && Contains("no log read"));

    CHECK_THAT(bakery.done({"withdraw-climate", number, "--reason", "the logger lay in the sun"}),
               Contains("bay1.csv of Bay 1 taken back: the logger lay in the sun"));
    CHECK(bakery.json({"lot", "W24-201"})["ready_on"] == before["ready_on"]);
    CHECK_THAT(bakery.done({"climate"}), Contains("(taken back)"));
}

TEST_CASE("Sentinels and words in a logger's file are set aside by line, and every other line is read") {
    ABakery bakery;
    bakery.terminal.write("bay1.csv", "Date time;Temperature [°C];Humidity [%]\n"
                                      "2026-11-05T12:00:00Z;21,5;50\n"
                                      "2026-11-05T09:00:00Z;21,0;50\n" // any order
                                      "2026-11-05T10:00:00Z;-999;50\n"
                                      "2026-11-05T11:00:00Z;sensor open;50\n"
                                      "2026-11-05T13:00:00Z;22,0;-999\n" // the temperature is good
                                      "2026-11-05T13:00:00Z;22,0;-999\n"
                                      "yesterday;22,0;50\n");
    CHECK_THAT(bakery.done({"read-climate", "Bay 1", bakery.terminal.file("bay1.csv")}),
               Contains("3 readings from 2026-11-05 to 2026-11-05, 21.0 to 22.0 °C"));
    const std::string said = bakery.terminal.err;
    CHECK_THAT(said, Contains(" lines set aside\nmellowbin: line 4: "));
    CHECK_THAT(said,
               Contains("line 4: Temperature [°C]: \"-999\": no reading; from -40 to 60 °C is expected"));
    CHECK_THAT(said, Contains("line 5: Temperature [°C]: \"sensor open\": no number"));
    CHECK_THAT(said, Contains("line 6: Humidity [%]: \"-999\": no reading; the temperature was kept"));
    CHECK_THAT(said, Contains("line 8: Date time: \"yesterday\": no time"));
    CHECK_THAT(said, Contains("1 line repeated another"));
    const auto again = bakery.json({"read-climate", "Bay 2", bakery.terminal.file("bay1.csv"), "--accept",
                                    "the bays have one air"}); // it is said to have 12 °C
    CHECK_THAT(again["set_aside"][0].get<std::string>(), Contains("line 4") && Contains("-999"));
}

TEST_CASE("A logger's file that cannot be read is refused with its reason, and nothing is written") {
    ABakery bakery;
    const auto lines = bakery.journal_lines();
    const auto refusal = [&](const std::string& bytes) {
        bakery.terminal.write("log.csv", bytes);
        return bakery.refused({"read-climate", "Bay 1", bakery.terminal.file("log.csv")});
    };
    CHECK_THAT(refusal(a_log_with_a_gap("time,degC,%RH", "20,50", 2027)),
               Contains("Time: the logger's clock looks wrong: 490 of 490 readings lie after now") &&
                   Contains("about 1 year ahead"));
    CHECK_THAT(refusal(a_log_with_a_gap("time,degC,%RH", "20,50", 2025)),
               Contains("490 of 490 readings lie over 60 days before this plant had flour"));
    CHECK_THAT(refusal("time,temperature,%RH\n2026-11-05T12:00:00Z,20,50\n"),
               Contains("Column \"temperature\": no unit was read; °C or °F is expected"));
    CHECK_THAT(refusal("time,degC\n2026-11-05T12:00:00Z,-999\n"),
               Contains("no line gives a reading") && Contains("line 2"));
    CHECK_THAT(refusal("shopping list: yeast, salt\n"), Contains("Head line"));
    CHECK_THAT(bakery.refused({"read-climate", "Attic", bakery.terminal.file("log.csv")}),
               Contains("Place: \"Attic\" is not known"));
    CHECK_THAT(bakery.refused({"read-climate", "Bay 1", bakery.terminal.file("none.csv")}),
               Contains("Logger's file") && Contains("none.csv") && Contains("cannot be read"));
    CHECK_THAT(bakery.refused({"withdraw-climate", "7", "--reason", "x"}), Contains("Climate log"));
    CHECK(bakery.terminal.on_book({"read-climate", "Bay 1"}) == cli::bad_usage);
    CHECK(bakery.terminal.on_book({"withdraw-climate", "seven", "--reason", "x"}) == cli::bad_usage);
    CHECK(bakery.journal_lines() == lines);
    CHECK(bakery.json({"climate"})[0]["logs"].empty());
}

TEST_CASE("A logger's file that something stands against is refused until --accept says why") {
    ABakery bakery;
    const auto lines = bakery.journal_lines();
    const auto before = bakery.json({"lot", "W24-201"})["ready_on"];
    // 58 °F, which is 14.4 °C, under a head of °C: 58 °C, and it does not move.
    bakery.terminal.write("bay1.csv", a_log_with_a_gap("Time (UTC),Temp °C,RH %", "58.0,55"));
    const std::vector<std::string> read{"read-climate", "Bay 1", bakery.terminal.file("bay1.csv")};
    const auto said = bakery.refused(read);
    CHECK_THAT(said, Contains("Temperature: over 8 K from what is said of Bay 1, 20.0 °C, for 100 %"));
    CHECK_THAT(said,
               Contains("Read in °F it would be 14.4 °C: the head \"Temp °C\" seems to name the wrong unit"));
    CHECK_THAT(said, Contains("Write °F into the head of that column and read the file again"));
    CHECK_THAT(said, Contains("Sensor: does not move: 58.00 °C in each of 298 readings"));
    CHECK_THAT(said, Contains("Why take it in all the same: is empty"));
    CHECK_THAT(said, Contains("with --accept REASON such a file is taken in all the same"));
    CHECK_THAT(said, Contains("nothing was read in"));
    CHECK(bakery.journal_lines() == lines);
    CHECK(bakery.json({"climate"})[0]["logs"].empty());
    CHECK(bakery.json({"lot", "W24-201"})["ready_on"] == before);

    auto accepted = read;
    accepted.insert(accepted.end(), {"--accept", "an oven stands beside it"});
    CHECK_THAT(bakery.done(accepted), Contains("taken in all the same: Temperature: over 8 K") &&
                                          Contains("because: an oven stands beside it"));
    CHECK_THAT(bakery.done({"journal"}), Contains("because: an oven stands beside it"));
    CHECK(bakery.json({"lot", "W24-201"})["ready_on"] != before);
    CHECK(bakery.terminal.on_book({"read-climate", "Bay 1", "x.csv", "--accept"}) == cli::bad_usage);
}

TEST_CASE("A logger's file with a step that stays is refused with when it was") {
    ABakery bakery;
    std::string log = "Time (UTC),Temp °C\n";
    for (int hour = 0; hour < 96; ++hour)
        log += fmt::format("2026-11-{:02}T{:02}:00Z,{:.1f}\n", 5 + hour / 24, hour % 24,
                           (hour < 60 ? 15 : 26) + 0.1 * (hour % 5));
    bakery.terminal.write("bay1.csv", log);
    CHECK_THAT(
        bakery.refused({"read-climate", "Bay 1", bakery.terminal.file("bay1.csv")}),
        Contains("Step: from 15.4 to 26.0 °C between 2026-11-07T11:00:00Z and 2026-11-07T12:00:00Z, and it "
                 "does not come back") &&
            !Contains("Temperature: ") && !Contains("Sensor: "));
}
