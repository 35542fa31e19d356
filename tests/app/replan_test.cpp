#include "app/acts/batches.h"
#include "app/acts/doughs.h"
#include "app/acts/limits.h"
#include "app/acts/looking.h"
#include "app/acts/lots.h"
#include "app/acts/notice.h"
#include "app/acts/plan.h"
#include "app/acts/stock.h"
#include "app/models/lots.h"
#include "app/models/overview.h"
#include "app/models/plan.h"
#include "app/models/settings.h"
#include "dough_plant.h"
#include "small_plant.h"
#include "support/catch.h"
#include "support/iso.h"

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

namespace {

const Day today = day_from_iso("2026-11-25");

/// Three runs from tomorrow on, all of lot A; B is there as well and expires later.
class PlannedPlant : public SmallPlant {
public:
    PlannedPlant() {
        auto first = draft("A");
        first.best_before = "2027-01-20";
        released_lot(first);
        for (const char* day : {"2026-11-26", "2026-11-27", "2026-11-28"})
            runs.push_back(add_run("Pan bread", day, "2"));
        plan_week();
        auto later = draft("B");
        later.best_before = "2027-03-20";
        released_lot(later);
    }
    void replan() {
        app().handle(Replan{today, 7});
        INFO(said() << refusals());
        REQUIRE(was_done());
        app().finish_work();
        INFO(app().notice().details);
        REQUIRE(was_done());
    }
    std::vector<RunId> runs;
};

} // namespace

TEST_CASE("A plan that holds has nothing to mend, and says so") {
    PlannedPlant plant;
    CHECK(plant.app().plan().replan_words.empty());
    plant.app().handle(Replan{today, 7});
    CHECK_THAT(plant.refusals(), Contains("the plan in the book holds from 2026-11-25 for 7 days"));
}

TEST_CASE("A held lot breaks the plan, and mending it puts another in its place") {
    PlannedPlant plant;
    plant.app().handle(HoldLot{plant.lot("A"), "smells musty"});
    CHECK_THAT(plant.app().plan().replan_words,
               Contains("Lot A: it is on hold: smells musty (600 kg for 3 runs from Thu 26 Nov)"));
    plant.replan();
    const auto& plan = plant.app().plan();
    CHECK(plan.standing == PlanModel::Standing::proposed);
    CHECK_FALSE(plan.is_supposed);
    REQUIRE(plan.comparison);
    CHECK_THAT(plan.comparison->verdict, Contains("0.60 t less of flour short"));
    for (const RunId run : plant.runs) {
        CHECK(plant.planned(run).lots.at(0).code == "B");
        CHECK(plant.planned(run).is_changed);
    }
    plant.app().handle(AdoptPlan{});
    REQUIRE(plant.was_done());
    CHECK(plant.app().plan().replan_words.empty());
    CHECK(plant.planned(plant.runs[0]).lots.at(0).code == "B");
}

TEST_CASE("Keeping the plan in the book leaves it as it was") {
    PlannedPlant plant;
    plant.app().handle(HoldLot{plant.lot("A"), "smells musty"});
    plant.replan();
    plant.app().handle(DiscardPlan{});
    CHECK(plant.planned(plant.runs[0]).lots.at(0).code == "A");
    CHECK_FALSE(plant.app().plan().replan_words.empty());
}

TEST_CASE("Mending changes only the runs that no longer hold where the others are well") {
    PlannedPlant plant;
    for (const auto& row : plant.app().lots().rows)
        if (row.code == "A")
            plant.app().handle(OpenLot{row.id});
    const auto& places = plant.app().lots().opened->places;
    plant.app().handle(CountLot{plant.lot("A"), places.at(0).place, "450", "spilt"});
    REQUIRE(plant.was_done());
    CHECK_THAT(plant.app().plan().replan_words, Contains("Lot A: 600 kg are planned, 450 kg are there"));
    plant.replan();
    int changed = 0;
    double short_kg = 0;
    for (const RunId run : plant.runs) {
        changed += plant.planned(run).is_changed ? 1 : 0;
        short_kg += plant.planned(run).short_kg;
    }
    CHECK(short_kg == 0);
    CHECK(changed >= 1);
    CHECK(changed < 3);
}

TEST_CASE("A run that was added has no flour yet, and that is told") {
    PlannedPlant plant;
    const RunId added = plant.add_run("Pan bread", "2026-11-29", "1");
    CHECK_THAT(plant.app().plan().replan_words,
               Contains("100 kg are not planned yet, and lot A has flour left"));
    plant.replan();
    CHECK(plant.planned(added).short_kg == 0);
    CHECK_FALSE(plant.planned(plant.runs[0]).is_changed);
}

TEST_CASE("A shortage that no lot could fill is no reason to plan again") {
    SmallPlant plant;
    auto small = plant.draft("A");
    small.mass_kg = "300";
    plant.released_lot(small);
    plant.add_run("Pan bread", "2026-11-26", "4");
    plant.plan_week();
    CHECK(plant.app().overview().short_runs == 1);
    CHECK(plant.app().plan().replan_words.empty());
}

TEST_CASE("Where nothing was planned there is nothing to mend") {
    SmallPlant plant;
    plant.released_lot(plant.draft("A"));
    plant.add_run("Pan bread", "2026-11-26", "4");
    CHECK(plant.app().plan().replan_words.empty());
    plant.app().handle(Replan{today, 7});
    CHECK_THAT(plant.refusals(), Contains("nothing of these days is planned yet"));
}

