#include "a_bakery.h"
#include "cli/certificate_command.h"
#include "cli/command_line.h"
#include "support/catch.h"
#include "support/small_workbook.h"

#include <fstream>
#include <iterator>

using namespace mellowbin;
using Catch::Matchers::Contains;
using tests::ABakery;

namespace {

constexpr const char* heads = "Charge\tMenge kg\tFeuchtigkeit %\tProtein %\tFallzahl s\n";

/// A certificate of Weir Mill, in German, tabs between its columns: of protein it says no basis.
std::string certificate(const std::string& lot, const std::string& protein = "12,4") {
    return heads + lot + "\t1000\t13,9\t" + protein + "\t320\n";
}

std::vector<std::string> take_in(const std::string& file, const std::vector<std::string>& more = {}) {
    std::vector<std::string> words{"take-in", file,           "--mill",  "Weir Mill",
                                   "--flour", "Strong white", "--place", "Bay 1"};
    words.insert(words.end(), more.begin(), more.end());
    return words;
}

std::string bytes_of(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

} // namespace

TEST_CASE("What words mean is taken apart into meaning, unit, basis, method and nitrogen factor") {
    const auto said =
        cli::read_label_said("Feuchtkleber i. Tr. = wet gluten; unit=%; basis=14 %; method=ICC 155");
    REQUIRE(said);
    CHECK(said->label == "feuchtkleber i tr");
    CHECK(said->means == "wet_gluten");
    CHECK(said->unit == "%");
    CHECK(said->basis == "14 %");
    CHECK(said->method == "ICC 155");
    CHECK(cli::read_label_said("Eiweiß=Protein; n=5,7")->nitrogen_factor == "5,7");
    CHECK(cli::read_label_said("Farbe=left out")->means == "left_out");
    for (const char* wrong :
         {"", "Farbe", "=protein", "Farbe=colour", "Farbe=protein;shade=2", "Farbe=protein;2"}) {
        INFO(wrong);
        CHECK_FALSE(cli::read_label_said(wrong));
    }
}

TEST_CASE("A certificate is printed beside its source, what is asked is refused with its place, nothing is "
          "taken in") {
    ABakery bakery;
    bakery.terminal.write("weir.txt", certificate("W24-300"));
    const auto lines = bakery.journal_lines();
    CHECK(bakery.terminal.on_book(take_in(bakery.terminal.file("weir.txt"))) == cli::not_done);
    CHECK_THAT(bakery.terminal.out,
               Contains("Feuchtigkeit") && Contains("Moisture") && Contains("13,9") && Contains("line 2"));
    CHECK_THAT(bakery.terminal.err, Contains("line 2") && Contains("--answer \"basis:") &&
                                        Contains("nothing was taken in; with --confirm"));
    CHECK(bakery.terminal.on_book(take_in(bakery.terminal.file("weir.txt"), {"--confirm"})) == cli::not_done);
    CHECK_THAT(bakery.terminal.err, Contains("nothing was taken in"));
    CHECK(bakery.journal_lines() == lines);
}

TEST_CASE("The first certificate of a mill is answered and confirmed, the second needs no answer") {
    ABakery bakery;
    bakery.terminal.write("first.txt", certificate("W24-300"));
    const auto file = bakery.terminal.file("first.txt");
    bakery.done(take_in(file, {"--map", "Protein %=protein; basis=14 %", "--confirm"}));
    CHECK_THAT(bakery.terminal.out, Contains("Lot W24-300 taken in"));
    CHECK_THAT(bakery.terminal.err, Contains("words of Weir Mill learned"));
    CHECK_THAT(bakery.done({"lot", "W24-300"}), Contains("Certificate: first.txt, line 2, kept"));
    CHECK_THAT(bakery.json({"lot", "W24-300"})["certificate_source"].get<std::string>(),
               Contains("first.txt"));

    bakery.terminal.write("second.txt", certificate("W24-301"));
    CHECK(bakery.terminal.on_book(take_in(bakery.terminal.file("second.txt"))) == cli::not_done);
    CHECK_THAT(bakery.terminal.err, !Contains("--answer"));
    bakery.done(take_in(bakery.terminal.file("second.txt"), {"--confirm"}));
    CHECK_THAT(bakery.done({"lots"}), Contains("W24-301"));
}

TEST_CASE("What was piped in is read as pasted, and is saved again as it came") {
    ABakery bakery;
    bakery.terminal.in = certificate("W24-300");
    bakery.done(take_in("-", {"--map", "Protein %=protein; basis=14 %", "--confirm"}));
    const auto to = bakery.terminal.file("again.txt");
    bakery.done({"save-certificate", "W24-300", "--to", to});
    CHECK(bytes_of(to) == certificate("W24-300"));
    CHECK_THAT(bakery.refused({"save-certificate", "W24-300", "--to", to}), Contains("is there already"));
}

TEST_CASE("A lot of a file with our own heads has that file to save") {
    ABakery bakery;
    const auto to = bakery.terminal.file("again.csv");
    bakery.done({"save-certificate", "W24-201", "--to", to});
    CHECK(bytes_of(to) == bytes_of(bakery.terminal.file("lots.csv")));
}

TEST_CASE(
    "A spreadsheet's faults are named by their cells, whole file or nothing, or the good lots by choice") {
    ABakery bakery;
    bakery.terminal.write("weir.xlsx", tests::small_workbook({{"Lot number", "Weight kg", "Moisture %"},
                                                              {"W24-300", "1000", "13.9"},
                                                              {"W24-301", "1000", "=C2+1"}}));
    const auto file = bakery.terminal.file("weir.xlsx");
    CHECK(bakery.terminal.on_book(take_in(file, {"--confirm"})) == cli::not_done);
    CHECK_THAT(bakery.terminal.err, Contains("C3") && Contains("nothing was taken in"));
    CHECK_THAT(bakery.done({"lots"}), !Contains("W24-300"));
    CHECK(bakery.terminal.on_book(take_in(file, {"--confirm", "--only-what-is-good"})) == cli::not_done);
    CHECK_THAT(bakery.terminal.err, Contains("C3"));
    CHECK_THAT(bakery.done({"lots"}), Contains("W24-300") && !Contains("W24-301"));
}

TEST_CASE("What stands against a lot of a certificate is refused before anything is kept, and comes in with "
          "a reason") {
    ABakery bakery;
    const std::string text = "Charge\tMenge kg\tMHD\tFeuchtigkeit %\nW24-300\t1000\t2026-11-01\t13,9\n";
    bakery.terminal.write("weir.txt", text);
    const auto file = bakery.terminal.file("weir.txt");
    const auto lines = bakery.journal_lines();
    CHECK(bakery.terminal.on_book(take_in(file, {"--confirm"})) == cli::not_done);
    CHECK_THAT(bakery.terminal.err, Contains("Best before") && Contains("which is over"));
    CHECK(bakery.journal_lines() == lines);
    bakery.done(take_in(file, {"--confirm", "--accept", "for the feed trial"}));
    CHECK_THAT(bakery.done({"lots"}), Contains("W24-300"));
}

TEST_CASE("A certificate as JSON has each value beside its source, what is asked, and the lots") {
    ABakery bakery;
    bakery.terminal.write("weir.txt", certificate("W24-300"));
    CHECK(bakery.terminal.on_book(take_in(bakery.terminal.file("weir.txt"), {"--json"})) == cli::not_done);
    const auto json = nlohmann::json::parse(bakery.terminal.out, nullptr, false);
    REQUIRE_FALSE(json.is_discarded());
    CHECK(json["certificate"] == "weir.txt");
    CHECK(json["mill"] == "Weir Mill");
    REQUIRE(json["lots"].size() == 1);
    CHECK(json["lots"][0]["lot"] == "W24-300");
    CHECK(json["lots"][0]["good"] == false);
    bool has_moisture = false;
    for (const auto& value : json["values"])
        if (value["understood"] == "Moisture") {
            has_moisture = true;
            CHECK(value["label"].get<std::string>().starts_with("Feuchtigkeit"));
            CHECK(value["text"].get<std::string>().starts_with("13,9"));
            CHECK(value["value"] == "13.9");
            CHECK(value["unit"] == "%");
        }
    CHECK(has_moisture);
    REQUIRE_FALSE(json["asked"].empty());
    CHECK(json["asked"][0]["kind"] == "basis");
}

TEST_CASE("A mill's words are listed, changed and forgotten") {
    ABakery bakery;
    CHECK_THAT(bakery.done({"mill-words", "Weir Mill"}), Contains("No words of this mill are known yet"));
    bakery.done({"mill-words", "Weir Mill", "--map", "Feuchtkleber=wet gluten; basis=dm; method=ICC 155"});
    CHECK_THAT(bakery.terminal.out,
               Contains("Weir Mill, on certificates: Feuchtkleber: Wet gluten, dry matter, ICC 155"));
    const auto words = bakery.json({"mill-words", "Weir Mill"});
    REQUIRE(words.size() == 1);
    CHECK(words[0]["words"] == "Feuchtkleber");
    CHECK(words[0]["means"] == "wet_gluten");
    CHECK(words[0]["basis"] == "dry matter");
    bakery.done({"mill-words", "Weir Mill", "--map", "Feuchtkleber=wet gluten; basis=14 %"});
    CHECK(bakery.json({"mill-words", "Weir Mill"})[0]["basis"] == "14 % moisture");
    CHECK_THAT(bakery.refused({"mill-words", "Weir Mill", "--map", "Feuchtkleber=wet gluten; basis=moist"}),
               Contains("Basis"));
    CHECK_THAT(bakery.refused({"mill-words", "Weir Mill", "--forget", "Farbe"}), Contains("Farbe"));
    bakery.done({"mill-words", "Weir Mill", "--forget", "Feuchtkleber"});
    CHECK(bakery.json({"mill-words", "Weir Mill"}).empty());
    CHECK_THAT(bakery.refused({"mill-words", "No Mill"}), Contains("\"No Mill\" is not in the book"));
}

TEST_CASE("A meaning or an answer that cannot be read is refused with its form") {
    ABakery bakery;
    bakery.terminal.write("weir.txt", certificate("W24-300"));
    const auto file = bakery.terminal.file("weir.txt");
    CHECK_THAT(bakery.refused(take_in(file, {"--map", "Protein"})), Contains("--map: \"Protein\" was read"));
    CHECK_THAT(bakery.refused(take_in(file, {"--answer", "basis"})),
               Contains("--answer: \"basis\" was read"));
    CHECK_THAT(bakery.refused(take_in(bakery.terminal.file("gone.pdf"))), Contains("cannot be read"));
}
