#include "app/acts/intake.h"
#include "app/acts/looking.h"
#include "app/acts/lots.h"
#include "app/acts/notice.h"
#include "app/models/intake.h"
#include "app/models/lots.h"
#include "app/models/overview.h"
#include "app/models/settings.h"
#include "small_plant.h"
#include "support/catch.h"

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

TEST_CASE("A lot taken in awaits judgement, with its flour in the place it was put") {
    SmallPlant plant;
    plant.app().handle(TakeIn{{plant.draft("W24-118")}});
    CHECK(plant.said() == "Lot W24-118 taken in");
    const auto& row = plant.row("W24-118");
    CHECK(row.state == LotState::awaiting_judgement);
    CHECK(row.stock_kg == 1000);
    CHECK(row.places == "Bay 1");
    CHECK(row.moisture == Approx(14.0));
    CHECK(plant.app().overview().to_judge == 1);
}

TEST_CASE("What was taken in is there when the program is opened again") {
    SmallPlant plant;
    plant.app().handle(TakeIn{{plant.draft("W24-118")}});
    plant.open_again();
    CHECK(plant.row("W24-118").protein_14 == Approx(12.5));
    REQUIRE_FALSE(plant.app().settings().journal.empty());
    CHECK(plant.app().settings().journal.front().words == "Lot W24-118 taken in");
    CHECK(plant.app().settings().journal.front().who == "Tomas");
}

TEST_CASE("A second lot of the same number is refused, with nothing written") {
    SmallPlant plant;
    plant.app().handle(TakeIn{{plant.draft("W24-118")}});
    plant.app().handle(TakeIn{{plant.draft("W24-118")}});
    CHECK(plant.was_refused());
    CHECK_THAT(plant.refusals(), Contains("Lot number"));
    CHECK(plant.app().lots().rows.size() == 1);
    plant.open_again();
    CHECK(plant.row("W24-118").stock_kg == 1000);
    CHECK(plant.app().settings().journal.front().words == "Lot W24-118 taken in");
}

TEST_CASE("A delivery is taken in whole or not at all, and every reason names its lot") {
    SmallPlant plant;
    auto good = plant.draft("A-1");
    auto wrong = plant.draft("A-2");
    wrong.figure(Property::moisture).value = "140";
    wrong.milled_on = "2026-11-30";
    plant.app().handle(TakeIn{{good, wrong}});
    CHECK(plant.was_refused());
    CHECK(plant.app().lots().rows.empty());
    CHECK_THAT(plant.refusals(), Contains("Lot A-2: Moisture: 140 was read"));
    CHECK_THAT(plant.refusals(), Contains("Lot A-2: Milled on"));
    CHECK_THAT(plant.refusals(), !Contains("Lot A-1"));
}

TEST_CASE("The form is told to empty itself only when the delivery was taken in") {
    SmallPlant plant;
    const auto before = plant.app().intake().taken_in;
    auto wrong = plant.draft("A-2");
    wrong.mass_kg = "1.234,5";
    plant.app().handle(TakeIn{{wrong}});
    CHECK(plant.app().intake().taken_in == before);
    wrong.mass_kg = "1234,5";
    plant.app().handle(TakeIn{{wrong}});
    CHECK(plant.app().intake().taken_in == before + 1);
}

TEST_CASE("Taking in is undone by withdrawing: the flour is out of the book, the lot is not forgotten") {
    SmallPlant plant;
    plant.app().handle(TakeIn{{plant.draft("W24-118")}});
    for (const auto& intent : Intents(plant.app().notice().undoing))
        plant.app().handle(intent);
    CHECK(plant.was_done());
    CHECK(plant.row("W24-118").state == LotState::rejected);
    CHECK(plant.row("W24-118").stock_kg == 0);
}

TEST_CASE("Quality releases, holds with a reason, and takes a word back by the button") {
    SmallPlant plant;
    const LotId lot = plant.released_lot(plant.draft("W24-118"));
    CHECK(plant.row("W24-118").state == LotState::released);

    plant.app().handle(HoldLot{lot, ""});
    CHECK(plant.was_refused());
    CHECK_THAT(plant.refusals(), Contains("Reason"));
    plant.app().handle(HoldLot{lot, "smells musty"});
    CHECK(plant.row("W24-118").state == LotState::held);
    for (const auto& intent : Intents(plant.app().notice().undoing))
        plant.app().handle(intent);
    CHECK(plant.row("W24-118").state == LotState::released);
}

TEST_CASE("An opened lot shows its certificate against the specification, its history and its curve") {
    SmallPlant plant;
    auto draft = plant.draft("W24-118");
    draft.figure(Property::protein).value = "11.2";
    plant.app().handle(TakeIn{{draft}});
    const LotId lot = plant.lot("W24-118");
    plant.app().handle(ReleaseLot{lot, "the blend makes up for it"}); // it is out of specification
    plant.app().handle(OpenLot{lot});
    REQUIRE(plant.app().lots().opened);
    const auto& sheet = *plant.app().lots().opened;
    REQUIRE(sheet.windows.size() == 1);
    CHECK(sheet.windows[0].judgement.verdict == Verdict::below);
    CHECK(sheet.history.size() == 2);
    CHECK(sheet.curve.front().likely < sheet.curve.back().likely);
    CHECK_THAT(sheet.fits.at(0), Contains("Pan bread: Protein 11.2 %, below 11.8 to 13.4 %"));
    CHECK_FALSE(sheet.reservations.empty());
}

TEST_CASE("What was done to a lot is told in sentences, in the plant's own time") {
    SmallPlant plant;
    const LotId lot = plant.released_lot(plant.draft("W24-118"));
    plant.app().handle(HoldLot{lot, "smells musty"});
    plant.app().handle(OpenLot{lot});
    REQUIRE(plant.app().lots().opened);
    const auto& history = plant.app().lots().opened->history;
    REQUIRE(history.size() == 3);
    CHECK(history[1].words == "Lot W24-118 released");
    CHECK(history[2].words == "Lot W24-118 put on hold: smells musty");
    CHECK(history[2].at.find('T') == std::string::npos);
    CHECK(plant.app().lots().opened->verdict.words == "On hold since Wed 25 Nov");
    plant.open_again_on(day_from_iso("2027-01-05"));
    plant.app().handle(OpenLot{lot});
    CHECK_THAT(plant.app().lots().opened->history.back().at, Contains("25 Nov 2026 "));
}
