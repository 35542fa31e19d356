#include "app/acts/intake.h"
#include "app/acts/looking.h"
#include "app/acts/lots.h"
#include "app/acts/notice.h"
#include "app/acts/settings.h"
#include "app/models/intake.h"
#include "app/models/lots.h"
#include "app/models/settings.h"
#include "small_plant.h"
#include "support/catch.h"

#include <algorithm>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

namespace {

const std::vector<DoorCheckDraft> wet_bags{{"Seal", "yes", "", ""},
                                           {"Bags dry", "no", "3", "wet at one corner"}};
constexpr const char* wet_bags_reason = "At the door: Bags dry and not torn: no, 3 bags, wet at one corner";

const LotSheet& sheet(SmallPlant& plant, const std::string& code) {
    plant.app().handle(OpenLot{plant.lot(code)});
    REQUIRE(plant.app().lots().opened);
    return *plant.app().lots().opened;
}

std::string journal(SmallPlant& plant) {
    std::string words;
    for (const auto& row : plant.app().settings().journal)
        words += row.words + "\n";
    return words;
}

/// One that came with a best-before day that is over.
LotDraft stale(SmallPlant& plant, const std::string& code) {
    auto draft = plant.draft(code);
    draft.best_before = "2026-11-24";
    return draft;
}

} // namespace

TEST_CASE("A \"no\" at the door makes the lot start held, and the reason is in the journal") {
    SmallPlant plant;
    plant.app().handle(TakeIn{{plant.draft("W24-118")}, wet_bags});
    CHECK_THAT(plant.said(), Contains("Lot W24-118 taken in and put on hold. ") && Contains(wet_bags_reason));
    CHECK(plant.row("W24-118").state == LotState::held);
    plant.open_again();
    CHECK(plant.row("W24-118").state == LotState::held);
    CHECK_THAT(sheet(plant, "W24-118").state_words,
               Contains(std::string("On hold: ") + wet_bags_reason + " by Tomas"));
    CHECK_THAT(journal(plant), Contains("Lot W24-118 taken in and put on hold. " +
                                        std::string(wet_bags_reason) + "; 1 yes; 3 not looked at"));
}

TEST_CASE("The lot's sheet shows every check as it was answered, with what was not looked at") {
    SmallPlant plant;
    plant.app().handle(TakeIn{{plant.draft("W24-118")}, wet_bags});
    plant.open_again();
    const auto& door = sheet(plant, "W24-118").door;
    REQUIRE(door.size() == plant.app().intake().door_questions.size());
    CHECK(door[0].words == "Seal whole, or bags closed: yes");
    CHECK(door[0].weight == Finding::Weight::well);
    CHECK(door[1].words == "Bags dry and not torn: no, 3 bags, wet at one corner");
    CHECK(door[1].weight == Finding::Weight::against);
    CHECK(door[2].words == "Free of insects and foreign smell: not looked at");
    CHECK(door[2].weight == Finding::Weight::mind);
}

TEST_CASE("A lot that the door held is released with a reason only, and withdrawn like any other") {
    SmallPlant plant;
    plant.app().handle(TakeIn{{plant.draft("W24-118")}, wet_bags});
    const Intents withdrawing = plant.app().notice().undoing;
    const LotId lot = plant.lot("W24-118");
    plant.app().handle(ReleaseLot{lot, ""});
    CHECK_THAT(plant.refusals(), Contains("Reason: is empty"));
    plant.app().handle(ReleaseLot{lot, "the wet bags were thrown away"});
    CHECK(plant.row("W24-118").state == LotState::released);
    for (const auto& intent : withdrawing)
        plant.app().handle(intent);
    CHECK(plant.row("W24-118").state == LotState::rejected);
}

TEST_CASE("Each lot of a delivery keeps the checks and is held, and each says so in its own line") {
    SmallPlant plant;
    plant.app().handle(TakeIn{{plant.draft("A-1"), plant.draft("A-2")}, wet_bags});
    for (const char* code : {"A-1", "A-2"}) {
        CHECK(plant.row(code).state == LotState::held);
        REQUIRE(sheet(plant, code).history.size() == 1);
        CHECK_THAT(sheet(plant, code).history[0].words,
                   Contains("taken in and put on hold: 1000.0 kg. At the door"));
    }
}

