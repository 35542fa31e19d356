#include "app/acts/looking.h"
#include "app/acts/notice.h"
#include "app/acts/stock.h"
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
    plant.app().handle(CountLot{lot, place(plant, "Bay 1"), "975"});
    CHECK_THAT(plant.said(), Contains("25.0 kg less than booked"));
    CHECK(plant.row("W24-118").stock_kg == 975);
    for (const auto& intent : Intents(plant.app().notice().undoing))
        plant.app().handle(intent);
    CHECK(plant.row("W24-118").stock_kg == 1000);
    plant.app().handle(OpenLot{lot});
    CHECK(plant.app().lots().opened->movements.size() == 3);
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
    plant.app().handle(WasteLot{lot, place(plant, "Bay 1"), "abc", ""});
    CHECK_THAT(plant.refusals(), Contains("Weight: \"abc\" was read"));
    CHECK_THAT(plant.refusals(), Contains("Reason: is empty"));
}
