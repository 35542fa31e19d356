#include "a_bakery.h"
#include "cli/command_line.h"
#include "cli/door_words.h"
#include "support/catch.h"

using namespace mellowbin;
using Catch::Matchers::Contains;
using tests::ABakery;

namespace {

/// A file with one more lot of the bakery; `heads` and `cells` are what it has beside the usual.
std::string one_more(ABakery& bakery, const std::string& code, const std::string& heads = "",
                     const std::string& cells = "") {
    const std::string name = code + ".csv";
    bakery.terminal.write(
        name, "lot number;mill;flour;place;milled on;delivered on;weight kg;moisture %" + heads + "\n" +
                  code + ";Weir Mill;Strong white;Bay 1;2026-10-30;2026-11-02;1000;13.6" + cells + "\n");
    return bakery.terminal.file(name);
}

/// A run of which one batch of 100 kg was mixed from W24-201.
void mix_a_batch(ABakery& bakery) {
    bakery.terminal.write("old.csv",
                          "lot number;mill;flour;place;milled on;delivered on;weight kg;moisture %;"
                          "protein % (14 % moisture);absorption % (14 % moisture)\n"
                          "OLD-1;Weir Mill;Strong white;Bay 1;2026-06-01;2026-06-05;1000;13.6;12.5;61\n");
    bakery.done({"take-in", bakery.terminal.file("old.csv")});
    bakery.done({"release", "OLD-1"});
    bakery.done(
        {"add-run", "--product", "Pan bread", "--line", "Line 1", "--day", "2026-11-25", "--batches", "3"});
    bakery.done({"plan", "--make"});
    bakery.done({"confirm-batch", "R261125-1-1"});
}

} // namespace

TEST_CASE("A check at the door is taken apart into question, answer, bags and note") {
    const auto check = cli::read_door_check(" Bags dry = no ; 3 bags; wet at one corner; two torn ");
    REQUIRE(check);
    CHECK(check->question == "Bags dry");
    CHECK(check->answer == "no");
    CHECK(check->bags == "3");
    CHECK(check->note == "wet at one corner; two torn");
    CHECK(cli::read_door_check("Seal=yes")->note.empty());
    CHECK(cli::read_door_check("Seal=no; torn at the top of the bags")->note ==
          "torn at the top of the bags");
    CHECK(cli::read_door_check("Seal=no; -1 bags")->bags == "-1"); // for core to refuse
    CHECK(cli::read_door_check("Seal=no; lot=W24-300; 3 bags")->lot == "W24-300");
    for (const char* wrong :
         {"Seal", "", "Seal=", "Seal=;3 bags", "Seal=no;3 bags;4 bags", "Seal=no;lot=A;lot=B"}) {
        INFO(wrong);
        CHECK_FALSE(cli::read_door_check(wrong));
    }
}

TEST_CASE("A \"no\" at the door holds the lots of a file, and the lot's page and its release say why") {
    ABakery bakery;
    const auto file = one_more(bakery, "W24-300");
    const auto said = bakery.done(
        {"take-in", file, "--check", "Seal=yes", "--check", "Bags dry=no; 3 bags; wet at one corner"});
    CHECK_THAT(
        said,
        Contains("Lot W24-300 taken in and put on hold. At the door: Bags dry and not torn: no, 3 bags, "
                 "wet at one corner"));
    const auto lot = bakery.json({"lot", "W24-300"});
    CHECK(lot["state"] == "held");
    REQUIRE(lot["door"].size() == 5);
    CHECK(lot["door"][1]["weight"] == "against");
    CHECK_THAT(
        bakery.done({"lot", "W24-300"}),
        Contains("At the door\n  - Seal whole, or bags closed: yes\n  - MIND: Bags dry and not torn: no"));
    CHECK_THAT(bakery.refused({"release", "W24-300"}), Contains("Reason: is empty"));
    bakery.done({"release", "W24-300", "--reason", "the wet bags were thrown away"});
    CHECK_THAT(bakery.terminal.err, Contains("note: Bags dry and not torn: no, 3 bags, wet at one corner") &&
                                        Contains("note: Free of insects and foreign smell: not looked at"));
    CHECK_THAT(bakery.done({"journal"}),
               Contains("Lot W24-300 taken in and put on hold. At the door: Bags dry"));
}

TEST_CASE("A check that cannot be read is refused with what is expected, and nothing is taken in") {
    ABakery bakery;
    const auto file = one_more(bakery, "W24-300");
    const auto lines = bakery.journal_lines();
    CHECK_THAT(bakery.refused({"take-in", file, "--check", "Bags dry"}),
               Contains("\"Bags dry\" was read; QUESTION=yes|no|not looked at"));
    CHECK_THAT(bakery.refused({"take-in", file, "--check", "Bags dry=perhaps"}),
               Contains("At the door: Bags dry and not torn: \"perhaps\" was read"));
    CHECK_THAT(bakery.refused({"take-in", file, "--check", "Pallets=no"}),
               Contains("\"Pallets\" is none of the questions. Choose one of: Seal whole"));
    CHECK_THAT(bakery.refused({"take-in", file, "--check", "Bags dry=no; 2.5 bags"}),
               Contains("Bags: 2.5 was read; a whole number is expected"));
    CHECK(bakery.journal_lines() == lines);
}

