#include "app/acts/begun.h"
#include "app/acts/intake.h"
#include "app/acts/notice.h"
#include "app/book/setup.h"
#include "app/models/deliveries.h"
#include "app/models/intake.h"
#include "app/models/settings.h"
#include "db/sqlite_connection.h"
#include "small_plant.h"
#include "support/catch.h"

#include <atomic>
#include <thread>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

namespace {

const Day today = day_from_iso("2026-11-25");

KeptText typed() {
    return {{"a delivery of 3 lots"},
            {{"lots", "3"}, {"lots/0/draft/code", "W24-118"}, {"door/0/note", "wet,\n2 bags"}}};
}

AppSetup station(const SmallPlant& plant, const std::string& who, const std::string& where) {
    AppSetup setup{plant.book_path(), who, Clock::standing_at(today)};
    setup.station = where;
    return setup;
}

/// The night shift begins a delivery at the dock and puts it aside; two others could go on with it.
struct ThreeStations {
    SmallPlant plant;
    App dock{station(plant, "Jonas", "Dock")};
    App office{station(plant, "Ines", "Office")};
    App gate{station(plant, "Joris", "Gate")};

    ThreeStations() { done(dock, PutDeliveryAside{typed(), "3 lots of Mill"}); }
    static void done(App& app, const Intent& intent) {
        app.handle(intent);
        INFO(app.notice().words);
        REQUIRE(app.notice().kind == Notice::Kind::done);
    }
    static std::string refused(App& app, const Intent& intent) {
        app.handle(intent);
        INFO(app.notice().words);
        REQUIRE(app.notice().kind == Notice::Kind::refused);
        std::string words;
        for (const auto& refusal : app.notice().refusals)
            words += in_words(refusal) + "\n";
        return words;
    }
    static BegunId first(App& app) {
        app.poll();
        return app.intake().begun.at(0).id;
    }
};

} // namespace

TEST_CASE(
    "A delivery put aside at one station is listed at every other, with who began it, when, and how far") {
    ThreeStations at;
    CHECK(at.dock.intake().put_aside == 1);
    at.office.poll();
    REQUIRE(at.office.intake().begun.size() == 1);
    CHECK(at.office.intake().begun[0].words ==
          "Begun by Jonas, " + at.office.clock().in_words(at.office.clock().now(), today) +
              ": 3 lots of Mill");
    CHECK(at.office.intake().begun[0].holder.empty());
    at.plant.open_again();
    CHECK(at.plant.app().intake().begun.size() == 1);
}

TEST_CASE("One that is taken over brings every text as it was typed, and the second one is told who has it") {
    ThreeStations at;
    const auto id = at.first(at.office);
    at.done(at.office, TakeOverDelivery{id});
    const auto& taken = at.office.intake().taken_over;
    CHECK(taken.count == 1);
    CHECK(taken.hold.delivery == id);
    CHECK(taken.text.fields == typed().fields);
    CHECK(at.office.notice().screen == "Intake");
    // The gate has not looked since: it decides anew and finds that Ines was quicker.
    CHECK_THAT(at.refused(at.gate, TakeOverDelivery{id}), Contains("Begun delivery: Ines at Office has it"));
    CHECK(at.gate.intake().taken_over.count == 0);
    at.gate.poll();
    CHECK_THAT(at.gate.intake().begun.at(0).holder, Contains("Ines has it since") && Contains("at Office"));
}

TEST_CASE("Of two that ask at the same instant exactly one has it") {
    for (int round = 0; round < 10; ++round) {
        ThreeStations at;
        const auto id = at.first(at.office);
        at.gate.poll();
        std::atomic<bool> go{false};
        const auto ask = [&](App& app) {
            while (!go)
                std::this_thread::yield();
            app.handle(TakeOverDelivery{id});
        };
        std::thread other([&] { ask(at.gate); });
        go = true;
        ask(at.office);
        other.join();
        CHECK(at.office.intake().taken_over.count + at.gate.intake().taken_over.count == 1);
        const bool office_has_it = at.office.notice().kind == Notice::Kind::done;
        CHECK((office_has_it ? at.gate : at.office).notice().kind == Notice::Kind::refused);
    }
}

