// Flour that goes back to the mill: it leaves the stock, and is never told as waste.
#include "app/acts/intake.h"
#include "app/acts/intent.h"
#include "app/acts/looking.h"
#include "app/acts/lots.h"
#include "app/acts/mill_returns.h"
#include "app/acts/stock.h"
#include "app/book/setup.h"
#include "app/models/found.h"
#include "app/models/journal.h"
#include "app/models/lots.h"
#include "app/models/overview.h"
#include "app/models/past.h"
#include "small_plant.h"
#include "support/catch.h"

#include <algorithm>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

namespace {

struct WetLot {
    SmallPlant plant;
    LotId lot;
    PlaceId bay_1, bay_2;

    WetLot() {
        plant.app().handle(TakeIn{{plant.draft("W24-118")}});
        lot = plant.lot("W24-118");
        for (const auto& [id, name] : plant.app().lots().places)
            (name == "Bay 1" ? bay_1 : bay_2) = id;
    }
    void done(const Intent& intent) { plant.done(intent); }
    std::string refused(const Intent& intent) { return plant.refused(intent); }
    void undo() {
        for (const auto& act : Intents(plant.app().notice().undoing))
            done(act);
    }
    const LotRow& row() { return plant.row("W24-118"); }
    const LotSheet& sheet() {
        plant.app().handle(OpenLot{lot});
        REQUIRE(plant.app().lots().opened);
        return *plant.app().lots().opened;
    }
    /// Every word that is told of the lot.
    std::string all_words() {
        std::string words;
        for (const auto& movement : sheet().movements)
            words += movement.words + "\n";
        for (const auto& line : sheet().history)
            words += line.words + "\n" + line.act + "\n";
        return words + sheet().state_words + "\n" + sheet().verdict.words + "\n";
    }
};

} // namespace

TEST_CASE("The whole of a lot in quarantine goes back: nothing is left, and it is returned to the mill") {
    WetLot at;
    at.done(MoveLot{at.lot, at.bay_1, at.bay_2, "400"});
    at.done(ReturnToMill{at.lot, {}, "", "wet at one corner", "RN 12"});
    CHECK(at.plant.said() ==
          "1000.0 kg of lot W24-118 back to the mill, nothing is left of it: wet at one corner (RN 12)");
    CHECK(at.row().stock_kg == 0);
    CHECK(at.row().state == LotState::rejected);
    CHECK(at.row().standing.words == "returned to the mill");
    CHECK(at.sheet().verdict.words == "Returned to the mill on Wed 25 Nov");
    CHECK_THAT(at.all_words(),
               Contains("back to the mill: 600.0 kg from Bay 1 — wet at one corner (RN 12)") &&
                   Contains("back to the mill: 400.0 kg from Bay 2") && Contains("Flour back to the mill") &&
                   !Contains("waste") && !Contains("thrown"));
}

TEST_CASE("A part of it goes back, and the rest stands as it stood") {
    WetLot at;
    at.done(ReturnToMill{at.lot, at.bay_1, "250,5", "five bags torn"});
    CHECK(at.row().stock_kg == Approx(749.5));
    CHECK(at.row().state == LotState::awaiting_judgement);
    CHECK(at.row().standing.words.empty());
    at.done(RejectLot{at.lot, "smells"});
    CHECK(at.row().standing.words.empty()); // some of it still lies here
    at.done(ReturnToMill{at.lot, at.bay_1, "", "smells"});
    CHECK(at.row().standing.words == "returned to the mill");
}

