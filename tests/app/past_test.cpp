#include "app/acts/batches.h"
#include "app/acts/intake.h"
#include "app/acts/looking.h"
#include "app/acts/lots.h"
#include "app/acts/plan.h"
#include "app/acts/retests.h"
#include "app/acts/stock.h"
#include "app/book/setup.h"
#include "app/models/card.h"
#include "app/models/overview.h"
#include "app/models/plan.h"
#include "app/models/readiness.h"
#include "app/models/settings.h"
#include "db/sqlite_connection.h"
#include "small_plant.h"
#include "support/catch.h"

#include <fmt/format.h>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

namespace {

const Day november = day_from_iso("2026-11-25");
const Day january = day_from_iso("2027-01-25");

/// Two months ago a lot was used up: a batch of it mixed, the rest thrown away.
struct LongAgo {
    SmallPlant plant;
    LotId lot;
    RunId run;

    LongAgo() {
        lot = plant.released_lot(plant.draft("W24-118"));
        run = plant.add_run("Pan bread", "2026-11-25", "3");
        plant.plan_week();
        does(ConfirmBatch{run, {}, 0});
        does(WasteLot{lot, plant.app().lots().places.front().first, "900", "spilt"});
        plant.open_again_on(january);
    }
    void does(const Intent& intent) { plant.done(intent); }
    [[nodiscard]] bool is_listed() {
        return std::any_of(plant.app().lots().rows.begin(), plant.app().lots().rows.end(),
                           [&](const LotRow& row) { return row.id == lot; });
    }
};

} // namespace

TEST_CASE("A lot that was used up long ago is in no list until it is asked for") {
    LongAgo at;
    CHECK_FALSE(at.is_listed());
    CHECK(at.plant.app().readiness().rows.empty());
    CHECK_FALSE(at.plant.app().lots().past);
    at.plant.app().handle(ShowPastLots{PastLotQuery{}});
    REQUIRE(at.plant.app().lots().past);
    CHECK(at.plant.app().lots().past->page.all == 1);
    CHECK(at.plant.app().lots().past->page.lots.at(0).code == "W24-118");
    CHECK(at.plant.app().lots().past->page.lots.at(0).state == LotState::used_up);
    at.plant.app().handle(ShowPastLots{});
    CHECK_FALSE(at.plant.app().lots().past);
}

TEST_CASE("A lot of the past opens by its number with all that was, and does not come back into the lists") {
    LongAgo at;
    at.does(Search{"w24-118"});
    REQUIRE(at.plant.app().lots().opened);
    const auto& sheet = *at.plant.app().lots().opened;
    CHECK(sheet.row.code == "W24-118");
    CHECK(sheet.movements.size() == 3);
    CHECK_THAT(sheet.movements[1].words, Contains("for run"));
    CHECK(sheet.history.size() >= 3);
    CHECK(at.plant.app().readiness().opened);
    CHECK_FALSE(at.is_listed());
}

TEST_CASE("A retained sample of a lot of the past is retested like any other") {
    LongAgo at;
    at.plant.app().handle(OpenLot{at.lot});
    RetestDraft draft;
    draft.taken_on = "2027-01-20";
    draft.figure(Property::falling_number) = {Property::falling_number, "310", "", "", ""};
    at.does(LogRetest{at.lot, draft});
    CHECK_THAT(at.plant.said(), Contains("310"));
    REQUIRE(at.plant.app().readiness().opened);
    CHECK_FALSE(at.is_listed());
    at.plant.open_again_on(january);
    at.plant.app().handle(OpenLot{at.lot});
    CHECK(at.plant.app().lots().opened->history.front().who == "Tomas");
}

TEST_CASE("What is found of a lot of the past brings it back into stock") {
    LongAgo at;
    at.plant.app().handle(OpenLot{at.lot});
    at.does(CountLot{at.lot, at.plant.app().lots().places.front().first, "25", "counted twice"});
    CHECK(at.is_listed());
    CHECK(at.plant.row("W24-118").stock_kg == Approx(25));
    CHECK(at.plant.row("W24-118").state == LotState::released);
}

TEST_CASE("A run of the past is found by its code, with its batches") {
    LongAgo at;
    const auto code = [&] {
        at.plant.app().handle(ShowPlan{november, 1});
        REQUIRE(at.plant.app().plan().runs.size() == 1);
        return at.plant.app().plan().runs[0].code;
    }();
    at.plant.open_again_on(january);
    const auto run = at.plant.app().run_of_code(code);
    REQUIRE(run == at.run);
    CHECK(at.plant.app().card_of(*run).logged.size() == 1);
    CHECK_FALSE(at.plant.app().run_of_code("no such run"));
}

