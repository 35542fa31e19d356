#include "a_bakery.h"
#include "cli/command_line.h"
#include "support/catch.h"
#include "support/fixture_file.h"
#include "support/pdf_tools.h"

#include <filesystem>

using namespace mellowbin;
using Catch::Matchers::Contains;
using tests::ABakery;

TEST_CASE("Each paper is printed into a file by one command") {
    ABakery bakery;
    const auto file = bakery.terminal.file("paper.pdf");
    const auto text = [&](std::vector<std::string> words) {
        words.insert(words.begin(), "print");
        words.insert(words.end(), {"--to", file});
        CHECK_THAT(bakery.done(words), Contains(file));
        return tests::text_of(testing::file_bytes(file));
    };
    CHECK_THAT(text({"pallet-label", "W24-201"}), Contains("(10) W24-201"));
    CHECK_THAT(
        text({"pallet-label", "W24-201", "--paper", "105x178", "--gtin", "09521234543213", "--kg", "900"}),
        Contains("(01) 09521234543213") && Contains("(3103) 900000"));
    CHECK_THAT(text({"bag-label", "Weir Mill/W24-201"}), Contains("W24-201"));
    CHECK_THAT(text({"stock"}), Contains("W24-206") && Contains("Counted kg"));
    CHECK_THAT(text({"test-bakes", "W24-202"}), Contains("Test bakes of lot W24-202"));
    CHECK_THAT(text({"plan"}), Contains("Plan, Wed 25 Nov to Wed 25 Nov"));
    CHECK_THAT(text({"plan", "--days", "7", "--paper", "letter"}), Contains("to Tue 01 Dec"));
}

TEST_CASE("A print command says what is missing or not known, and writes nothing") {
    ABakery bakery;
    const auto file = bakery.terminal.file("paper.pdf");
    CHECK(bakery.terminal.on_book({"print", "stock"}) == cli::bad_usage);
    CHECK_THAT(bakery.terminal.err, Contains("--to or --printer"));
    CHECK_THAT(bakery.refused({"print", "poster", "--to", file}),
               Contains("\"poster\" is none. Choose one of: pallet-label, bag-label, card, plan, stock"));
    CHECK_THAT(bakery.refused({"print", "card", "--to", file}), Contains("Name a run"));
    CHECK_THAT(bakery.refused({"print", "card", "R-9", "--to", file}),
               Contains("\"R-9\" is not in the book"));
    CHECK_THAT(bakery.refused({"print", "stock", "W24-201", "--to", file}),
               Contains("leave \"W24-201\" out"));
    CHECK_THAT(bakery.refused({"print", "delivery", "two", "--to", file}), Contains("\"two\" is no number"));
    CHECK_THAT(bakery.refused({"print", "bag-label", "W24-201", "--to", file, "--paper", "a5"}),
               Contains("\"a5\" is none"));
    CHECK_THAT(bakery.refused({"print", "stock", "--to", bakery.terminal.book()}),
               Contains("is no printed paper"));
    CHECK_FALSE(std::filesystem::exists(file));
}

TEST_CASE("A printer that is not there is named, and the file that was asked for is there all the same") {
    ABakery bakery;
    const auto file = bakery.terminal.file("paper.pdf");
    const auto said = bakery.refused({"print", "stock", "--to", file, "--printer", "no-such-queue-here"});
    CHECK_THAT(said, Contains("Printer: ") &&
                         (Contains("which is not on this machine") || Contains("no-such-queue-here")));
    CHECK(std::filesystem::exists(file));
}
