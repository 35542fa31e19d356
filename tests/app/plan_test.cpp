#include "app/acts/assignments.h"
#include "app/acts/intake.h"
#include "app/acts/lots.h"
#include "app/acts/notice.h"
#include "app/acts/plan.h"
#include "app/acts/runs.h"
#include "app/acts/settings.h"
#include "app/models/overview.h"
#include "app/models/plan.h"
#include "app/plan/work.h"
#include "small_plant.h"
#include "support/catch.h"
#include "support/iso.h"

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

TEST_CASE("A planned week gives every run its flour, each assignment with a reason in words") {
    SmallPlant plant;
    plant.released_lot(plant.draft("OLD"));
    const RunId run = plant.add_run("Pan bread", "2026-11-26", "4");
    plant.plan_week();
    const auto& planned = plant.planned(run);
    REQUIRE(planned.lots.size() == 1);
    CHECK(planned.lots[0].code == "OLD");
    CHECK(planned.lots[0].kg == 400);
    CHECK_FALSE(planned.lots[0].reason.empty());
    CHECK(planned.short_kg == 0);
}

TEST_CASE("A lot that nobody released is never planned, and the plan says what waits") {
    SmallPlant plant;
    plant.app().handle(TakeIn{{plant.draft("NEW")}});
    const RunId run = plant.add_run("Pan bread", "2026-11-26", "4");
    plant.plan_week();
    CHECK(plant.planned(run).lots.empty());
    CHECK(plant.planned(run).short_kg == 400);
    REQUIRE(plant.app().plan().shortages.size() == 1);
    CHECK_THAT(plant.app().plan().shortages[0],
               Contains("400 kg short") && Contains("1000 kg of its flour wait"));
    CHECK(plant.app().overview().short_runs == 1);
}

TEST_CASE("A shortage says whether flour ordered now still matures in time") {
    SmallPlant plant;
    plant.add_run("Plain loaf", "2026-11-26", "4");
    plant.plan_week();
    CHECK_THAT(plant.app().plan().shortages.at(0),
               Contains("too late: take an older lot, or ferment longer"));
}

TEST_CASE("A locked assignment stays when the week is planned anew") {
    SmallPlant plant;
    plant.released_lot(plant.draft("A"));
    const RunId run = plant.add_run("Pan bread", "2026-11-26", "4");
    plant.plan_week();
    plant.app().handle(LockAssignment{run, plant.lot("A")});
    auto cheaper = plant.draft("B");
    cheaper.best_before = "2026-12-05"; // first to expire: without the lock it would go first
    plant.released_lot(cheaper);
    plant.plan_week();
    const auto& planned = plant.planned(run);
    REQUIRE(planned.lots.size() == 1);
    CHECK(planned.lots[0].code == "A");
    CHECK(planned.lots[0].is_locked);

    plant.app().handle(UnlockAssignment{run, plant.lot("A")});
    plant.plan_week();
    CHECK(plant.planned(run).lots.at(0).code == "B");
}

TEST_CASE("A plan made before the book changed cannot be adopted") {
    SmallPlant plant;
    plant.released_lot(plant.draft("A"));
    plant.add_run("Pan bread", "2026-11-26", "4");
    plant.app().handle(PlanRuns{day_from_iso("2026-11-25"), 7});
    plant.app().finish_work();
    CHECK(plant.app().plan().standing == PlanModel::Standing::proposed);
    CHECK(plant.app().plan().can_adopt);
    plant.app().handle(HoldLot{plant.lot("A"), "smells musty"});
    CHECK_FALSE(plant.app().plan().can_adopt);
    plant.app().handle(AdoptPlan{});
    CHECK(plant.was_refused());
}

TEST_CASE("Adopting is undone by putting the plan before back") {
    SmallPlant plant;
    plant.released_lot(plant.draft("A"));
    const RunId run = plant.add_run("Pan bread", "2026-11-26", "4");
    plant.plan_week();
    const auto undo = plant.app().notice().undoing;
    for (const auto& intent : undo)
        plant.app().handle(intent);
    CHECK(plant.planned(run).lots.empty());
}

TEST_CASE("A run is refused with every fault of its fields at once") {
    SmallPlant plant;
    plant.app().handle(AddRun{"Cake", "Line 9", "2026-11-24", "2,5"});
    const auto words = plant.refusals();
    CHECK_THAT(words, Contains("Product: \"Cake\" is not known"));
    CHECK_THAT(words, Contains("Line: \"Line 9\" is not known"));
    CHECK_THAT(words, Contains("before today"));
    CHECK_THAT(words, Contains("Batches: 2.5 was read; a whole number is expected"));
}

