#include "app/book/setup.h"
#include "cli/command_line.h"
#include "support/catch.h"
#include "terminal.h"

#include <nlohmann/json.hpp>

#include <filesystem>
#include <sstream>

using namespace mellowbin;
using Catch::Matchers::Contains;
using tests::Terminal;

namespace {

constexpr const char* plant = R"({
  "plant": "Small plant", "mills": ["Weir Mill"],
  "flours": [{"name": "Strong white", "class": "white", "windows": [{"property": "protein", "low": 11.5, "high": 14}]}],
  "places": [{"name": "Bay 1", "kind": "bay", "air": "breathable_bag", "temperature_c": 20},
             {"name": "Bay 2", "kind": "bay", "air": "breathable_bag", "temperature_c": 20}],
  "lines": [{"name": "Line 1", "friction_factor_c": 24}],
  "products": [{"name": "Pan bread", "flour": "Strong white", "market": "Canada", "food": "bread",
                "windows": [{"property": "protein", "low": 11.8, "high": 13.4}], "maturity_target": 0.85,
                "oxidant": "ascorbic_acid", "house_maximum_ppm": 60, "batch_flour_kg": 100}]})";

constexpr const char* two_lots =
    "lot number;mill;flour;place;milled on;delivered on;weight kg;bag kg;moisture %;protein % (14 % "
    "moisture);"
    "absorption % (14 % moisture);falling number s\n"
    "W24-118;Weir Mill;Strong white;Bay 1;2026-06-01;2026-06-05;1000;25;13,6;12,5;61,0;330\n"
    "W24-119;Weir Mill;Strong white;Bay 1;2026-06-02;2026-06-05;800;25;13,4;12,7;61,4;335\n";

void set_up(Terminal& terminal) {
    terminal.write("plant.json", plant);
    REQUIRE(terminal.on_book({"plant", terminal.file("plant.json")}) == cli::done);
}

} // namespace

TEST_CASE("From a certificate file to the mixer's card, all by the command line") {
    Terminal terminal;
    set_up(terminal);
    terminal.write("lots.csv", two_lots);
    REQUIRE(terminal.on_book({"take-in", terminal.file("lots.csv")}) == cli::done);
    CHECK(terminal.out == "Lots W24-118, W24-119 taken in\n");
    REQUIRE(terminal.on_book({"release", "W24-118"}) == cli::done);
    REQUIRE(terminal.on_book({"lots"}) == cli::done);
    CHECK_THAT(terminal.out, Contains("W24-118") && Contains("Released") && Contains("In quarantine"));
    REQUIRE(terminal.on_book({"readiness"}) == cli::done);
    CHECK_THAT(terminal.out, Contains("ready") && Contains("2026-11-25"));
    REQUIRE(terminal.on_book({"add-run", "--product", "Pan bread", "--line", "Line 1", "--day", "2026-11-25",
                              "--batches", "3"}) == cli::done);
    REQUIRE(terminal.on_book({"plan", "--make"}) == cli::done);
    CHECK_THAT(terminal.out, Contains("300.0 kg  W24-118:"));
    REQUIRE(terminal.on_book({"card", "R261125-1-1"}) == cli::done);
    CHECK_THAT(terminal.out, Contains("WATER") && Contains("Batch 1 of 3") && Contains("W24-118"));
    REQUIRE(terminal.on_book({"confirm-batch", "R261125-1-1"}) == cli::done);
    REQUIRE(terminal.on_book({"journal"}) == cli::done);
    CHECK_THAT(terminal.out, Contains("tester: Run R261125-1-1: batch 1 of 3 mixed, 100.0 kg flour"));
}

