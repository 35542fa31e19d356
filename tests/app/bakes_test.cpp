#include "app/acts/bakes.h"
#include "app/acts/intent.h"
#include "app/acts/looking.h"
#include "app/models/card.h"
#include "app/models/ladders.h"
#include "app/models/lots.h"
#include "dough_plant.h"
#include "support/iso.h"

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

namespace {

/// A young lot and the loaves that are baked of it.
struct Trials {
    SmallPlant plant{day_from_iso("2026-11-25"), tests::dosing_plant};
    LotId lot;

    Trials() { lot = plant.released_lot(tests::young_draft(plant, "W26-1")); }
    void does(const Intent& intent) { plant.app().handle(intent); }
    void bake(LotId of, const char* dose, const char* size) {
        does(LogBake{of, {"Ascorbic acid", dose, "volume", size, "", ""}});
        INFO(plant.refusals());
        REQUIRE(plant.was_done());
    }
    void ladder(LotId of) {
        const char* loaves[][2] = {{"0", "2000"},  {"10", "2110"}, {"20", "2180"},
                                   {"30", "2190"}, {"40", "2150"}, {"60", "2020"}};
        for (const auto& [dose, size] : loaves)
            bake(of, dose, size);
    }
    std::vector<LadderModel> ladders() {
        does(OpenLot{lot});
        return plant.app().lots().opened->ladders;
    }
};

} // namespace

TEST_CASE("Loaves of a ladder give the lot's best dose inside what was baked, with its interval and what to "
          "bake next") {
    Trials at;
    at.ladder(at.lot);
    const auto ladders = at.ladders();
    REQUIRE(ladders.size() == 1);
    const auto& ladder = ladders.front();
    CHECK(ladder.substance == "Ascorbic acid");
    CHECK(ladder.unit == "ml");
    CHECK(ladder.rows.size() == 6);
    CHECK_THAT(ladder.best_words, Contains("6 loaves of its own"));
    CHECK_THAT(ladder.next_words, Contains("Bake "));
    REQUIRE(ladder.curve.size() > 10);
    CHECK(ladder.curve.back().dose == 60); // never beyond the highest dose baked
    const auto best = std::max_element(ladder.curve.begin(), ladder.curve.end(),
                                       [](const auto& a, const auto& b) { return a.likely < b.likely; });
    CHECK(best->dose > 10);
    CHECK(best->dose < 50);
}

TEST_CASE("A withdrawn loaf stays in the list and counts for nothing") {
    Trials at;
    at.ladder(at.lot);
    at.bake(at.lot, "60", "2900"); // a loaf of another lot
    const auto wrong = at.ladders().front().rows.front().id;
    at.does(WithdrawBake{wrong, ""});
    CHECK_THAT(at.plant.refusals(), Contains("Reason: "));
    at.does(WithdrawBake{wrong, "of another lot"});
    REQUIRE(at.plant.was_done());
    const auto ladder = at.ladders().front();
    CHECK(ladder.rows.front().is_withdrawn);
    CHECK(ladder.loaves.size() == 6);
    CHECK_THAT(ladder.best_words, Contains("6 loaves of its own"));
}

TEST_CASE("The card doses a lot by its own bakes, and says so") {
    Trials at;
    const auto run = at.plant.add_run("Pan bread", "2026-11-25", "2");
    at.plant.plan_week();
    const auto guessed = at.plant.app().card_of(run);
    at.ladder(at.lot);
    const auto baked = at.plant.app().card_of(run);
    CHECK_THAT(baked.oxidant.note, Contains("By bakes best at"));
    CHECK_THAT(guessed.oxidant.note, !Contains("By bakes"));
    CHECK(baked.oxidant.unit == "g"); // no solution is logged
    // 20 to 30 mg/kg was best, by its loaves; in 100 kg that is 2 to 3 g.
    CHECK(baked.oxidant.value.value() > 1.5);
    CHECK(baked.oxidant.value.value() < 3.5);
}

TEST_CASE("A loaf is refused field by field, and nothing is written") {
    Trials at;
    at.does(LogBake{at.lot, {"Sugar", "-1", "weight", "0", "2027-01-01", ""}});
    REQUIRE(at.plant.was_refused());
    for (const char* field : {"Oxidant: ", "Dose: ", "Measure: ", "Size: ", "Baked on: "})
        CHECK_THAT(at.plant.refusals(), Contains(field));
    CHECK(at.ladders().empty());
    at.does(LogBake{at.lot, {"Ascorbic acid", "10", "volume", "2000", "2026-11-01", ""}});
    CHECK_THAT(at.plant.refusals(), Contains("before the milling"));
}

TEST_CASE("Volumes and heights are ladders of their own") {
    Trials at;
    at.bake(at.lot, "0", "2000");
    at.does(LogBake{at.lot, {"Ascorbic acid", "0", "height", "105", "", ""}});
    REQUIRE(at.plant.was_done());
    CHECK(at.ladders().size() == 2);
}
