#include "app/acts/batches.h"
#include "app/acts/doughs.h"
#include "app/acts/give_lot.h"
#include "app/acts/notice.h"
#include "app/acts/settings.h"
#include "app/acts/solutions.h"
#include "app/models/card.h"
#include "dough_plant.h"
#include "support/iso.h"

#include <algorithm>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

namespace {

/// A young lot on the line that pours its ascorbic acid from a stock solution.
struct Pouring {
    SmallPlant plant{day_from_iso("2026-11-25"), tests::dosing_plant};
    RunId run;

    Pouring() {
        plant.released_lot(tests::young_draft(plant, "W26-1"));
        run = plant.add_run("Pan bread", "2026-11-25", "2");
        plant.plan_week();
    }
    CardModel card() { return plant.app().card_of(run); }
    void does(const Intent& intent) { plant.app().handle(intent); }
};

} // namespace

TEST_CASE("A stock solution stands on the card with its strength, when it was made and until when it keeps") {
    Pouring at;
    CHECK(at.card().oxidant.unit == "g"); // where none is logged the card speaks grams alone
    CHECK(at.card().pours);
    CHECK(at.card().solution.empty());
    const double grams = at.card().oxidant.value.value();
    at.does(MakeSolution{"Ascorbic acid", "5", ""});
    INFO(at.plant.refusals());
    REQUIRE(at.plant.was_done());
    const auto card = at.card();
    CHECK_THAT(card.solution, Contains("5 g/L, made 12:00 by Tomas, until Thu 26 Nov, 12:00"));
    CHECK_FALSE(card.solution_is_past);
    CHECK(card.oxidant.unit == "mL");
    // mL = g / (g/L) x 1000: the millilitres and the grams of before are one dose, to the scale's step of 0.1
    // g.
    CHECK(card.oxidant.value.value() == Approx(grams / 5 * 1000).margin(1 + 0.05 / 5 * 1000));
    CHECK_THAT(card.oxidant.note, Contains("of stock solution 5 g/L, in which are"));
}

TEST_CASE("From a solution past its day nothing is poured: the card speaks grams, and so does the batch") {
    Pouring at;
    at.does(MakeSolution{"Ascorbic acid", "5", "12"});
    REQUIRE(at.plant.was_done());
    at.plant.open_again_on(day_from_iso("2026-11-26"));
    const auto card = at.card();
    CHECK(card.solution_is_past);
    CHECK(card.oxidant.unit == "g");
    const bool is_said =
        std::any_of(card.cautions.begin(), card.cautions.end(), [](const CardCaution& caution) {
            return caution.words.find("time is over") != std::string::npos;
        });
    CHECK(is_said);
    at.does(ConfirmBatch{at.run});
    INFO(at.plant.refusals());
    REQUIRE(at.plant.was_done());
    CHECK_THAT(at.card().logged[0].words, Contains("mg/kg") && !Contains("mL"));
}

TEST_CASE("No solution is made of what does not dissolve or is no chemical; one ten times as strong asks for "
          "a word") {
    for (const char* substance : {"azodicarbonamide", "calcium_peroxide", "glucose_oxidase"}) {
        std::string file = tests::dosing_plant;
        const auto at_oxidant = file.find("ascorbic_acid");
        file.replace(at_oxidant, std::string_view("ascorbic_acid").size(), substance);
        SmallPlant plant(day_from_iso("2026-11-25"), file);
        plant.app().handle(MakeSolution{std::string(name_of(*substance_from_key(substance))), "7.5", ""});
        REQUIRE(plant.was_refused());
        CHECK_THAT(plant.refusals(), Contains("Oxidant: ") && Contains("Weigh it in grams"));
    }
    Pouring at;
    at.does(MakeSolution{"Ascorbic acid", "75", ""});
    REQUIRE(at.plant.was_refused());
    CHECK_THAT(at.plant.refusals(), Contains("Reason: ") && Contains("75 g/L was read; 7.5 g/L on Line 1"));
    at.does(MakeSolution{"Ascorbic acid", "75", "", "stock for a dilution"});
    CHECK(at.plant.was_done());
    CHECK_THAT(at.plant.said(), Contains("75 g/L"));
}

TEST_CASE("A new solution takes the place of the one before; poured away it is gone, and undone it is back") {
    Pouring at;
    at.does(MakeSolution{"Ascorbic acid", "5", ""});
    at.does(MakeSolution{"Ascorbic acid", "7.5", ""});
    REQUIRE(at.plant.was_done());
    CHECK_THAT(at.card().solution, Contains("7.5 g/L"));
    REQUIRE(at.card().solution_id);
    at.does(EndSolution{*at.card().solution_id});
    CHECK(at.card().solution.empty());
    for (const auto& undo : Intents(at.plant.app().notice().undoing))
        at.does(undo);
    CHECK_THAT(at.card().solution, Contains("7.5 g/L"));
}