TEST_CASE("What cannot go back is refused with every reason: released flour, too much of it, no word why") {
    WetLot at;
    CHECK_THAT(at.refused(ReturnToMill{at.lot, at.bay_1, "1200", "wet"}), Contains("only 1000.000 kg"));
    CHECK_THAT(at.refused(ReturnToMill{at.lot, at.bay_2, "", ""}),
               Contains("From: nothing of the lot lies there") && Contains("Reason: is empty"));
    at.done(MoveLot{at.lot, at.bay_1, at.bay_2, "400"});
    CHECK_THAT(at.refused(ReturnToMill{at.lot, {}, "100", "wet"}),
               Contains("From: is empty, and the lot lies "
                        "in 2 places"));
    CHECK_THAT(at.refused(ReturnToMill{at.lot, at.bay_1, "much", "wet"}), Contains("Weight: "));
    at.done(ReleaseLot{at.lot, ""});
    CHECK_THAT(at.refused(ReturnToMill{at.lot, {}, "", "wet"}), Contains("Put it on hold first"));
    CHECK(at.row().stock_kg == 1000);
}

TEST_CASE("A return is taken back whole: the flour lies where it lay, and the lot is on hold") {
    WetLot at;
    at.done(MoveLot{at.lot, at.bay_1, at.bay_2, "400"});
    at.done(ReturnToMill{at.lot, {}, "", "wet"});
    at.undo();
    CHECK(at.row().stock_kg == 1000);
    CHECK(at.row().state == LotState::held);
    CHECK(at.row().standing.words.empty());
    CHECK(at.row().places == "Bay 1, Bay 2");
    CHECK_THAT(at.all_words(), !Contains("waste"));
    at.done(RejectLot{at.lot, "smells"});
    at.done(ReturnToMill{at.lot, {}, "", "smells"});
    at.undo();
    CHECK(at.row().state == LotState::rejected); // as it was before
    CHECK(at.row().stock_kg == 1000);
}

TEST_CASE("One movement to the mill is countered from the list of movements like any other") {
    WetLot at;
    at.done(RejectLot{at.lot, "smells"});
    at.done(ReturnToMill{at.lot, {}, "", "smells"});
    const auto sent = at.sheet().movements.back();
    REQUIRE(sent.can_counter);
    at.done(CounterMovement{sent.id, "the truck was full"});
    CHECK_THAT(at.plant.said(), Contains("back to the mill") && !Contains("waste"));
    CHECK(at.row().stock_kg == 1000);
    CHECK(at.row().standing.words.empty());
}

TEST_CASE("Flour that was thrown away is none that went back") {
    WetLot at;
    at.done(RejectLot{at.lot, "smells"});
    at.done(WasteLot{at.lot, at.bay_1, "1000", "smells"});
    CHECK(at.row().standing.words.empty());
    CHECK(at.sheet().verdict.words == "Rejected on Wed 25 Nov");
    CHECK_THAT(at.sheet().movements.back().words, Contains("waste: 1000.0 kg"));
}

TEST_CASE("Long after, the list of the past and the search still say that it went back") {
    WetLot at;
    at.done(ReturnToMill{at.lot, {}, "", "wet"});
    at.done(TakeIn{{at.plant.draft("W24-119")}});
    at.plant.open_again_on(day_from_iso("2027-02-01"));
    at.plant.app().handle(ShowPastLots{PastLotQuery{}});
    REQUIRE(at.plant.app().lots().past);
    REQUIRE(at.plant.app().lots().past->page.lots.size() == 1);
    CHECK(at.plant.app().lots().past->page.lots.front().went_back);
    at.plant.app().handle(Search{"W24-11"});
    const auto& found = at.plant.app().overview().found.all;
    REQUIRE(found.size() == 2);
    CHECK(std::any_of(found.begin(), found.end(), [](const FoundOne& one) {
        return one.details.find("returned to the mill on ") != std::string::npos;
    }));
}

TEST_CASE("Another station shows the flour gone at its next look") {
    WetLot at;
    App office({at.plant.book_path(), "Ines", Clock::standing_at(day_from_iso("2026-11-25"))});
    at.done(ReturnToMill{at.lot, {}, "", "wet"});
    CHECK(office.poll());
    CHECK(office.lots().rows.front().standing.words == "returned to the mill");
}