TEST_CASE(
    "A young lot is planned with oxidant where the product has one, and not at all where it goes without") {
    SmallPlant plant;
    auto young = plant.draft("YOUNG");
    young.milled_on = "2026-11-05"; // 20 days: half matured more likely than not, full strength far off
    young.delivered_on = "2026-11-08";
    plant.released_lot(young);
    const RunId dosed = plant.add_run("Pan bread", "2026-11-26", "2");
    plant.plan_week();
    CHECK(plant.planned(dosed).lots.size() == 1);
    CHECK(plant.planned(dosed).oxidant_ppm > 0.5);
    CHECK(plant.planned(dosed).oxidant == "Ascorbic acid");
    CHECK(plant.planned(dosed).maturity < plant.planned(dosed).maturity_target);
}

TEST_CASE("A proposal stands beside the plan in the book, with what moves and what is proven") {
    SmallPlant plant;
    plant.released_lot(plant.draft("A"));
    const RunId run = plant.add_run("Pan bread", "2026-11-26", "4");
    plant.plan_week();
    auto sooner = plant.draft("B");
    sooner.best_before = "2026-11-29"; // expires inside the week: a new plan takes it
    plant.released_lot(sooner);
    plant.app().handle(PlanRuns{day_from_iso("2026-11-25"), 7});
    plant.app().finish_work();
    const auto& plan = plant.app().plan();
    REQUIRE(plan.comparison);
    CHECK(plan.comparison->before_name == "Plan in the book");
    REQUIRE(plan.comparison->moved.size() == 1);
    CHECK_THAT(plan.comparison->moved[0].title, Contains("Thu 26 Nov, Line 1: Pan bread"));
    CHECK(plan.comparison->moved[0].before == "400 kg A");
    CHECK(plan.comparison->moved[0].after == "400 kg B");
    CHECK_THAT(plan.comparison->verdict, Contains("0.40 t less of flour wasted"));
    CHECK(plan.comparison->parts.back().name == "The whole");
    CHECK(plan.comparison->parts.back().after < plan.comparison->parts.back().before);
    CHECK(plant.planned(run).is_changed);
    CHECK(plant.planned(run).possible_lots == 2);
    CHECK_THAT(plant.planned(run).possible_words, Contains("A and B"));
    CHECK_THAT(plan.bounds.at(0), Contains("proven to be the best"));
    CHECK(plan.can_adopt);
}

TEST_CASE("The first plan of a book has nothing to be held against") {
    SmallPlant plant;
    plant.released_lot(plant.draft("A"));
    plant.add_run("Pan bread", "2026-11-26", "4");
    plant.app().handle(PlanRuns{day_from_iso("2026-11-25"), 7});
    plant.app().finish_work();
    CHECK_FALSE(plant.app().plan().comparison);
}

TEST_CASE("A lot that a rule forbids is named with the rule in a proposal") {
    SmallPlant plant;
    plant.released_lot(plant.draft("A"));
    plant.released_lot(plant.draft("MUSTY"));
    plant.app().handle(HoldLot{plant.lot("MUSTY"), "smells musty"});
    const RunId run = plant.add_run("Pan bread", "2026-11-26", "4");
    plant.app().handle(PlanRuns{day_from_iso("2026-11-25"), 7});
    plant.app().finish_work();
    REQUIRE(plant.planned(run).forbidden.size() == 1);
    CHECK_THAT(plant.planned(run).forbidden[0], Contains("On hold: MUSTY it is on hold: smells musty"));
}

TEST_CASE("A plan that breaks a rule is called a fault of the program") {
    SmallPlant plant;
    plant.released_lot(plant.draft("A"));
    plant.add_run("Pan bread", "2026-11-26", "4");
    ProposedPlan plan;
    planning::Problem& p = plan.task.input.problem;
    p.products.push_back({});
    p.lots.push_back({"A", 1, 60, 40, 400, 0, {}});
    p.runs.push_back({});
    p.runs[0].id = "R1";
    p.runs[0].demand_t = 2;
    p.size_table();
    plan.outcome.plan.assignments = {{0, 0, 2.0}};
    judge(plan);
    CHECK_THAT(plan.fault, Contains("1.0000 t more of A than there are") && Contains("please report it"));
    CHECK_THAT(plan_in_words(plan), Contains("fault of the program"));

    plan.outcome.plan.assignments = {{0, 0, 1.0}};
    judge(plan);
    CHECK(plan.fault.empty());
    CHECK(plan.outcome.evaluation.short_t == Approx(1));
}

TEST_CASE("No lots, no runs and runs that are past are answered clearly") {
    SmallPlant plant;
    plant.app().handle(PlanRuns{day_from_iso("2026-11-25"), 7});
    CHECK_THAT(plant.refusals(),
               Contains("no runs from 2026-11-25 on for 7 days") && Contains("Add runs first"));

    const RunId run = plant.add_run("Pan bread", "2026-11-26", "4"); // there is no lot
    plant.plan_week();
    CHECK(plant.planned(run).short_kg == 400);
    CHECK(plant.app().plan().orders.size() == 1);

    SmallPlant later;
    later.add_run("Pan bread", "2026-11-25", "4");
    later.open_again_on(day_from_iso("2026-11-26"));
    later.app().handle(PlanRuns{day_from_iso("2026-11-20"), 6});
    CHECK_THAT(later.refusals(), Contains("that are not past (1 is)") && Contains("from today on"));
}