TEST_CASE("Every command that shows something gives JSON when asked") {
    Terminal terminal;
    set_up(terminal);
    terminal.write("lots.csv", two_lots);
    REQUIRE(terminal.on_book({"take-in", terminal.file("lots.csv")}) == cli::done);
    REQUIRE(terminal.on_book({"release", "W24-118"}) == cli::done);
    REQUIRE(terminal.on_book({"add-run", "--product", "Pan bread", "--line", "Line 1", "--day", "2026-11-25",
                              "--batches", "3"}) == cli::done);
    const auto read = [&](std::vector<std::string> words) {
        words.push_back("--json");
        INFO(words.front());
        REQUIRE(terminal.on_book(words) == cli::done);
        const auto json = nlohmann::json::parse(terminal.out, nullptr, false);
        REQUIRE_FALSE(json.is_discarded());
        return json;
    };
    CHECK(read({"plan", "--make"})["runs"][0]["lots"][0]["lot"] == "W24-118");
    const auto lots = read({"lots"});
    REQUIRE(lots.size() == 2);
    CHECK(lots[1]["lot"] == "W24-118");
    CHECK(lots[1]["protein_pct_14"] == 12.5);
    CHECK(lots[1]["stock_kg"] == 1000);
    CHECK(read({"readiness"})["lots"].size() == 2);
    CHECK(read({"card", "R261125-1-1"})[0]["flour_kg"] == 100);
    CHECK(read({"journal"}).size() >= 4);
    CHECK(read({"limits"}).size() > 20);
}

TEST_CASE(
    "A certificate file with a fault is refused whole, each fault with its line; the rest can be asked for") {
    Terminal terminal;
    set_up(terminal);
    terminal.write("lots.csv", "lot number,mill,flour,place,weight kg,moisture %\n"
                               "A-1,Weir Mill,Strong white,Bay 1,1000,13.5\n"
                               "A-2,Weir Mill,Strong white,Bay 1,1000,140\n");
    CHECK(terminal.on_book({"take-in", terminal.file("lots.csv")}) == cli::not_done);
    CHECK(terminal.out.empty());
    CHECK_THAT(terminal.err, Contains("3") && Contains("Moisture") && Contains("140"));
    REQUIRE(terminal.on_book({"lots", "--json"}) == cli::done);
    CHECK(terminal.out == "[]\n");
    CHECK(terminal.on_book({"take-in", terminal.file("lots.csv"), "--only-what-is-good"}) == cli::not_done);
    CHECK(terminal.out == "Lot A-1 taken in\n");
    CHECK_THAT(terminal.err, Contains("140"));
}

TEST_CASE("Words that are off end with exit code 2, refusals with 1, and reasons go to stderr") {
    Terminal terminal;
    CHECK(terminal.type({"no-such-command"}) == cli::bad_usage);
    CHECK(terminal.type({}) == cli::bad_usage);
    CHECK(terminal.type({"lots", "--nonsense"}) == cli::bad_usage);
    CHECK(terminal.on_book({"card"}) == cli::bad_usage);
    CHECK(terminal.type({"--help"}) == cli::done);
    CHECK_THAT(terminal.out, Contains("take-in"));
    set_up(terminal);
    CHECK(terminal.on_book({"release", "NONE"}) == cli::not_done);
    CHECK(terminal.out.empty());
    CHECK_THAT(terminal.err, Contains("\"NONE\" is not in the book"));
    CHECK(terminal.type({"lots", "--book", terminal.book(), "--today", "25.11.2026"}) == cli::not_done);
    CHECK_THAT(terminal.err, Contains("a date such as 2026-11-25"));
}

TEST_CASE("A reading command makes no book where there is none") {
    Terminal terminal;
    CHECK(terminal.on_book({"lots"}) == cli::not_done);
    CHECK_THAT(terminal.err, Contains("there is no book"));
    CHECK_FALSE(std::filesystem::exists(terminal.book()));
}

TEST_CASE("A file that is no book is left as it is") {
    Terminal terminal;
    terminal.write("book.mbook", "shopping list: yeast, salt\n");
    CHECK(terminal.on_book({"lots"}) == cli::not_done);
    CHECK_FALSE(terminal.err.empty());
    CHECK(std::filesystem::file_size(terminal.book()) == 27);
}

