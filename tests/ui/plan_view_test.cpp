#include "support/catch.h"
#include "support/screen.h"
#include "ui/lot_models.h"
#include "ui/plan_models.h"
#include "ui/views/plan_view.h"

#include <utility>

using namespace mellowbin;
using testing::Screen;
using ui::Key;

namespace {

struct Opened {
    app::PlanModel model = test::a_week();
    app::LotsModel lots = test::seven_lots();
    views::PlanView view;
    app::Notice notice;
    app::Overview overview;
    app::Intents asked;
    Screen screen{[this] { draw(view, model, lots, notice, overview, asked); }};

    explicit Opened(app::PlanModel plan = test::a_week()) : model(std::move(plan)) {}
    template <class T> std::vector<T> all() const {
        std::vector<T> found;
        for (const auto& intent : asked)
            if (const auto* one = std::get_if<T>(&intent))
                found.push_back(*one);
        return found;
    }
    void choose(int run) {
        view.choose(run);
        screen.settle();
    }
    /// The only intent of this kind.
    template <class T> T only() const {
        const auto found = all<T>();
        INFO(screen.words());
        REQUIRE(found.size() == 1);
        return found[0];
    }
    void press_at(float x, float y) {
        screen.point_at(x, y);
        screen.ui().pointer_pressed();
        screen.settle();
    }
    void let_go() {
        screen.ui().pointer_released();
        screen.settle();
    }
    /// Presses a run's card near its top and moves to a point, without letting go.
    void drag_run(std::string_view title, float x, float y) {
        const auto card = screen.find(title).rect;
        press_at(card.left + 20, card.top + 14);
        screen.point_at((card.left + x) / 2, (card.top + y) / 2);
        screen.point_at(x, y);
    }
    /// The middle of the bar of lots on a card, where its last part is.
    std::pair<float, float> last_lot_of(std::string_view title) const {
        const auto card = screen.find(title).rect;
        return {card.right - 14, card.top + 70};
    }
    /// The upper part of a day's column on a line, seen from the cards of it.
    std::pair<float, float> on_day(int days_from_pan, float y) const {
        const auto pan = screen.find("Pan bread").rect, bun = screen.find("Bun").rect;
        return {pan.left + 20 + static_cast<float>(days_from_pan) * (bun.left - pan.left), y};
    }
};

} // namespace

TEST_CASE("Without runs Plan says how to add one") {
    Opened o;
    o.model.runs.clear();
    o.model.shortages.clear();
    o.screen.settle();
    CHECK(o.screen.says("Add one with New run"));
}

TEST_CASE("The button that plans names the days it will plan") {
    Opened o;
    o.screen.click("Plan the week");
    REQUIRE(o.all<app::PlanRuns>().size() == 1);
    CHECK(o.all<app::PlanRuns>()[0].from == test::plan_today());
    CHECK(o.all<app::PlanRuns>()[0].days == 7);
    o.screen.click("14");
    CHECK(o.all<app::ShowPlan>().back().days == 14);
    o.screen.click("Plan 2 weeks");
    CHECK(o.all<app::PlanRuns>().back().days == 14);
}

TEST_CASE("A first day that is none plans nothing and is refused beside the field") {
    Opened o;
    o.screen.type("From", "soon");
    o.screen.click("Plan the week");
    CHECK(o.all<app::PlanRuns>().empty());
    CHECK(o.screen.says("\"soon\" was read"));
}

TEST_CASE("While planning, how far it is stands there, and it can be stopped") {
    Opened o;
    o.model.is_planning = true;
    o.model.progress = "120 steps, 0.4 s, best 5 920, bound 4 050";
    o.screen.settle();
    CHECK(o.screen.says("120 steps, 0.4 s, best 5 920, bound 4 050"));
    CHECK_FALSE(o.screen.offers("Plan the week"));
    o.screen.click("Stop and keep the best");
    CHECK(o.all<app::StopPlanning>().size() == 1);
}

