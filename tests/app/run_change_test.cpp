#include "app/acts/assignments.h"
#include "app/acts/batches.h"
#include "app/acts/give_lot.h"
#include "app/acts/lots.h"
#include "app/acts/notice.h"
#include "app/acts/runs.h"
#include "app/models/plan.h"
#include "mixed_plant.h"
#include "small_plant.h"
#include "support/catch.h"
#include "support/iso.h"

#include <algorithm>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

namespace {

const Day today = day_from_iso("2026-11-25");

struct Changing : SmallPlant {
    Changing() : SmallPlant(today, std::string(tests::mixed_plant)) {}
    /// The runs of a line and day in their order, by the last figure of their code.
    std::string order(int line, const std::string& day) {
        std::vector<std::pair<int, std::string>> there;
        for (const auto& run : app().plan().runs)
            if (run.line == line && iso(run.day) == day)
                there.emplace_back(run.sequence, run.code);
        std::sort(there.begin(), there.end());
        std::string codes;
        for (const auto& [sequence, code] : there)
            codes += std::to_string(sequence) + code.substr(code.rfind('-')) + " ";
        return codes;
    }
    double kg_of(RunId run, const std::string& lot) {
        for (const auto& l : planned(run).lots)
            if (l.code == lot)
                return l.kg;
        return 0;
    }
};

} // namespace

TEST_CASE("A run moves in time, on its line and to another, and the others make room") {
    Changing plant;
    plant.add_run("Pan bread", "2026-11-26", "1");
    const RunId second = plant.add_run("Pan bread", "2026-11-26", "1");
    plant.add_run("Pan bread", "2026-11-26", "1");
    plant.add_run("Pan bread", "2026-11-27", "1");
    plant.done(ChangeRun{second, "", "", "", "1"});
    CHECK(plant.order(0, "2026-11-26") == "1-2 2-1 3-3 ");
    plant.undo();
    CHECK(plant.order(0, "2026-11-26") == "1-1 2-2 3-3 ");
    plant.done(ChangeRun{second, "", "2026-11-27", "", "1"});
    CHECK(plant.order(0, "2026-11-26") == "1-1 2-3 ");
    CHECK(plant.order(0, "2026-11-27") == "1-2 2-1 ");
    CHECK_THAT(plant.said(), Contains("2026-11-27 on Line 1, no. 1 there"));
    plant.undo();
    CHECK(plant.order(0, "2026-11-26") == "1-1 2-2 3-3 ");
    CHECK(plant.order(0, "2026-11-27") == "1-1 ");
    plant.done(ChangeRun{second, "Line 2", "", "", ""});
    CHECK(plant.order(1, "2026-11-26") == "1-2 ");
    CHECK(plant.order(0, "2026-11-26") == "1-1 2-3 ");
    // Its code is still taken where it came from.
    plant.done(AddRun{"Pan bread", "Line 1", "2026-11-26", "1"});
    plant.done(AddRun{"Pan bread", "Line 1", "2026-11-26", "1"});
    CHECK(plant.order(0, "2026-11-26") == "1-1 2-3 3-4 4-5 ");
}

TEST_CASE(
    "With fewer batches a run's lots are cut in proportion; with more it is short until planned again") {
    Changing plant;
    auto small = plant.draft("A");
    small.mass_kg = "100";
    small.best_before = "2026-11-30"; // goes first
    plant.released_lot(small);
    plant.released_lot(plant.draft("B"));
    const RunId run = plant.add_run("Pan bread", "2026-11-26", "4");
    plant.plan_week();
    REQUIRE(plant.kg_of(run, "A") == Approx(100));
    REQUIRE(plant.kg_of(run, "B") == Approx(300));
    plant.done(ChangeRun{run, "", "", "2", ""});
    CHECK(plant.kg_of(run, "A") == Approx(50));
    CHECK(plant.kg_of(run, "B") == Approx(150));
    CHECK(plant.planned(run).need_kg == 200);
    CHECK(plant.planned(run).short_kg == 0);
    plant.undo();
    CHECK(plant.kg_of(run, "A") == Approx(100));
    CHECK(plant.planned(run).need_kg == 400);
    plant.done(ChangeRun{run, "", "", "6", ""});
    CHECK(plant.kg_of(run, "B") == Approx(300));
    CHECK(plant.planned(run).short_kg == Approx(200));
    CHECK_THAT(plant.said(), Contains("plan again"));
}

