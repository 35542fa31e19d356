#include "a_bakery.h"
#include "support/catch.h"
#include "support/fixture_file.h"
#include "support/pdf_tools.h"

using namespace mellowbin;
using Catch::Matchers::Contains;
using tests::ABakery;

namespace {

/// The bakery with two runs of tomorrow and the day after, planned.
class PlannedBakery : public ABakery {
public:
    PlannedBakery() {
        done({"add-run", "--product", "Pan bread", "--line", "Line 1", "--day", "2026-11-26", "--batches",
              "4"});
        done({"add-run", "--product", "Pan bread", "--line", "Line 1", "--day", "2026-11-27", "--batches",
              "4"});
        for (int i = 201; i <= 203; ++i)
            done({"release", "W24-" + std::to_string(i)});
        done({"plan", "--make"});
    }
    std::string first_lot() { return json({"plan"})["runs"][0]["lots"][0]["lot"]; }
};

} // namespace

TEST_CASE("A plan that holds is not mended, and one that a held lot breaks is, beside the one in the book") {
    PlannedBakery bakery;
    CHECK_THAT(bakery.refused({"replan"}), Contains("the plan in the book holds"));
    const auto lot = bakery.first_lot();
    bakery.done({"hold", lot, "--reason", "smells musty"});
    const auto shown = bakery.done({"plan"});
    CHECK_THAT(shown,
               Contains("The plan in the book holds no longer.") && Contains("it is on hold: smells musty"));

    const auto text = bakery.done({"replan"});
    CHECK_THAT(text, Contains("proposed, not adopted") && Contains("New plan beside Plan in the book") &&
                         Contains("less of flour short") && Contains("possible: "));
    CHECK(bakery.first_lot() == lot); // shown, not adopted

    const auto json = bakery.json({"replan", "--adopt"});
    CHECK(json["standing"] == "proposed");
    CHECK(json["comparison"]["moved"].size() >= 1);
    CHECK(json["comparison"]["parts"].back()["part"] == "The whole");
    CHECK(bakery.first_lot() != lot);
    CHECK(bakery.json({"plan"})["holds_no_longer"] == "");
}

TEST_CASE("A plan can be proposed and looked at without being adopted") {
    PlannedBakery bakery;
    const auto before = bakery.journal_lines();
    CHECK_THAT(bakery.done({"plan", "--propose"}), Contains("proposed, not adopted") && Contains("Proven"));
    CHECK(bakery.journal_lines() == before);
}

TEST_CASE("What is supposed is planned beside the book, which stays as it is") {
    PlannedBakery bakery;
    const auto before = bakery.journal_lines();
    const auto run = bakery.json({"plan"})["runs"][0]["run"].get<std::string>();
    const auto json =
        bakery.json({"suppose", "--move-run", run + ":2026-11-28", "--order", "Strong white:2000:2026-11-30",
                     "--no-oxidant", "Canada", "--hold", bakery.first_lot()});
    CHECK(json["supposed"].size() == 4);
    CHECK(json["comparison"]["after"] == "With what is supposed");
    for (const auto& shown : json["runs"])
        if (shown["run"] == run)
            CHECK(shown["day"] == "2026-11-28");
    CHECK(bakery.journal_lines() == before);
    CHECK(bakery.json({"plan"})["runs"][0]["day"] == "2026-11-26");
    CHECK_THAT(bakery.done({"suppose", "--no-oxidant", "Canada", "--no-oxidant", "Canada"}),
               Contains("what if, not to be adopted") && Contains("No oxidant in Canada"));
}

TEST_CASE("What cannot be supposed is refused in words") {
    PlannedBakery bakery;
    CHECK_THAT(bakery.refused({"suppose"}), Contains("nothing is supposed"));
    CHECK_THAT(bakery.refused({"suppose", "--order", "Strong white:2000"}),
               Contains("FLOUR:KG:DAY is expected"));
    CHECK_THAT(bakery.refused({"suppose", "--move-run", "R-none:2026-11-28"}),
               Contains("Run \"R-none\" is not in the book"));
    CHECK_THAT(bakery.refused({"suppose", "--hold", "W24-999"}), Contains("W24-999"));
    CHECK_THAT(bakery.refused({"suppose", "--no-oxidant", "Atlantis"}), Contains("no product is sold in"));
}

TEST_CASE("What to order is listed by flour with the latest day, as text and as JSON") {
    PlannedBakery bakery;
    CHECK_THAT(bakery.done({"order-by"}), Contains("Nothing to order"));
    bakery.done(
        {"add-run", "--product", "Pan bread", "--line", "Line 1", "--day", "2026-11-29", "--batches", "90"});
    bakery.done({"plan", "--make"});
    CHECK_THAT(bakery.done({"order-by"}), Contains("Strong white") && Contains("arrive by"));
    const auto json = bakery.json({"order-by"});
    REQUIRE(json["orders"].size() == 1);
    CHECK(json["orders"][0]["flour"] == "Strong white");
    CHECK(json["orders"][0]["kg"].get<double>() > 5000);
    CHECK(json["orders"][0].contains("if_later"));
}

TEST_CASE("The plan shown is written as a paper to print, a proposed one marked as such") {
    PlannedBakery bakery;
    const auto file = bakery.terminal.file("week.pdf");
    CHECK_THAT(bakery.done({"plan", "--print", file}), Contains("paper to print: " + file));
    CHECK_THAT(tests::text_of(testing::file_bytes(file)),
               Contains("Adopted plan") && Contains(bakery.first_lot()));
    CHECK(bakery.json({"plan", "--propose", "--print", file})["standing"] == "proposed");
    CHECK_THAT(tests::text_of(testing::file_bytes(file)), Contains("PROPOSED: NOT ADOPTED"));
    const auto nowhere = bakery.terminal.file("none/week.pdf");
    CHECK_THAT(bakery.refused({"plan", "--print", nowhere}),
               Contains("File") && Contains("there is no folder"));
}