TEST_CASE("Taken in, it is off every list, and its text is no delivery any more") {
    ThreeStations at;
    at.done(at.office, TakeOverDelivery{at.first(at.office)});
    OfDelivery of;
    of.begun = at.office.intake().taken_over.hold;
    of.rest = Rest::follows;
    at.done(at.office, TakeIn{{at.plant.draft("W24-118")}, {}, of});
    CHECK(at.office.intake().begun.size() == 1); // some of it stays
    of.rest = Rest::none;
    of.joins = at.office.intake().came;
    at.done(at.office, TakeIn{{at.plant.draft("W24-119")}, {}, of});
    CHECK(at.office.intake().begun.empty());
    at.gate.poll();
    CHECK(at.gate.intake().begun.empty());
    CHECK_THAT(at.refused(at.gate, TakeOverDelivery{of.begun.delivery}), Contains("came in meanwhile"));
}

TEST_CASE("What another window took over meanwhile is not taken in twice") {
    ThreeStations at;
    const auto id = at.first(at.office);
    at.done(at.office, TakeOverDelivery{id});
    OfDelivery of;
    of.begun = at.office.intake().taken_over.hold;
    at.done(at.gate, TakeOverDelivery{id, TakeFrom::whoever_has_it});
    CHECK_THAT(at.refused(at.office, TakeIn{{at.plant.draft("W24-118")}, {}, of}),
               Contains("Joris at Gate has it"));
    CHECK(at.office.deliveries("", 5).empty());
    of.begun = at.gate.intake().taken_over.hold;
    at.done(at.gate, TakeIn{{at.plant.draft("W24-118")}, {}, of});
}

TEST_CASE("Put aside again it waits with what was typed since, under the name of who did") {
    ThreeStations at;
    at.done(at.office, TakeOverDelivery{at.first(at.office)});
    const auto hold = at.office.intake().taken_over.hold;
    auto more = typed();
    more.fields["lots"] = "4";
    at.done(at.office, PutDeliveryAside{more, "4 lots of Mill", hold});
    at.done(at.gate, TakeOverDelivery{at.first(at.gate)});
    CHECK(at.gate.intake().taken_over.text.fields == more.fields);
    CHECK_THAT(at.gate.intake().begun.at(0).words, Contains("Begun by Ines") && Contains("4 lots of Mill"));
    CHECK_THAT(at.refused(at.office, PutDeliveryAside{typed(), "3 lots", hold}),
               Contains("Joris at Gate has it"));
}

TEST_CASE("The undo of putting aside takes it up again, and that of throwing away lets it wait again") {
    ThreeStations at;
    for (const auto& act : Intents(at.dock.notice().undoing))
        at.done(at.dock, act);
    CHECK(at.dock.intake().taken_over.text.fields == typed().fields);
    at.done(at.dock, ThrowBegunAway{at.dock.intake().taken_over.hold});
    CHECK(at.dock.intake().begun.empty());
    for (const auto& act : Intents(at.dock.notice().undoing))
        at.done(at.dock, act);
    CHECK(at.dock.intake().begun.size() == 1);
    at.office.poll();
    CHECK_THAT(at.office.settings().journal.at(0).words,
               Contains("Begun delivery waits again: 3 lots of Mill"));
}

TEST_CASE("Nothing typed is nothing to put aside, and a text of another version is not misread") {
    ThreeStations at;
    CHECK_THAT(at.refused(at.dock, PutDeliveryAside{{}, "nothing"}), Contains("has nothing typed yet"));
    {
        SqliteConnection book(at.plant.book_path());
        book.execute("UPDATE begun_delivery SET text_form = '0'");
    }
    CHECK_THAT(at.refused(at.office, TakeOverDelivery{at.first(at.office)}),
               Contains("another version of this program"));
    CHECK(at.office.intake().taken_over.count == 0);
}