TEST_CASE(
    "A solution is refused field by field: another substance, a strength that is none, hours that are none") {
    Pouring at;
    at.does(MakeSolution{"Table salt", "nine", "0"});
    REQUIRE(at.plant.was_refused());
    for (const char* field : {"Oxidant: ", "Strength: ", "Keeps: "})
        CHECK_THAT(at.plant.refusals(), Contains(field));
}

TEST_CASE("A dose over the law is not taken for what went in, and the most that is permitted is told") {
    Pouring at;
    at.does(MakeSolution{"Ascorbic acid", "5", ""});
    at.does(ChangeDough{.product = "Pan bread", .house_maximum = "20"});
    const double told = at.card().oxidant.value.value();
    BatchDraft draft;
    draft.oxidant = std::to_string(static_cast<int>(told * 10)); // the decimal point slipped
    at.does(ConfirmBatch{at.run, draft});
    CHECK_THAT(at.plant.refusals(), Contains("Oxidant: ") && Contains("decimal point"));
    // Nearly five times the dose in a quarter of the flour: over the house's 20 mg/kg.
    draft.oxidant = std::to_string(static_cast<int>(told * 4.9));
    draft.flour = {{at.plant.lot("W26-1"), "25"}};
    draft.water = "15";
    at.does(ConfirmBatch{at.run, draft});
    INFO(told);
    CHECK_THAT(at.plant.refusals(), Contains("Oxidant: ") && Contains("permitted here"));
    CHECK(at.card().logged.empty());
}

TEST_CASE("By setting a second person's name goes with the oxidant, and not the first one's") {
    Pouring at;
    at.does(MakeSolution{"Ascorbic acid", "5", ""});
    at.does(ChangeSetting{"second_check", "yes"});
    at.does(ConfirmBatch{at.run});
    CHECK_THAT(at.plant.refusals(), Contains("Checked by: ") && Contains("second person"));
    BatchDraft draft;
    draft.checked_by = "Tomas";
    at.does(ConfirmBatch{at.run, draft});
    CHECK_THAT(at.plant.refusals(), Contains("Checked by: "));
    draft.checked_by = "Ines";
    at.does(ConfirmBatch{at.run, draft});
    REQUIRE(at.plant.was_done());
    CHECK_THAT(at.card().logged[0].words, Contains("checked by Ines"));
}

TEST_CASE(
    "The solution's water is part of the dough's: told water, ice and solution come to what is aimed at") {
    Pouring at;
    at.does(MakeSolution{"Ascorbic acid", "5", ""});
    const auto card = at.card();
    CHECK_THAT(card.water.note, Contains("the stock solution's"));
    at.does(ConfirmBatch{at.run});
    REQUIRE(at.plant.was_done());
    CHECK_THAT(at.card().logged[0].words, Contains("as " + shown(card.oxidant).value + " mL"));
}

TEST_CASE("What true oxidants of several lots oxidise together is told in milliequivalents, apart from the "
          "law's sum") {
    SmallPlant plant(day_from_iso("2026-11-25"), tests::dosing_plant);
    auto draft = tests::young_draft(plant, "W26-1");
    draft.mass_kg = "100";
    draft.mill_oxidant = "azodicarbonamide";
    draft.mill_oxidant_ppm = "10";
    auto other = tests::young_draft(plant, "W26-2");
    other.mass_kg = "100";
    other.mill_oxidant = "calcium_iodate";
    other.mill_oxidant_ppm = "8";
    const auto run = plant.add_run("Pan bread", "2026-11-25", "2");
    for (const auto& one : {draft, other}) {
        plant.app().handle(GiveLot{plant.released_lot(one), {}, run});
        REQUIRE(plant.was_done());
    }
    const auto card = plant.app().card_of(run);
    INFO((card.refusals.empty() ? "" : in_words(card.refusals.front())));
    const auto at = std::find_if(card.figures.begin(), card.figures.end(),
                                 [](const Figure& line) { return line.label == "Oxidants in all"; });
    REQUIRE(at != card.figures.end());
    // Azodicarbonamide 58.04 mg/meq, calcium iodate 33.99: by molar masses and electrons taken up, half of
    // the flour each. The bakery's ascorbic acid is no true oxidant and not among them.
    CHECK(card.oxidant.value.value() > 0);
    CHECK(at->value.value() == Approx(5 / 58.04 + 4 / 33.99).margin(0.001));
    CHECK_THAT(at->note, Contains("ascorbic acid is not among them"));
    CHECK_THAT(at->note, Contains("by mass"));
}
