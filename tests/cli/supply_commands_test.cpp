#include "a_bakery.h"
#include "support/catch.h"

using namespace mellowbin;
using Catch::Matchers::Contains;
using tests::ABakery;

namespace {

const std::vector<std::string> order{"expect", "--mill",    "Weir Mill",  "--flour",  "Strong white", "--kg",
                                     "500",    "--arrives", "2026-11-26", "--milled", "2026-10-01"};

std::string run_code(ABakery& bakery, const std::string& day, const std::string& batches) {
    const auto said = bakery.done(
        {"add-run", "--product", "Pan bread", "--line", "Line 1", "--day", day, "--batches", batches});
    const auto at = said.find("R26");
    return said.substr(at, said.find(' ', at) - at);
}

} // namespace

TEST_CASE("A delivery is expected, shown, and ends as a lot or called off") {
    ABakery bakery;
    CHECK_THAT(bakery.done({"expected"}), Contains("No delivery is expected"));
    CHECK_THAT(bakery.done(order), Contains("Delivery E-1 expected on Thu 26 Nov: 500 kg Strong white"));
    CHECK_THAT(bakery.done({"expected"}), Contains("E-1: 500 kg Strong white from Weir Mill, Thu 26 Nov"));
    const auto rows = bakery.json({"expected"});
    REQUIRE(rows.size() == 1);
    CHECK(rows[0]["delivery"] == "E-1");
    CHECK(rows[0]["late"] == false);
    CHECK_THAT(bakery.refused({"end-expectation", "E-1"}), Contains("Reason: is empty"));
    CHECK_THAT(bakery.done({"end-expectation", "E-1", "--came-as", "W24-201"}),
               Contains("came as lot W24-201"));
    CHECK_THAT(bakery.refused({"end-expectation", "E-1", "--reason", "x"}), Contains("no delivery \"E-1\""));
    bakery.done(order);
    CHECK_THAT(bakery.done({"end-expectation", "E-2", "--reason", "no wheat"}),
               Contains("called off: no wheat"));
    CHECK(bakery.json({"expected"}).empty());
}

TEST_CASE("A delivery that cannot be is refused with every reason") {
    ABakery bakery;
    const auto words = bakery.refused(
        {"expect", "--mill", "Nobody", "--flour", "Strong white", "--kg", "-5", "--arrives", "2026-11-01"});
    CHECK_THAT(words, Contains("Mill: ") && Contains("Weight: ") && Contains("Arrives: "));
}

TEST_CASE("Flour is reserved, shown by number, and freed") {
    ABakery bakery;
    bakery.done({"reserve", "W24-201", "--kg", "300", "--reason", "for trials"});
    bakery.done({"reserve", "W24-202", "--product", "Pan bread", "--reason", "asked for"});
    const auto rows = bakery.json({"reserved"});
    REQUIRE(rows.size() == 2);
    CHECK(rows[0]["words"] == "300 kg of lot W24-201 kept back: for trials");
    CHECK_THAT(bakery.done({"reserved"}), Contains("2  Lot W24-202 kept for Pan bread: asked for"));
    CHECK_THAT(bakery.done({"end-reservation", "1"}), Contains("kept back no more"));
    CHECK(bakery.json({"reserved"}).size() == 1);
    bakery.refused({"end-reservation", "1"});
    bakery.refused({"reserve", "W24-201", "--reason", "neither kg nor product"});
}

TEST_CASE("A run is changed and a lot given by code") {
    ABakery bakery;
    bakery.done({"release", "W24-201"});
    bakery.done({"release", "W24-202"});
    const auto run = run_code(bakery, "2026-11-27", "3");
    const auto next = run_code(bakery, "2026-11-27", "2");
    CHECK_THAT(bakery.done({"change-run", next, "--day", "2026-11-28", "--batches", "4"}),
               Contains("2026-11-28 on Line 1, no. 1 there, 4 batches instead of 2"));
    CHECK_THAT(bakery.done({"give-lot", "W24-201", "--to", run}),
               Contains("300 kg of lot W24-201 given to run"));
    bakery.done({"plan", "--make"});
    CHECK_THAT(bakery.refused({"give-lot", "W24-201", "--from", run, "--to", next}),
               Contains("is locked to"));
    CHECK_THAT(bakery.refused({"give-lot", "W24-203", "--to", run}), Contains("nobody has judged it yet"));
    CHECK_THAT(bakery.refused({"change-run", "R-none", "--batches", "1"}), Contains("no run \"R-none\""));
    CHECK_THAT(bakery.refused({"change-run", run, "--batches", "2"}), Contains("are locked"));
}
