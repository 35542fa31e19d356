#include "a_bakery.h"
#include "cli/command_line.h"
#include "cli/result_words.h"
#include "support/catch.h"

using namespace mellowbin;
using Catch::Matchers::Contains;
using tests::ABakery;

TEST_CASE("A result is taken apart into property, value, basis and method, with comma or point") {
    const auto figure = cli::read_result("glutathione=105,5 @ 14 % moisture @ in-house");
    REQUIRE(figure);
    CHECK(figure->property == Property::glutathione);
    CHECK(figure->value == "105,5");
    CHECK(figure->basis == "14 % moisture");
    CHECK(figure->method == "in-house");
    const auto named = cli::read_result(" Glutathione, Reduced = 105.5@as is");
    REQUIRE(named);
    CHECK(named->property == Property::glutathione);
    CHECK(named->value == "105.5");
    CHECK(named->basis == "as is");
    CHECK(named->method.empty());
    const auto without_basis = cli::read_result("stability=14.5 @ @ lab@home");
    REQUIRE(without_basis);
    CHECK(without_basis->basis.empty());
    CHECK(without_basis->method == "lab@home");
}

TEST_CASE("A result in another form is refused, saying what is expected") {
    const auto words = [](const char* typed) { return in_words(cli::read_result(typed).refusals().front()); };
    CHECK_THAT(words("glutathione 105"), Contains("PROPERTY=VALUE [@ BASIS [@ METHOD]] is expected"));
    CHECK_THAT(words("softness=105"),
               Contains("\"softness\"") && Contains("Choose one of: moisture, protein"));
    CHECK_THAT(words("glutathione= @ as is"), Contains("Glutathione, reduced: no value was read"));
    CHECK_THAT(words(""), Contains("is expected"));
}

TEST_CASE("Two retests of a lot count as evidence and move its ready date; taken back, it moves back") {
    ABakery bakery;
    const auto before = bakery.json({"lot", "W24-201"});
    bakery.retest("W24-201", "2026-11-02", "extensograph_resistance=300,5");
    const auto logged =
        bakery.json({"retest", "Weir Mill/W24-201", "--place", "Bay 1", "--note", "second bag", "--result",
                     "Extensograph resistance=400", "--result", "moisture=13,2 @ as is"});
    CHECK_THAT(logged["words"].get<std::string>(),
               Contains("W24-201 of 2026-11-25") && Contains("400 EU") && Contains("ready on"));
    const auto story = bakery.json({"lot", "W24-201"});
    CHECK(story["ready_on"] < before["ready_on"]);
    REQUIRE(story["tests"].size() == 4); // the absorption of the certificate, too
    CHECK(story["tests"][0]["value"] == 300.5);
    CHECK(story["tests"][0]["taken_on"] == "2026-11-02");
    CHECK(story["tests"][1]["place"] == "Bay 1");
    CHECK(story["tests"][1]["counts"] == true);
    CHECK(story["tests"][3]["property"] == "moisture");
    CHECK(story["tests"][3]["counts"] == false);
    CHECK(story["moisture_pct"] == Approx(13.2));
    CHECK(story["courses"][0]["days"].size() == story["maturity"].size());
    const auto readiness = bakery.json({"readiness"});
    CHECK(readiness["lots"][0]["tests_counted"] == 2);
    CHECK(readiness["lots"][1]["tests_counted"] == 0);

    const auto number = std::to_string(logged["retest"].get<int>());
    CHECK_THAT(bakery.done({"lot", "W24-201"}),
               Contains("Tests\n") && Contains(number + "  2026-11-25  Extensograph resistance") &&
                   Contains("400 EU"));
    CHECK_THAT(bakery.done({"withdraw-retest", "W24-201", number, "--reason", "wrong bag"}),
               Contains("withdrawn: wrong bag"));
    CHECK(bakery.json({"lot", "W24-201"})["ready_on"] == before["ready_on"]);
    CHECK_THAT(bakery.refused({"withdraw-retest", "W24-201", number, "--reason", "again"}),
               Contains("Retest: no. " + number + " is no standing retest of lot W24-201"));
}

