#include "a_bakery.h"
#include "db/sqlite_connection.h"
#include "support/catch.h"

#include <fmt/format.h>

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

TEST_CASE("The verdict of a card stands in its text and its JSON, and confirm-batch does what it says") {
    Mixing at;
    CHECK_THAT(at.bakery.done({"card", at.run}), Contains("Mix: nothing stands against it"));
    CHECK(at.bakery.json({"card", at.run})[0]["verdict"]["ruling"] == "mix");
    at.bakery.done({"set", "scan_bags", "yes"});
    CHECK(at.bakery.json({"card", at.run})[0]["verdict"]["ruling"] == "answer_first");
    CHECK(at.bakery.json({"card", at.run})[0]["verdict"]["reasons"][0]["kind"] == "bags_not_scanned");
    CHECK_THAT(at.bakery.done({"card", at.run}), Contains("Answer first:") && Contains("0 of 1 scanned"));
    CHECK_THAT(at.bakery.refused({"confirm-batch", at.run}), Contains("Reason: is empty"));
    at.bakery.done({"confirm-batch", at.run, "--reason", "label torn"});
    CHECK_THAT(at.bakery.done({"batches", at.run}), Contains("mixed all the same: label torn"));
    CHECK_THAT(at.bakery.done({"journal"}), Contains("label torn"));
}

TEST_CASE(
    "A scan of the command line counts for a later confirm-batch, and a wrong bag stops it until cleared") {
    Mixing at;
    at.bakery.done({"set", "scan_bags", "yes"});
    at.bakery.done({"scan-bag", at.run, "W24-201"});
    at.bakery.done({"confirm-batch", at.run});
    at.bakery.refused({"scan-bag", at.run, "W24-999"});
    at.bakery.done({"scan-bag", at.run, "W24-201"}); // all right ones were scanned after it
    at.bakery.refused({"scan-bag", at.run, "W24-998"});
    const auto card = at.bakery.json({"card", at.run})[0];
    CHECK(card["verdict"]["ruling"] == "do_not_mix");
    CHECK(card["verdict"]["reasons"].size() == 1); // the one before was put right
    CHECK_THAT(at.bakery.refused({"confirm-batch", at.run, "--reason", "I looked"}),
               Contains("Do not mix: Lot W24-998"));
    at.bakery.refused({"clear-bags", at.run, "--by", "Ines", "--reason", " "});
    at.bakery.done({"clear-bags", at.run, "--by", "Ines", "--reason", "never opened"});
    at.bakery.done({"confirm-batch", at.run});
    CHECK_THAT(at.bakery.done({"journal"}), Contains("W24-998") && Contains("cleared by Ines: never opened"));
}

TEST_CASE("A lot held after the card was drawn is refused by confirm-batch with who may lift it") {
    Mixing at;
    at.bakery.done({"hold", "W24-201", "--reason", "smells of oil"});
    CHECK_THAT(at.bakery.refused({"confirm-batch", at.run}),
               Contains("smells of oil") && Contains("quality staff"));
    CHECK_THAT(at.bakery.refused({"confirm-batch", at.run, "--reason", "no other flour"}),
               Contains("W24-201"));
}

TEST_CASE("The levers of a run are printed side by side, and as JSON") {
    Mixing at;
    at.bakery.done({"change-dough", "Pan bread", "--process", "sponge", "--longest-fermentation", "300"});
    const auto text = at.bakery.done({"remedies", at.run});
    for (const char* lever : {"Wait: ", "Blend: ", "Oxidant: ", "Longer fermentation: ", "Water: "})
        CHECK_THAT(text, Contains(lever));
    const auto json = at.bakery.json({"remedies", at.run});
    CHECK(json["remedies"].size() == 5);
    CHECK(json["remedies"][0]["remedy"] == "Wait");
}

