#include "app/acts/intake.h"
#include "app/acts/looking.h"
#include "app/acts/plan.h"
#include "app/acts/runs.h"
#include "app/acts/what_if.h"
#include "app/models/plan.h"
#include "small_plant.h"
#include "support/catch.h"
#include "support/iso.h"

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

TEST_CASE("Flour that is missing in a far week can still be ordered to mature by itself") {
    SmallPlant plant(day_from_iso("2026-08-01"));
    plant.app().handle(
        TakeIn{{plant.draft("PATTERN")}}); // what an order is expected to be like; not released
    plant.app().handle(ShowPlan{day_from_iso("2026-11-23"), 7});
    plant.app().handle(AddRun{"Pan bread", "Line 1", "2026-11-25", "4"});
    plant.app().handle(AddRun{"Pan bread", "Line 1", "2026-11-27", "3"});
    plant.app().handle(PlanRuns{day_from_iso("2026-11-23"), 7});
    plant.app().finish_work();
    plant.app().handle(AdoptPlan{});
    const auto& orders = plant.app().plan().orders;
    REQUIRE(orders.size() == 1);
    CHECK(orders[0].flour == "Strong white");
    CHECK(orders[0].kg == 700);
    REQUIRE(orders[0].order_by);
    CHECK(*orders[0].order_by >= day_from_iso("2026-08-01"));
    CHECK(*orders[0].order_by < day_from_iso("2026-11-20"));
    CHECK_THAT(orders[0].for_runs, Contains("2 runs from Wed 25 Nov"));
    CHECK_THAT(orders[0].if_later,
               Contains("A week later") && Contains("Ascorbic acid up to") && Contains("g in all"));

    // The day told is the last: a delivery on it is planned without oxidant, three weeks later with as much
    // as the scale can weigh.
    const auto oxidant_if_it_comes = [&](Day day) {
        plant.app().handle(SupposeOrder{"Strong white", "1000", iso(day)});
        plant.app().handle(PlanSuppositions{});
        plant.app().finish_work();
        double ppm = 0;
        for (const auto& run : plant.app().plan().runs)
            ppm = std::max(ppm, run.oxidant_ppm);
        CHECK(plant.app().plan().runs.at(0).short_kg == 0);
        plant.app().handle(DropSupposition{0});
        plant.app().handle(DiscardPlan{});
        return ppm;
    };
    const Day by = *orders[0].order_by;
    CHECK(oxidant_if_it_comes(by) < 0.01);
    CHECK(oxidant_if_it_comes(by + Days{21}) > 0.1);
}

TEST_CASE("Flour that comes too late to mature says what it costs even if it came today") {
    SmallPlant plant;
    plant.add_run("Plain loaf", "2026-11-27", "4");
    plant.add_run("Pan bread", "2026-11-27", "2");
    plant.plan_week();
    const auto& orders = plant.app().plan().orders;
    REQUIRE(orders.size() == 1);
    CHECK(orders[0].kg == 600);
    CHECK_FALSE(orders[0].order_by);
    CHECK_THAT(orders[0].if_later, Contains("Too late to mature. If it came today") &&
                                       Contains("Ascorbic acid") &&
                                       Contains("a longer fermentation or a later day"));
}

TEST_CASE("Nothing is ordered for runs that have their flour") {
    SmallPlant plant;
    plant.released_lot(plant.draft("A"));
    plant.add_run("Pan bread", "2026-11-27", "2");
    plant.plan_week();
    CHECK(plant.app().plan().orders.empty());
}
