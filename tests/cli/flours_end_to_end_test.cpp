// Open data, end to end: the Canadian Grain Commission's harvest and export composites (grainscanada.gc.ca,
// 2013 to 2021), 56 flours, taken in as lots through the command line and read back.

#include "cli/command_line.h"
#include "support/catch.h"
#include "support/cgc_flours.h"
#include "terminal.h"

#include <nlohmann/json.hpp>

#include <filesystem>
#include <fstream>
#include <iterator>

using namespace mellowbin;
using tests::Terminal;

TEST_CASE("The 56 flours of an open table are taken in as lots, with their figures as printed") {
    const std::filesystem::path table = std::filesystem::path(MELLOWBIN_REFERENCE_DATA) / "flour_cgc.csv";
    std::ifstream file(table, std::ios::binary);
    if (!file) {
        WARN("the reference tables are not here: skipped");
        return;
    }
    const std::string bytes((std::istreambuf_iterator<char>(file)), {});
    Terminal terminal;
    terminal.write("plant.json", R"({"plant": "P", "mills": ["A", "B"],
        "flours": [{"name": "Canadian white", "class": "white"}],
        "places": [{"name": "Bay 1", "kind": "bay", "air": "breathable_bag"}]})");
    REQUIRE(terminal.on_book({"plant", terminal.file("plant.json")}) == cli::done);
    terminal.write("flours.csv", testing::certificates_of_cgc_flours(bytes));
    const int code = terminal.on_book({"take-in", terminal.file("flours.csv"), "--flour", "Canadian white",
                                       "--place", "Bay 1", "--mill", "A"});
    INFO(terminal.err);
    REQUIRE(code == cli::done);
    REQUIRE(terminal.on_book({"lots", "--json"}) == cli::done);
    const auto lots = nlohmann::json::parse(terminal.out);
    REQUIRE(lots.size() == 56);
    for (const auto& lot : lots) {
        INFO(lot.dump());
        CHECK(lot["protein_pct_14"] >= 11.0);
        CHECK(lot["absorption_pct_14"] >= 60.0);
    }
}
