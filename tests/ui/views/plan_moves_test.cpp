// Moving runs and giving lots on the board: by mouse, by key, by touch.

#include "app/acts/assignments.h"
#include "app/acts/give_lot.h"
#include "app/acts/looking.h"
#include "app/acts/runs.h"
#include "app/acts/what_if.h"
#include "opened_plan.h"

using namespace mellowbin;
using namespace mellowbin::tests;

TEST_CASE("A run is dragged to another day, and the book is asked to move it there") {
    Opened o;
    const auto [x, y] = o.on_day(2, o.screen.find("Pan bread").rect.top + 20);
    o.drag_run("Pan bread", x, y);
    CHECK(o.screen.says("Pan bread to Fri 27 Nov, Line 1, 1st in the order."));
    CHECK(o.all<app::ChangeRun>().empty());
    o.let_go();
    const auto moved = o.only<app::ChangeRun>();
    CHECK(moved.run == RunId{11});
    CHECK(moved.line == "Line 1");
    CHECK(moved.day == "2026-11-27");
    CHECK(moved.sequence == "1");
    CHECK(moved.batches.empty());
    CHECK(o.all<app::SupposeRunMoved>().empty());
}

TEST_CASE("Escape leaves a dragged run where it was") {
    Opened o;
    const auto [x, y] = o.on_day(2, o.screen.find("Pan bread").rect.top + 20);
    o.drag_run("Pan bread", x, y);
    o.screen.press(Key::escape);
    o.let_go();
    CHECK(o.asks_nothing());
}

TEST_CASE("With What if, a dragged run is supposed and the book stays as it is") {
    Opened o;
    o.screen.click("What if");
    CHECK(o.screen.says("Nothing here touches the book."));
    const auto [x, y] = o.on_day(2, o.screen.find("Pan bread").rect.top + 20);
    o.drag_run("Pan bread", x, y);
    CHECK(o.screen.says("The book stays as it is."));
    o.let_go();
    CHECK(o.only<app::SupposeRunMoved>().day == "2026-11-27");
    CHECK(o.all<app::ChangeRun>().empty());
}

TEST_CASE("While a proposal is looked at, a dragged run is supposed, too") {
    Opened o{test::a_proposed_week()};
    const auto [x, y] = o.on_day(2, o.screen.find("Pan bread").rect.top + 20);
    o.drag_run("Pan bread", x, y);
    o.let_go();
    CHECK(o.only<app::SupposeRunMoved>().run == RunId{11});
    CHECK(o.all<app::ChangeRun>().empty());
}

TEST_CASE("A fixed run is not moved, and says why") {
    Opened o{test::a_full_week()};
    const auto [x, y] = o.on_day(2, o.screen.find("Pan bread").rect.top + 20);
    o.drag_run("Pan bread", x, y);
    CHECK(o.screen.says("Pan bread on Wed 25 Nov is fixed"));
    o.let_go();
    CHECK(o.asks_nothing());
}

TEST_CASE("A day that is past takes no run") {
    Opened o;
    o.model.from = test::plan_today() - Days{2};
    o.screen.settle();
    const auto pan = o.screen.find("Pan bread").rect, bun = o.screen.find("Bun").rect;
    o.drag_run("Pan bread", pan.left + 20 - (bun.left - pan.left), pan.top + 20);
    CHECK(o.screen.says("Tue 24 Nov is past: choose today or a later day."));
    o.let_go();
    CHECK(o.asks_nothing());
}

TEST_CASE("A lot is dragged from one run onto another") {
    Opened o;
    const auto bun = o.screen.find("Bun").rect;
    const auto [x, y] = o.last_lot_of("Pan bread");
    o.press_at(x, y);
    o.screen.point_at((x + bun.left) / 2, y);
    o.screen.point_at(bun.left + 20, bun.top + 12);
    CHECK(o.screen.says("B26-044 from Pan bread on Wed 25 Nov to Bun on Thu 26 Nov"));
    o.let_go();
    const auto given = o.only<app::GiveLot>();
    CHECK(given.lot == LotId{4});
    CHECK(given.from == RunId{11});
    CHECK(given.to == RunId{12});
}