TEST_CASE("A proposed plan says what it changes, and is adopted or discarded") {
    Opened o{test::a_proposed_week()};
    o.screen.settle();
    CHECK(o.screen.says("Bun on Thu 26 Nov takes W26-127 instead of B26-044"));
    o.screen.click("Adopt plan");
    CHECK(o.all<app::AdoptPlan>().size() == 1);
    o.screen.click("Keep the book's plan");
    CHECK(o.all<app::DiscardPlan>().size() == 1);
}

TEST_CASE("A proposed plan that no longer fits the book cannot be adopted, and the reason stands beside") {
    Opened o{test::a_proposed_week()};
    o.model.can_adopt = false;
    o.model.adopt_blocked = "The book has changed since it was planned: plan anew";
    o.screen.settle();
    CHECK_FALSE(o.screen.is_enabled("Adopt plan"));
    CHECK(o.screen.says("The book has changed since it was planned: plan anew"));
    o.screen.click("Adopt plan");
    CHECK(o.all<app::AdoptPlan>().empty());
}

TEST_CASE("An adopted plan offers nothing to adopt") {
    Opened o;
    o.screen.settle();
    CHECK_FALSE(o.screen.offers("Adopt plan"));
    CHECK_FALSE(o.screen.offers("Keep the book's plan"));
}

TEST_CASE("How much is short stands above the board, and each shortage with its cure on request") {
    Opened o;
    o.screen.settle();
    const auto& strip = o.screen.find("✕ 560 kg short in all, in 1 run");
    CHECK(strip.rect.bottom < o.screen.find("Pan bread").rect.top);
    CHECK_FALSE(o.screen.says("Order 560 kg by Thu 26 Nov"));
    o.screen.click("Show the cures");
    CHECK(o.screen.says("Wholemeal loaf, Line 1 on Mon 30 Nov: 560 kg of Wholemeal are short"));
    CHECK(o.screen.says("Order 560 kg by Thu 26 Nov"));
    o.screen.click("Hide the cures");
    CHECK_FALSE(o.screen.says("Order 560 kg by Thu 26 Nov"));
}

TEST_CASE("The strip says how much is short in all, and F10 goes from one short run to the next") {
    Opened o;
    o.model.runs[1].short_kg = 40.5;
    o.screen.settle();
    CHECK(o.screen.says("✕ 600.5 kg short in all, in 2 runs"));
    o.screen.press(Key::f10);
    CHECK(o.view.board.selected == 12);
    o.screen.press(Key::f10);
    CHECK(o.view.board.selected == 14);
    CHECK(o.screen.is_focused("Plan"));
    o.screen.press(Key::f10);
    CHECK(o.view.board.selected == 12);
    o.screen.click("Next short run");
    CHECK(o.view.board.selected == 14);
}

TEST_CASE("A run that is chosen tells its lots, their reasons, strength, windows and law") {
    Opened o;
    o.screen.click("Bun");
    CHECK(o.screen.says("The only lot strong enough that is released."));
    CHECK(o.screen.says("maturity 71 %"));
    o.choose(13);
    CHECK(o.screen.says("protein 0.2 % below"));
    CHECK(o.screen.says("H26-019 is held and was not taken."));
    o.choose(14);
    CHECK(o.screen.says("Short of 560 kg"));
}

TEST_CASE("The sheet of a run is closed, and the days have all the width again") {
    Opened o;
    o.choose(12);
    const float beside = o.screen.find("Plan").rect.width();
    o.screen.click("Close sheet");
    CHECK_FALSE(o.view.board.selected);
    CHECK(o.screen.find("Plan").rect.width() > beside + 100);
}

TEST_CASE("A lot of a run is locked and unlocked by its name") {
    Opened o;
    o.choose(11);
    o.screen.click("Unlock B26-031");
    REQUIRE(o.all<app::UnlockAssignment>().size() == 1);
    CHECK(o.all<app::UnlockAssignment>()[0].run == RunId{11});
    CHECK(o.all<app::UnlockAssignment>()[0].lot == LotId{2});
    o.screen.click("Lock B26-044");
    REQUIRE(o.all<app::LockAssignment>().size() == 1);
    CHECK(o.all<app::LockAssignment>()[0].lot == LotId{4});
}

