// What cures a run on the plan: what is promised beneath a cure is what comes of it.

#include "app/acts/assignments.h"
#include "app/acts/give_lot.h"
#include "app/acts/intake.h"
#include "app/acts/levers.h"
#include "app/acts/looking.h"
#include "app/acts/lots.h"
#include "app/acts/runs.h"
#include "app/models/plan.h"
#include "app/models/run_cures.h"
#include "dough_plant.h"
#include "mixed_plant.h"
#include "support/catch.h"
#include "support/iso.h"

#include <algorithm>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;
using Kind = RunCure::Kind;

namespace {

struct Cured {
    SmallPlant plant;

    explicit Cured(const char* plant_file = tests::dosing_plant)
        : plant(day_from_iso("2026-11-25"), std::string(plant_file)) {}

    const RunCures& look(RunId run) {
        plant.app().handle(ShowCures{run});
        REQUIRE(plant.app().plan().cures);
        return *plant.app().plan().cures;
    }
    const RunCure* find(RunId run, Kind kind) {
        const auto& cures = look(run).cures;
        const auto at =
            std::find_if(cures.begin(), cures.end(), [&](const auto& cure) { return cure.kind == kind; });
        return at == cures.end() ? nullptr : &*at;
    }
    RunCure cure(RunId run, Kind kind) {
        const auto* found = find(run, kind);
        REQUIRE(found);
        return *found;
    }
    void done(const Intent& intent) { plant.done(intent); }
    LotId lot(const std::string& code, const std::string& kg) {
        auto draft = plant.draft(code);
        draft.mass_kg = kg;
        return plant.released_lot(draft);
    }
    /// Four batches, of which 250 kg of A are there.
    RunId short_run() {
        lot("A", "250");
        const auto run = plant.add_run("Plain loaf", "2026-11-27", "4");
        plant.plan_week();
        REQUIRE(plant.planned(run).short_kg == Approx(150));
        return run;
    }
    /// Two batches of flour that is young, without oxidant to make up for it.
    RunId weak_run() {
        const auto young = plant.released_lot(tests::young_draft(plant, "YOUNG"));
        const auto run = plant.add_run("Plain loaf", "2026-11-27", "2");
        done(GiveLot{young, {}, run});
        done(UnlockAssignment{run, young});
        REQUIRE(plant.planned(run).maturity < plant.planned(run).maturity_target);
        return run;
    }
};

} // namespace

TEST_CASE("A run that holds has no cures, and says how the same flour is on the days around") {
    Cured at;
    at.plant.released_lot(at.plant.draft("A"));
    const auto run = at.plant.add_run("Plain loaf", "2026-11-27", "2");
    at.plant.plan_week();
    const auto cures = at.look(run);
    CHECK(cures.cures.empty());
    CHECK(cures.why_none.empty());
    REQUIRE(cures.ahead.size() == 3);
    CHECK(cures.ahead[0].day == day_from_iso("2026-11-27"));
    CHECK(cures.ahead[0].maturity == Approx(at.plant.planned(run).maturity));
    CHECK(cures.ahead[0].maturity <= cures.ahead[2].maturity);
}

TEST_CASE("A short run is cured by free flour, as much as is missing, and then nothing is short") {
    Cured at;
    const auto run = at.short_run();
    at.lot("B", "1000");
    const auto cure = at.cure(run, Kind::take);
    CHECK(cure.lot_code == "B");
    CHECK(cure.kg == Approx(150).margin(0.1));
    CHECK_THAT(cure.price, Contains("Nothing is short then.") && Contains("1000 kg of it are free."));
    at.done(GiveLot{cure.lot, {}, run, to_grams(Kilograms{cure.kg})});
    CHECK(at.plant.planned(run).short_kg == 0);
    CHECK(at.look(run).cures.empty());
}

TEST_CASE("A lot that does not reach says what would still be short") {
    Cured at;
    const auto run = at.short_run();
    at.lot("B", "60");
    CHECK_THAT(at.cure(run, Kind::take).price, Contains("Still short 90 kg."));
}