TEST_CASE("What is locked is never cut by a change of batches") {
    Changing plant;
    const LotId a = plant.released_lot(plant.draft("A"));
    const RunId run = plant.add_run("Pan bread", "2026-11-26", "4");
    plant.plan_week();
    plant.done(LockAssignment{run, a});
    CHECK_THAT(plant.refused(ChangeRun{run, "", "", "2", ""}),
               Contains("Batches: 400 kg are locked or mixed; 2 batches need only 200 kg"));
    CHECK(plant.planned(run).need_kg == 400);
}

TEST_CASE("A run that is being mixed stays where it is, and keeps the batches that are mixed") {
    Changing plant;
    plant.released_lot(plant.draft("A"));
    const RunId run = plant.add_run("Pan bread", "2026-11-25", "4");
    plant.plan_week();
    plant.done(ConfirmBatch{run});
    plant.done(ConfirmBatch{run});
    CHECK_THAT(plant.refused(ChangeRun{run, "Line 2", "", "", ""}),
               Contains("Run: ") && Contains("is being mixed"));
    CHECK_THAT(plant.refused(ChangeRun{run, "", "", "1", ""}),
               Contains("Batches: 1 was read, but 2 are mixed already"));
    plant.done(ChangeRun{run, "", "", "3", ""});
    CHECK(plant.kg_of(run, "A") == Approx(300));
}

TEST_CASE("A change of a run is refused with every fault at once") {
    Changing plant;
    const RunId run = plant.add_run("Pan bread", "2026-11-26", "4");
    const auto words = plant.refused(ChangeRun{run, "Line 9", "2026-11-20", "0", "5"});
    CHECK_THAT(words, Contains("Line: \"Line 9\" is not known"));
    CHECK_THAT(words, Contains("Day: 2026-11-20 was read, which is before today"));
    CHECK_THAT(words, Contains("Batches: "));
    CHECK_THAT(words, Contains("Sequence: "));
    CHECK_THAT(plant.refused(ChangeRun{RunId{99}, "", "", "", ""}), Contains("Run: is not in the book"));
    plant.open_again_on(day_from_iso("2026-11-27"));
    CHECK_THAT(plant.refused(ChangeRun{run, "", "", "5", ""}), Contains("which is past"));
}

TEST_CASE("A lot is given to a run by hand: locked there, taken from where it stood") {
    Changing plant;
    auto good = plant.draft("GOOD");
    good.mass_kg = "300";
    good.best_before = "2026-11-30"; // goes first
    const LotId lot = plant.released_lot(good);
    const RunId first = plant.add_run("Pan bread", "2026-11-26", "3");
    plant.plan_week();
    REQUIRE(plant.kg_of(first, "GOOD") == Approx(300));
    plant.released_lot(plant.draft("OTHER"));
    const RunId second = plant.add_run("Pan bread", "2026-11-27", "2");
    plant.app().handle(LockAssignment{first, lot});
    plant.plan_week();
    plant.app().handle(UnlockAssignment{first, lot});
    REQUIRE(plant.kg_of(second, "OTHER") == Approx(200));

    plant.done(GiveLot{lot, first, second});
    CHECK(plant.kg_of(first, "GOOD") == Approx(100));
    CHECK(plant.kg_of(second, "GOOD") == Approx(200));
    CHECK(plant.kg_of(second, "OTHER") == 0);
    CHECK(plant.planned(second).lots.at(0).is_locked);
    CHECK(plant.planned(first).short_kg == Approx(200));
    CHECK_THAT(plant.said(), Contains("200 kg of lot GOOD given to run"));
    plant.undo();
    CHECK(plant.kg_of(first, "GOOD") == Approx(300));
    CHECK(plant.kg_of(second, "OTHER") == Approx(200));
    CHECK_FALSE(plant.planned(first).lots.at(0).is_locked);
}