TEST_CASE("A past run can neither be locked nor dropped") {
    Opened o;
    o.model.runs[0].is_past = true;
    o.choose(11);
    CHECK_FALSE(o.screen.offers("Unlock B26-031"));
    CHECK_FALSE(o.screen.offers("Drop this run"));
}

TEST_CASE("A run is dropped only after the question, and Escape keeps it") {
    Opened o;
    o.choose(12);
    o.screen.click("Drop this run");
    CHECK(o.screen.says("Drop Bun on Thu 26 Nov?"));
    o.screen.press(Key::escape);
    CHECK(o.all<app::DropRun>().empty());
    o.screen.click("Drop this run");
    o.screen.click("Drop run");
    REQUIRE(o.all<app::DropRun>().size() == 1);
    CHECK(o.all<app::DropRun>()[0].run == RunId{12});
}

TEST_CASE("A run is added as typed, and its refusals stand beside the fields with nothing lost") {
    Opened o;
    o.screen.click("New run");
    o.screen.click("Product");
    o.screen.click("Hearth loaf");
    o.screen.click("Line 2");
    o.screen.type("Batches", "a dozen");
    o.screen.click("Add run");
    REQUIRE(o.all<app::AddRun>().size() == 1);
    const auto run = o.all<app::AddRun>()[0];
    CHECK(run.product == "Hearth loaf");
    CHECK(run.line == "Line 2");
    CHECK(run.day == "2026-11-25");
    CHECK(run.batches == "a dozen");

    o.notice = test::refused(1, {{"Batches", "\"a dozen\" was read; a number is expected", ""}});
    o.screen.settle();
    CHECK(o.screen.says("\"a dozen\" was read; a number is expected"));
    CHECK(o.screen.field_value("Batches") == "a dozen");

    o.screen.type("Batches", "12");
    o.screen.press(Key::enter);
    REQUIRE(o.all<app::AddRun>().size() == 2);
    o.notice = test::done(2, "Run added");
    o.screen.settle();
    CHECK_FALSE(o.screen.offers("Add run"));
    CHECK(o.screen.offers("New run"));
}

TEST_CASE("A refusal of something else does not stand in the form of a run") {
    Opened o;
    o.screen.click("New run");
    o.notice = {};
    o.notice.kind = app::Notice::Kind::refused;
    o.notice.refusals = {{"Day", "of another thing", ""}};
    o.notice.number = 5;
    o.screen.settle();
    CHECK_FALSE(o.screen.says("of another thing"));
}

TEST_CASE("Runs are reached by key, and Enter opens the card") {
    Opened o;
    o.screen.settle();
    for (int i = 0; i < 30 && !o.screen.is_focused("Plan"); ++i)
        o.screen.press(Key::tab);
    REQUIRE(o.screen.is_focused("Plan"));
    o.screen.press(Key::right);
    REQUIRE(o.view.board.selected);
    o.screen.press(Key::enter);
    REQUIRE(o.all<app::OpenRun>().size() == 1);
    CHECK(o.all<app::OpenRun>()[0].run == RunId{*o.view.board.selected});
}

TEST_CASE("The table of the plan tells need, shortage, lots and the three gauges") {
    Opened o;
    o.screen.click("Show as table");
    o.screen.settle();
    CHECK(o.screen.says("M26-007 640 kg"));
    CHECK(o.screen.says("560"));
    CHECK(o.screen.says("with 42 mg/kg"));
    CHECK(o.screen.says("protein 0.2 % below"));
    CHECK(o.screen.says("28 % used"));
}

