#include "a_bakery.h"
#include "support/catch.h"
#include "terminal.h"

using namespace mellowbin;
using Catch::Matchers::Contains;
using tests::ABakery;

TEST_CASE("Stock is told by place with its age, now and at a day that has been, as text and as JSON") {
    ABakery at;
    const auto stock = at.json({"stock"});
    CHECK(stock["kg"] == 6000.0);
    REQUIRE(stock["rows"].size() == 6);
    CHECK(stock["rows"][0]["place"] == "Bay 1");
    CHECK(stock["rows"][0]["lot"] == "W24-201");
    CHECK(stock["rows"][0]["age_days"] == 23); // delivered on 2 Nov
    CHECK_THAT(at.done({"stock"}),
               Contains("As of 2026-11-25: 6000.0 kg") && Contains("Strong white: 6000.0 kg"));
    CHECK(at.json({"stock", "--at", "2026-10-01"})["rows"].empty());
    CHECK_THAT(at.refused({"stock", "--at", "lately"}), Contains("At: \"lately\" was read"));
}

TEST_CASE("A list of the stock of a day that has been is saved as it was") {
    ABakery at;
    const auto file = at.terminal.file("stock.csv");
    CHECK_THAT(at.done({"save-list", "stock", "--to", file, "--at", "2026-10-01"}), Contains("0 rows"));
    CHECK_THAT(at.done({"save-list", "stock", "--to", file}), Contains("6 rows"));
    CHECK_THAT(at.done({"save-list", "dispatches", "--to", file}), Contains("0 rows"));
    CHECK_THAT(at.refused({"save-list", "stock", "--to", file, "--at", "x"}), Contains("At: "));
}

TEST_CASE("A plant without a silo says so, and what is said of a bay is refused") {
    ABakery at;
    CHECK_THAT(at.done({"silos"}), Contains("The plant has no silo."));
    CHECK(at.json({"silos"}).empty());
    CHECK_THAT(at.refused({"silo-capacity", "Bay 1", "--kg", "5000"}), Contains("\"Bay 1\" is no silo"));
    CHECK_THAT(at.refused({"silo-care", "Bay 1", "cleaned"}), Contains("\"Bay 1\" is no silo"));
    CHECK_THAT(at.refused({"draw-from", "R-1", "Bay 1"}), Contains("Run: \"R-1\" is not in the book"));
}

TEST_CASE("The demo's silo tells what lies in it, what a draw holds, and what was done to it") {
    tests::Terminal terminal;
    REQUIRE(terminal.on_book({"demo"}) == 0);
    REQUIRE(terminal.on_book({"silos", "--draw", "500"}) == 0);
    CHECK_THAT(terminal.out, Contains("Silo 1: ") && Contains("a draw of 500.0 kg: ") && Contains("Protein"));
    REQUIRE(terminal.on_book({"silo-capacity", "Silo 1", "--kg", "40000"}) == 0);
    CHECK(terminal.on_book({"silo-care", "Silo 1", "sanitised"}) != 0); // it holds flour
    CHECK_THAT(terminal.err, Contains("Write down first that it was emptied"));
    REQUIRE(terminal.on_book({"silo-care", "Silo 1", "emptied", "--note", "sold as feed", "--by", "Joris"}) ==
            0);
    REQUIRE(terminal.on_book({"silos"}) == 0);
    CHECK_THAT(terminal.out,
               Contains("Silo 1: 0.0 kg of at most 40000") && Contains("emptied on") && Contains("by Joris"));
}
