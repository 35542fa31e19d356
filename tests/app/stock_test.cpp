#include "app/acts/batches.h"
#include "app/acts/looking.h"
#include "app/acts/notice.h"
#include "app/acts/stock.h"
#include "app/models/card.h"
#include "app/models/lots.h"
#include "small_plant.h"
#include "support/catch.h"

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

namespace {

PlaceId place(SmallPlant& plant, const std::string& name) {
    for (const auto& [id, known] : plant.app().lots().places)
        if (known == name)
            return id;
    return {};
}

/// A lot of 1000 kg of which a batch of 100 kg went into a run of three.
struct FlourOutOfStock {
    SmallPlant plant;
    LotId lot;
    RunId run;

    FlourOutOfStock() {
        lot = plant.released_lot(plant.draft("W24-118"));
        run = plant.add_run("Pan bread", "2026-11-25", "3");
        plant.plan_week();
        plant.app().handle(ConfirmBatch{run, {}, 0});
        INFO(plant.refusals());
        REQUIRE(plant.was_done());
    }
    void brings_back(const char* kg, std::optional<RunId> from = {},
                     const char* reason = "one bag was not tipped") {
        plant.app().handle(GiveBack{lot, place(plant, "Bay 2"), kg, from, reason});
    }
    const LotSheet& sheet() {
        plant.app().handle(OpenLot{lot});
        return *plant.app().lots().opened;
    }
    double stock() { return plant.row("W24-118").stock_kg; }
    void undo() {
        for (const auto& intent : Intents(plant.app().notice().undoing))
            plant.app().handle(intent);
        INFO(plant.refusals());
        REQUIRE(plant.was_done());
    }
};

} // namespace

TEST_CASE("Flour moved leaves one place and lies in the other, to the gram") {
    SmallPlant plant;
    const LotId lot = plant.released_lot(plant.draft("W24-118"));
    plant.app().handle(MoveLot{lot, place(plant, "Bay 1"), place(plant, "Bay 2"), "250,5"});
    CHECK(plant.was_done());
    plant.app().handle(OpenLot{lot});
    const auto& places = plant.app().lots().opened->places;
    REQUIRE(places.size() == 2);
    CHECK(places[0].kg == 749.5);
    CHECK(places[1].kg == 250.5);
}

TEST_CASE("No place gives more than it holds, and the message says how much lies there") {
    SmallPlant plant;
    const LotId lot = plant.released_lot(plant.draft("W24-118"));
    plant.app().handle(MoveLot{lot, place(plant, "Bay 1"), place(plant, "Bay 2"), "1000.5"});
    CHECK(plant.was_refused());
    CHECK_THAT(plant.refusals(), Contains("only 1000.000 kg"));
    CHECK(plant.row("W24-118").places == "Bay 1");
}

TEST_CASE("A count corrects the book by a line of its own, and can be taken back") {
    SmallPlant plant;
    const LotId lot = plant.released_lot(plant.draft("W24-118"));
    plant.app().handle(CountLot{lot, place(plant, "Bay 1"), "975", " one bag was torn "});
    CHECK_THAT(plant.said(), Contains("25.0 kg less than booked: one bag was torn"));
    CHECK(plant.row("W24-118").stock_kg == 975);
    for (const auto& intent : Intents(plant.app().notice().undoing))
        plant.app().handle(intent);
    CHECK(plant.row("W24-118").stock_kg == 1000);
    plant.app().handle(OpenLot{lot});
    CHECK(plant.app().lots().opened->movements.size() == 3);
}

TEST_CASE(
    "A count that differs is refused without a reason, and with one the reason stands in the lot's history") {
    SmallPlant plant;
    const LotId lot = plant.released_lot(plant.draft("W24-118"));
    plant.app().handle(CountLot{lot, place(plant, "Bay 1"), "975", " "});
    CHECK_THAT(plant.refusals(),
               Contains("Reason: is empty, and 975.0 kg counted are not the 1000.0 kg booked"));
    CHECK(plant.row("W24-118").stock_kg == 1000);
    plant.app().handle(CountLot{lot, place(plant, "Bay 1"), "1000", ""});
    CHECK_THAT(plant.said(), Contains("as the book says"));
    plant.app().handle(CountLot{lot, place(plant, "Bay 1"), "975", "one bag was torn"});
    plant.open_again();
    plant.app().handle(OpenLot{lot});
    const auto& sheet = *plant.app().lots().opened;
    CHECK_THAT(sheet.history.back().words, Contains("than booked: one bag was torn"));
    CHECK_THAT(sheet.movements.back().words,
               Contains("counted 975.0 kg, booked 1000.0 kg: one bag was torn"));
}