TEST_CASE("A frozen and a changed run say so on their cards, and flour to come says that it is") {
    Opened o{test::a_full_week()};
    o.model.runs[1].is_changed = true;
    o.screen.settle();
    CHECK_THAT(o.screen.value_of("Pan bread"), Catch::Contains("frozen"));
    CHECK_THAT(o.screen.value_of("Bun"), Catch::Contains("changed"));
    CHECK_THAT(o.screen.value_of("Bun"), Catch::Contains("W26-127 mature 71 %"));
    CHECK_THAT(o.screen.value_of("Wholemeal loaf"), Catch::Contains("E-3 to come"));
    o.choose(14);
    CHECK(o.screen.says("E-3, still to come: 300 kg"));
    CHECK_FALSE(o.screen.offers("Lock E-3"));
}

TEST_CASE("The sheet tells what was possible, what forbade the rest and what was next best") {
    Opened o{test::a_full_week()};
    o.choose(12);
    o.screen.resize(1280, 1600);
    CHECK(o.screen.says("Next best: B26-044 is weaker"));
    CHECK(o.screen.says("3 lots were possible."));
    CHECK(o.screen.says("Outside a window by itself: M26-007"));
}

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
    CHECK(o.asked.empty());
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

TEST_CASE("A frozen run is not moved, and says why") {
    Opened o{test::a_full_week()};
    const auto [x, y] = o.on_day(2, o.screen.find("Pan bread").rect.top + 20);
    o.drag_run("Pan bread", x, y);
    CHECK(o.screen.says("Pan bread on Wed 25 Nov is frozen"));
    o.let_go();
    CHECK(o.asked.empty());
}

TEST_CASE("A day that is past takes no run") {
    Opened o;
    o.model.from = test::plan_today() - Days{2};
    o.screen.settle();
    const auto pan = o.screen.find("Pan bread").rect, bun = o.screen.find("Bun").rect;
    o.drag_run("Pan bread", pan.left + 20 - (bun.left - pan.left), pan.top + 20);
    CHECK(o.screen.says("Tue 24 Nov is past: choose today or a later day."));
    o.let_go();
    CHECK(o.asked.empty());
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
    o.press_at(pan.left + 20, pan.top + 70);
    o.screen.point_at(bun.left + 10, bun.top + 5);
    o.screen.point_at(bun.left + 20, bun.top + 12);
    CHECK(o.screen.says("B26-031 is locked in Pan bread on Wed 25 Nov: unlock it first."));
    o.let_go();

    o.choose(14);
    o.view.board.pick_up({14, -3});
    o.screen.settle();
    CHECK(o.screen.says("E-3 is still to come"));
    CHECK(o.asked.empty());
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
    CHECK(o.asked.empty());
}

TEST_CASE("By key: Space chooses a lot of the run, and F7 unlocks or locks it") {
    Opened o;
    o.choose(11);
    o.screen.press(Key::f7);
    CHECK(o.asked.empty()); // two lots, none chosen
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

TEST_CASE("Both plans stand side by side with their parts, and a run that moved in full") {
    Opened o{test::a_compared_week()};
    o.screen.click("Compare the plans");
    CHECK(o.screen.says("420 kg less short, and 30 mg/kg more oxidant in 1 run; 2 runs change."));
    CHECK(o.screen.says("Flour short | 980 kg | 560 kg"));
    CHECK(o.screen.says("Flour short: nothing can be short of less than 560 kg."));
    o.screen.click("Thu 26 Nov, Line 2: Bun (R-012)");
    CHECK(o.screen.says("420 kg less short"));
    o.screen.click("Show it on the board");
    CHECK(o.view.page == views::PlanView::days_page);
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
    CHECK(o.screen.says("Lot H26-019 was held"));
    o.screen.click("Replan with few changes");
    CHECK(o.only<app::Replan>().from == test::plan_today());
    CHECK(o.only<app::Replan>().days == 7);
}

TEST_CASE("How long to search goes with the wish to plan") {
    Opened o;
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
    o.screen.click("Expect delivery");
    const auto wish = o.only<app::ExpectDelivery>();
    CHECK(wish.mill == "Kestrel Mill");
    CHECK(wish.flour == "Hearth");
    CHECK(wish.kg == "ten");
    CHECK(wish.arrives == "2026-12-01");
    CHECK(wish.milled.empty());
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