TEST_CASE("A lot that something stands against is refused with its line, and comes in with --accept") {
    ABakery bakery;
    const auto file = one_more(bakery, "W24-300", ";best before;certificate date;flour temperature °C",
                               ";2026-11-24;2026-10-01;31");
    const auto why = bakery.refused({"take-in", file});
    CHECK_THAT(why, Contains("Line 2, Best before: 2026-11-24 was read, which is over") &&
                        Contains("Line 2, Certificate date: 2026-10-01 was read") &&
                        Contains("Line 2, Flour temperature: 31.0 °C was read") &&
                        Contains("with --accept REASON such lots are taken in all the same") &&
                        Contains("nothing was taken in"));
    CHECK_THAT(bakery.refused({"take-in", file, "--accept", " "}), Contains("Line 2, Best before"));
    bakery.done({"take-in", file, "--accept", "for the feed trial"});
    CHECK_THAT(bakery.done({"journal"}), Contains("taken in all the same: Best before: 2026-11-24") &&
                                             Contains("because: for the feed trial"));
    CHECK_THAT(bakery.done({"lot", "W24-300"}),
               Contains("STOP: over. Best before 2026-11-24") && Contains("The flour came at 31.0 °C"));
}

TEST_CASE("Quality extends a lot's last day, and is refused where it cannot") {
    ABakery bakery;
    bakery.done({"take-in", one_more(bakery, "W24-300", ";best before", ";2026-11-26")});
    CHECK_THAT(bakery.refused({"extend-lot", "W24-300", "--until", "2026-11-26", "--reason", "sound"}),
               Contains("Until: 2026-11-26 was read, which is not after the best-before day printed"));
    CHECK_THAT(bakery.refused({"extend-lot", "W24-201", "--until", "2026-12-24", "--reason", "sound"}),
               Contains("has no best-before day printed"));
    CHECK(bakery.terminal.on_book({"extend-lot", "W24-300", "--until", "2026-12-24"}) == cli::bad_usage);
    CHECK(bakery.done({"extend-lot", "W24-300", "--until", "2026-12-24", "--reason", "sound"}) ==
          "Lot W24-300: may be used until 2026-12-24, best before 2026-11-26: sound\n");
    const auto lot = bakery.json({"lot", "W24-300"});
    CHECK(lot["best_before"] == "2026-11-26");
    CHECK(lot["last_day"] == "2026-12-24");
}

TEST_CASE("Flour that was not mixed is brought back, and no more than is out") {
    ABakery bakery;
    mix_a_batch(bakery);
    CHECK_THAT(
        bakery.refused({"give-back", "OLD-1", "--to", "Bay 2", "--kg", "100,5", "--reason", "not tipped"}),
        Contains("100.500 kg was read, but only 100.000 kg of the lot is out for the run"));
    CHECK_THAT(bakery.refused({"give-back", "OLD-1", "--to", "Bay 9", "--kg", "1", "--reason", "not tipped"}),
               Contains("Place: \"Bay 9\" is not known"));
    CHECK_THAT(
        bakery.refused({"give-back", "OLD-1", "--to", "Bay 2", "--kg", "1", "--run", "R9", "--reason", "x"}),
        Contains("Run: \"R9\" is not in the book"));
    CHECK_THAT(
        bakery.refused({"give-back", "W24-201", "--to", "Bay 2", "--kg", "1", "--reason", "not tipped"}),
        Contains("has no flour out"));
    CHECK_THAT(bakery.done({"give-back", "OLD-1", "--to", "Bay 2", "--kg", "25", "--run", "R261125-1-1",
                            "--reason", "not tipped"}),
               Contains("25.0 kg of lot OLD-1 back into Bay 2 from run R261125-1-1: not tipped"));
    CHECK(bakery.json({"lot", "OLD-1"})["stock_kg"] == 925);
}

TEST_CASE("Whoever releases a lot by command is told of a retest that is out of specification") {
    ABakery bakery;
    bakery.terminal.write("plant.json", R"({"plant": "Small plant", "mills": ["Weir Mill"],
      "flours": [{"name": "Strong white", "class": "white",
                  "windows": [{"property": "falling_number", "low": 250}]}],
      "places": [], "lines": [], "products": []})");
    bakery.done({"plant", bakery.terminal.file("plant.json")});
    bakery.retest("W24-201", "2026-11-24", "falling_number=228");
    CHECK_THAT(bakery.refused({"release", "W24-201"}),
               Contains("Reason: is empty, and lot W24-201 is out of specification: Falling number 228 s"));
    bakery.done({"release", "W24-201", "--reason", "for toast bread, which keeps its shape"});
    CHECK_THAT(bakery.terminal.err,
               Contains("note: Retest of 2026-11-24, tester: out of specification: Falling "
                        "number 228 s, below at least 250 s"));
    const auto lot = bakery.json({"lot", "W24-201"});
    REQUIRE(lot["against_specification"].size() == 2);
    CHECK(lot["against_specification"][0]["weight"] == "against");
}

TEST_CASE("What was counted of a lot and differs, and what is written off, is entered with a reason") {
    ABakery bakery;
    bakery.done({"take-in", one_more(bakery, "W24-300")});
    CHECK_THAT(bakery.refused({"count", "W24-300", "--place", "Bay 1", "--kg", "990"}),
               Contains("Reason: is empty, and 990.0 kg counted are not the 1000.0 kg booked"));
    CHECK_THAT(bakery.done({"count", "W24-300", "--place", "Bay 1", "--kg", "990", "--reason", "a torn bag"}),
               Contains("counted 990.0 kg, 10.0 kg less than booked: a torn bag"));
    CHECK_THAT(bakery.refused({"waste", "W24-300", "--place", "Bay 1", "--kg", "90", "--reason", " "}),
               Contains("Reason: is empty"));
    CHECK_THAT(bakery.done({"waste", "W24-300", "--place", "Bay 1", "--kg", "90,5", "--reason", "wet"}),
               Contains("thrown away"));
}