TEST_CASE("A plant file with faults names each by its path") {
    Terminal terminal;
    terminal.write("plant.json", R"({"plant": "P", "mills": [""], "flours": [{"name": "F", "class": "beige"}],
        "products": [{"name": "X", "flour": "G", "market": "Canada", "food": "bread",
                      "windows": [{"property": "protein", "low": 14, "high": 12}]}]})");
    CHECK(terminal.on_book({"plant", terminal.file("plant.json")}) == cli::not_done);
    CHECK_THAT(terminal.err, Contains("mills[0]") && Contains("flours[0].class") && Contains("beige"));
    CHECK_THAT(terminal.err,
               Contains("products[0].windows[0]") && Contains("products[0].flour: \"G\" is not known"));
}

TEST_CASE("The book's plant is written as a file that puts the same plant into another book") {
    Terminal terminal;
    terminal.write("plant.json", plant);
    REQUIRE(terminal.on_book({"plant", terminal.file("plant.json")}) == cli::done);
    REQUIRE(terminal.on_book({"set", "warm_flour", "32"}) == cli::done);
    REQUIRE(terminal.on_book({"plant", "--out", terminal.file("out.json")}) == cli::done);
    CHECK_THAT(terminal.out, Contains("out.json"));
    for (const auto& words : {std::vector<std::string>{"plant"}, {"plant", "--out", "-"}}) {
        REQUIRE(terminal.on_book(words) == cli::done);
        CHECK_THAT(terminal.out,
                   Contains("\"plant\": \"Small plant\"") && Contains("\"warm_flour\": \"32\""));
    }
    const auto written = terminal.out;
    CHECK(terminal.type({"plant", terminal.file("out.json"), "--book", terminal.file("other.mbook")}) ==
          cli::done);
    CHECK(terminal.type({"plant", "--book", terminal.file("other.mbook")}) == cli::done);
    CHECK(terminal.out == written);
    CHECK(terminal.on_book({"plant", "--out", terminal.file("no/such/folder.json")}) == cli::not_done);
    CHECK_THAT(terminal.err, Contains("cannot be written"));
    CHECK(terminal.on_book({"plant", terminal.file("out.json"), "--out", "-"}) == cli::bad_usage);
    CHECK(terminal.type({"plant", "--book", terminal.file("none.mbook")}) == cli::not_done);
    CHECK_FALSE(std::filesystem::exists(terminal.file("none.mbook")));
}

TEST_CASE("The window is opened on a book that is not there yet, and makes none by itself") {
    Terminal terminal;
    std::ostringstream out, err;
    std::string opened;
    cli::World world{out,
                     err,
                     terminal.file("home"),
                     "",
                     "tester",
                     [&](const app::AppSetup& setup, const cli::WindowWish&) {
                         opened = setup.book;
                         return cli::done;
                     }};
    CHECK(cli::run({"window", "--book", terminal.book()}, world) == cli::done);
    CHECK(opened == terminal.book());
    CHECK_FALSE(std::filesystem::exists(terminal.book()));
    CHECK(cli::run({"window"}, world) == cli::done);
    CHECK_THAT(opened, Contains("plant.mbook"));
    CHECK_FALSE(std::filesystem::exists(terminal.file("home")));
}

TEST_CASE("The demo book is made once, and plan and cards of today can be printed from it") {
    Terminal terminal;
    REQUIRE(terminal.on_book({"demo"}) == cli::done);
    CHECK(terminal.on_book({"demo"}) == cli::not_done);
    REQUIRE(terminal.on_book({"plan", "--days", "14"}) == cli::done);
    CHECK_THAT(terminal.out, Contains("Shortages") && Contains("SHORT"));
    REQUIRE(terminal.on_book({"card", "--today-all"}) == cli::done);
    CHECK_THAT(terminal.out, Contains("Pan bread on Line 1") && Contains("WATER") && Contains("Mind:"));
    REQUIRE(terminal.on_book({"check"}) == cli::done);
    REQUIRE(terminal.on_book({"copy", terminal.file("copy.mbook")}) == cli::done);
    CHECK(terminal.type({"lots", "--book", terminal.file("copy.mbook"), "--today", "2026-11-25"}) ==
          cli::done);
}
