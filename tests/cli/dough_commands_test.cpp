#include "a_bakery.h"
#include "db/sqlite_connection.h"
#include "support/catch.h"

#include <algorithm>

using namespace mellowbin;
using Catch::Matchers::Contains;
using tests::ABakery;

namespace {

/// The bakery with a run of two batches of pan bread today, from lot W24-201.
struct Mixing {
    ABakery bakery;
    std::string run;

    Mixing() {
        for (int i = 201; i <= 206; ++i)
            bakery.done({"release", "W24-" + std::to_string(i)});
        const auto said = bakery.done({"add-run", "--product", "Pan bread", "--line", "Line 1", "--day",
                                       "2026-11-25", "--batches", "2"});
        const auto at = said.find("R26");
        run = said.substr(at, said.find(' ', at) - at);
        bakery.done({"give-lot", "W24-201", "--to", run});
    }
};

} // namespace

TEST_CASE("A batch is confirmed with what went in, spoken of, shown and countered from the command line") {
    Mixing at;
    CHECK_THAT(at.bakery.done({"batches", at.run}), Contains("No batch of run"));
    at.bakery.done({"confirm-batch", at.run, "--flour", "W24-201=98,5", "--water", "60"});
    at.bakery.done({"log-result", at.run, "--dough-temperature", "26.5", "--feel", "stiff", "--ph", "5,5"});
    CHECK_THAT(at.bakery.done({"batches", at.run}),
               Contains("batch 1") && Contains("98.5 kg") && Contains("26.5 °C, pH 5.50, stiff"));
    auto rows = at.bakery.json({"batches", at.run});
    REQUIRE(rows.size() == 1);
    CHECK(rows[0]["countered"] == false);
    at.bakery.done({"counter-batch", at.run, "--reason", "not mixed"});
    rows = at.bakery.json({"batches", at.run});
    CHECK(rows[0]["countered"] == true);
    CHECK_THAT(at.bakery.done({"card", at.run}), Contains("Batch 1 of 2"));
}

TEST_CASE("What cannot have gone in is refused on stderr with its field") {
    Mixing at;
    CHECK_THAT(at.bakery.refused({"confirm-batch", at.run, "--water", "much"}), Contains("Water: "));
    at.bakery.refused({"confirm-batch", at.run, "--flour", "W24-201"});
    at.bakery.done({"confirm-batch", at.run});
    CHECK_THAT(at.bakery.refused({"log-result", at.run, "--dough-temperature", "260", "--ph", "14"}),
               Contains("Dough temperature: ") && Contains("pH: "));
    CHECK_THAT(at.bakery.refused({"scan-bag", at.run, "W24-999"}), Contains("STOP"));
    CHECK_THAT(at.bakery.done({"scan-bag", at.run, "W24-201"}), Contains("is right"));
}

TEST_CASE("The levers of a run are printed side by side, and as JSON") {
    Mixing at;
    at.bakery.done({"change-dough", "Pan bread", "--process", "sponge", "--longest-fermentation", "300"});
    const auto text = at.bakery.done({"levers", at.run});
    for (const char* lever : {"Wait: ", "Blend: ", "Oxidant: ", "Longer fermentation: ", "Water: "})
        CHECK_THAT(text, Contains(lever));
    const auto json = at.bakery.json({"levers", at.run});
    CHECK(json["levers"].size() == 5);
    CHECK(json["levers"][0]["lever"] == "Wait");
}

TEST_CASE("A bake ladder is logged, read as the lot's dose, and a loaf withdrawn") {
    Mixing at;
    for (const auto& [dose, size] : {std::pair{"0", "2000"}, {"20", "2150"}, {"40", "2140"}, {"60", "2050"}})
        at.bakery.done({"log-bake", "W24-201", "--oxidant", "Ascorbic acid", "--dose", dose, "--size", size});
    CHECK_THAT(at.bakery.done({"bakes", "W24-201"}), Contains("Best at ") && Contains("Bake "));
    const auto json = at.bakery.json({"bakes", "W24-201"});
    REQUIRE(json.size() == 1);
    CHECK(json[0]["loaves"].size() == 4);
    at.bakery.done({"withdraw-bake", "4", "--reason", "burnt"});
    CHECK(at.bakery.json({"bakes", "W24-201"})[0]["loaves"][0]["withdrawn"] == true);
    CHECK_THAT(at.bakery.refused(
                   {"log-bake", "W24-201", "--oxidant", "Ascorbic acid", "--dose", "-5", "--size", "2000"}),
               Contains("Dose: "));
}

TEST_CASE("How a product keeps is logged and printed") {
    Mixing at;
    at.bakery.done({"log-keeping", "Pan bread", "--record", "mould", "--baked-on", "2026-11-20", "--days",
                    "4", "--finding", "mould", "--ph", "5.8"});
    at.bakery.done({"change-dough", "Pan bread", "--preservative-dose", "0.3"});
    const auto text = at.bakery.done({"keeping", "Pan bread"});
    CHECK_THAT(text, Contains("Clean first") && Contains("mould seen") && Contains("pH 5.80 is above 5.6"));
    CHECK(at.bakery.json({"keeping", "Pan bread"})["records"].size() == 1);
    at.bakery.done({"withdraw-keeping", "1", "--reason", "another product"});
    CHECK(at.bakery.json({"keeping", "Pan bread"})["advice"].empty());
}

TEST_CASE("A stock solution is made and told on the card's JSON") {
    Mixing at;
    CHECK_THAT(at.bakery.done({"make-solution", "Ascorbic acid", "--strength", "7,5"}), Contains("7.5 g/L"));
    CHECK_THAT(at.bakery.refused({"make-solution", "Sugar", "--strength", "1"}), Contains("Oxidant: "));
}

TEST_CASE(
    "What the doughs taught is checked, and made anew by a command where it is not what the batches say") {
    Mixing at;
    {
        SqliteConnection book(at.bakery.terminal.book());
        for (int id = 1; id <= 300; ++id) {
            book.execute(
                "INSERT INTO batch (id, run_id, number, at, who, checked_by, water_kg, ice_kg, dose_ppm, "
                "poured_ml, farinograph_pct, absorption_pct, note) "
                "VALUES ($1, 1, $1, '2026-11-25T06:00:00Z', 'Ada', '', 62, 0, 0, 0, 61, 63, '')",
                {id});
            book.execute("INSERT INTO batch_flour (batch_id, position, lot_id, mass_g) VALUES ($1, 0, 1, 1)",
                         {id});
        }
    }
    at.bakery.done({"readiness"}); // whatever looks at the book keeps what it learned
    CHECK_THAT(at.bakery.done({"check"}), Contains("sound"));
    {
        SqliteConnection book(at.bakery.terminal.book());
        CHECK(book.execute("UPDATE belief_mark SET state = REPLACE(state, '\"mean\":[', '\"mean\":[1')") ==
              1);
    }
    CHECK_THAT(at.bakery.refused({"check"}), Contains("up to batch") && Contains("doughs-anew"));
    CHECK_THAT(at.bakery.done({"doughs-anew"}), Contains("made anew from every batch"));
    CHECK_THAT(at.bakery.done({"check"}), Contains("sound"));
}
