#include "a_bakery.h"
#include "cli/command_line.h"
#include "support/catch.h"

using namespace mellowbin;
using Catch::Matchers::Contains;
using tests::ABakery;

TEST_CASE("A mill's record is printed and given as JSON: lots, tests beside certificates, days") {
    ABakery bakery;
    bakery.retest("W24-201", "2026-11-04", "protein=12,3 @ 14 % moisture");
    bakery.retest("W24-202", "2026-11-05", "protein=12,1 @ 14 % moisture");
    const auto record = bakery.json({"mill-record", "Weir Mill"});
    CHECK(record["from"] == "2025-11-25");
    CHECK(record["to"] == "2026-11-25");
    CHECK(record["lots"] == 6);
    CHECK(record["kg"] == 6000);
    CHECK(record["tested_by_the_plant"] == 2);
    CHECK(record["testing_plan"] == "no plan");
    CHECK(record["flours"][0]["flour"] == "Strong white");
    CHECK(record["flours"][0]["by_certificate"]["unknown"] == 6); // the flour has no specification
    const auto& difference = record["own_minus_certificate"][0];
    CHECK(difference["property"] == "protein");
    CHECK(difference["lots"] == 2);
    CHECK(difference["mean"].get<double>() == Approx(-0.3)); // 12.3 and 12.1 beside 12.5
    CHECK(difference["differs"].is_null());
    CHECK(record["deliveries"]["on_time"] == 0);
    CHECK(record["page"]["lots"].size() == 6);
    CHECK(record["page"]["lots"][0]["lot"] == "W24-206");
    CHECK(record["rules"].size() == 4);
    const auto text = bakery.done({"mill-record", "Weir Mill", "--from", "2026-11-01", "--to", "2026-11-30"});
    CHECK_THAT(text, Contains("Weir Mill, 2026-11-01 to 2026-11-30: 6 lots, 6000 kg") &&
                         Contains("Tested by the plant: 2 of 6 lots; plan: no plan") &&
                         Contains("too few to say: 2 of 5 lots") && Contains("Lots 1 to 6 of 6"));
    CHECK(bakery.json({"mill-record", "Weir Mill", "--to", "2026-11-01"})["lots"] == 0);
    CHECK_THAT(bakery.refused({"mill-record", "Weir Mill", "--from", "soon"}), Contains("From: "));
    CHECK_THAT(bakery.refused({"mill-record", "Nobody"}),
               Contains("\"Nobody\" is not known. Choose one of: Weir Mill"));
    CHECK(bakery.terminal.on_book({"mill-record"}) == cli::bad_usage);
}

TEST_CASE("A complaint is logged, answered, opened again and withdrawn by its number") {
    ABakery bakery;
    CHECK_THAT(bakery.done({"log-complaint", "Weir Mill", "--words", "lower than ordered", "--property",
                            "protein", "--lot", "w24-203", "--kg", "250,5", "--noticed-on", "2026-11-20"}),
               Contains("Complaint to Weir Mill: Protein, lot W24-203") && Contains("Its number is 1"));
    const auto second =
        bakery.json({"log-complaint", "Weir Mill", "--words", "wet at one corner", "--subject", "Bags"});
    CHECK(second["complaint"] == 2);
    const auto complaints = [&] { return bakery.json({"mill-record", "Weir Mill"})["complaints"]; };
    CHECK(complaints()["open"] == 2);
    CHECK_THAT(bakery.done({"mill-record", "Weir Mill"}),
               Contains("Complaints: 2 open, 0 answered") &&
                   Contains("1  OPEN: Protein, lot W24-203, 250.5 kg"));
    CHECK_THAT(bakery.done({"answer-complaint", "1", "--words", "other wheat", "--on", "2026-11-24"}),
               Contains("Weir Mill answered"));
    CHECK(complaints()["answered"] == 1);
    CHECK(complaints()["all"][1]["answered_on"] == "2026-11-24");
    CHECK_THAT(bakery.refused({"answer-complaint", "1", "--words", "again"}), Contains("was answered"));
    CHECK_THAT(bakery.done({"take-back-answer", "1", "--reason", "of another"}), Contains("did not answer"));
    CHECK(complaints()["open"] == 2);
    CHECK_THAT(bakery.done({"withdraw-complaint", "2", "--reason", "our own fault"}), Contains("withdrawn"));
    CHECK(complaints()["open"] == 1);
    CHECK_THAT(bakery.refused({"withdraw-complaint", "7", "--reason", "x"}), Contains("is not in the book"));
}

TEST_CASE("A complaint that cannot be is refused with every reason, and nothing is written") {
    ABakery bakery;
    const auto lines = bakery.journal_lines();
    CHECK_THAT(bakery.refused({"log-complaint", "Weir Mill", "--words", "x", "--lot", "W9", "--kg", "-1"}),
               Contains("Lot: ") && Contains("Subject: ") && Contains("Weight: "));
    CHECK_THAT(bakery.refused({"log-complaint", "Nobody", "--words", "x"}), Contains("is not known"));
    CHECK(bakery.terminal.on_book({"log-complaint", "Weir Mill"}) == cli::bad_usage);
    CHECK(bakery.terminal.on_book({"withdraw-complaint", "1"}) == cli::bad_usage);
    CHECK(bakery.journal_lines() == lines);
}

TEST_CASE("With a plan of own tests a new lot says whether it is to be tested") {
    ABakery bakery;
    CHECK(bakery.json({"lot", "W24-201"})["own_test"]["words"] == "");
    bakery.done({"set", "mill_testing", "switching rules"});
    const auto own = bakery.json({"lot", "W24-201"})["own_test"];
    CHECK(own["due"] == true);
    CHECK(own["words"] == "Test this lot: normal: every lot");
    CHECK(own["source"] == "ISO 2859-1, from memory");
    CHECK_THAT(bakery.done({"lot", "W24-201"}),
               Contains("Test this lot: normal: every lot (ISO 2859-1, from memory)"));
    CHECK(bakery.json({"mill-record", "Weir Mill"})["flours"][0]["next_lots"] == "normal: every lot");
    CHECK_THAT(bakery.refused({"set", "mill_testing", "sometimes"}), Contains("Choose one of: no plan"));
}