TEST_CASE("A locked lot is not dragged away, and a delivery to come is not given") {
    Opened o{test::a_full_week()};
    o.model.runs[0].is_frozen = false;
    o.screen.settle();
    const auto bun = o.screen.find("Bun").rect, pan = o.screen.find("Pan bread").rect;
    o.press_at(pan.left + 20, pan.top + 60);
    o.screen.point_at(bun.left + 10, bun.top + 5);
    o.screen.point_at(bun.left + 20, bun.top + 12);
    CHECK(o.screen.says("B26-031 is locked in Pan bread on Wed 25 Nov: unlock it first."));
    o.let_go();

    o.choose(14);
    o.view.board.pick_up({14, -3});
    o.screen.settle();
    CHECK(o.screen.says("E-3 is still to come"));
    CHECK(o.asks_nothing());
}

TEST_CASE("By key: F8 picks the chosen run up, arrows carry it, Enter puts it down") {
    Opened o;
    o.choose(11);
    o.screen.press(Key::f8);
    o.screen.press(Key::right);
    CHECK(o.screen.says("Pan bread to Thu 26 Nov, Line 1, 1st in the order."));
    o.screen.press(Key::enter);
    CHECK(o.only<app::ChangeRun>().day == "2026-11-26");
}

TEST_CASE("By touch: Give picks the only lot up, and the run that is tapped gets it") {
    Opened o;
    o.choose(12);
    o.screen.click("Give W26-127");
    CHECK(o.screen.says("Let go on another run") == false);
    o.screen.click("Pan bread");
    const auto given = o.only<app::GiveLot>();
    CHECK(given.lot == LotId{5});
    CHECK(given.from == RunId{12});
    CHECK(given.to == RunId{11});
}

TEST_CASE("What was picked up is left where it is by touch") {
    Opened o;
    o.choose(12);
    o.screen.click("Move it on the board");
    o.screen.click("Leave it where it is");
    CHECK_FALSE(o.view.board.hand);
    CHECK(o.asks_nothing());
}

TEST_CASE("By key: Space chooses a lot of the run, and F7 unlocks or locks it") {
    Opened o;
    o.choose(11);
    o.screen.press(Key::f7);
    CHECK(o.asks_nothing()); // two lots, none chosen
    o.view.board.takes_focus = true;
    o.screen.settle();
    o.screen.press(Key::space);
    o.screen.press(Key::f7);
    CHECK(o.only<app::UnlockAssignment>().lot == LotId{2});
    o.screen.press(Key::space);
    o.screen.press(Key::f7);
    CHECK(o.only<app::LockAssignment>().lot == LotId{4});
}

TEST_CASE("A lot tapped on its card is chosen and opened") {
    Opened o;
    const auto [x, y] = o.last_lot_of("Pan bread");
    o.press_at(x, y);
    o.let_go();
    CHECK(o.view.board.selected == 11);
    CHECK(o.view.board.lot == 4);
    CHECK(o.only<app::OpenLot>().lot == LotId{4});
    CHECK(o.screen.offers("Give B26-044"));
}

TEST_CASE("A run is changed as typed, and a refusal stands at its field with nothing lost") {
    Opened o;
    o.choose(12);
    o.screen.click("Change this run");
    CHECK(o.screen.field_value("Day") == "2026-11-26");
    o.screen.type("Day", "soon");
    o.screen.type("Batches", "9");
    o.screen.click("Change run");
    const auto change = o.only<app::ChangeRun>();
    CHECK(change.line == "Line 2");
    CHECK(change.day == "soon");
    CHECK(change.batches == "9");
    o.notice = test::refused(1, {{"Day", "\"soon\" was read; a day is expected", ""}});
    o.screen.settle();
    CHECK(o.screen.says("\"soon\" was read; a day is expected"));
    CHECK(o.screen.field_value("Day") == "soon");
    o.screen.type("Day", "2026-11-28");
    o.screen.press(Key::enter);
    REQUIRE(o.all<app::ChangeRun>().size() == 2);
    o.notice = test::done(2, "Run changed");
    o.screen.settle();
    CHECK_FALSE(o.screen.offers("Change run"));
}
