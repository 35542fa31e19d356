#include "app/acts/batches.h"
#include "app/acts/give_lot.h"
#include "app/acts/looking.h"
#include "app/acts/silos.h"
#include "app/acts/stock.h"
#include "app/acts/trace.h"
#include "app/models/card.h"
#include "app/models/trace_page.h"
#include "support/catch.h"
#include "ui/models/trace.h"
#include "ui/views/dock_window.h"
#include "ui/views/kept_window.h"
#include "ui/views/whole_window.h"

using namespace mellowbin;
using Catch::Matchers::Contains;
using test::WholeWindow;
using tests::DockWindow;
using views::Screen;

namespace {

/// A lot of which one batch of today's run was mixed and sent.
struct TracedPlant : DockWindow {
    TracedPlant() {
        plant.released_lot(plant.draft("W24-118"));
        const auto run = plant.add_run("Plain loaf", "2026-11-25", "2");
        does(app::GiveLot{plant.lot("W24-118"), {}, run});
        app::BatchDraft batch;
        batch.water = "60";
        batch.answer = "for a trace";
        does(app::ConfirmBatch{run, batch, 0});
        DispatchDraft sent;
        sent.product = "Plain loaf";
        sent.customer = "K-17";
        sent.kg = "50";
        does(app::LogDispatch{sent});
        screen.settle();
        put_away();
        screens->show(Screen::trace);
        screen.settle();
    }
    void does(const app::Intent& intent) {
        plant.app().handle(intent);
        INFO(plant.said() << plant.refusals());
        REQUIRE(plant.was_done());
    }
};

} // namespace

TEST_CASE("A lot that is typed is traced, with its batch, its customer and the mass balance") {
    TracedPlant at;
    CHECK(at.screen.says("Enter a lot to see where it went"));
    at.screen.type("What to trace/Lot", "w24-118");
    at.screen.click("What to trace/Trace");
    REQUIRE(at.plant.app().trace().trace);
    CHECK(
        at.screen.says("1 batch, 1 of them surely and 0 maybe; 1 dispatch to 1 customer; 1 lot can be held"));
    CHECK(at.screen.says("customer K-17"));
    at.screen.type("What to trace/Lot", "W99");
    at.screen.click("What to trace/Trace");
    CHECK(at.screen.says("\"W99\" is not in the book"));
    CHECK(at.screen.says("customer K-17")); // what was found stays
}

TEST_CASE("A product and its day are traced back to its lots") {
    TracedPlant at;
    at.screen.click("Product");
    at.screen.type("What to trace/Product", "Plain loaf");
    at.screen.click("What to trace/Trace");
    CHECK(at.screen.says("Plain loaf of 2026-11-25: 1 batch"));
    CHECK(at.screen.says("Lot W24-118"));
}

TEST_CASE("Everything concerned is held by one press, after it was shown and a reason given") {
    TracedPlant at;
    at.screen.type("What to trace/Lot", "W24-118");
    at.screen.click("What to trace/Trace");
    at.screen.click("Put everything concerned on hold");
    CHECK(at.screen.says("Lots: W24-118"));
    CHECK(at.screen.says("No hold reaches 1 batch and 1 dispatch"));
    at.screen.click("Put on hold");
    CHECK(at.screen.says("Say why, in a few words"));
    at.screen.type("Reason", "metal");
    at.screen.click("Put on hold");
    CHECK(at.plant.row("W24-118").state == LotState::held);
    CHECK_THAT(at.plant.said(), Contains("1 lot put on hold (W24-118): metal") && Contains("to K-17"));
    CHECK_FALSE(at.screen.is_enabled("Put everything concerned on hold"));
}

TEST_CASE("A drill is begun and ended on the screen, and stands there with its time") {
    TracedPlant at;
    CHECK_FALSE(at.screen.is_enabled("Begin a drill"));
    at.screen.type("What to trace/Lot", "W24-118");
    at.screen.click("Begin a drill");
    REQUIRE(at.plant.app().trace().running.is_known());
    at.screen.click("The trace is complete");
    CHECK_FALSE(at.plant.app().trace().running.is_known());
    REQUIRE(at.plant.app().trace().drills.size() == 1);
    CHECK(at.plant.app().trace().drills[0].end);
}

TEST_CASE("A trace is put away with its screen, and made again when one comes back") {
    TracedPlant at;
    at.screen.type("What to trace/Lot", "W24-118");
    at.screen.click("What to trace/Trace");
    at.screens->show(Screen::lots);
    at.screen.settle();
    CHECK_FALSE(at.plant.app().trace().trace);
    at.screens->show(Screen::trace);
    at.screen.settle();
    CHECK(at.plant.app().trace().trace);
}

TEST_CASE("The reason of a hold that stands open is kept, and the trace made anew for it") {
    TracedPlant at;
    at.screen.type("What to trace/Lot", "W24-118");
    at.screen.click("What to trace/Trace");
    at.screen.click("Put everything concerned on hold");
    at.screen.type("Reason", "metal in the sieve");
    at.kill_and_take_up();
    at.screen.settle();
    CHECK(at.screens->current() == Screen::trace);
    CHECK(at.screen.field_value("Reason") == "metal in the sieve");
    at.screen.click("Put on hold");
    CHECK(at.plant.row("W24-118").state == LotState::held);
}

