#include "app/acts/batches.h"
#include "app/acts/lots.h"
#include "app/acts/notice.h"
#include "app/models/card.h"
#include "small_plant.h"
#include "support/catch.h"

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

namespace {

/// A plant with one released lot planned into two batches of pan bread today.
struct TodaysRun {
    SmallPlant plant;
    RunId run;

    explicit TodaysRun(LotDraft (*change)(LotDraft) = [](LotDraft d) { return d; }) {
        plant.released_lot(change(plant.draft("W24-118")));
        run = plant.add_run("Pan bread", "2026-11-25", "2");
        plant.plan_week();
    }
    CardModel card() { return plant.app().card_of(run); }
};

} // namespace

TEST_CASE("The card gives one batch: flour in bags, water by the certificate, the doughs' aims") {
    TodaysRun today;
    const auto card = today.card();
    REQUIRE(card.refusals.empty());
    CHECK(card.batch == 1);
    CHECK(card.batches == 2);
    CHECK(card.flour_kg == 100);
    REQUIRE(card.lots.size() == 1);
    CHECK(card.lots[0].bags == 4);
    CHECK(card.lots[0].loose_kg == 0);
    // 60 % at 14 % moisture on flour of 14 % is 60 kg on 100 kg: water.md's mass balance at its fixed point.
    CHECK(card.water.value.value() == Approx(60));
    CHECK(card.dough_temperature.value.value() == Approx(27));
    // Factor method: 3 x 27 - (room 22 + flour 20 + friction 24) = 15 °C, the tap's own temperature: no ice.
    CHECK(card.water_temperature.value.value() == Approx(15));
    CHECK(card.ice.value.value() == 0);
}

TEST_CASE("Drier flour gets more water, on the mixer's scale as well") {
    TodaysRun today([](LotDraft d) {
        d.figure(Property::moisture).value = "12";
        return d;
    });
    // A14 60 at 12 % moisture is 63.721 kg per 100 kg (exact balance), rounded to the line's 0.1 kg.
    CHECK(today.card().water.value.value() == Approx(63.7));
}

TEST_CASE("Confirming a batch takes its flour from stock, and the button puts it back") {
    TodaysRun today;
    today.plant.app().handle(ConfirmBatch{today.run});
    CHECK(today.plant.row("W24-118").stock_kg == 900);
    CHECK(today.card().batch == 2);
    const Intents undo = today.plant.app().notice().undoing;
    for (const auto& intent : undo)
        today.plant.app().handle(intent);
    CHECK(today.plant.row("W24-118").stock_kg == 1000);
    CHECK(today.card().batch == 1);
}

TEST_CASE("After the last batch the run is finished, and another batch is refused") {
    TodaysRun today;
    today.plant.app().handle(ConfirmBatch{today.run});
    today.plant.app().handle(ConfirmBatch{today.run});
    CHECK(today.card().is_finished);
    today.plant.app().handle(ConfirmBatch{today.run});
    CHECK(today.plant.was_refused());
    CHECK(today.plant.row("W24-118").stock_kg == 800);
}

TEST_CASE("A lot held after the plan was made stops the card, and nothing can be confirmed") {
    TodaysRun today;
    today.plant.app().handle(HoldLot{today.plant.lot("W24-118"), "smells musty"});
    const auto card = today.card();
    REQUIRE_FALSE(card.refusals.empty());
    CHECK_THAT(in_words(card.refusals.front()), Contains("W24-118"));
    today.plant.app().handle(ConfirmBatch{today.run});
    CHECK(today.plant.was_refused());
    CHECK(today.plant.row("W24-118").stock_kg == 1000);
}

TEST_CASE("A card without the lot's absorption says so instead of a figure") {
    TodaysRun today([](LotDraft d) {
        d.figure(Property::absorption).value = "";
        return d;
    });
    const auto card = today.card();
    CHECK_FALSE(card.water.value);
    CHECK_THAT(card.water.note, Contains("W24-118"));
    CHECK_FALSE(card.lots.empty());
}

TEST_CASE("A young lot's card tells the oxidant with its law and the caution beside it") {
    TodaysRun today([](LotDraft d) {
        d.milled_on = "2026-11-03";
        d.delivered_on = "2026-11-06";
        return d;
    });
    const auto card = today.card();
    REQUIRE(card.refusals.empty());
    CHECK(card.oxidant.label == "Ascorbic acid");
    CHECK(card.oxidant.unit == "g");
    CHECK(card.oxidant.value.value() > 0);
    CHECK_THAT(card.oxidant.note, Contains("Canada") && Contains("exact"));
    CHECK_FALSE(card.cautions.empty());
}
