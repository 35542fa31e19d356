// Plan beside the board: both plans compared, what if, flour to come, the page to print.

#include "app/acts/plan.h"
#include "app/acts/print_plan.h"
#include "app/acts/supply.h"
#include "app/acts/what_if.h"
#include "opened_plan.h"

using namespace mellowbin;
using namespace mellowbin::tests;

TEST_CASE("Both plans stand side by side with their parts, and a run that moved in full") {
    Opened o{test::a_compared_week()};
    o.screen.click("Compare the plans");
    CHECK(o.screen.says("420 kg less short, and 30 mg/kg more oxidant in 1 run; 2 runs change."));
    CHECK(o.screen.says("Flour short | 980 kg | 560 kg"));
    CHECK(o.screen.says("Flour short: nothing can be short of less than 560 kg."));
    o.screen.click("Thu 26 Nov, Line 2: Bun (R-012)");
    CHECK(o.screen.says("420 kg less short"));
    o.screen.click("Show it on the board");
    CHECK(o.view.page == views::PlanView::board_page);
    CHECK(o.view.board.selected == 12);
    o.screen.click("Compare");
    o.screen.click("Adopt plan");
    o.only<app::AdoptPlan>();
    o.screen.click("Keep the book's plan");
    o.only<app::DiscardPlan>();
}

TEST_CASE("A plan that rests on what is supposed says so, and cannot be adopted") {
    Opened o{test::a_supposed_week()};
    o.screen.settle();
    CHECK(o.screen.says("What if: nothing here touches the book"));
    CHECK_FALSE(o.screen.offers("Adopt plan"));
    o.screen.click("Compare the plans");
    CHECK(o.screen.says("What if: nothing here touches the book"));
    CHECK_FALSE(o.screen.is_enabled("Adopt plan"));
    CHECK(o.screen.says("It rests on what is supposed"));
}

TEST_CASE("What is supposed is listed, removed by its number and planned with") {
    Opened o{test::a_supposed_week()};
    o.view.is_what_if = true;
    o.screen.settle();
    o.screen.click("Remove 2");
    CHECK(o.only<app::DropSupposition>().index == 1);
    o.screen.click("Plan with these");
    o.only<app::PlanSuppositions>();
}

TEST_CASE("Without suppositions there is nothing to plan with") {
    Opened o;
    o.screen.click("What if");
    CHECK_FALSE(o.screen.is_enabled("Plan with these"));
    CHECK(o.screen.says("Suppose something first"));
}

TEST_CASE("An order, a market without oxidant and a lot held are supposed as typed") {
    Opened o;
    o.screen.click("What if");
    o.view.what_if.kind = 1;
    o.view.what_if.flour = "Hearth";
    o.screen.settle();
    o.screen.type("Weight", "many");
    o.screen.type("Arrives", "2026-11-27");
    o.screen.click("Suppose it");
    const auto order = o.only<app::SupposeOrder>();
    CHECK(order.flour == "Hearth");
    CHECK(order.kg == "many");
    CHECK(order.arrives == "2026-11-27");
    o.notice = test::refused(1, {{"Weight", "\"many\" was read; a number is expected", ""}});
    o.screen.settle();
    CHECK(o.screen.says("\"many\" was read; a number is expected"));
    CHECK(o.screen.field_value("Weight") == "many");

    o.view.what_if.kind = 2;
    o.screen.settle();
    CHECK_FALSE(o.screen.says("\"many\" was read; a number is expected"));
    o.screen.click("US");
    o.screen.click("Suppose it");
    CHECK(o.only<app::SupposeNoOxidant>().market == "US");

    o.view.what_if.kind = 3;
    o.screen.settle();
    o.screen.type("Lot", "none such");
    o.screen.click("Suppose it");
    CHECK(o.screen.says("\"none such\" was read; the number of a lot in stock is expected"));
    CHECK(o.all<app::SupposeLotHeld>().empty());
    o.screen.type("Lot", "w26-131");
    o.screen.click("Suppose it");
    CHECK(o.only<app::SupposeLotHeld>().lot == LotId{6});
}

TEST_CASE("A run is supposed elsewhere by its fields, which follow the run chosen") {
    Opened o;
    o.screen.click("What if");
    CHECK(o.screen.says("Drag a run over the board"));
    o.choose(12);
    CHECK(o.screen.field_value("Suppose/Day") == "2026-11-26");
    o.screen.type("Suppose/Day", "2026-11-29");
    o.screen.click("Suppose it");
    const auto moved = o.only<app::SupposeRunMoved>();
    CHECK(moved.run == RunId{12});
    CHECK(moved.line == "Line 2");
    CHECK(moved.day == "2026-11-29");
}

TEST_CASE("A plan in the book that no longer holds says why, and is mended with few changes") {
    Opened o{test::a_full_week()};
    CHECK(o.screen.says("Lot H26-019 was put on hold"));
    o.screen.click("Replan with few changes");
    CHECK(o.only<app::Replan>().from == test::plan_today());
    CHECK(o.only<app::Replan>().days == 7);
}

TEST_CASE("How long to search goes with the wish to plan") {
    Opened o;
    o.screen.click("25 Nov to 1 Dec");
    o.screen.click("1 min");
    o.screen.click("Plan the week");
    CHECK(o.only<app::PlanRuns>().seconds == 60);
}