TEST_CASE("A run is fermented longer, which card and plan say in words and in JSON, and as usual again") {
    Mixing at;
    CHECK_THAT(at.bakery.refused({"ferment-longer", at.run, "25"}), Contains("not calibrated"));
    at.bakery.done({"change-dough", "Pan bread", "--longest-fermentation", "90", "--gain-an-hour", "12"});
    CHECK_THAT(at.bakery.refused({"ferment-longer", at.run, "31"}), Contains("may ferment at most 90"));
    CHECK_THAT(at.bakery.refused({"ferment-longer", "R-none", "25"}), Contains("no run \"R-none\""));
    CHECK_THAT(at.bakery.done({"ferment-longer", at.run, "25"}),
               Contains("Run " + at.run + " ferments 25 min longer, 85 min in all"));
    CHECK_THAT(at.bakery.done({"card", at.run}), Contains("85 min: 60 and 25 longer for strength"));
    const auto card = at.bakery.json({"card", at.run})[0];
    CHECK(card["fermentation"] == "85 min");
    CHECK(card["fermentation_why"] == "60 and 25 longer for strength");
    CHECK(card["fermentation_minutes"] == 85);
    CHECK(card["longer_fermentation_minutes"] == 25);
    CHECK_THAT(at.bakery.done({"plan"}), Contains("fermented 85 min: 60 and 25 longer for strength"));
    const auto run = at.bakery.json({"plan"})["runs"][0];
    CHECK(run["longer_fermentation_minutes"] == 25);
    CHECK(run["fermentation"] == "85 min: 60 and 25 longer for strength");
    CHECK(run["maturity_target"].get<double>() == Approx(0.45)); // 0.5 less 25 min at 0.12 an hour
    CHECK_THAT(at.bakery.done({"journal"}), Contains("ferments 25 min longer"));
    at.bakery.done({"ferment-longer", at.run, "0"});
    CHECK(at.bakery.json({"card", at.run})[0]["longer_fermentation_minutes"] == 0);
    CHECK(at.bakery.json({"plan"})["runs"][0]["fermentation"] == "");
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
    CHECK_THAT(text,
               Contains("1. Clean first") && Contains("mould seen") &&
                   Contains("2. Then sour the dough: 10.5 % of the acid works at pH 5.80") &&
                   Contains("Amylase holds staling off: what it does here is measured as firmness (common "
                            "practice, no source)"));
    CHECK(at.bakery.json({"keeping", "Pan bread"})["records"].size() == 1);
    at.bakery.done({"withdraw-keeping", "1", "--reason", "another product"});
    CHECK(at.bakery.json({"keeping", "Pan bread"})["advice"].empty());
}

TEST_CASE("The ingredients of a dough are shown and changed from the command line, and the card counts their "
          "water") {
    Mixing at;
    at.bakery.done({"change-ingredients", "Pan bread", "--set", "Salt=2"});
    const double before = at.bakery.json({"card", at.run})[0]["water_kg"];
    CHECK_THAT(at.bakery.done({"change-ingredients", "Pan bread", "--set", "Whole egg=12:usual:4"}),
               Contains("Whole egg 12 % (76.2 % water at 4.0 °C)"));
    const double after = at.bakery.json({"card", at.run})[0]["water_kg"];
    CHECK(before - after == Approx(9.14).margin(0.11));
    CHECK_THAT(at.bakery.done({"card", at.run}), Contains("9.1 kg of it water"));
    CHECK_THAT(at.bakery.done({"ingredients", "Pan bread"}), Contains("Whole egg") && Contains("76.2"));
    const auto json = at.bakery.json({"ingredients", "Pan bread"});
    REQUIRE(json["ingredients"].size() == 2);
    CHECK(json["ingredients"][1]["water_percent"] == "76.2");
    at.bakery.done({"change-ingredients", "Pan bread", "--off", "whole egg"});
    CHECK(at.bakery.json({"card", at.run})[0]["water_kg"] == before);
}

