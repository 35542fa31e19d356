#include "app/acts/lots.h"
#include "app/acts/notice.h"
#include "app/acts/plan.h"
#include "app/acts/what_if.h"
#include "app/models/plan.h"
#include "app/models/settings.h"
#include "small_plant.h"
#include "support/catch.h"
#include "support/iso.h"

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

namespace {

/// A mature lot for two runs of Pan bread, planned.
class PlannedPlant : public SmallPlant {
public:
    PlannedPlant() {
        released_lot(draft("A"));
        first = add_run("Pan bread", "2026-11-26", "4");
        second = add_run("Pan bread", "2026-11-27", "4");
        plan_week();
    }
    void plan_suppositions() {
        app().handle(PlanSuppositions{});
        INFO(said() << refusals());
        REQUIRE(was_done());
        app().finish_work();
        INFO(app().notice().details);
        REQUIRE(was_done());
    }
    RunId first, second;
};

} // namespace

TEST_CASE("A lot supposed held is planned around beside the book, and the book stays as it is") {
    PlannedPlant plant;
    plant.released_lot(plant.draft("B"));
    const auto lines = plant.app().settings().journal.size();
    plant.app().handle(SupposeLotHeld{plant.lot("A")});
    REQUIRE(plant.was_done());
    CHECK(plant.app().plan().suppositions == std::vector<std::string>{"Lot A on hold"});
    plant.plan_suppositions();
    const auto& plan = plant.app().plan();
    CHECK(plan.is_supposed);
    CHECK(plant.planned(plant.first).lots.at(0).code == "B");
    REQUIRE(plan.comparison);
    CHECK(plan.comparison->after_name == "With what is supposed");
    CHECK(plan.comparison->moved.size() == 2);
    CHECK(plant.app().settings().journal.size() == lines);
    CHECK(plant.row("A").state == LotState::released);

    plant.app().handle(DiscardPlan{});
    CHECK(plant.planned(plant.first).lots.at(0).code == "A");
    CHECK(plant.app().plan().replan_words.empty());
}

TEST_CASE("What rests on suppositions is never adopted") {
    PlannedPlant plant;
    plant.app().handle(SupposeLotHeld{plant.lot("A")});
    plant.plan_suppositions();
    CHECK_FALSE(plant.app().plan().can_adopt);
    CHECK_THAT(plant.app().plan().adopt_blocked, Contains("rests on what is supposed"));
    plant.app().handle(AdoptPlan{});
    CHECK_THAT(plant.refusals(), Contains("rests on what is supposed, which is not in the book"));
    plant.app().handle(DiscardPlan{});
    CHECK(plant.planned(plant.first).lots.at(0).code == "A");
}

TEST_CASE("A run supposed on another day is shown there, and only there") {
    PlannedPlant plant;
    plant.app().handle(SupposeRunMoved{plant.first, "", "2026-11-30", ""});
    REQUIRE(plant.was_done());
    CHECK_THAT(plant.app().plan().suppositions.at(0), Contains("moved to Mon 30 Nov, Line 1"));
    CHECK(plant.planned(plant.first).day == day_from_iso("2026-11-26"));
    plant.plan_suppositions();
    CHECK(plant.planned(plant.first).day == day_from_iso("2026-11-30"));
    CHECK(plant.planned(plant.first).short_kg == 0);
    plant.app().handle(DiscardPlan{});
    CHECK(plant.planned(plant.first).day == day_from_iso("2026-11-26"));
}

TEST_CASE("A market without oxidant takes the oxidant away and says what is missing then") {
    SmallPlant plant;
    auto young = plant.draft("YOUNG");
    young.milled_on = "2026-11-05";
    young.delivered_on = "2026-11-08";
    plant.released_lot(young);
    const RunId run = plant.add_run("Pan bread", "2026-11-26", "2");
    plant.plan_week();
    REQUIRE(plant.planned(run).oxidant_ppm > 0.5);
    plant.app().handle(SupposeNoOxidant{"Canada"});
    plant.app().handle(PlanSuppositions{});
    plant.app().finish_work();
    CHECK(plant.planned(run).oxidant_ppm == 0);
    CHECK(plant.planned(run).oxidant.empty());
    REQUIRE_FALSE(plant.planned(run).reasons.empty());
    CHECK_THAT(plant.planned(run).reasons[0], Contains("Strength is short"));
    CHECK_THAT(plant.app().plan().comparison->verdict, Contains("1 more run without full maturity"));
}