TEST_CASE("Fewer batches cure a short run: so many as its flour is enough for") {
    Cured at;
    const auto run = at.short_run();
    const auto cure = at.cure(run, Kind::fewer);
    CHECK(cure.verb == "Mix 2 of 4 batches");
    at.done(ChangeRun{run, "", "", std::to_string(cure.batches), ""});
    CHECK(at.plant.planned(run).short_kg == 0);
}

TEST_CASE(
    "Flour that was put on hold is missing: another lot takes its place, and the rest of the blend stays") {
    Cured at;
    const auto a = at.lot("A", "200");
    at.lot("B", "200");
    const auto run = at.plant.add_run("Plain loaf", "2026-11-27", "4");
    at.plant.plan_week();
    REQUIRE(at.plant.planned(run).lots.size() == 2);
    at.done(HoldLot{a, "smells of oil"});
    at.lot("C", "1000");
    const auto cure = at.cure(run, Kind::take);
    CHECK(cure.lot_code == "C");
    CHECK_THAT(cure.price, Contains("Nothing is short then."));
    at.done(GiveLot{cure.lot, {}, run, to_grams(Kilograms{cure.kg})});
    double of_b = 0;
    for (const auto& lot : at.plant.planned(run).lots) {
        CHECK(lot.code != "A");
        of_b += lot.code == "B" ? lot.kg : 0;
    }
    CHECK(of_b == Approx(200).margin(0.1));
    CHECK(at.look(run).cures.empty());
}

TEST_CASE("Of two flours the scarcer says how many batches there can be") {
    Cured at(tests::mixed_plant);
    at.lot("WHITE", "1000");
    auto rye = at.plant.draft("RYE");
    rye.flour = "Rye";
    rye.mass_kg = "50";
    rye.figure(Property::falling_number) = {Property::falling_number, "180", "", "", ""};
    rye.figure(Property::ash) = {Property::ash, "1.6", "14 % moisture", "", ""};
    at.plant.released_lot(rye);
    const auto run = at.plant.add_run("Mixed loaf", "2026-11-27", "4");
    at.plant.plan_week();
    REQUIRE(at.plant.planned(run).short_kg == Approx(50));
    const auto cure = at.cure(run, Kind::fewer);
    CHECK(cure.batches == 2); // 50 of 100 kg of rye, though only 50 of 400 kg are short
    at.done(ChangeRun{run, "", "", std::to_string(cure.batches), ""});
    CHECK(at.plant.planned(run).short_kg == 0);
}

TEST_CASE("A lot in quarantine or on hold is offered to be judged, one that law forbids is not") {
    Cured at;
    const auto run = at.short_run();
    const auto held = at.lot("HELD", "1000");
    at.done(HoldLot{held, "smells musty"});
    const auto cure = at.cure(run, Kind::judge);
    CHECK(cure.verb == "Judge HELD");
    CHECK_THAT(cure.price, Contains("It is on hold. Released: Nothing is short then."));
    auto bromated = at.plant.draft("BROMATE");
    bromated.mill_oxidant = "potassium_bromate";
    bromated.mill_oxidant_ppm = "30";
    at.plant.released_lot(bromated);
    for (const auto& one : at.look(run).cures)
        CHECK(one.lot_code != "BROMATE");
}

TEST_CASE("A run's own lot that was put on hold is offered to be judged, and released the run holds again") {
    Cured at;
    const auto own = at.lot("A", "400"); // all of it is the run's: nothing of it is free
    const auto run = at.plant.add_run("Plain loaf", "2026-11-27", "4");
    at.plant.plan_week();
    REQUIRE(at.plant.planned(run).short_kg == 0);
    at.done(HoldLot{own, "smells of oil"});
    const auto cure = at.cure(run, Kind::judge);
    CHECK(cure.verb == "Judge A");
    CHECK(cure.lot == own);
    CHECK(cure.price == "It is on hold. Released: Nothing is short then. The run has 400 kg of it.");
    at.done(ReleaseLot{own, "it was the sack"});
    CHECK(at.look(run).cures.empty());
}

