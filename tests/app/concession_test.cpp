// A lot released under a concession: only into those products, only until that day.
#include "app/acts/assignments.h"
#include "app/acts/batches.h"
#include "app/acts/give_lot.h"
#include "app/acts/intake.h"
#include "app/acts/intent.h"
#include "app/acts/levers.h"
#include "app/acts/looking.h"
#include "app/acts/lots.h"
#include "app/acts/plan.h"
#include "app/acts/retests.h"
#include "app/acts/scans.h"
#include "app/acts/what_if.h"
#include "app/book/setup.h"
#include "app/models/card.h"
#include "app/models/journal.h"
#include "app/models/lots.h"
#include "app/models/overview.h"
#include "app/models/plan.h"
#include "app/models/readiness.h"
#include "app/models/run_cures.h"
#include "small_plant.h"
#include "support/catch.h"

#include <algorithm>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;
using Ruling = CardVerdict::Ruling;

namespace {

const Day wednesday = day_from_iso("2026-11-25");

ConcessionDraft for_pan_bread(const char* until = "2026-11-27") {
    return {"smells of the sack", "", until, {"Pan bread"}, false};
}

struct Conceded {
    SmallPlant plant;
    LotId lot;

    Conceded() {
        plant.app().handle(TakeIn{{plant.draft("W24-118")}});
        lot = plant.lot("W24-118");
    }
    void done(const Intent& intent) { plant.done(intent); }
    void release(const ConcessionDraft& concession = for_pan_bread()) {
        done(ReleaseLot{lot, "", concession});
    }
    void undo() { plant.undo(); }
    std::string refused(const Intent& intent) { return plant.refused(intent); }
    const LotSheet& sheet() {
        plant.app().handle(OpenLot{lot});
        REQUIRE(plant.app().lots().opened);
        return *plant.app().lots().opened;
    }
    [[nodiscard]] std::string standing() { return plant.row("W24-118").standing.words; }
    RunId run(const char* product, const char* day, const char* batches = "2") {
        return plant.add_run(product, day, batches);
    }
    CardModel card(RunId id) { return plant.app().card_of(id); }
    bool stops(RunId id, const std::string& key) {
        const auto verdict = card(id).verdict;
        return verdict.ruling == Ruling::do_not_mix &&
               std::any_of(verdict.reasons.begin(), verdict.reasons.end(),
                           [&](const auto& one) { return one.key == key; });
    }
    double kg_of(RunId id) {
        double kg = 0;
        for (const auto& used : plant.planned(id).lots)
            kg += used.kg;
        return kg;
    }
};

} // namespace

TEST_CASE("A lot is released with a concession that says what, who, until when and for what, in one line") {
    Conceded at;
    at.release();
    CHECK(
        at.plant.said() ==
        "Lot W24-118 released with a concession by Tomas until 2026-11-27 for Pan bread: smells of the sack");
    CHECK(at.plant.row("W24-118").state == LotState::released);
    CHECK(at.standing() == "concession until 27 Nov");
    const auto& sheet = at.sheet();
    REQUIRE(sheet.concession);
    CHECK(sheet.concession->products == "Pan bread");
    CHECK(sheet.concession->by == "Tomas");
    CHECK(sheet.verdict.words == "Released with a concession until Fri 27 Nov");
    CHECK_THAT(sheet.verdict.reasons, Contains("Tomas concedes for Pan bread: smells of the sack."));
    CHECK_THAT(sheet.state_words, Contains("Concession until 27 Nov. Released"));
    at.plant.open_again(); // it is the book's
    CHECK(at.standing() == "concession until 27 Nov");
    CHECK(at.plant.app().journal(1).front().words.find("for Pan bread") != std::string::npos);
}