TEST_CASE("A retest that cannot be is refused with field and what is expected, and nothing is written") {
    ABakery bakery;
    const auto before = bakery.journal_lines();
    const auto retest = [&](const char* day, std::vector<std::string> results) {
        std::vector<std::string> words{"retest", "W24-201", "--day", day};
        for (auto& result : results)
            words.insert(words.end(), {"--result", result});
        return bakery.refused(words);
    };
    CHECK_THAT(
        retest("2026-10-29", {"stability=12"}),
        Contains("Taken on: 2026-10-29 was read, which is before the milling of lot W24-201 on 2026-10-30"));
    CHECK_THAT(retest("2026-11-26", {"stability=12"}),
               Contains("Taken on") && Contains("after today, 2026-11-25"));
    CHECK_THAT(retest("soon", {"stability=12"}), Contains("Taken on") && Contains("a date such as"));
    CHECK_THAT(retest("2026-11-20", {"stability=0"}),
               Contains("Stability: 0 was read; above 0, up to 90 min"));
    CHECK_THAT(retest("2026-11-20", {"stability=-4"}), Contains("Stability") && Contains("-4"));
    CHECK_THAT(retest("2026-11-20", {"stability=long"}), Contains("Stability") && Contains("long"));
    CHECK_THAT(retest("2026-11-20", {"stability=12 @ 14 % moisture", "stability=13"}),
               Contains("stands twice"));
    CHECK_THAT(retest("2026-11-20", {"glutathione=105"}), Contains("without its moisture basis"));
    // All reasons at once.
    CHECK_THAT(retest("2026-10-01", {"stability=0", "glutathione=105"}),
               Contains("Taken on") && Contains("Stability") && Contains("Glutathione"));
    CHECK_THAT(retest("2026-11-20", {"softness=1", "stability"}),
               Contains("\"softness\"") && Contains("\"stability\" was read"));
    CHECK_THAT(bakery.refused({"retest", "W24-201", "--place", "Attic", "--result", "stability=12"}),
               Contains("Place: \"Attic\" is not known. Choose one of: Bay 1, Bay 2"));
    CHECK_THAT(bakery.refused({"retest", "W24-999", "--result", "stability=12"}),
               Contains("\"W24-999\" is not in the book"));
    CHECK(bakery.terminal.on_book({"retest", "W24-201"}) == cli::bad_usage);
    CHECK(bakery.terminal.on_book({"withdraw-retest", "W24-201", "one", "--reason", "x"}) == cli::bad_usage);
    CHECK(bakery.terminal.on_book({"withdraw-retest", "W24-201", "1"}) == cli::bad_usage);
    CHECK(bakery.journal_lines() == before);
    CHECK(bakery.json({"lot", "W24-201"})["tests"].size() == 1);
}

TEST_CASE("Of two retests by different methods the one that is not the newest's is shown as set aside") {
    ABakery bakery;
    bakery.retest("W24-201", "2026-11-03", "stability=9.5 @ @ another house");
    bakery.retest("W24-201", "2026-11-10", "stability=12 @ @ ICC 115/1");
    bakery.retest("W24-201", "2026-11-24", "stability=13 @ @ ICC 115/1");
    const auto text = bakery.done({"lot", "W24-201"});
    CHECK_THAT(text, Contains("set aside: another method than the newest retest: ICC 115/1"));
    const auto tests = bakery.json({"lot", "W24-201"})["tests"];
    REQUIRE(tests.size() == 4);
    CHECK(tests[0]["method"] == "another house");
    CHECK(tests[0]["counts"] == false);
    CHECK(tests[1]["counts"] == true);
    CHECK(tests[2]["counts"] == true);
    CHECK(bakery.json({"readiness"})["lots"][0]["tests_counted"] == 2);
}

TEST_CASE("A result far from what the others predict asks for a check, and still counts") {
    ABakery bakery;
    bakery.retest("W24-201", "2026-11-03", "extensograph resistance=300");
    bakery.retest("W24-201", "2026-11-12", "extensograph resistance=305");
    const auto said =
        bakery.done({"retest", "W24-201", "--day", "2026-11-24", "--result", "extensograph resistance=560"});
    CHECK_THAT(said, Contains("Check Extensograph resistance"));
    CHECK_THAT(bakery.done({"lot", "W24-201"}), Contains("CHECK: counts, but check it"));
    const auto row = bakery.json({"readiness"})["lots"][0];
    CHECK(row["check"] == true);
    CHECK(row["tests_counted"] == 3);
    CHECK_THAT(bakery.done({"readiness"}), Contains("3 check"));
}
