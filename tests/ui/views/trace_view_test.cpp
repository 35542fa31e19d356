#include "app/acts/batches.h"
#include "app/acts/give_lot.h"
#include "app/acts/trace.h"
#include "app/models/card.h"
#include "app/models/trace_page.h"
#include "support/catch.h"
#include "ui/models/trace.h"
#include "ui/views/dock_window.h"
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
