#include "support/catch.h"
#include "support/screen.h"
#include "ui/lot_models.h"
#include "ui/plan_models.h"
#include "ui/views/plan_view.h"

using namespace mellowbin;
using testing::Screen;
using ui::Key;

namespace {

struct Opened {
    app::PlanModel model = test::a_week();
    views::PlanView view;
    app::Notice notice;
    app::Overview overview;
    app::Intents asked;
    Screen screen{[this] { draw(view, model, notice, overview, asked); }};

    explicit Opened(app::PlanModel plan = test::a_week()) : model(std::move(plan)) {}
    template <class T> std::vector<T> all() const {
        std::vector<T> found;
        for (const auto& intent : asked)
            if (const auto* one = std::get_if<T>(&intent))
                found.push_back(*one);
        return found;
    }
    void choose(int run) {
        view.board.selected = run;
        screen.settle();
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
    o.screen.click("Discard");
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
    CHECK_FALSE(o.screen.offers("Discard"));
}

TEST_CASE("A shortage stands above the board with its cure") {
    Opened o;
    o.screen.settle();
    const auto& shortage =
        o.screen.find("✕ Wholemeal loaf, Line 1 on Mon 30 Nov: 560 kg of Wholemeal are short");
    CHECK(o.screen.says("Order 560 kg by Thu 26 Nov"));
    CHECK(shortage.rect.bottom < o.screen.find("Pan bread").rect.top);
}

TEST_CASE("Of many shortages the first two stand there, and the rest on request") {
    Opened o;
    o.model.shortages = {"first", "second", "third", "fourth"};
    o.screen.settle();
    CHECK(o.screen.says("second"));
    CHECK_FALSE(o.screen.says("third"));
    o.screen.click("Show all 4 shortages");
    CHECK(o.screen.says("fourth"));
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
