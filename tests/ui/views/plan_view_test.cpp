#include "app/acts/assignments.h"
#include "app/acts/fermentation.h"
#include "app/acts/give_lot.h"
#include "app/acts/levers.h"
#include "app/acts/looking.h"
#include "app/acts/notice.h"
#include "app/acts/plan.h"
#include "app/acts/runs.h"
#include "opened_plan.h"
#include "ui/models/doughs.h"
#include "ui/widgets/laid_out.h"

using namespace mellowbin;
using namespace mellowbin::tests;

namespace {

/// By its fields alone, from the seldom wanted tools.
void open_form(Opened& o) {
    o.screen.click("25 Nov to 1 Dec");
    o.screen.click("New run");
}

} // namespace

TEST_CASE("Without runs Plan says how to add one") {
    Opened o;
    o.model.runs.clear();
    o.model.shortages.clear();
    o.screen.settle();
    CHECK(o.screen.says("Press a day of a line to add one"));
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
    o.screen.click("25 Nov to 1 Dec"); // the seldom wanted tools
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
    CHECK(o.screen.says("A new plan is proposed: Bun on Thu 26 Nov takes W26-127 instead of B26-044"));
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

TEST_CASE("How much is short stands in a slim strip above the board, and leads to the run's sheet") {
    Opened o;
    o.screen.settle();
    const auto& strip = o.screen.find("Short: 560 kg for Wholemeal loaf, Mon 30 Nov");
    CHECK(strip.rect.bottom < o.screen.find("Pan bread").rect.top);
    o.screen.click("Show it");
    CHECK(o.view.board.selected == 14);
    CHECK(o.screen.says("✕ Not enough flour"));
}

TEST_CASE("The board has two thirds of the window while no strip stands over it") {
    Opened o;
    o.model.shortages.clear();
    o.screen.settle();
    CHECK(o.screen.find("Plan").rect.height() >= 720 * 2.0F / 3);
}

TEST_CASE(
    "A press on the empty part of a day, or Enter there, opens the form of a run for that line and day") {
    Opened o;
    o.screen.click("Add a run: Line 2, Fri 27 Nov");
    CHECK(o.screen.field_value("Day") == "2026-11-27");
    o.screen.click("Product");
    o.screen.click("Bun");
    o.screen.type("Batches", "8");
    o.screen.press(Key::enter);
    const auto run = o.only<app::AddRun>();
    CHECK(run.line == "Line 2");
    CHECK(run.day == "2026-11-27");
    CHECK(run.product == "Bun");
    o.notice = test::done(1, "Run added");
    o.screen.settle();
    CHECK_FALSE(o.screen.offers("Add run"));
}

TEST_CASE("Each cure of a run is a button that does it, with what comes of it beneath") {
    Opened o;
    o.choose(14);
    CHECK(o.only<app::ShowCures>().run == RunId{14});
    o.model.cures = test::some_cures();
    o.screen.resize(1280, 1600);
    CHECK(o.screen.says("Maturity 85 of 85 %. No run stands on Line 1 that day."));
    CHECK(o.screen.says("Tue 85 ✓"));
    o.screen.click("Move the run to Tue 1 Dec");
    CHECK(o.only<app::ChangeRun>().day == "2026-12-01");
    o.screen.click("Take 560 kg of M26-012");
    CHECK(o.only<app::GiveLot>().lot == LotId{12});
    CHECK(o.only<app::GiveLot>().to == RunId{14});
    CHECK(o.only<app::GiveLot>().most == Grams{560'000});
    o.screen.click("Mix 6 of 12 batches");
    CHECK(o.all<app::ChangeRun>().back().batches == "6");
    o.screen.click("Judge M26-019");
    CHECK(o.only<app::Search>().words == "M26-019");
    o.screen.click("Order 560 kg Wholemeal");
    CHECK(o.screen.field_value("Weight") == "560");
    CHECK(o.screen.value_of("Flour") == "Wholemeal");
}

TEST_CASE("Beside a proposed plan no cure is offered: it would change the book behind it") {
    Opened o{test::a_proposed_week()};
    o.model.cures = test::some_cures();
    o.choose(14);
    CHECK_FALSE(o.screen.offers("Move the run to Tue 1 Dec"));
}

TEST_CASE("What the plan can do of a remedy is a button on the sheet, and none beside a proposed plan") {
    Opened o;
    o.model.levers = test::some_levers();
    o.model.levers->run = RunId{12};
    o.model.levers->levers[0].deed = app::RemedyDeed{.day = test::plan_today() + Days{3}};
    o.model.levers->levers[1].deed = app::RemedyDeed{.lot = LotId{4}, .lot_code = "B26-044", .kg = 840};
    o.model.levers->levers[3].standing = app::LeverRow::Standing::helps;
    o.model.levers->levers[3].deed = app::RemedyDeed{.minutes = 25, .minutes_more = 25};
    o.model.levers->mixes[1].deed =
        app::RemedyDeed{.lot = LotId{4}, .lot_code = "B26-044", .kg = 480, .minutes = 40, .minutes_more = 30};
    o.view.sheet.with_remedies = true;
    o.screen.resize(1280, 3200);
    o.choose(12);
    o.screen.click("Move the run to Sat 28 Nov");
    CHECK(o.only<app::ChangeRun>().day == "2026-11-28");
    o.screen.click("Take 840 kg of B26-044");
    CHECK(o.only<app::GiveLot>().to == RunId{12});
    CHECK(o.only<app::GiveLot>().most == Grams{840'000});
    CHECK(o.only<app::GiveLot>().longer_minutes.empty());
    o.screen.click("Ferment 25 min longer");
    CHECK(o.only<app::FermentLonger>().run == RunId{12});
    CHECK(o.only<app::FermentLonger>().minutes == "25");
    o.screen.click("Take 480 kg of B26-044, ferment 40 min longer in all");
    REQUIRE(o.all<app::GiveLot>().size() == 2);
    CHECK(o.all<app::GiveLot>()[1].most == Grams{480'000});
    CHECK(o.all<app::GiveLot>()[1].longer_minutes == "40");
    o.model.standing = app::PlanModel::Standing::proposed;
    o.screen.settle();
    CHECK_FALSE(o.screen.offers("Take 840 kg of B26-044"));
    CHECK_FALSE(o.screen.offers("Ferment 25 min longer"));
}

TEST_CASE("A run that ferments longer says so on its sheet, with a button that takes it back") {
    Opened o;
    const auto run = std::find_if(o.model.runs.begin(), o.model.runs.end(),
                                  [](const auto& one) { return one.id == RunId{12}; });
    REQUIRE(run != o.model.runs.end());
    o.choose(12);
    CHECK_FALSE(o.screen.says("Fermented"));
    run->longer_fermentation_minutes = 25;
    run->fermentation_words = "70 min: 45 and 25 longer for strength";
    o.screen.settle();
    CHECK(test::tells(o.screen, "Fermented 25 min longer"));
    CHECK(test::tells(o.screen, "70 min: 45 and 25 longer for strength"));
    o.screen.click("Ferment no longer than usual");
    CHECK(o.only<app::FermentLonger>().run == RunId{12});
    CHECK(o.only<app::FermentLonger>().minutes == "0");
    run->is_frozen = true;
    o.screen.settle();
    CHECK(test::tells(o.screen, "Fermented 25 min longer"));
    CHECK_FALSE(o.screen.offers("Ferment no longer than usual"));
}

TEST_CASE("With the sheet closed nobody asks for cures any more") {
    Opened o;
    o.choose(12);
    REQUIRE(o.only<app::ShowCures>().run == RunId{12});
    o.screen.press(Key::escape);
    REQUIRE(o.all<app::ShowCures>().size() == 2);
    CHECK_FALSE(o.all<app::ShowCures>().back().run);
}

TEST_CASE("Escape closes the sheet of a run and gives the board the focus") {
    Opened o;
    o.choose(12);
    REQUIRE(o.screen.offers("Drop this run"));
    o.screen.press(Key::escape);
    CHECK_FALSE(o.screen.offers("Drop this run"));
    CHECK(o.screen.is_focused("Plan"));
}

TEST_CASE("At text of 200 % the sheet of a run covers the board, and Escape brings it back") {
    Opened o;
    o.screen.ui().set_text_size(2);
    o.choose(12);
    CHECK(o.screen.offers("Drop this run"));
    CHECK_FALSE(o.screen.says("Pan bread"));
    o.screen.press(Key::escape);
    CHECK(o.screen.says("Pan bread"));
}

TEST_CASE("The strip says how much is short in all, and F10 goes from one short run to the next") {
    Opened o;
    o.model.runs[1].short_kg = 40.5;
    o.screen.settle();
    CHECK(o.screen.says("Short: 600.5 kg in 2 runs, first Bun, Thu 26 Nov"));
    o.screen.press(Key::f10);
    CHECK(o.view.board.selected == 12);
    o.screen.press(Key::f10);
    CHECK(o.view.board.selected == 14);
    CHECK(o.screen.is_focused("Plan"));
    o.screen.press(Key::f10);
    CHECK(o.view.board.selected == 12);
    o.screen.click("Show it");
    CHECK(o.view.board.selected == 14);
}

TEST_CASE("A run that is chosen tells its lots, their reasons, strength, specification and law") {
    Opened o;
    o.screen.click("Bun");
    o.screen.click("Why these lots");
    CHECK(o.screen.says("The only lot strong enough that is released."));
    CHECK(o.screen.says("71, 61 to 79"));
    o.choose(13);
    CHECK(o.screen.says("✕ Out of specification"));
    CHECK(o.screen.says("Protein 0.2 % below."));
    CHECK(o.screen.says("H26-019 is on hold and was not taken."));
    o.choose(14);
    CHECK(o.screen.says("Short of 560 kg"));
}

TEST_CASE("The levers of a run are asked for on its sheet, and stand there when they are weighed") {
    Opened o;
    o.choose(11);
    o.screen.click("All remedies");
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
    o.view.board.lot = 2;
    o.screen.settle();
    o.screen.click("Unlock B26-031");
    REQUIRE(o.all<app::UnlockAssignment>().size() == 1);
    CHECK(o.all<app::UnlockAssignment>()[0].run == RunId{11});
    CHECK(o.all<app::UnlockAssignment>()[0].lot == LotId{2});
    o.screen.click("B26-044"); // in the table of its lots
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
    open_form(o);
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
    open_form(o);
    o.notice = {};
    o.notice.kind = app::Notice::Kind::refused;
    o.notice.refusals = {{"Day", "of another thing", ""}};
    o.notice.number = 5;
    o.screen.settle();
    CHECK_FALSE(o.screen.says("of another thing"));
}

TEST_CASE("Runs are reached by key, and Enter leads into the sheet, where its card is opened") {
    Opened o;
    o.screen.settle();
    for (int i = 0; i < 30 && !o.screen.is_focused("Plan"); ++i)
        o.screen.press(Key::tab);
    REQUIRE(o.screen.is_focused("Plan"));
    o.screen.press(Key::right);
    REQUIRE(o.view.board.selected);
    o.screen.press(Key::enter);
    CHECK(o.screen.is_focused("Open its card"));
    o.screen.press(Key::enter);
    REQUIRE(o.all<app::OpenRun>().size() == 1);
    CHECK(o.all<app::OpenRun>()[0].run == RunId{*o.view.board.selected});
}

TEST_CASE("The table of the plan tells need, shortage, lots, strength, specification and law") {
    Opened o;
    o.screen.click("Table");
    o.screen.settle();
    CHECK(o.screen.says("M26-007 640 kg"));
    CHECK(o.screen.says("560"));
    CHECK(o.screen.says("with 42.00 mg/kg"));
    CHECK(o.screen.says("protein 0.2 % below"));
    CHECK(o.screen.says("28 % used"));
}

TEST_CASE("A fixed and a changed run say so on their cards, and flour to come says that it is") {
    Opened o{test::a_full_week()};
    o.model.runs[1].is_changed = true;
    o.screen.settle();
    CHECK_THAT(o.screen.value_of("Pan bread"), Catch::Contains("fixed"));
    CHECK_THAT(o.screen.value_of("Bun"), Catch::Contains("changed"));
    CHECK_THAT(o.screen.value_of("Bun"), Catch::Contains("W26-127 usable"));
    CHECK_THAT(o.screen.value_of("Wholemeal loaf"), Catch::Contains("E-3 to come"));
    o.choose(14);
    CHECK(o.screen.says("E-3, to come"));
    CHECK_FALSE(o.screen.offers("Lock E-3"));
}

TEST_CASE("The sheet tells what was possible, what forbade the rest and what was next best") {
    Opened o{test::a_full_week()};
    o.choose(12);
    o.screen.resize(1280, 1600);
    o.screen.click("Why these lots");
    CHECK(o.screen.says("Next best: B26-044 is weaker"));
    CHECK(o.screen.says("3 lots were possible."));
    CHECK(o.screen.says("Outside specification by itself: M26-007"));
}

TEST_CASE("What law withholds stands above the board with its runs, and at the foot of each of their cards") {
    Opened o;
    CHECK_FALSE(o.screen.says("Withheld by law"));
    o.model.withheld = {"Calcium propionate is withheld: Canada, bread (1 run: R-011)"};
    for (auto& run : o.model.runs)
        if (run.product == "Bun") {
            run.keeping_withheld = true;
            run.keeping_words = "Calcium propionate is withheld: Canada, bread";
        }
    o.screen.settle();
    CHECK(o.screen.says("Withheld by law, which no plan mends: Calcium propionate is withheld: Canada, bread "
                        "(1 run: R-011)"));
    CHECK_THAT(o.screen.value_of("Bun"), Catch::Contains("✕ preservative withheld"));
    o.screen.click("Table");
    CHECK(o.screen.says("preservative withheld"));
}
