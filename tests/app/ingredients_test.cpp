#include "app/acts/batches.h"
#include "app/acts/doughs.h"
#include "app/acts/give_lot.h"
#include "app/acts/ingredients.h"
#include "app/acts/looking.h"
#include "app/acts/settings.h"
#include "app/models/card.h"
#include "app/models/mixer.h"
#include "app/models/settings.h"
#include "dough_plant.h"
#include "support/iso.h"

#include <algorithm>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

namespace {

/// A run of plain loaves, whose dough has what a test says.
struct Doughs {
    SmallPlant plant{day_from_iso("2026-11-25"), tests::dosing_plant};
    RunId run;

    Doughs() {
        const auto lot = plant.released_lot(plant.draft("W24-118"));
        run = plant.add_run("Plain loaf", "2026-11-25", "6");
        done(GiveLot{lot, {}, run});
    }
    void done(const Intent& intent) { plant.done(intent); }
    void change(std::vector<IngredientDraft> rows) { done(ChangeIngredients{"Plain loaf", std::move(rows)}); }
    void undo() { plant.undo(); }
    /// kg by the meter.
    double water() {
        const auto card = plant.app().card_of(run);
        INFO((card.refusals.empty() ? card.water.note : in_words(card.refusals.front())));
        REQUIRE(card.water.value);
        return *card.water.value;
    }
    Figure figure(const std::string& label) {
        const auto card = plant.app().card_of(run);
        for (const auto* figures : {&card.ingredients, &card.figures})
            for (const auto& one : *figures)
                if (one.label == label)
                    return one;
        throw std::runtime_error("no figure " + label);
    }
    void mix(const std::string& water) {
        done(ConfirmBatch{run, {{}, water, "", "", "", "", "the dough asked for it"}});
        done(LogResult{plant.app().card_of(run).logged.front().id, {"", "", "right", "", "", ""}});
    }
    const DoughRow& row() {
        for (const auto& dough : plant.app().settings().doughs.doughs)
            if (dough.product == "Plain loaf")
                return dough;
        throw std::runtime_error("no plain loaf");
    }
};

const IngredientDraft salt{"Salt", "2", "", ""};
const IngredientDraft dry_egg{"Whole egg", "12", "", ""};
const IngredientDraft egg{"Whole egg", "12", "75", "4"};

} // namespace

TEST_CASE(
    "Ingredients of a dough never mixed take their water off the card's, and the card says how much of each "
    "is water") {
    Doughs at;
    at.change({salt});
    const double before = at.water();
    at.change({salt, egg});
    CHECK(before - at.water() == Approx(9).margin(0.11)); // 100 kg of flour, water told in 0.1 kg
    CHECK(*at.figure("Whole egg").value == Approx(12));
    CHECK_THAT(at.figure("Whole egg").note, Contains("9.0 kg of it water") && Contains("at 4.0 °C"));
    CHECK_THAT(at.figure("Salt").note, !Contains("water"));
    CHECK_THAT(at.plant.app().card_of(at.run).water.note, Contains("9.00 kg of it is in the ingredients"));
    CHECK(at.row().water_words ==
          "The ingredients bring 9.0 % of water on the flour; so much less is poured");
}

TEST_CASE(
    "A change of ingredients is journalled with the formula, taken back as it was, and stays in the book") {
    Doughs at;
    at.change({salt});
    const auto lines = at.plant.app().settings().journal.size();
    at.change({salt, egg});
    CHECK(at.plant.app().settings().journal.size() == lines + 1);
    CHECK(at.plant.said() == "Plain loaf: Salt 2 %, Whole egg 12 % (75 % water at 4.0 °C)");
    at.plant.open_again();
    REQUIRE(at.row().ingredients.size() == 2);
    CHECK(at.row().ingredients[1] == IngredientDraft{"Whole egg", "12", "75", "4.0"});
    at.change({salt});
    at.undo();
    CHECK(at.row().ingredients.size() == 2);
    at.change({salt, egg});
    CHECK(at.plant.said() == "Plain loaf: nothing was changed");
}

TEST_CASE("Said of ingredients mixed so far as if dry, their water changes nothing of what is poured") {
    Doughs at;
    at.change({salt, dry_egg});
    for (int batch = 0; batch < 3; ++batch)
        at.mix("48"); // the dough had enough with so little: the egg brought the rest
    const double learned = at.water();
    CHECK(learned < 55);
    at.change({salt, {"Whole egg", "12", "75", ""}});
    CHECK_THAT(at.plant.said(), Contains("its water against the farinograph is counted as"));
    CHECK(at.water() == Approx(learned).margin(0.11));
    at.undo();
    CHECK(at.water() == Approx(learned).margin(1e-9));
}

TEST_CASE("What is new in the dough takes its water off, also where batches have taught") {
    Doughs at;
    at.change({salt});
    for (int batch = 0; batch < 3; ++batch)
        at.mix("62");
    const double learned = at.water();
    at.change({salt, egg});
    CHECK(learned - at.water() == Approx(9).margin(0.11));
}

TEST_CASE("The water of the ingredients is among what a batch took, so that the next card asks for as much") {
    Doughs at;
    at.change({salt, egg});
    const double told = at.water();
    for (int batch = 0; batch < 3; ++batch)
        at.mix(std::to_string(told));
    CHECK(at.water() == Approx(told).margin(0.3));
}

TEST_CASE("Ingredients that cannot be are refused with every reason, and nothing is written") {
    Doughs at;
    at.change({salt});
    const auto lines = at.plant.app().settings().journal.size();
    const auto refused = [&](std::vector<IngredientDraft> rows) {
        at.plant.app().handle(ChangeIngredients{"Plain loaf", std::move(rows)});
        CHECK(at.plant.was_refused());
        return at.plant.refusals();
    };
    CHECK_THAT(refused({{"Egg", "12", "120", ""}, {"", "1", "", ""}}),
               Contains("Ingredient Egg, water: 120") && Contains("Ingredient 2: has no name"));
    CHECK_THAT(refused({{"Milk", "100", "88", ""}, {"Egg", "50", "75", ""}}),
               Contains("they bring 125.5 % of water on the flour"));
    CHECK_THAT(refused({salt, salt}), Contains("stands there twice"));
    at.plant.app().handle(ChangeIngredients{"Cake", {salt}});
    CHECK_THAT(at.plant.refusals(), Contains("Product: "));
    CHECK(at.plant.app().settings().journal.size() == lines);
    CHECK(at.row().ingredients.size() == 1);
}

TEST_CASE(
    "Ingredients that bring more water than the newest dough took in all are refused with both figures") {
    Doughs at;
    at.change({salt});
    at.mix("62");
    at.plant.app().handle(ChangeIngredients{"Plain loaf", {salt, {"Whole milk", "80", "88", ""}}});
    CHECK_THAT(at.plant.refusals(),
               Contains("they bring 70.4 % of water on the flour; the newest dough took 62.0 % in all"));
}

TEST_CASE("In a house of Fahrenheit the ingredient's temperature is typed and shown so") {
    Doughs at;
    at.done(ChangeSetting{"temperature_unit", "°F"});
    at.change({salt, {"Whole egg", "12", "usual", "39.2"}});
    CHECK(at.plant.app().settings().doughs.temperature_unit == "°F");
    CHECK(at.row().ingredients[1] == IngredientDraft{"Whole egg", "12", "76.2", "39.2"});
    CHECK_THAT(at.figure("Whole egg").note, Contains("at 39.2 °F"));
}