TEST_CASE("A concession that is refused leaves the lot as it was, with every reason") {
    Conceded at;
    const auto why = at.refused(ReleaseLot{at.lot, "", ConcessionDraft{"", "", "2026-11-24", {}, false}});
    CHECK_THAT(why, Contains("Conceded: is empty") && Contains("Until: ") && Contains("For products: "));
    CHECK(at.plant.row("W24-118").state == LotState::awaiting_judgement);
}

TEST_CASE("A lot that fails its specification takes a reason or a concession; one that does not takes none") {
    Conceded at;
    auto low = at.plant.draft("LOW");
    low.figure(Property::protein).value = "11.0";
    at.done(TakeIn{{low}});
    const auto lot = at.plant.lot("LOW");
    CHECK_THAT(
        at.refused(ReleaseLot{lot, " "}),
        Contains("Reason: is empty, and lot LOW is out of specification: Protein 11.0 %, below 11.5 to "
                 "14.0 %"));
    at.plant.app().handle(OpenLot{lot});
    CHECK(at.plant.app().lots().opened->failing ==
          std::vector<std::string>{"Protein 11.0 %, below 11.5 to 14.0 %"});
    at.done(ReleaseLot{lot, "the blend makes up for it"});
    CHECK(at.plant.row("LOW").standing.words.empty());
    at.done(HoldLot{lot, "retest"});
    at.done(ReleaseLot{lot, "", for_pan_bread()});
    CHECK(at.plant.row("LOW").standing.words == "concession until 27 Nov");
    at.done(ReleaseLot{at.lot, ""}); // nothing stands against this one
}

TEST_CASE("What the plant's own retest says counts before the mill's: then no reason is asked for") {
    Conceded at;
    auto low = at.plant.draft("LOW");
    low.figure(Property::protein).value = "11.4";
    at.done(TakeIn{{low}});
    RetestDraft retest;
    retest.taken_on = "2026-11-24";
    retest.figure(Property::protein) = {Property::protein, "11.8", "14 % moisture", "", ""};
    at.done(LogRetest{at.plant.lot("LOW"), retest});
    at.done(ReleaseLot{at.plant.lot("LOW"), ""});
}

TEST_CASE("The plan gives the lot only to the products conceded and only until the day, and says why") {
    Conceded at;
    at.release();
    const auto bread = at.run("Pan bread", "2026-11-26"), loaf = at.run("Plain loaf", "2026-11-26"),
               late = at.run("Pan bread", "2026-11-28");
    at.done(GiveLot{at.lot, {}, bread});
    at.plant.plan_week();
    CHECK(at.kg_of(bread) == Approx(200));
    CHECK(at.kg_of(loaf) == 0);
    CHECK(at.kg_of(late) == 0);
    CHECK_THAT(at.refused(GiveLot{at.lot, {}, loaf}),
               Contains("its concession is not for Plain loaf, only for Pan bread"));
    CHECK_THAT(at.refused(GiveLot{at.lot, {}, late}), Contains("its concession ended on Fri 27 Nov"));
}

TEST_CASE("A plan made before the concession holds no longer where it does not, and no lock keeps it") {
    Conceded at;
    at.done(ReleaseLot{at.lot, ""});
    const auto bread = at.run("Pan bread", "2026-11-26"), loaf = at.run("Plain loaf", "2026-11-26");
    at.plant.plan_week();
    REQUIRE(at.kg_of(loaf) == Approx(200));
    at.done(ConcedeLot{at.lot, for_pan_bread()});
    CHECK_THAT(at.plant.app().plan().replan_words, Contains("its concession is not for Plain loaf"));
    CHECK_THAT(at.refused(LockAssignment{loaf, at.lot}), Contains("its concession is not for Plain loaf"));
    at.done(LockAssignment{bread, at.lot});
}

