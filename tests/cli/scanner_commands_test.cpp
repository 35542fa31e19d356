#include "a_bakery.h"
#include "cli/command_line.h"
#include "support/catch.h"

#include <nlohmann/json.hpp>

using namespace mellowbin;
using Catch::Matchers::Contains;
using tests::ABakery;

namespace {

// As it is printed beneath the symbol of the test, with the separator as a scanner sends it.
const std::string before = "]d2010952123454321310AaBbMmQqWwXxYyZz0678", after = "21!\"%&'()*+,-./:;<=>?_";

} // namespace

TEST_CASE("A scan on standard input says how the scanner is set, and what is wrong ends with 1") {
    ABakery bakery;
    auto& terminal = bakery.terminal;
    terminal.in = before + "\x1d" + after + "\r\n";
    CHECK(terminal.on_book({"scanner-test"}) == cli::done);
    CHECK_THAT(terminal.out, Contains("Separator: arrives") && Contains("is sent: ]d2"));

    terminal.in = before + "~" + after + "\n";
    CHECK(terminal.on_book({"scanner-test", "--json"}) == cli::not_done);
    const auto json = nlohmann::json::parse(terminal.out);
    CHECK(json["separator_to_set"] == "~");
    CHECK(json["lines"][0]["what"] == "Separator");
    CHECK(json["lines"][0]["standing"] == "wrong");

    terminal.in = before + "~" + after + "\n";
    CHECK(terminal.on_book({"scanner-test", "--set-separator"}) == cli::done);
    terminal.in = before + "~" + after + "\n";
    CHECK(terminal.on_book({"scanner-test"}) == cli::done);
    CHECK(terminal.on_book({"scanner-test"}) == cli::not_done);
    CHECK_THAT(terminal.err, Contains("nothing was read"));
}

TEST_CASE("The symbol to be scanned can be drawn in the terminal") {
    ABakery bakery;
    bakery.terminal.in = "x\n";
    CHECK(bakery.terminal.on_book({"scanner-test", "--draw"}) == cli::not_done);
    CHECK_THAT(bakery.terminal.out, Contains("█") && Contains("none of the test symbols"));
}

TEST_CASE("A label is read as Intake reads it, and a lost separator is asked about") {
    ABakery bakery;
    auto& terminal = bakery.terminal;
    CHECK(terminal.on_book({"read-scan", "(00)095201234500000014(15)270500(10)FL-1(400)PO-4711", "--json"}) ==
          cli::done);
    const auto json = nlohmann::json::parse(terminal.out);
    CHECK(json["lot"] == "FL-1");
    CHECK(json["best_before"] == "2027-05-31");
    CHECK(json["sscc"] == "095201234500000014");
    CHECK(json["order"] == "PO-4711");
    CHECK(json["count"].is_null());

    const std::string lost = "]C1010952123454321310FL-240917A15270531";
    CHECK(terminal.on_book({"read-scan", lost}) == cli::not_done);
    CHECK_THAT(terminal.err, Contains("--whole") && Contains("Lot FL-240917A, best before 2027-05-31"));
    CHECK(terminal.on_book({"read-scan", lost, "--parted"}) == cli::done);
    CHECK_THAT(terminal.out, Contains("2027-05-31"));
    CHECK(terminal.on_book({"read-scan", "]C10109521234543219"}) == cli::not_done);
    CHECK_THAT(terminal.err, Contains("check digit"));
}
