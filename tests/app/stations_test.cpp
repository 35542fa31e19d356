#include "app/acts/batches.h"
#include "app/acts/limits.h"
#include "app/acts/looking.h"
#include "app/acts/lots.h"
#include "app/acts/plan.h"
#include "app/acts/settings.h"
#include "app/acts/stock.h"
#include "app/book/setup.h"
#include "app/models/card.h"
#include "app/models/mixer.h"
#include "app/models/overview.h"
#include "app/models/plan.h"
#include "app/models/settings.h"
#include "small_plant.h"
#include "support/catch.h"

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

namespace {

const Day wednesday = day_from_iso("2026-11-25");

/// The plant's own station, a lot released and a run of it today; and Ines at a second one, on the same book.
struct TwoStations {
    SmallPlant plant;
    LotId lot;
    RunId run;
    App office;

    TwoStations() : run(prepare()), office({plant.book_path(), "Ines", Clock::standing_at(wednesday)}) {}
    RunId prepare() {
        lot = plant.released_lot(plant.draft("W24-118"));
        const auto added = plant.add_run("Pan bread", "2026-11-25", "3");
        plant.plan_week();
        return added;
    }
    void office_does(const Intent& intent) {
        office.handle(intent);
        INFO(office.notice().words);
        REQUIRE(office.notice().kind == Notice::Kind::done);
    }
    [[nodiscard]] std::size_t batches() { return plant.app().card_of(run).logged.size(); }
};

} // namespace

TEST_CASE("What one station did, another one shows at its next frame, and says who did it") {
    TwoStations at;
    at.office_does(HoldLot{at.lot, "insects"});
    CHECK(at.plant.row("W24-118").state == LotState::released); // not looked yet
    CHECK(at.plant.app().poll());
    CHECK(at.plant.row("W24-118").state == LotState::held);
    CHECK_THAT(at.plant.row("W24-118").changed, Contains("Ines"));
    CHECK_THAT(at.plant.app().overview().elsewhere, Contains("Ines") && Contains("insects"));
    CHECK_FALSE(at.plant.app().poll()); // nothing more
    at.plant.app().handle(OpenLot{at.lot});
    at.plant.app().handle(ChangeSetting{"confidence", "0.85"});
    CHECK(at.plant.row("W24-118").changed.empty()); // it was looked at
    CHECK(at.plant.app().overview().elsewhere.empty());
}

TEST_CASE("The mixer's screen says what another station changed of the run's lots") {
    TwoStations at;
    at.plant.app().handle(OpenRun{at.run});
    CHECK(at.plant.app().mixer().changed.empty());
    at.office_does(HoldLot{at.lot, "insects"});
    at.plant.app().poll();
    REQUIRE(at.plant.app().mixer().changed.size() == 1);
    CHECK_THAT(at.plant.app().mixer().changed[0], Contains("W24-118") && Contains("insects"));
}

TEST_CASE("A limit that another station confirmed or corrected holds here at the next frame") {
    TwoStations at;
    const auto limit = [&] {
        for (const auto& line : at.plant.app().settings().limits)
            if (line.substance == "Propionate" && line.market == "Canada")
                return line;
        throw std::runtime_error("no limit on propionate in Canada");
    };
    REQUIRE_FALSE(limit().is_confirmed);
    at.office_does(ConfirmLimit{limit().id});
    CHECK(at.plant.app().poll());
    CHECK(limit().standing == "confirmed by Ines");
    at.office_does(ChangeLimit{limit().id, {"1500", "permitted", "Ordinance 7", ""}});
    at.plant.app().poll();
    CHECK(limit().figure == "1500 mg/kg");
    CHECK_THAT(limit().changed, Contains("Ines"));
    CHECK_FALSE(limit().is_confirmed);
}