TEST_CASE("The plan of a week of the past shows its runs and the lots that went into them") {
    LongAgo at;
    CHECK(at.plant.app().plan().runs.empty());
    at.plant.app().handle(ShowPlan{november - Days{3}, 7});
    REQUIRE(at.plant.app().plan().runs.size() == 1);
    CHECK(at.plant.app().plan().runs[0].lots.at(0).code == "W24-118");
    CHECK_FALSE(at.is_listed());
}

TEST_CASE("The journal is looked back in a page at a time") {
    SmallPlant plant;
    const LotId lot = plant.released_lot(plant.draft("W24-118"));
    for (int i = 0; i < 110; ++i) {
        plant.app().handle(HoldLot{lot, "look again"});
        plant.app().handle(ReleaseLot{lot, "looked at"});
    }
    const auto newest = plant.app().settings().journal;
    REQUIRE(newest.size() == 200);
    CHECK(plant.app().settings().journal_has_older);
    CHECK_FALSE(plant.app().settings().journal_has_newer);
    plant.app().handle(ShowJournal{newest.back().id});
    CHECK(plant.app().settings().journal.front().id == newest.back().id - 1);
    CHECK_FALSE(plant.app().settings().journal_has_older);
    CHECK(plant.app().settings().journal_has_newer);
    plant.app().handle(ShowJournal{0});
    CHECK(plant.app().settings().journal == newest);
}

TEST_CASE("What another program wrote without saying what is read, too") {
    SmallPlant plant;
    plant.released_lot(plant.draft("W24-118"));
    {
        SqliteConnection other(plant.book_path());
        other.execute("UPDATE lot SET state = 'held', state_reason = 'insects'");
        other.execute("INSERT INTO journal (id, at, who, intent, subject, words, detail) "
                      "VALUES (1000, '2026-11-25T12:00:00Z', 'x', 'x', '', 'Something was done', '')");
    }
    CHECK(plant.app().poll());
    CHECK(plant.row("W24-118").state == LotState::held);
}

TEST_CASE("A program that stays open shows on a new day what is live on that day") {
    LongAgo at;
    at.plant.open_again_on(november);
    CHECK(at.is_listed());
    Instant now{november + std::chrono::hours{12}};
    Clock clock;
    clock.now = [&] { return now; };
    clock.time_zone = "UTC";
    App app({at.plant.book_path(), "Tomas", clock});
    REQUIRE(app.lots().rows.size() == 1);
    now += Days{60};
    app.poll();
    CHECK(app.lots().rows.empty());
    CHECK(app.overview().today == november + Days{60});
}

TEST_CASE("A plan proposed the day before is still shown, and not adopted any more") {
    SmallPlant plant;
    plant.released_lot(plant.draft("W24-118"));
    plant.add_run("Pan bread", "2026-11-27", "3");
    Instant now{november + std::chrono::hours{12}};
    Clock clock;
    clock.now = [&] { return now; };
    clock.time_zone = "UTC";
    App app({plant.book_path(), "Tomas", clock});
    app.handle(PlanRuns{november, 7});
    app.finish_work();
    now += Days{1};
    app.poll();
    app.handle(ShowPlan{november, 7});
    REQUIRE(app.plan().runs.size() == 1);
    CHECK(app.plan().runs[0].lots.at(0).code == "W24-118");
    CHECK_THAT(app.plan().adopt_blocked, Contains("plan again"));
    app.handle(AdoptPlan{});
    CHECK(app.notice().kind == Notice::Kind::refused);
}

TEST_CASE("Looking at very many lots of the past does not keep them all") {
    SmallPlant plant;
    std::vector<LotId> lots;
    std::vector<LotDraft> drafts;
    for (int i = 0; i < 230; ++i)
        drafts.push_back(plant.draft(fmt::format("P{}", i)));
    plant.app().handle(TakeIn{drafts});
    for (const auto& row : plant.app().lots().rows)
        lots.push_back(row.id);
    plant.app().handle(WithdrawLots{lots});
    REQUIRE(plant.was_done());
    plant.open_again_on(january);
    for (const LotId lot : lots) {
        plant.app().handle(OpenLot{lot});
        REQUIRE(plant.app().lots().opened);
        REQUIRE(plant.app().lots().opened->row.id == lot);
    }
    plant.app().handle(OpenLot{lots.front()});
    CHECK(plant.app().lots().opened->movements.size() == 2);
    CHECK(plant.app().lots().rows.empty());
}
