#include "small_plant.h"
#include "support/catch.h"

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
    plant.app().handle(TakeIn{{plant.draft("NEW")}, ""});
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
    CHECK(plant.planned(dosed).oxidant_ppm > 1);
    CHECK(plant.planned(dosed).oxidant == "Ascorbic acid");
    CHECK(plant.planned(dosed).maturity < plant.planned(dosed).maturity_target);
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
