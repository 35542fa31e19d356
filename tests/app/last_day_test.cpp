#include "app/acts/intake.h"
#include "app/acts/looking.h"
#include "app/acts/lots.h"
#include "app/acts/notice.h"
#include "app/acts/retests.h"
#include "app/models/lots.h"
#include "app/models/plan.h"
#include "app/models/settings.h"
#include "small_plant.h"
#include "support/catch.h"

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

namespace {

struct StaleLot {
    SmallPlant plant;
    LotId lot;

    StaleLot() {
        auto draft = plant.draft("W24-118");
        draft.best_before = "2026-11-24";
        draft.accept_reason = "a retest is under way";
        lot = plant.released_lot(draft);
    }
    const LotSheet& sheet() {
        plant.app().handle(OpenLot{lot});
        REQUIRE(plant.app().lots().opened);
        return *plant.app().lots().opened;
    }
    void extend(const char* until, const char* reason = "retest of 24 Nov is sound") {
        plant.app().handle(ExtendBestBefore{lot, until, reason});
    }
    void undo() {
        for (const auto& intent : Intents(plant.app().notice().undoing))
            plant.app().handle(intent);
        INFO(plant.refusals());
        REQUIRE(plant.was_done());
    }
};

RetestDraft a_retest(const char* day, const char* protein) {
    RetestDraft draft;
    draft.taken_on = day;
    draft.figure(Property::protein) = {Property::protein, protein, "14 % moisture", "", ""};
    return draft;
}

struct LotOnLastDay {
    SmallPlant plant;
    LotId lot;

    LotOnLastDay() {
        plant.app().handle(TakeIn{{plant.draft("W24-118")}});
        lot = plant.lot("W24-118");
    }
    void retest(const char* day, const char* protein) {
        plant.app().handle(LogRetest{lot, a_retest(day, protein)});
        INFO(plant.refusals());
        REQUIRE(plant.was_done());
    }
    const LotSheet& sheet() {
        plant.app().handle(OpenLot{lot});
        REQUIRE(plant.app().lots().opened);
        return *plant.app().lots().opened;
    }
};

} // namespace

TEST_CASE(
    "Quality extends a best-before day: the sheet says until when, who and why, and so does the journal") {
    StaleLot at;
    CHECK(at.sheet().is_over);
    at.extend("2026-12-24");
    REQUIRE(at.plant.was_done());
    at.plant.open_again();
    CHECK_FALSE(at.sheet().is_over);
    CHECK(at.sheet().best_before_words ==
          "Best before 2026-11-24, may be used until 2026-12-24 by Tomas: retest of 24 Nov is sound");
    CHECK(at.plant.app().settings().journal.front().words ==
          "Lot W24-118: may be used until 2026-12-24, best before 2026-11-24: retest of 24 Nov is sound");
}

TEST_CASE("An extension that is none is refused, with nothing written") {
    StaleLot at;
    at.extend("2026-11-24");
    CHECK_THAT(at.plant.refusals(),
               Contains("Until: 2026-11-24 was read, which is not after the best-before"));
    at.extend("2025-12-24");
    CHECK(at.plant.was_refused());
    at.extend("christmas", "");
    CHECK_THAT(at.plant.refusals(),
               Contains("Until: \"christmas\" was read") && Contains("Reason: is empty"));
    CHECK(at.sheet().is_over);
    CHECK(at.sheet().history.size() == 2);
    at.plant.app().handle(ExtendBestBefore{LotId{99}, "2026-12-24", "sound"});
    CHECK_THAT(at.plant.refusals(), Contains("Lot: is not in the book"));
}

TEST_CASE("An extension is undone to what held before it") {
    StaleLot at;
    at.extend("2026-12-10", "first");
    at.extend("2026-12-24", "second");
    at.undo();
    CHECK_THAT(at.sheet().best_before_words, Contains("until 2026-12-10 by Tomas: first"));
    at.extend("2026-12-24", "again");
    at.plant.app().handle(TakeBackExtension{at.lot, {}});
    CHECK(at.sheet().best_before_words == "Best before 2026-11-24");
    CHECK(at.sheet().is_over);
    at.plant.app().handle(TakeBackExtension{at.lot, {}});
    CHECK(at.plant.was_refused());
}

TEST_CASE("The plan leaves a lot out after its last day, and takes it until the day it is extended to") {
    StaleLot at;
    const RunId run = at.plant.add_run("Pan bread", "2026-11-27", "3");
    at.plant.plan_week();
    CHECK(at.plant.planned(run).lots.empty());
    at.extend("2026-11-27");
    at.plant.plan_week();
    REQUIRE(at.plant.planned(run).lots.size() == 1);
    CHECK(at.plant.planned(run).lots[0].code == "W24-118");
    at.extend("2026-11-26");
    at.plant.plan_week();
    CHECK(at.plant.planned(run).lots.empty());
}

TEST_CASE("A retest is judged against the flour's specification beside the certificate, the newest first") {
    LotOnLastDay at;
    at.retest("2026-11-10", "12.4");
    at.retest("2026-11-24", "11.3");
    at.retest("2026-11-17", "12.2");
    const auto& sheet = at.sheet();
    REQUIRE(sheet.retests.size() == 3);
    CHECK(sheet.retests[0].words == "Retest of 2026-11-24, Tomas");
    REQUIRE(sheet.retests[0].windows.size() == 1);
    CHECK(sheet.retests[0].windows[0].judgement.verdict == Verdict::below);
    CHECK(sheet.retests[2].words == "Retest of 2026-11-10, Tomas");
    REQUIRE(sheet.results.size() == 4);
    CHECK(sheet.results[0].words ==
          "Retest of 2026-11-24, Tomas: out of specification: Protein 11.3 %, below 11.5 to 14.0 %");
    CHECK(sheet.results[0].weight == Finding::Weight::against);
    CHECK(sheet.results[1].words == "Retest of 2026-11-17, Tomas: inside the specification");
    CHECK(sheet.results[1].weight == Finding::Weight::well);
    CHECK(sheet.results[3].words == "Certificate: inside the specification");
}

TEST_CASE("A withdrawn retest is no longer judged, and one of other figures says that it says nothing") {
    LotOnLastDay at;
    at.retest("2026-11-24", "11.3");
    for (const auto& intent : Intents(at.plant.app().notice().undoing))
        at.plant.app().handle(intent);
    CHECK(at.sheet().retests.empty());
    RetestDraft other;
    other.figure(Property::falling_number).value = "300";
    at.plant.app().handle(LogRetest{at.lot, other});
    REQUIRE(at.sheet().results.size() == 2);
    CHECK_THAT(at.sheet().results[0].words, Contains("nothing that the specification asks for"));
    CHECK(at.sheet().results[0].weight == Finding::Weight::mind);
}