namespace {

/// Runs from today on of lot A, which the mill gave 50 mg/kg of ascorbic acid; B is there as well, without.
/// The first run is frozen: it has all its flour, and its day is today.
class DosedPlant : public SmallPlant {
public:
    DosedPlant() {
        auto dosed = draft("A");
        dosed.best_before = "2027-01-20";
        dosed.mill_oxidant = "ascorbic_acid";
        dosed.mill_oxidant_ppm = "50";
        released_lot(dosed);
        for (const char* day : {"2026-11-25", "2026-11-26"})
            runs.push_back(add_run("Pan bread", day, "2"));
        plan_week();
        auto plain = draft("B");
        plain.best_before = "2027-03-20";
        released_lot(plain);
    }
    /// Canada allows that much of it in flour from now on.
    void let_flour_have(const std::string& figure) {
        for (const auto& line : std::vector<LimitLine>(app().settings().limits))
            if (line.market == "Canada" && line.substance == "Ascorbic acid" && line.food == "white flour") {
                auto draft = line.draft;
                draft.figure = figure;
                app().handle(ChangeLimit{line.id, draft});
                REQUIRE(was_done());
                app().handle(ConfirmLimit{line.id});
                REQUIRE(was_done());
            }
    }
    std::vector<RunId> runs;
};

} // namespace

TEST_CASE("A lot that its market forbids after planning breaks the plan, of near runs too, and is replaced") {
    DosedPlant plant;
    REQUIRE(plant.planned(plant.runs[0]).is_frozen);
    REQUIRE(plant.app().plan().replan_words.empty());
    plant.let_flour_have("20");
    CHECK_THAT(plant.app().plan().replan_words,
               Contains("Lot A: Canada, white flour: 50 mg/kg of ascorbic acid is more than the 20 mg/kg") &&
                   Contains("for 2 runs from Wed 25 Nov"));
    CHECK_FALSE(plant.planned(plant.runs[0]).is_frozen);
    plant.app().handle(Replan{today, 7});
    REQUIRE(plant.was_done());
    plant.app().finish_work();
    for (const RunId run : plant.runs)
        CHECK(plant.planned(run).lots.at(0).code == "B");
}

TEST_CASE("A run that is being mixed is named, too, where its market now forbids what is left of its flour") {
    DosedPlant plant;
    ConfirmBatch first{plant.runs[0], {}, 0};
    first.went_in.answer = "a trial";
    plant.app().handle(first);
    INFO(plant.refusals());
    REQUIRE(plant.was_done());
    plant.let_flour_have("20");
    CHECK_THAT(plant.app().plan().replan_words, Contains("Lot A: Canada") && Contains("(300 kg for 2 runs"));
    CHECK(plant.planned(plant.runs[0]).is_frozen);
}

TEST_CASE(
    "A dose that law withholds is named beside the plan and by Replan, with its runs: no plan mends it") {
    SmallPlant plant(today, tests::preserving_plant());
    plant.released_lot(tests::young_draft(plant, "A"));
    const auto run = plant.add_run("Pan bread", "2026-11-25", "1");
    plant.add_run("Plain loaf", "2026-11-26", "1");
    plant.plan_week();
    REQUIRE(plant.app().plan().withheld.size() == 1);
    CHECK_THAT(plant.app().plan().withheld[0], Contains("Calcium propionate is withheld: Canada, bread") &&
                                                   Contains("(1 run: " + plant.planned(run).code + ")"));
    CHECK(plant.app().plan().replan_words.empty());
    const auto limit_of = [&](const std::string& substance) {
        for (const auto& line : plant.app().settings().limits)
            if (line.market == "Canada" && line.substance == substance && line.food == "bread")
                return line.id;
        throw std::runtime_error("no limit of " + substance);
    };
    plant.app().handle(ConfirmLimit{limit_of("Propionate")});
    CHECK(plant.app().plan().withheld.empty());
    plant.app().handle(DoubtLimit{limit_of("Ascorbic acid")});
    REQUIRE(plant.app().plan().withheld.size() == 1);
    CHECK_THAT(plant.app().plan().withheld[0],
               Contains("Ascorbic acid is withheld: Canada") && Contains(plant.planned(run).code));
}

TEST_CASE("Replan names the runs of which law withholds a dose, also where there is nothing to mend") {
    PlannedPlant plant;
    plant.app().handle(ChangeDough{.product = "Pan bread", .preservative_percent = "0.3"});
    REQUIRE(plant.was_done());
    const auto named = "Calcium propionate is withheld: Canada, bread";
    plant.app().handle(Replan{today, 7});
    CHECK_THAT(plant.refusals(), Contains("the plan in the book holds") && Contains(named) &&
                                     Contains("(3 runs: " + plant.planned(plant.runs[0]).code));
    plant.app().handle(HoldLot{plant.lot("A"), "smells musty"});
    plant.app().handle(Replan{today, 7});
    CHECK_THAT(plant.said(), Contains("Mending the plan") && Contains(named));
    plant.app().finish_work();
}

TEST_CASE("Where law takes the oxidant away after planning, an older lot that lies unused is told") {
    SmallPlant plant(today, tests::dosing_plant);
    plant.released_lot(tests::young_draft(plant, "A"));
    const auto run = plant.add_run("Pan bread", "2026-11-27", "1");
    plant.plan_week();
    plant.released_lot(plant.draft("B"));
    REQUIRE(plant.app().plan().replan_words.empty());
    for (const auto& line : plant.app().settings().limits)
        if (line.market == "Canada" && line.substance == "Ascorbic acid" && line.food == "bread") {
            plant.app().handle(DoubtLimit{line.id});
            break;
        }
    REQUIRE(plant.was_done());
    CHECK_THAT(plant.app().plan().replan_words,
               Contains("Run " + plant.planned(run).code) && Contains("lot B is older"));
}