TEST_CASE("A supposed order fills a run that is short") {
    SmallPlant plant;
    auto small = plant.draft("A");
    small.mass_kg = "300";
    plant.released_lot(small);
    auto young = plant.draft("PATTERN"); // what the order is expected to be like
    young.mass_kg = "1";
    young.bag_kg = "1";
    plant.released_lot(young);
    const RunId run = plant.add_run("Pan bread", "2026-12-20", "4");
    plant.app().handle(PlanRuns{day_from_iso("2026-11-25"), 28});
    plant.app().finish_work();
    plant.app().handle(AdoptPlan{});
    REQUIRE(plant.planned(run).short_kg > 90);
    plant.app().handle(SupposeOrder{"Strong white", "500", "2026-11-26"});
    REQUIRE(plant.was_done());
    plant.app().handle(PlanSuppositions{});
    INFO(plant.refusals());
    REQUIRE(plant.was_done());
    plant.app().finish_work();
    CHECK(plant.planned(run).short_kg == 0);
    CHECK_THAT(plant.app().plan().comparison->verdict, Contains("less of flour short"));
    bool has_order = false;
    for (const auto& lot : plant.planned(run).lots)
        has_order = has_order || (lot.delivery.is_known() && lot.code == "supposed order 1");
    CHECK(has_order);
}

TEST_CASE("What is supposed is dropped one by one, and supposing the same run again replaces it") {
    PlannedPlant plant;
    plant.app().handle(SupposeRunMoved{plant.first, "", "2026-11-28", ""});
    plant.app().handle(SupposeLotHeld{plant.lot("A")});
    plant.app().handle(SupposeRunMoved{plant.first, "", "2026-11-29", ""});
    REQUIRE(plant.app().plan().suppositions.size() == 2);
    CHECK_THAT(plant.app().plan().suppositions[1], Contains("Sun 29 Nov"));
    plant.app().handle(DropSupposition{0});
    CHECK(plant.app().plan().suppositions.size() == 1);
    plant.app().handle(DropSupposition{7});
    CHECK_THAT(plant.refusals(), Contains("there is no number 8") && Contains("Choose 1 to 1"));
}

TEST_CASE("What cannot be supposed is refused with every reason") {
    PlannedPlant plant;
    plant.app().handle(PlanSuppositions{});
    CHECK_THAT(plant.refusals(), Contains("nothing is supposed"));
    plant.app().handle(SupposeOrder{"Cake flour", "0", "2026-11-24"});
    CHECK_THAT(plant.refusals(), Contains("\"Cake flour\" is not known") && Contains("before today"));
    plant.app().handle(SupposeNoOxidant{"Atlantis"});
    CHECK_THAT(plant.refusals(), Contains("no product is sold in \"Atlantis\"") && Contains("Canada"));
    plant.app().handle(SupposeRunMoved{plant.first, "Line 9", "2026-11-01", "1,5"});
    CHECK_THAT(plant.refusals(), Contains("\"Line 9\" is not known") && Contains("before today") &&
                                     Contains("a whole number is expected"));
    plant.app().handle(SupposeRunMoved{plant.first, "", "", ""});
    CHECK_THAT(plant.refusals(), Contains("is there already"));
    plant.app().handle(HoldLot{plant.lot("A"), "smells musty"});
    plant.app().handle(SupposeLotHeld{plant.lot("A")});
    CHECK_THAT(plant.refusals(), Contains("goes into no dough anyway"));
    CHECK(plant.app().plan().suppositions.empty());
}

TEST_CASE("A supposition that the book has overtaken is named when it is planned with") {
    PlannedPlant plant;
    plant.app().handle(SupposeLotHeld{plant.lot("A")});
    plant.app().handle(HoldLot{plant.lot("A"), "smells musty"});
    plant.app().handle(PlanSuppositions{});
    CHECK_THAT(plant.refusals(), Contains("supposed: Lot A on hold") && Contains("Drop what is supposed"));
}