TEST_CASE("A run's own lot on hold of which more is free is offered to be judged once") {
    Cured at;
    const auto own = at.lot("A", "1000");
    const auto run = at.plant.add_run("Plain loaf", "2026-11-27", "4");
    at.plant.plan_week();
    at.done(HoldLot{own, "smells of oil"});
    const auto cures = at.look(run).cures;
    CHECK(std::count_if(cures.begin(), cures.end(),
                        [](const auto& cure) { return cure.kind == Kind::judge; }) == 1);
}

TEST_CASE("What is missing can be ordered, and the cure says by when") {
    Cured at;
    const auto run = at.short_run();
    const auto cure = at.cure(run, Kind::order);
    CHECK(cure.flour == "Strong white");
    CHECK(cure.kg == Approx(150));
    CHECK_FALSE(cure.price.empty());
}

TEST_CASE(
    "A weak run is cured by the least of a mature lot that is enough, and giving it does what was said") {
    Cured at;
    const auto run = at.weak_run();
    at.plant.released_lot(at.plant.draft("MATURE"));
    const auto cure = at.cure(run, Kind::take);
    CHECK(cure.lot_code == "MATURE");
    CHECK(cure.kg < 200);
    CHECK_THAT(cure.price, Contains("of 85 %."));
    at.done(GiveLot{cure.lot, {}, run, to_grams(Kilograms{cure.kg})});
    const auto now = at.plant.planned(run);
    CHECK(now.maturity >= Approx(now.maturity_target).margin(0.005));
    CHECK(at.look(run).cures.empty());
    // A tenth of the flour less would not have been enough.
    Cured other;
    const auto same = other.weak_run();
    const auto mature = other.plant.released_lot(other.plant.draft("MATURE"));
    other.done(GiveLot{mature, {}, same, to_grams(Kilograms{cure.kg - 20})});
    CHECK(other.plant.planned(same).maturity < now.maturity_target - 0.005);
}

TEST_CASE("A weak run is moved to the first day on which its flour is mature enough, and then it is") {
    Cured at;
    auto soon = at.plant.draft("SOON");
    soon.milled_on = "2026-10-28";
    soon.delivered_on = "2026-10-30";
    soon.mass_kg = "5000";
    const auto lot = at.plant.released_lot(soon);
    RunId run{};
    at.done(ShowPlan{day_from_iso("2026-11-25"), 28});
    // The last day on which it is not mature enough.
    for (int day = 1; day < 27; ++day) {
        const auto added = at.plant.add_run("Plain loaf", iso(day_from_iso("2026-11-25") + Days{day}), "1");
        at.done(GiveLot{lot, {}, added});
        const auto& planned = at.plant.planned(added);
        if (planned.maturity + 0.005 >= planned.maturity_target) // the plan calls that enough
            break;
        run = added;
    }
    REQUIRE(run.is_known());
    const auto cure = at.cure(run, Kind::move);
    REQUIRE(cure.day);
    const auto ahead = at.look(run).ahead;
    REQUIRE(ahead.size() == 3);
    CHECK_FALSE(ahead[0].is_enough);
    CHECK(ahead[1].day == *cure.day);
    CHECK(ahead[1].is_enough);
    at.done(ChangeRun{run, "", iso(*cure.day), "", ""});
    CHECK_THAT(cure.price, Contains("stand"));
    const auto now = at.plant.planned(run);
    CHECK(now.maturity >= Approx(now.maturity_target).margin(0.005));
}

TEST_CASE("A run with its oxidant is not called weak: the dose makes up for it, and no cure is offered") {
    Cured at;
    const auto young = at.plant.released_lot(tests::young_draft(at.plant, "YOUNG"));
    const auto run = at.plant.add_run("Pan bread", "2026-11-27", "2");
    at.done(GiveLot{young, {}, run});
    REQUIRE(at.plant.planned(run).oxidant_ppm > 0);
    CHECK(at.look(run).cures.empty());
}

TEST_CASE("No more of a lot is given than was said") {
    Cured at;
    const auto run = at.short_run();
    const auto b = at.lot("B", "1000");
    at.done(GiveLot{b, {}, run, Grams{40'000}});
    CHECK(at.plant.planned(run).short_kg == Approx(110));
}