TEST_CASE("With every weight at zero there is still a plan that keeps the rules") {
    SmallPlant plant;
    for (const char* key :
         {"weight_short", "weight_window", "weight_maturity", "weight_past_best", "weight_waste",
          "weight_oxidant", "weight_lot_change", "weight_age", "weight_price"}) {
        plant.app().handle(ChangeSetting{key, "0"});
        REQUIRE(plant.was_done());
    }
    plant.released_lot(plant.draft("A"));
    plant.add_run("Pan bread", "2026-11-26", "4");
    plant.plan_week();
    CHECK(plant.app().plan().standing == PlanModel::Standing::adopted);
}

TEST_CASE("A lot that is both locked and held is named with what to do") {
    SmallPlant plant;
    plant.released_lot(plant.draft("A"));
    const RunId run = plant.add_run("Pan bread", "2026-11-26", "4");
    plant.plan_week();
    plant.app().handle(LockAssignment{run, plant.lot("A")});
    plant.app().handle(HoldLot{plant.lot("A"), "smells musty"});
    plant.app().handle(PlanRuns{day_from_iso("2026-11-25"), 7});
    CHECK_THAT(plant.refusals(), Contains("A is locked to this run but may not be used in it") &&
                                     Contains("Undo the lock, or lift what forbids the lot"));
    plant.app().handle(Replan{day_from_iso("2026-11-25"), 7});
    CHECK_THAT(plant.refusals(), Contains("A is locked to this run"));
    CHECK_THAT(plant.app().plan().replan_words, Contains("it is on hold: smells musty"));
}

TEST_CASE("A run of two kinds of flour is judged need by need") {
    SmallPlant plant(day_from_iso("2026-11-25"), R"({
      "plant": "Two flours", "mills": ["Mill"],
      "flours": [{"name": "Strong white", "class": "white"}, {"name": "Rye", "class": "wholemeal"}],
      "places": [{"name": "Bay 1", "kind": "bay", "air": "breathable_bag", "temperature_c": 20}],
      "lines": [{"name": "Line 1", "friction_factor_c": 24}],
      "products": [{"name": "Mixed loaf", "flour": "Strong white", "market": "Canada", "food": "bread",
                    "windows": [{"property": "protein", "low": 11.8, "high": 13.4}],
                    "second_flour": {"flour": "Rye", "share": 0.25,
                                     "windows": [{"property": "protein", "low": 9, "high": 11}]},
                    "maturity_target": 0.85, "batch_flour_kg": 100}]})");
    plant.released_lot(plant.draft("WHITE"));
    auto rye = plant.draft("RYE");
    rye.flour = "Rye";
    rye.figure(Property::protein) = {Property::protein, "8.5", "14 % moisture", "", ""};
    plant.released_lot(rye);
    const RunId run = plant.add_run("Mixed loaf", "2026-11-26", "4");
    plant.plan_week();
    const auto& planned = plant.planned(run);
    REQUIRE(planned.lots.size() == 2);
    CHECK(planned.lots[0].kg + planned.lots[1].kg == 400);
    CHECK_THAT(planned.windows_words, Contains("Rye: ") && Contains("0.5 % below"));
    CHECK_THAT(planned.windows_words, !Contains("Strong white"));
    CHECK(planned.short_kg == 0);

    plant.app().handle(HoldLot{plant.lot("RYE"), "smells musty"});
    plant.plan_week();
    CHECK(plant.planned(run).short_kg == 100);
    REQUIRE(plant.app().plan().orders.size() == 1);
    CHECK(plant.app().plan().orders[0].flour == "Rye");
    CHECK(plant.app().plan().orders[0].kg == 100);
    CHECK_THAT(plant.app().plan().shortages.at(0), Contains("100 kg short: Mixed loaf (Rye)"));
}

TEST_CASE("Nothing is planned twice at once, and a stopped plan is still a plan") {
    SmallPlant plant;
    plant.released_lot(plant.draft("A"));
    plant.add_run("Pan bread", "2026-11-26", "4");
    plant.app().handle(PlanRuns{day_from_iso("2026-11-25"), 7});
    plant.app().handle(StopPlanning{});
    plant.app().finish_work();
    CHECK(plant.app().plan().standing == PlanModel::Standing::proposed);
    plant.app().handle(DiscardPlan{});
    CHECK(plant.app().plan().standing == PlanModel::Standing::adopted);
}
