#include "app/acts/bakes.h"
#include "app/acts/batches.h"
#include "app/acts/doughs.h"
#include "app/acts/give_lot.h"
#include "app/acts/intake.h"
#include "app/acts/levers.h"
#include "app/acts/looking.h"
#include "app/acts/settings.h"
#include "app/models/card.h"
#include "app/models/levers.h"
#include "app/models/mixer.h"
#include "app/models/plan.h"
#include "dough_plant.h"
#include "support/iso.h"

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

namespace {

/// A run of pan bread from a young lot, with a mature one beside it.
struct Weak {
    SmallPlant plant{day_from_iso("2026-11-25"), tests::dosing_plant};
    RunId run;

    explicit Weak(const char* product = "Pan bread") {
        const auto young = plant.released_lot(tests::young_draft(plant, "W26-1"));
        run = plant.add_run(product, "2026-11-25", "2");
        plant.app().handle(GiveLot{young, {}, run});
        INFO(plant.refusals());
        REQUIRE(plant.was_done());
    }
    LeversModel levers() {
        plant.app().handle(ShowLevers{run});
        REQUIRE(plant.app().mixer().levers);
        return *plant.app().mixer().levers;
    }
    LeverRow lever(const std::string& name) {
        for (const auto& row : levers().levers)
            if (row.name == name)
                return row;
        throw std::runtime_error("no lever " + name);
    }
};

} // namespace

TEST_CASE("A weak run shows its gap with the spread, and each lever with figures, cost and how sure") {
    Weak at;
    at.plant.released_lot(at.plant.draft("W24-118"));
    const auto levers = at.levers();
    CHECK(levers.refusals.empty());
    CHECK_THAT(levers.gap, Contains("of 90 % mature, about ") && Contains("days at 20 °C too few"));
    CHECK_THAT(levers.gap_spread, Contains("in 80 of 100"));
    REQUIRE(levers.levers.size() == 5);
    const auto wait = at.lever("Wait");
    CHECK_THAT(wait.spread, Contains("sure on the day of the run"));
    const auto blend = at.lever("Blend");
    CHECK_THAT(blend.figures, Contains("W24-118") && Contains("kg"));
    CHECK_THAT(blend.spread, Contains("then ") && Contains(" % mature ("));
    const auto oxidant = at.lever("Oxidant");
    CHECK_THAT(oxidant.figures, Contains("mg/kg Ascorbic acid") && Contains("g a batch"));
    CHECK_THAT(oxidant.label, Contains("label"));
    CHECK(at.lever("Longer fermentation").standing == LeverRow::Standing::forbidden);
    CHECK_FALSE(levers.mixes.empty());
}

TEST_CASE("The oxidant says what its dose rests on: a starting guess, or the lots' own bakes") {
    Weak at;
    CHECK_THAT(at.lever("Oxidant").spread, Contains("a starting guess, no bakes"));
    for (const auto& [dose, size] : {std::pair{"0", "2000"}, {"20", "2150"}, {"40", "2140"}, {"60", "2050"}})
        at.plant.app().handle(
            LogBake{at.plant.lot("W26-1"), {"Ascorbic acid", dose, "volume", size, "", ""}});
    REQUIRE(at.plant.was_done());
    CHECK_THAT(at.lever("Oxidant").spread, Contains("by bakes, best between"));
}

TEST_CASE("A lot that is held is no lever, and its reason is told where no other is there") {
    Weak at;
    at.plant.app().handle(TakeIn{{at.plant.draft("W24-118")}});
    const auto blend = at.lever("Blend");
    CHECK(blend.standing == LeverRow::Standing::forbidden);
    CHECK(blend.figures.empty());
}

TEST_CASE("A product without oxidant shows that lever as forbidden with the reason") {
    Weak at("Plain loaf");
    const auto oxidant = at.lever("Oxidant");
    CHECK(oxidant.standing == LeverRow::Standing::forbidden);
    REQUIRE_FALSE(oxidant.notes.empty());
    CHECK_THAT(oxidant.notes.front(), Contains("goes without"));
}