TEST_CASE("At the bowl the concession stops the batch of another product, and no reason lifts it") {
    Conceded at;
    at.done(ReleaseLot{at.lot, ""});
    const auto loaf = at.run("Plain loaf", "2026-11-25"), bread = at.run("Pan bread", "2026-11-25");
    at.plant.plan_week();
    REQUIRE(at.card(loaf).verdict.ruling == Ruling::mix);
    at.done(ConcedeLot{at.lot, for_pan_bread()});
    CHECK(at.stops(loaf, "concession_does_not_hold"));
    BatchDraft draft;
    draft.answer = "I looked";
    CHECK_THAT(at.refused(ConfirmBatch{loaf, draft}), Contains("its concession is not for Plain loaf"));
    CHECK(at.plant.row("W24-118").stock_kg == 1000);
    CHECK(at.card(bread).verdict.ruling == Ruling::mix);
    at.done(ConfirmBatch{bread, {}});
    at.done(EndConcession{at.lot, "retest is sound"});
    CHECK(at.card(loaf).verdict.ruling == Ruling::mix);
}

TEST_CASE("A bag of a lot that is not conceded for the product is refused where it is scanned, with why") {
    Conceded at;
    at.done(ReleaseLot{at.lot, ""});
    const auto loaf = at.run("Plain loaf", "2026-11-25");
    at.plant.plan_week();
    at.done(ConcedeLot{at.lot, for_pan_bread()});
    CHECK_THAT(at.refused(ScanBag{loaf, "W24-118"}),
               Contains("Lot W24-118: its concession is not for Plain loaf"));
}

TEST_CASE("A lot that is not on the card is judged by its concession as well") {
    Conceded at;
    at.release();
    at.plant.released_lot(at.plant.draft("W24-200"));
    const auto loaf = at.run("Plain loaf", "2026-11-25");
    at.plant.plan_week();
    BatchDraft draft;
    draft.flour = {{at.plant.lot("W24-200"), "60"}, {{}, "40", "W24-118"}};
    CHECK_THAT(at.refused(ConfirmBatch{loaf, draft}), Contains("its concession is not for Plain loaf"));
    CHECK(at.card(loaf).logged.empty());
}

TEST_CASE("Once its day is over the lot stands as on hold everywhere, until quality judges it anew") {
    Conceded at;
    at.release();
    const auto run = at.run("Pan bread", "2026-11-27");
    at.plant.plan_week();
    at.plant.open_again_on(day_from_iso("2026-11-27"));
    CHECK(at.card(run).verdict.ruling == Ruling::mix); // its last day
    at.plant.open_again_on(day_from_iso("2026-11-28"));

    CHECK(at.stops(run, "concession_does_not_hold")); // of yesterday's run
    CHECK_FALSE(at.refused(ConfirmBatch{run, {}}).empty());
    CHECK(at.standing() == "concession ended 27 Nov");
    CHECK(at.plant.row("W24-118").standing.is_on_hold);
    const auto& sheet = at.sheet();
    CHECK(sheet.verdict.words == "Concession ended on Fri 27 Nov");
    CHECK(sheet.verdict.follows == LotVerdict::Follows::judge_anew);
    CHECK_THAT(sheet.state_words, Contains("Concession ended 27 Nov"));
    const auto& readiness = at.plant.app().readiness().rows;
    REQUIRE(readiness.size() == 1);
    CHECK(readiness.front().standing.words == "concession ended 27 Nov");
    at.plant.app().handle(Search{"Mill"});
    CHECK(at.plant.app().lots().opened); // the only one: it is opened
    CHECK_THAT(at.refused(SupposeLotHeld{at.lot}), Contains("its concession is over"));

    const auto later = at.run("Pan bread", "2026-11-29");
    at.plant.plan_week();
    CHECK(at.kg_of(later) == 0);
    at.done(ConcedeLot{at.lot, for_pan_bread("2026-12-05")});
    at.plant.plan_week();
    CHECK(at.kg_of(later) == Approx(200));
}

