#include "app/acts/bakes.h"
#include "app/acts/give_lot.h"
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
using Catch::Matchers::StartsWith;
using tests::SmallPlant;

namespace {

/// The dosing plant, which also makes a bun for a market whose row nobody has read, and bread with bromate.
std::string plant_of_many_markets() {
    std::string plant = tests::dosing_plant;
    const std::string at = "    {\"name\": \"Plain loaf\"";
    return plant.insert(
        plant.find(at),
        R"(    {"name": "Island bun", "flour": "Strong white", "market": "GB", "food": "bread", "maturity_target": 0.9,
     "oxidant": "ascorbic_acid", "house_maximum_ppm": 60, "batch_flour_kg": 100},
    {"name": "Lakes loaf", "flour": "Strong white", "market": "US-federal", "food": "bread", "maturity_target": 0.9,
     "oxidant": "potassium_bromate", "house_maximum_ppm": 60, "batch_flour_kg": 100},
)");
}

/// A young lot and the loaves that are baked of it.
struct Trials {
    SmallPlant plant;
    LotId lot;

    explicit Trials(const std::string& of = tests::dosing_plant) : plant{day_from_iso("2026-11-25"), of} {
        lot = plant.released_lot(tests::young_draft(plant, "W26-1"));
    }
    void does(const Intent& intent) { plant.app().handle(intent); }
    void bake(LotId of, const char* dose, const char* size, const char* oxidant = "Ascorbic acid") {
        does(LogBake{of, {oxidant, dose, "volume", size, "", ""}});
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

TEST_CASE("The best of a ladder is the flour's own, whatever a product's law says; each product's law stands "
          "beside it") {
    Trials at(plant_of_many_markets());
    for (const auto& [dose, size] :
         {std::pair{"0", "2000"}, {"100", "2150"}, {"200", "2290"}, {"300", "2420"}})
        at.bake(at.lot, dose, size);
    const auto ladder = at.ladders().front();
    CHECK_THAT(ladder.best_words, StartsWith("Best at 300 mg/kg"));
    CHECK_THAT(ladder.next_words, !StartsWith("Bake 0.0 mg/kg next"));
    CHECK_THAT(ladder.gain_words, !StartsWith("0 ml"));
    REQUIRE(ladder.permits.size() == 2);
    const auto& pan = ladder.permits[0];
    CHECK(pan.product == "Pan bread");
    CHECK(pan.room == 60);
    CHECK(pan.best == 60);
    CHECK(pan.is_cut);
    CHECK_THAT(pan.words, Contains("up to 60 mg/kg, less than the loaves would like") &&
                              Contains("200 mg/kg") && Contains("house maximum 60 mg/kg"));
    const auto& bun = ladder.permits[1];
    CHECK(bun.product == "Island bun");
    CHECK(bun.room == 0);
    CHECK(bun.is_cut);
    CHECK_THAT(bun.words, Contains("none is permitted") && Contains("is not confirmed"));
    CHECK(std::any_of(ladder.notes.begin(), ladder.notes.end(), [](const std::string& note) {
        return note == "Trial bread with more than a product's law permits is not for sale as that product";
    }));
}

TEST_CASE("No higher trial loaf is proposed than the highest figure of any law that was read in its source") {
    Trials at(plant_of_many_markets());
    const char* loaves[][2] = {{"0", "2000"}, {"30", "2100"}, {"60", "2200"}};
    for (const auto& [dose, size] : loaves)
        at.bake(at.lot, dose, size, "Potassium bromate"); // 75 mg/kg is read of US bread
    const auto ladder = at.ladders().front();
    CHECK_THAT(ladder.best_words, StartsWith("Best at 60 mg/kg"));
    CHECK_THAT(ladder.next_words, StartsWith("Bake 75 mg/kg next"));
    CHECK(std::any_of(ladder.notes.begin(), ladder.notes.end(), [](const std::string& note) {
        return note.starts_with("No loaf above 75 mg/kg is proposed");
    }));
    REQUIRE(ladder.permits.size() == 1);
    CHECK(ladder.permits.front().product == "Lakes loaf");
}

TEST_CASE("A dose by bakes falls as the lot matures, with its range, on the lot's page and on later cards") {
    Trials at;
    at.ladder(at.lot);
    const auto now = at.plant.add_run("Pan bread", "2026-11-25", "2");
    const auto later = at.plant.add_run("Pan bread", "2026-12-20", "2");
    for (const auto run : {now, later})
        at.does(GiveLot{at.lot, {}, run});
    const auto fresh = at.plant.app().card_of(now);
    const auto mature = at.plant.app().card_of(later);
    REQUIRE((fresh.oxidant_ppm && mature.oxidant_ppm));
    CHECK(*mature.oxidant_ppm < *fresh.oxidant_ppm - 0.3);
    const auto tells = [](const CardModel& card, const char* words) {
        return std::any_of(card.cautions.begin(), card.cautions.end(), [&](const auto& caution) {
            return caution.words.find(words) != std::string::npos;
        });
    };
    CHECK(tells(mature, "% matured, for this dough "));
    CHECK(tells(mature, "mg/kg less than its loaves liked then"));
    CHECK(tells(mature, "in 80 of 100"));
    CHECK_FALSE(tells(fresh, "less than its loaves liked"));
    CHECK_THAT(mature.oxidant.note, Contains("in 80 of 100"));

    CHECK_THAT(at.ladders().front().fall_words, Contains("Baked at ") && Contains("0.0 mg/kg less"));
    const auto best_then = at.ladders().front().best_words;
    at.plant.open_again_on(day_from_iso("2026-12-20"));
    const auto ladder = at.ladders().front();
    CHECK(ladder.best_words != best_then);
    CHECK_THAT(ladder.fall_words,
               Contains("Baked at ") && Contains(" less than the ") && Contains("in 80 of 100"));
    CHECK(std::any_of(ladder.notes.begin(), ladder.notes.end(), [](const std::string& note) {
        return note.starts_with("From fresh to mature the best dose is taken to fall by ");
    }));
}