TEST_CASE("Longer fermentation appears once the plant has said how long and what an hour does") {
    Weak at;
    at.plant.app().handle(
        ChangeDough{.product = "Pan bread", .most_fermentation = "300", .maturity_per_hour = "8"});
    REQUIRE(at.plant.was_done());
    const auto ferment = at.lever("Longer fermentation");
    CHECK_THAT(ferment.figures, Contains("min more than the 60 min"));
    CHECK_THAT(ferment.spread, Contains("own bakes"));
    CHECK(ferment.label == "clean label");
}

TEST_CASE("The levers say what the trade knows of bulk fermentation and of water, and that no source stands "
          "behind it") {
    // common practice, no source
    Weak at;
    const auto says = [&](const char* lever, const char* words) {
        const auto notes = at.lever(lever).notes;
        return std::find(notes.begin(), notes.end(), words) != notes.end();
    };
    CHECK(says("Longer fermentation",
               "Longer bulk fermentation strengthens without additives (common practice, no source)"));
    CHECK(says(
        "Water",
        "Too little water gives a tough, bucky dough, too much a weak one (common practice, no source)"));
}

TEST_CASE("A sponge that nobody calibrated shows what was published in its own words, and claims nothing") {
    Weak at;
    at.plant.app().handle(
        ChangeDough{.product = "Pan bread", .process = "sponge", .most_fermentation = "300"});
    REQUIRE(at.plant.was_done());
    const auto ferment = at.lever("Longer fermentation");
    CHECK(ferment.standing == LeverRow::Standing::not_known);
    CHECK(ferment.figures.empty());
    CHECK_THAT(ferment.notes.front(),
               Contains("Published: as much as 2.5 to 7.5 mg/kg of bromate an hour, strong flours, sponge"));
    for (const auto& mix : at.levers().mixes)
        CHECK(mix.minutes == 0);
}

TEST_CASE("Prices set by the plant stand beside the levers") {
    Weak at;
    CHECK(at.lever("Oxidant").money == "price not set");
    at.plant.app().handle(ChangeSetting{"oxidant_price", "40"});
    REQUIRE(at.plant.was_done());
    CHECK_THAT(at.lever("Oxidant").money, Contains("a run"));
}

TEST_CASE("A batch off its optimum shows in the lever of water, with what a hand feels") {
    Weak at;
    BatchDraft draft;
    draft.water = "57";
    draft.oxidant = "0";
    at.plant.app().handle(ConfirmBatch{at.run, draft});
    INFO(at.plant.refusals());
    REQUIRE(at.plant.was_done());
    at.plant.app().handle(
        LogResult{at.plant.app().card_of(at.run).logged.front().id, {"", "", "stiff", "", "", ""}});
    const auto water = at.lever("Water");
    CHECK_THAT(water.figures, Contains("batch 1") && Contains("points from the optimum"));
    REQUIRE_FALSE(water.notes.empty());
    CHECK_THAT(water.notes.front(), Contains("bucky"));
}

TEST_CASE("A run without lots has no levers but a reason, and another run's can be asked for") {
    Weak at;
    const auto empty = at.plant.add_run("Plain loaf", "2026-11-26", "1");
    at.plant.app().handle(ShowLevers{empty});
    REQUIRE(at.plant.app().mixer().levers);
    CHECK_FALSE(at.plant.app().mixer().levers->refusals.empty());
    at.plant.app().handle(ShowLevers{});
    CHECK_FALSE(at.plant.app().mixer().levers);
}

TEST_CASE("The levers asked for stand on the plan beside the run too, and stay when the plan is shown anew") {
    Weak at;
    at.plant.app().handle(ShowLevers{at.run});
    REQUIRE(at.plant.app().plan().levers);
    CHECK(at.plant.app().plan().levers->run == at.run);
    at.plant.app().handle(ShowPlan{day_from_iso("2026-11-25"), 14});
    CHECK(at.plant.app().plan().levers);
    at.plant.app().handle(ShowLevers{});
    CHECK_FALSE(at.plant.app().plan().levers);
}