TEST_CASE("A lot that another station held a moment ago goes into no dough, looked at or not") {
    TwoStations at;
    at.office_does(HoldLot{at.lot, "insects"});
    at.plant.app().handle(ConfirmBatch{at.run, {}, 0});
    CHECK(at.plant.was_refused());
    CHECK_THAT(at.plant.refusals(), Contains("W24-118"));
    CHECK(at.batches() == 0);
    CHECK(at.plant.row("W24-118").stock_kg == 1000);
    CHECK(at.plant.row("W24-118").state == LotState::held); // and is shown so
}

TEST_CASE("An act that was decided on while another station wrote is decided on again") {
    TwoStations at;
    bool is_armed = false;
    Clock clock = Clock::standing_at(wednesday);
    // The clock is read between the decision and the writing: there the office holds the lot.
    clock.now = [&, now = clock.now] {
        if (std::exchange(is_armed, false))
            at.office_does(HoldLot{at.lot, "insects"});
        return now();
    };
    App dock({at.plant.book_path(), "Joris", clock});
    is_armed = true;
    dock.handle(ConfirmBatch{at.run, {}, 0});
    CHECK_FALSE(is_armed);
    CHECK(dock.notice().kind == Notice::Kind::refused);
    CHECK(at.batches() == 0);
}

TEST_CASE("Of two counts at one moment each is held against what the book says by then") {
    TwoStations at;
    const PlaceId bay = at.office.lots().places.front().first;
    bool is_armed = false;
    Clock clock = Clock::standing_at(wednesday);
    clock.now = [&, now = clock.now] {
        if (std::exchange(is_armed, false))
            at.office_does(CountLot{at.lot, bay, "950", "spilt"});
        return now();
    };
    App dock({at.plant.book_path(), "Joris", clock});
    is_armed = true;
    dock.handle(CountLot{at.lot, bay, "900", "spilt"});
    CHECK_FALSE(is_armed);
    REQUIRE(dock.lots().rows.size() == 1);
    CHECK(dock.lots().rows[0].stock_kg == Approx(900)); // not 100 less than the other one counted
}

TEST_CASE("Acts of two stations that have nothing to do with each other are both done") {
    TwoStations at;
    bool is_armed = false;
    Clock clock = Clock::standing_at(wednesday);
    clock.now = [&, now = clock.now] {
        if (std::exchange(is_armed, false))
            at.office_does(ChangeSetting{"confidence", "0.85"});
        return now();
    };
    App dock({at.plant.book_path(), "Joris", clock});
    is_armed = true;
    dock.handle(ConfirmBatch{at.run, {}, 0});
    CHECK(dock.notice().kind == Notice::Kind::done);
    dock.poll();
    CHECK(at.batches() == 0); // the plant's own station has not looked yet
    at.plant.app().poll();
    CHECK(at.batches() == 1);
    CHECK(at.plant.app().settings().journal.size() == dock.settings().journal.size());
}

TEST_CASE("Two stations show the same after each did its part") {
    TwoStations at;
    at.plant.app().handle(ConfirmBatch{at.run, {}, 0});
    at.office_does(CountLot{at.lot, at.office.lots().places.front().first, "890", "spilt"});
    at.plant.app().poll();
    CHECK(at.plant.row("W24-118").stock_kg == Approx(890));
    REQUIRE(at.office.lots().rows.size() == 1);
    CHECK(at.office.lots().rows[0].stock_kg == Approx(890));
    CHECK(at.office.card_of(at.run).logged.size() == 1);
    CHECK(at.office.card_of(at.run).batch == at.plant.app().card_of(at.run).batch);
}

TEST_CASE("A plan made before another station changed the book is not adopted") {
    TwoStations at;
    at.plant.app().handle(PlanRuns{wednesday, 7, {}});
    at.plant.app().finish_work();
    at.office_does(HoldLot{at.lot, "insects"});
    at.plant.app().handle(AdoptPlan{});
    CHECK(at.plant.was_refused());
    CHECK_THAT(at.plant.refusals(), Contains("changed"));
}