TEST_CASE("What is contained and what may be is told apart by words") {
    WholeWindow window(Screen::trace);
    window.trace = test::a_traced_lot();
    window.screen.settle();
    CHECK(window.screen.says("may contain"));
    CHECK(window.screen.says("Batch 1 of run R-1125-1"));
    CHECK(window.screen.says("64.5"));
}

TEST_CASE("A dispatch is logged in a form, refused beside its fields, and taken back by a second line") {
    TracedPlant at;
    at.screen.click("Dispatches");
    CHECK(at.screen.says("50.0 kg of Plain loaf to K-17"));
    at.screen.click("Log a dispatch");
    at.screen.type("New dispatch/Product", "Plain loaf");
    at.screen.type("New dispatch/Weight", "x");
    at.screen.click("New dispatch/Log dispatch");
    CHECK(at.screen.says("Customer: is empty") == false); // beside the field, not above the form
    CHECK(at.screen.says("\"x\" was read"));
    at.screen.type("New dispatch/Customer", "K-18");
    at.screen.type("New dispatch/Weight", "20");
    at.screen.click("New dispatch/Log dispatch");
    CHECK_THAT(at.plant.said(), Contains("Sent: 20 kg of run"));
    CHECK(at.screen.says("20.0 kg of Plain loaf to K-18"));
    CHECK_FALSE(at.screen.offers("New dispatch/Log dispatch")); // the form closed
    at.put_away();
    at.screen.click("It did not leave to K-18");
    at.screen.type("Reason", "came back");
    at.screen.click("Take dispatch back");
    CHECK_THAT(at.plant.said(), Contains("Did not leave"));
    CHECK(at.screen.says("Taken back:"));
}

TEST_CASE("What lies where is shown, also as it was, and follows what other stations do") {
    TracedPlant at;
    at.screen.click("Stock");
    CHECK(at.screen.says("As of 2026-11-25"));
    REQUIRE(at.plant.app().trace().stock);
    const double before = at.plant.app().trace().stock->kg;
    at.does(app::WasteLot{at.plant.lot("W24-118"), PlaceId{1}, "10", "wet"});
    at.screen.settle();
    CHECK(at.plant.app().trace().stock->kg == before - 10);
    at.put_away();
    at.screen.type("When/At", "soon");
    at.screen.click("When/Show stock");
    CHECK(at.screen.says("\"soon\" was read"));
    at.screen.type("When/At", "2026-11-20");
    at.screen.click("When/Show stock");
    CHECK(at.screen.says("Nothing lay there."));
    at.screens->show(Screen::lots);
    at.screen.settle();
    CHECK_FALSE(at.plant.app().trace().stock); // it costs nothing while nobody looks
}

TEST_CASE("Silos are looked after on their page, in the form of the silo that was pressed") {
    WholeWindow window(Screen::trace);
    window.trace = test::a_traced_lot();
    window.screens.trace.page = views::TraceView::silos_page;
    window.screen.settle();
    CHECK(window.screen.says("13 000 of at most 30 000 kg; its lowest 2500 kg are one mixture"));
    CHECK(window.screen.says("cleaned on 2026-11-20 by Tomas: brushed"));
    window.screen.click("Write down what was done to it");
    window.screen.click("What was done"); // opens the choice
    window.screen.click("Cleaned");
    window.screen.type("By", "Joris");
    window.screen.click("Write it down");
    const auto& care = window.last<app::NoteCare>();
    CHECK(care.silo == "Silo 1");
    CHECK(care.what == "cleaned");
    CHECK(care.by == "Joris");
    window.screen.click("Change how it mixes, or how much it takes");
    CHECK(window.screen.value_of("Mixing zone") == "2500");
    window.screen.type("Holds at most", "25000");
    window.screen.click("Keep how much it takes");
    CHECK(window.last<app::SetSiloCapacity>().kg == "25000");
    window.screen.type("Draw", "250");
    window.screen.click("Show the draw");
    CHECK(window.last<app::ShowSiloDraw>().kg == "250");
}

TEST_CASE("A dispatch, what was put back and what is said of silos are kept while they are typed") {
    WholeWindow typed(Screen::trace);
    typed.trace = test::a_traced_lot();
    typed.screen.settle();
    auto& view = typed.screens.trace;
    view.page = views::TraceView::silos_page;
    view.dispatch.open_for(0);
    auto& [product, run, customer, pieces, kg, piece_g, day, note, reason] = view.dispatch.drafts[0];
    test::fill(product, run, customer, pieces, kg, piece_g, day, note, reason);
    view.rework.open_for(0);
    auto& [from_run, from_batch, into_run, into_batch, kind, put_back, words] = view.rework.drafts[0];
    test::fill(from_run, from_batch, into_run, into_batch, kind, put_back, words);
    view.silos.open_for(PlaceId{4}, {"2500", ""});
    test::fill(view.silos.drafts[PlaceId{4}].zone, view.silos.drafts[PlaceId{4}].kg);
    view.care.open_for(PlaceId{4});
    view.care.drafts[PlaceId{4}].what = 1;
    test::fill(view.care.drafts[PlaceId{4}].by, view.care.drafts[PlaceId{4}].note);
    view.taking_back.emplace().what = DispatchId{1};
    test::fill(view.taking_back->words, view.taking_back->reason);
    test::stays(typed, 5, Screen::trace);
    test::NewWindow next;
    test::take_up_in(next, test::kept(typed));
    CHECK(next.screens.trace.page == views::TraceView::silos_page);
    CHECK(next.screens.trace.care.drafts.at(PlaceId{4}).what == 1);
}