TEST_CASE("A \"no\" that names its lot holds that lot alone, and the delivery's line says which") {
    SmallPlant plant;
    auto checks = wet_bags;
    checks.back().lot = "A-2";
    checks.push_back({"Bags dry", "yes", "", ""});
    plant.app().handle(TakeIn{{plant.draft("A-1"), plant.draft("A-2")}, checks});
    CHECK_THAT(plant.said(),
               Contains("Lots A-1, A-2 taken in. Lot A-2 put on hold. ") && Contains(wet_bags_reason));
    plant.open_again();
    CHECK(plant.row("A-1").state == LotState::awaiting_judgement);
    CHECK(plant.row("A-2").state == LotState::held);
    CHECK(sheet(plant, "A-1").door[1].words == "Bags dry and not torn: yes");
    CHECK(sheet(plant, "A-2").door[1].words == "Bags dry and not torn: no, 3 bags, wet at one corner");
}

TEST_CASE("A check that is none of the plant's questions, or has no bags, takes nothing in, beside the lot's "
          "own faults") {
    SmallPlant plant;
    auto wrong = plant.draft("A-1");
    wrong.mass_kg = "much";
    plant.app().handle(TakeIn{{wrong}, {{"Pallets clean", "yes", "", ""}, {"Bags dry", "no", "some", ""}}});
    CHECK_THAT(plant.refusals(), Contains("At the door: \"Pallets clean\" is none of the questions") &&
                                     Contains("Bags dry and not torn: Bags: \"some\" was read") &&
                                     Contains("Weight: \"much\" was read"));
    CHECK(plant.app().lots().rows.empty());
}

TEST_CASE("The question about warm flour has the plant's limit, in the house's unit") {
    SmallPlant plant;
    const auto asks = [&](const std::string& words) {
        const auto& asked = plant.app().intake().door_questions;
        return std::find(asked.begin(), asked.end(), words) != asked.end();
    };
    CHECK(asks("Flour below 30 °C"));
    plant.app().handle(ChangeSetting{"warm_flour", "25"});
    plant.app().handle(ChangeSetting{"temperature_unit", "°F"});
    CHECK(asks("Flour below 77 °F"));
    CHECK(plant.app().intake().temperature_unit == "°F");
    auto draft = plant.draft("A-1");
    draft.delivered_c = "78";
    plant.app().handle(TakeIn{{draft}});
    CHECK_THAT(plant.refusals(),
               Contains("Flour temperature: 78.0 °F was read: the flour came warm, 77.0 °F or more"));
}

TEST_CASE(
    "What stands against a lot is asked at its field, and with a reason it comes in and is journalled") {
    SmallPlant plant;
    auto draft = stale(plant, "W24-118");
    draft.delivered_c = "31,5";
    plant.app().handle(TakeIn{{draft}});
    CHECK(plant.app().lots().rows.empty());
    CHECK_THAT(plant.refusals(), Contains("Best before: 2026-11-24 was read, which is over") &&
                                     Contains("Flour temperature: 31.5 °C was read") &&
                                     Contains("Why take it in all the same: is empty"));
    draft.accept_reason = "for the feed trial";
    plant.app().handle(TakeIn{{draft}});
    REQUIRE(plant.was_done());
    plant.open_again();
    CHECK_THAT(journal(plant),
               Contains("Lot W24-118 taken in; taken in all the same: Best before: 2026-11-24 was "
                        "read, which is over: today is 2026-11-25; Flour temperature: 31.5 °C") &&
                   Contains("because: for the feed trial"));
    CHECK(sheet(plant, "W24-118").is_over);
    CHECK(sheet(plant, "W24-118").best_before_words == "Best before 2026-11-24");
    CHECK(sheet(plant, "W24-118").delivered_words == "The flour came at 31.5 °C");
}

TEST_CASE("A reason where nothing stands against a lot changes nothing, and is not journalled") {
    SmallPlant plant;
    auto draft = plant.draft("W24-118");
    draft.accept_reason = "for the feed trial";
    plant.app().handle(TakeIn{{draft}});
    CHECK(plant.said() == "Lot W24-118 taken in");
    CHECK_THAT(journal(plant), !Contains("feed trial"));
}

TEST_CASE("Of several lots only the one that something stands against is asked about") {
    SmallPlant plant;
    plant.app().handle(TakeIn{{plant.draft("A-1"), stale(plant, "A-2")}});
    CHECK_THAT(plant.refusals(), Contains("Lot A-2: Best before") &&
                                     Contains("Lot A-2: Why take it in all the same") &&
                                     !Contains("Lot A-1"));
    CHECK(plant.app().lots().rows.empty());
}