TEST_CASE(
    "A released lot with nothing left is used up, and comes back when the last movement is taken back") {
    SmallPlant plant;
    const LotId lot = plant.released_lot(plant.draft("W24-118"));
    plant.app().handle(WasteLot{lot, place(plant, "Bay 1"), "1000", "torn bags, wet"});
    CHECK(plant.row("W24-118").state == LotState::used_up);
    for (const auto& intent : Intents(plant.app().notice().undoing))
        plant.app().handle(intent);
    CHECK(plant.row("W24-118").state == LotState::released);
    CHECK(plant.row("W24-118").stock_kg == 1000);
}

TEST_CASE("Waste without a reason, or of a weight that is none, is refused with both reasons") {
    SmallPlant plant;
    const LotId lot = plant.released_lot(plant.draft("W24-118"));
    plant.app().handle(WasteLot{lot, place(plant, "Bay 1"), "abc", " "});
    CHECK_THAT(plant.refusals(), Contains("Weight: \"abc\" was read"));
    CHECK_THAT(plant.refusals(), Contains("Reason: is empty"));
}

TEST_CASE("Flour that was taken out and not mixed comes back to a place, less of it is used, and the batches "
          "stay") {
    FlourOutOfStock at;
    CHECK(at.stock() == 900);
    REQUIRE(at.sheet().out.size() == 1);
    CHECK(at.sheet().out[0].kg == 100);
    at.brings_back("25,5");
    CHECK_THAT(at.plant.said(),
               Contains("25.5 kg of lot W24-118 back into Bay 2 from run R261125-1-1: one bag was "
                        "not tipped"));
    at.plant.open_again();
    CHECK(at.stock() == 925.5);
    CHECK(at.sheet().out[0].kg == 74.5);
    CHECK(at.sheet().places.back().name == "Bay 2");
    CHECK_THAT(at.sheet().movements.back().words, Contains("return: 25.5 kg into Bay 2 for run R261125-1-1"));
    CHECK_THAT(at.sheet().history.back().words, Contains("back into Bay 2"));
    CHECK(at.plant.app().card_of(at.run).batch == 2);
}

TEST_CASE("More than was used of the lot never comes back, by returns or by batches taken back") {
    FlourOutOfStock at;
    at.brings_back("100.001");
    CHECK_THAT(at.plant.refusals(),
               Contains("Weight: 100.001 kg was read, but only 100.000 kg of the lot is out for the run"));
    at.brings_back("60");
    at.brings_back("60");
    CHECK_THAT(at.plant.refusals(), Contains("only 40.000 kg"));
    const auto batch = at.plant.app().card_of(at.run).logged.front().id;
    at.plant.app().handle(CounterBatch{batch, "not mixed"});
    CHECK_THAT(at.plant.refusals(),
               Contains("only 40.000 kg") && Contains("Take back first what was returned"));
    CHECK(at.stock() == 960);
}

TEST_CASE("A return is taken back by a second line, and then the batch can be, too") {
    FlourOutOfStock at;
    at.brings_back("60");
    at.undo();
    CHECK(at.stock() == 900);
    at.plant.app().handle(CounterBatch{at.plant.app().card_of(at.run).logged.front().id, "not mixed"});
    INFO(at.plant.refusals());
    REQUIRE(at.plant.was_done());
    CHECK(at.stock() == 1000);
    at.brings_back("1");
    CHECK_THAT(at.plant.refusals(), Contains("has no flour out"));
}

TEST_CASE(
    "A lot that was used up is released again when some of it comes back, and used up when that is undone") {
    FlourOutOfStock at;
    at.plant.app().handle(WasteLot{at.lot, place(at.plant, "Bay 1"), "900", "wet"});
    CHECK(at.plant.row("W24-118").state == LotState::used_up);
    at.brings_back("40");
    REQUIRE(at.plant.was_done());
    CHECK(at.plant.row("W24-118").state == LotState::released);
    at.undo();
    CHECK(at.plant.row("W24-118").state == LotState::used_up);
}

TEST_CASE("A return without a weight, a place or a reason is refused with every reason, and of a lot that is "
          "out for "
          "two runs without saying which") {
    FlourOutOfStock at;
    at.plant.app().handle(GiveBack{at.lot, PlaceId{99}, "some", {}, " "});
    CHECK_THAT(at.plant.refusals(), Contains("Weight: \"some\" was read") && Contains("To: is no place") &&
                                        Contains("Reason: is empty"));
    const RunId other = at.plant.add_run("Plain loaf", "2026-11-25", "2");
    at.plant.plan_week();
    at.plant.app().handle(ConfirmBatch{other, {}, 0});
    INFO(at.plant.refusals());
    REQUIRE(at.plant.was_done());
    at.brings_back("10");
    CHECK_THAT(at.plant.refusals(),
               Contains("Run: is empty, and the lot is out for more than one: R261125-1-1 "
                        "(100.0 kg), R261125-1-2 (100.0 kg)"));
    at.brings_back("10", other);
    CHECK(at.plant.was_done());
    REQUIRE(at.sheet().out.size() == 2);
    CHECK(at.sheet().out[1].kg == 90);
}