TEST_CASE("What to order stands there with its day, and fills the form of a delivery to come") {
    Opened o{test::a_full_week()};
    o.screen.click("Flour to come");
    CHECK(o.screen.says("260 kg Wholemeal"));
    CHECK(o.screen.says("Here by Fri 27 Nov: then it matures in time."));
    CHECK(o.screen.says("It is too late for it to mature in time."));
    o.screen.click("1/It is ordered");
    CHECK(o.screen.field_value("Weight") == "12000");
    CHECK(o.screen.value_of("Flour") == "Strong white");
}

TEST_CASE("A delivery is expected as typed; refused, it stays as typed with the refusal at its field") {
    Opened o;
    o.screen.click("Flour to come");
    o.screen.click("Expect a delivery");
    o.screen.click("Mill");
    o.screen.click("Kestrel Mill");
    o.view.flour.expect.flour = "Hearth";
    o.screen.type("Weight", "ten");
    o.screen.type("Arrives", "2026-12-01");
    o.screen.type("Order number", "PO-17");
    o.screen.click("Expect delivery");
    const auto wish = o.only<app::ExpectDelivery>();
    CHECK(wish.mill == "Kestrel Mill");
    CHECK(wish.flour == "Hearth");
    CHECK(wish.kg == "ten");
    CHECK(wish.arrives == "2026-12-01");
    CHECK(wish.milled.empty());
    CHECK(wish.order == "PO-17");
    o.notice = test::refused(1, {{"Weight", "\"ten\" was read; a number is expected", ""}});
    o.screen.settle();
    CHECK(o.screen.says("\"ten\" was read; a number is expected"));
    CHECK(o.screen.field_value("Weight") == "ten");
    o.screen.type("Weight", "10000");
    o.screen.press(Key::enter);
    o.notice = test::done(2, "Delivery expected");
    o.screen.settle();
    CHECK(o.all<app::ExpectDelivery>().size() == 2);
    CHECK(o.screen.offers("Expect a delivery"));
}

TEST_CASE("A delivery came as a lot, or was called off with a reason") {
    Opened o{test::a_full_week()};
    o.screen.click("Flour to come");
    CHECK(o.screen.says("It should have come."));
    o.screen.click("3/It came");
    o.screen.click("It came"); // of the question, which lies above
    CHECK(o.screen.says("is empty; the number of a lot in stock is expected"));
    CHECK(o.all<app::EndExpectation>().empty());
    o.screen.type("Lot", "W26-131");
    o.screen.press(Key::enter);
    const auto came = o.only<app::EndExpectation>();
    CHECK(came.delivery == ExpectedId{3});
    CHECK(came.came_as == LotId{6});
    o.notice = test::done(1, "It came");
    o.screen.settle();

    o.screen.click("2/Called off");
    o.screen.type("Reason", "mill stands still");
    o.screen.press(Key::enter);
    REQUIRE(o.all<app::EndExpectation>().size() == 2);
    CHECK(o.all<app::EndExpectation>()[1].delivery == ExpectedId{2});
    CHECK_FALSE(o.all<app::EndExpectation>()[1].came_as);
    CHECK(o.all<app::EndExpectation>()[1].reason == "mill stands still");
}

TEST_CASE("A lot is reserved for a product as a whole, or kept back by weight") {
    Opened o;
    o.screen.click("Flour to come");
    o.screen.click("Reserve a lot");
    o.screen.type("Lot", "W26-131");
    o.screen.type("Weight", "500");
    o.screen.type("Reason", "trial bake");
    o.screen.click("Reserve lot");
    const auto kept = o.only<app::ReserveLot>();
    CHECK(kept.lot == LotId{6});
    CHECK(kept.product.empty());
    CHECK(kept.kg == "500");
    CHECK(kept.reason == "trial bake");
    o.view.flour.reserve.product = 2;
    o.screen.settle();
    o.screen.click("Reserve lot");
    CHECK(o.all<app::ReserveLot>()[1].product == "Bun");
    CHECK(o.all<app::ReserveLot>()[1].kg.empty());
}

TEST_CASE("A reservation is ended with a reason, and Escape keeps it") {
    Opened o{test::a_full_week()};
    o.screen.click("Flour to come");
    CHECK(o.screen.says("B26-044: 500 kg kept back (trial bake)"));
    o.screen.click("End reservation");
    o.screen.press(Key::escape);
    CHECK(o.asked.empty());
    o.screen.click("End reservation");
    o.screen.type("Reason", "trial done");
    o.screen.press(Key::enter);
    CHECK(o.only<app::EndReservation>().reservation == ReservationId{5});
    CHECK(o.only<app::EndReservation>().reason == "trial done");
}

TEST_CASE("Print asks for the plan as a page beside the book, on every page of the plan") {
    Opened o{test::a_compared_week()};
    o.screen.resize(1280, 720);
    o.screen.click("Print");
    CHECK(o.only<app::PrintPlan>().path.empty());
    o.screen.click("Compare");
    o.screen.click("Print");
    CHECK(o.all<app::PrintPlan>().size() == 2);
    CHECK(o.asked.size() == 2);
}