TEST_CASE("The ready figures of water are listed with their sources") {
    Mixing at;
    CHECK_THAT(at.bakery.done({"ingredients"}), Contains("Compressed yeast") && Contains("from memory"));
    CHECK(at.bakery.json({"ingredients"})[0]["name"] == "Whole egg");
}

TEST_CASE("Ingredients that cannot be are refused on stderr with what was read") {
    Mixing at;
    CHECK_THAT(at.bakery.refused({"change-ingredients", "Pan bread", "--set", "Egg=12:120"}),
               Contains("Ingredient Egg, water: 120"));
    CHECK_THAT(at.bakery.refused({"change-ingredients", "Pan bread", "--set", "Egg"}),
               Contains("NAME=AMOUNT:WATER:TEMPERATURE is expected"));
    CHECK_THAT(at.bakery.refused({"change-ingredients", "Pan bread", "--set", "Egg=1:2:3:4"}),
               Contains("more than amount, water and temperature"));
    CHECK_THAT(at.bakery.refused({"change-ingredients", "Pan bread", "--off", "Gravel"}),
               Contains("\"Gravel\" is not in Pan bread"));
    CHECK_THAT(at.bakery.refused({"ingredients", "Cake"}), Contains("Product: \"Cake\" is not in the book"));
}

TEST_CASE("On the command line plan, card and levers of a run say one dose to the digit") {
    Mixing at;
    const auto dose_on_plan = [&]() -> nlohmann::json {
        const auto plan = at.bakery.json({"plan"});
        for (const auto& run : plan["runs"])
            if (run["run"] == at.run)
                return run["oxidant_mg_per_kg"];
        return {};
    };
    const auto agree = [&] {
        const auto card = at.bakery.json({"card", at.run})[0];
        const auto levers = at.bakery.json({"remedies", at.run});
        REQUIRE(card["oxidant_mg_per_kg"].is_number());
        CHECK(dose_on_plan() == card["oxidant_mg_per_kg"]);
        CHECK(levers["oxidant_mg_per_kg"] == card["oxidant_mg_per_kg"]);
        return card["oxidant_mg_per_kg"].get<double>();
    };
    agree();
    for (const auto& [dose, size] : {std::pair{"0", "2000"}, {"20", "2150"}, {"40", "2140"}, {"60", "2050"}})
        at.bakery.done({"log-bake", "W24-201", "--oxidant", "Ascorbic acid", "--dose", dose, "--size", size});
    const double by_bakes = agree();
    CHECK(by_bakes > 10);
    const auto digits = fmt::format("{:.2f} mg/kg", by_bakes);
    CHECK_THAT(at.bakery.done({"plan"}), Contains(digits));
    CHECK_THAT(at.bakery.done({"card", at.run}), Contains(digits));
    CHECK_THAT(at.bakery.done({"remedies", at.run}), Contains(digits));
}

TEST_CASE("bakes tells the flour's own best dose, and what each product's law leaves of it beside it") {
    Mixing at;
    for (const auto& [dose, size] :
         {std::pair{"0", "2000"}, {"100", "2150"}, {"200", "2290"}, {"300", "2420"}})
        at.bakery.done({"log-bake", "W24-201", "--oxidant", "Ascorbic acid", "--dose", dose, "--size", size});
    const auto said = at.bakery.done({"bakes", "W24-201"});
    CHECK_THAT(said, Contains("Best at 300 mg/kg") && !Contains("Bake 0.0 mg/kg next") &&
                         Contains("Pan bread: up to 60 mg/kg, less than the loaves would like") &&
                         Contains("not for sale as that product"));
    const auto ladder = at.bakery.json({"bakes", "W24-201"})[0];
    REQUIRE(ladder["permits"].size() == 1);
    CHECK(ladder["permits"][0]["room_mg_per_kg"] == 60);
    CHECK(ladder["permits"][0]["cut"] == true);
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