TEST_CASE("A lot is given from what no run has, and the next plan keeps it") {
    Changing plant;
    auto sooner = plant.draft("SOONER");
    sooner.best_before = "2026-12-01";
    plant.released_lot(sooner);
    auto some = plant.draft("SOME");
    some.mass_kg = "120";
    some.best_before = "2027-06-01";
    const LotId lot = plant.released_lot(some);
    const RunId run = plant.add_run("Pan bread", "2026-11-27", "4");
    plant.plan_week();
    REQUIRE(plant.kg_of(run, "SOONER") == Approx(400));
    plant.done(GiveLot{lot, {}, run});
    CHECK(plant.kg_of(run, "SOME") == Approx(120));
    CHECK(plant.kg_of(run, "SOONER") == Approx(280));
    CHECK(plant.planned(run).short_kg == 0);
    plant.plan_week();
    CHECK(plant.kg_of(run, "SOME") == Approx(120));
    CHECK_THAT(plant.refused(GiveLot{lot, {}, run}), Contains("Lot: nothing of SOME is free"));
}

TEST_CASE("A gift that rules forbid is refused in words") {
    Changing plant;
    const LotId a = plant.released_lot(plant.draft("A"));
    const LotId b = plant.released_lot(plant.draft("B"));
    const RunId run = plant.add_run("Pan bread", "2026-11-27", "4");
    const RunId other = plant.add_run("Pan bread", "2026-11-28", "4");
    plant.plan_week();
    plant.done(HoldLot{a, "smells musty"});
    CHECK_THAT(plant.refused(GiveLot{a, {}, run}),
               Contains("Lot: A cannot go into") && Contains("smells musty"));
    auto rye = plant.draft("RYE");
    rye.flour = "Rye";
    CHECK_THAT(plant.refused(GiveLot{plant.released_lot(rye), {}, run}),
               Contains("another flour than the product asks for"));
    auto bromated = plant.draft("BROMATE");
    bromated.mill_oxidant = "potassium_bromate";
    bromated.mill_oxidant_ppm = "30";
    CHECK_THAT(plant.refused(GiveLot{plant.released_lot(bromated), {}, run}),
               Contains("BROMATE cannot go into"));
    CHECK_THAT(plant.refused(GiveLot{b, run, run}), Contains("To run: is the run it comes from"));
    CHECK_THAT(plant.refused(GiveLot{LotId{99}, RunId{98}, RunId{97}}),
               Contains("Lot: ") && Contains("To run: ") && Contains("From run: "));
    const bool run_has_b = plant.kg_of(run, "B") > 0;
    const RunId has = run_has_b ? run : other;
    if (plant.kg_of(has, "B") > 0) {
        plant.done(LockAssignment{has, b});
        CHECK_THAT(plant.refused(GiveLot{b, has, has == run ? other : run}),
                   Contains("From run: lot B is locked"));
    }
}

TEST_CASE("A lot for a run of two flours takes the place of its own kind alone") {
    Changing plant;
    plant.released_lot(plant.draft("WHITE"));
    auto rye = plant.draft("RYE");
    rye.flour = "Rye";
    rye.figure(Property::falling_number) = {Property::falling_number, "180", "", "", ""};
    rye.figure(Property::ash) = {Property::ash, "1.6", "14 % moisture", "", ""};
    plant.released_lot(rye);
    const RunId run = plant.add_run("Mixed loaf", "2026-11-27", "4");
    plant.plan_week();
    REQUIRE(plant.kg_of(run, "WHITE") == Approx(300));
    REQUIRE(plant.kg_of(run, "RYE") == Approx(100));
    rye.code = "RYE2";
    plant.done(GiveLot{plant.released_lot(rye), {}, run});
    CHECK(plant.kg_of(run, "WHITE") == Approx(300));
    CHECK(plant.kg_of(run, "RYE") == 0);
    CHECK(plant.kg_of(run, "RYE2") == Approx(100));
}

TEST_CASE("Where a batch takes one lot alone, whole batches are given and whole batches are cut") {
    Changing plant;
    plant.released_lot(plant.draft("A"));
    const RunId run = plant.add_run("Traced loaf", "2026-11-27", "4");
    plant.plan_week();
    auto some = plant.draft("SOME");
    some.mass_kg = "250";
    const LotId lot = plant.released_lot(some);
    plant.done(GiveLot{lot, {}, run});
    CHECK(plant.kg_of(run, "SOME") == Approx(200));
    CHECK(plant.kg_of(run, "A") == Approx(200));
    auto little = plant.draft("LITTLE");
    little.mass_kg = "60";
    CHECK_THAT(plant.refused(GiveLot{plant.released_lot(little), {}, run}),
               Contains("a batch of Traced loaf takes one lot alone, and 60 kg are not a batch"));
}
