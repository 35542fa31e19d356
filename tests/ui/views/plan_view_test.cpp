#include "app/acts/assignments.h"
#include "app/acts/levers.h"
#include "app/acts/looking.h"
#include "app/acts/notice.h"
#include "app/acts/plan.h"
#include "app/acts/runs.h"
#include "opened_plan.h"
#include "ui/models/doughs.h"

using namespace mellowbin;
using namespace mellowbin::tests;

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

TEST_CASE("The levers of a run are asked for on its sheet, and stand there when they are weighed") {
    Opened o;
    o.choose(11);
    o.screen.click("Weigh the remedies");
    REQUIRE(o.only<app::ShowLevers>().run == RunId{11});
    o.model.levers = test::some_levers();
    o.model.levers->run = RunId{11};
    o.screen.settle();
    CHECK(o.screen.says(o.model.levers->gap));
    CHECK_FALSE(o.screen.offers("Weigh the remedies"));
    o.model.levers->run = RunId{12}; // of another run: not this one's
    o.screen.settle();
    CHECK(o.screen.offers("Weigh the remedies"));
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
    CHECK(o.screen.says("with 42.00 mg/kg"));
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

TEST_CASE("What law withholds stands above the board with its runs, and on the gauge of each of them") {
    Opened o;
    CHECK_FALSE(o.screen.says("Withheld by law"));
    o.model.withheld = {"Calcium propionate is withheld: Canada, bread (1 run: R-011)"};
    for (auto& run : o.model.runs)
        if (run.product == "Bun") {
            run.keeping_withheld = true;
            run.keeping_words = "Calcium propionate is withheld: Canada, bread";
        }
    o.screen.settle();
    CHECK(o.screen.says("Withheld by law, which no plan mends"));
    CHECK(o.screen.says("Calcium propionate is withheld: Canada, bread (1 run: R-011)"));
    o.screen.click("Show as table");
    CHECK(o.screen.says("preservative withheld"));
}