TEST_CASE("A run that is short is told that quality's word on the lot would cure it") {
    Conceded at;
    at.release(for_pan_bread("2026-11-25"));
    const auto run = at.run("Pan bread", "2026-11-26");
    at.plant.plan_week();
    at.plant.app().handle(ShowCures{run});
    REQUIRE(at.plant.app().plan().cures);
    const auto& cures = at.plant.app().plan().cures->cures;
    const auto judge = std::find_if(cures.begin(), cures.end(),
                                    [](const RunCure& cure) { return cure.kind == RunCure::Kind::judge; });
    REQUIRE(judge != cures.end());
    CHECK(judge->lot == at.lot);
    CHECK_THAT(judge->price, Contains("Its concession ended on Wed 25 Nov. Released: "));
}

TEST_CASE("A concession is widened, narrowed and ended by a new word, and each is undone by the one before") {
    Conceded at;
    at.release();
    auto wider = for_pan_bread("2026-12-31");
    wider.products.push_back("Plain loaf");
    at.done(ConcedeLot{at.lot, wider});
    CHECK(at.sheet().concession->products == "Pan bread, Plain loaf");
    CHECK_THAT(at.refused(ConcedeLot{at.lot, wider}), Contains("has this concession already"));
    at.done(ConcedeLot{at.lot, wider = for_pan_bread("2026-12-31")});
    at.undo();
    CHECK(at.sheet().concession->products == "Pan bread, Plain loaf");
    CHECK_THAT(at.refused(EndConcession{at.lot, ""}), Contains("Reason: "));
    at.done(EndConcession{at.lot, "retest is sound"});
    CHECK_FALSE(at.sheet().concession);
    CHECK(at.standing().empty());
    at.undo();
    CHECK(at.sheet().concession->until == day_from_iso("2026-12-31"));
    const auto lines = at.plant.app().journal(20);
    const auto count = std::count_if(lines.begin(), lines.end(), [](const JournalRow& row) {
        return row.words.find("concession") != std::string::npos;
    });
    CHECK(count == 6); // every word on it stays
}

TEST_CASE(
    "A hold ends the concession, its undo brings it back, and a release does not bring it back by itself") {
    Conceded at;
    at.release();
    at.done(HoldLot{at.lot, "retest under way"});
    CHECK(at.standing().empty());
    at.undo();
    CHECK(at.plant.row("W24-118").state == LotState::released);
    CHECK(at.standing() == "concession until 27 Nov");
    at.done(HoldLot{at.lot, "retest under way"});
    at.done(ReleaseLot{at.lot, "retest is sound"});
    CHECK(at.standing().empty());
    at.undo();
    CHECK(at.plant.row("W24-118").state == LotState::held);
}

TEST_CASE("Another station keeps to a concession that was narrowed a moment ago, looked at or not") {
    Conceded at;
    at.done(ReleaseLot{at.lot, ""});
    const auto loaf = at.run("Plain loaf", "2026-11-25");
    at.plant.plan_week();
    App office({at.plant.book_path(), "Ines", Clock::standing_at(wednesday)});
    office.handle(ConcedeLot{at.lot, for_pan_bread()});
    REQUIRE(office.notice().kind == Notice::Kind::done);
    CHECK_THAT(at.refused(ConfirmBatch{loaf, {}}), Contains("its concession is not for Plain loaf"));
    CHECK(at.standing() == "concession until 27 Nov");
    CHECK(at.plant.row("W24-118").stock_kg == 1000);
}

TEST_CASE("Flour used up under a concession comes back under it") {
    Conceded at;
    auto one_batch = at.plant.draft("SMALL");
    one_batch.mass_kg = "100";
    at.done(TakeIn{{one_batch}});
    const auto small = at.plant.lot("SMALL");
    at.done(ReleaseLot{small, "", for_pan_bread()});
    const auto run = at.run("Pan bread", "2026-11-25", "1");
    at.plant.plan_week();
    at.done(ConfirmBatch{run, {}});
    CHECK(at.plant.row("SMALL").state == LotState::used_up);
    at.undo();
    CHECK(at.plant.row("SMALL").standing.words == "concession until 27 Nov");
}
