#include "app/acts/bakes.h"
#include "app/acts/batches.h"
#include "app/acts/doughs.h"
#include "app/acts/give_lot.h"
#include "app/acts/looking.h"
#include "app/acts/lots.h"
#include "app/acts/plan.h"
#include "app/acts/runs.h"
#include "app/acts/solutions.h"
#include "app/acts/supply.h"
#include "app/book/clock.h"
#include "app/book/setup.h"
#include "app/models/card.h"
#include "app/models/dose_words.h"
#include "app/models/levers.h"
#include "app/models/plan.h"
#include "app/models/plan_sheet.h"
#include "demo_at_hand.h"
#include "dough_plant.h"
#include "mixed_plant.h"
#include "support/catch.h"
#include "support/iso.h"
#include "support/sheet_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <random>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

namespace {

const Day today = day_from_iso("2026-11-25");

/// The run's line of the printed plan.
std::string printed(const PlanModel& plan, const std::string& code) {
    const auto page = tests::words_of(plan_sheet(plan, {"Plant", "now", Instant{}}));
    const auto at = page.find("/" + code);
    if (at == std::string::npos)
        return {};
    const auto from = page.rfind('\n', at) + 1;
    return page.substr(from, page.find('\n', at) - from);
}

/// Plan, printed plan, card and levers of one run; false where the card has no dose to be held against.
bool agree(const App& app, const PlannedRun& run) {
    const auto card = app.card_of(run.id);
    const auto levers = app.levers_of(run.id);
    INFO(run.code << " " << run.product << ", " << run.oxidant_words << ", card: " << card.oxidant.note);
    const bool is_promised = std::any_of(run.lots.begin(), run.lots.end(),
                                         [](const PlannedLot& lot) { return lot.delivery.is_known(); });
    if (!card.refusals.empty() || card.is_finished || !card.oxidant_ppm || is_promised)
        return false;
    CHECK(run.oxidant_ppm == *card.oxidant_ppm);
    REQUIRE(levers.oxidant_ppm);
    CHECK(*levers.oxidant_ppm == *card.oxidant_ppm);
    const auto digits = fixed(*card.oxidant_ppm, 2);
    const auto line = printed(app.plan(), run.code);
    REQUIRE_FALSE(line.empty());
    if (*card.oxidant_ppm <= 0) {
        CHECK_THAT(line, !Contains("mg/kg flour"));
        CHECK_THAT(run.oxidant_words,
                   Contains("not needed") || Contains("none goes in") || Contains("is withheld"));
        return true;
    }
    CHECK(run.oxidant_words == run.oxidant + " " + digits + " mg/kg flour");
    CHECK_THAT(line, Contains(run.oxidant + " " + digits + " mg/kg flour"));
    for (const auto& lever : levers.levers)
        if (lever.name == "Oxidant" && !lever.figures.empty())
            CHECK_THAT(lever.figures, Contains(digits + " mg/kg " + run.oxidant));
    return true;
}

struct Agreement {
    int runs = 0;  ///< with a dose to be compared
    int dosed = 0; ///< above nothing
};
Agreement all_agree(const App& app) {
    Agreement seen;
    for (const auto& run : app.plan().runs) {
        const bool was_compared = agree(app, run);
        seen.runs += was_compared ? 1 : 0;
        seen.dosed += was_compared && run.oxidant_ppm > 0 ? 1 : 0;
    }
    return seen;
}

constexpr const char* many_ways = R"({
  "plant": "Many ways", "mills": ["Mill"],
  "flours": [{"name": "Strong white", "class": "white"}, {"name": "Rye", "class": "wholemeal"}],
  "places": [{"name": "Bay 1", "kind": "bay", "air": "breathable_bag", "temperature_c": 20}],
  "lines": [{"name": "Line 1", "friction_factor_c": 24, "stock_solution_g_per_l": 7.5},
            {"name": "Line 2", "friction_factor_c": 24, "oxidant_scale_step_g": 0.1,
             "oxidant_scale_error_g": 0.05}],
  "products": [
    {"name": "Pan bread", "flour": "Strong white", "market": "Canada", "food": "bread", "maturity_target": 0.9,
     "oxidant": "ascorbic_acid", "house_maximum_ppm": 60, "batch_flour_kg": 100},
    {"name": "Capped bread", "flour": "Strong white", "market": "Canada", "food": "bread",
     "maturity_target": 0.95, "oxidant": "ascorbic_acid", "house_maximum_ppm": 8, "batch_flour_kg": 90},
    {"name": "Old way", "flour": "Strong white", "market": "US-federal", "food": "bread",
     "maturity_target": 0.9, "oxidant": "potassium_bromate", "house_maximum_ppm": 40, "batch_flour_kg": 110},
    {"name": "Forbidden", "flour": "Strong white", "market": "EU", "food": "bread", "maturity_target": 0.9,
     "oxidant": "potassium_bromate", "house_maximum_ppm": 40, "batch_flour_kg": 100},
    {"name": "Mixed loaf", "flour": "Strong white", "market": "Canada", "food": "bread",
     "second_flour": {"flour": "Rye", "share": 0.3}, "maturity_target": 0.9, "oxidant": "ascorbic_acid",
     "house_maximum_ppm": 60, "batch_flour_kg": 100},
    {"name": "Traced loaf", "flour": "Strong white", "market": "Canada", "food": "bread",
     "one_lot_a_batch": true, "least_share": 0, "maturity_target": 0.9, "oxidant": "ascorbic_acid",
     "house_maximum_ppm": 60, "batch_flour_kg": 100},
    {"name": "Plain loaf", "flour": "Strong white", "market": "Canada", "food": "bread", "batch_flour_kg": 100}
  ]})";

/// A book as the dice fall: lots of any age, mill doses, bakes, lots given to runs, batches mixed.
class DicedBook {
public:
    explicit DicedBook(unsigned seed) : dice_(seed) {
        for (int i = 0; i < 9; ++i)
            lot(i);
        if (chance(2))
            plant.app().handle(MakeSolution{"Ascorbic acid", chance(2) ? "7.5" : "5", ""});
        for (const char* product :
             {"Pan bread", "Capped bread", "Old way", "Forbidden", "Mixed loaf", "Traced loaf", "Plain loaf"})
            run(product);
    }

    SmallPlant plant{today, many_ways};

private:
    int up_to(int most) { return std::uniform_int_distribution(1, most)(dice_); }
    bool chance(int of) { return up_to(of) == 1; }

    void lot(int i) {
        auto draft = plant.draft(fmt::format("L{}", i));
        draft.flour = i % 4 == 3 ? "Rye" : "Strong white";
        const int age = 3 + up_to(70);
        draft.milled_on = iso(today - Days{age});
        draft.delivered_on = iso(today - Days{up_to(age) - 1});
        draft.mass_kg = std::to_string(50 * up_to(8));
        draft.figure(Property::protein) = {Property::protein, fmt::format("{:.1f}", 11 + 0.1 * up_to(25)),
                                           chance(2) ? "14 % moisture" : "as is", "", ""};
        draft.figure(Property::moisture) = {Property::moisture, fmt::format("{:.1f}", 12 + 0.1 * up_to(25)),
                                            "", "", ""};
        if (chance(4)) {
            draft.mill_oxidant = chance(2) ? "ascorbic_acid" : "potassium_bromate";
            draft.mill_oxidant_ppm = std::to_string(up_to(30));
        }
        const auto id = plant.released_lot(draft);
        lots_.push_back(id);
        if (!chance(3))
            return;
        const int best = 10 * (up_to(4) - 1);
        for (const int dose : {0, 10, 20, 30, 50})
            plant.app().handle(
                LogBake{id,
                        {"Ascorbic acid", std::to_string(dose), "volume",
                         fmt::format("{}", 2200 - (dose - best) * (dose - best) / 5 + up_to(20)), "", ""}});
    }

    void run(const char* product) {
        plant.app().handle(ShowPlan{today, 28});
        plant.app().handle(AddRun{product, chance(2) ? "Line 1" : "Line 2", iso(today + Days{up_to(6) - 1}),
                                  std::to_string(1 + up_to(3))});
        REQUIRE(plant.was_done());
        RunId id;
        for (const auto& planned : plant.app().plan().runs)
            id = std::max(id, planned.id);
        std::shuffle(lots_.begin(), lots_.end(), dice_);
        for (int i = 0; i < 5; ++i) // refused where nothing is wanted of it any more
            plant.app().handle(GiveLot{lots_[static_cast<std::size_t>(i)], {}, id});
        if (chance(2))
            plant.app().handle(ConfirmBatch{id, {{}, "60", "", "", "", "", "the dice"}});
    }

    std::mt19937 dice_;
    std::vector<LotId> lots_;
};

} // namespace

TEST_CASE("Over the demo book, plan, printed plan, card and levers of every run say the same dose") {
    App app({tests::demo_at_hand(), "tester", Clock::standing_at(today)});
    app.handle(ShowPlan{today, 14});
    const auto seen = all_agree(app);
    CHECK(seen.runs > 10);
    CHECK(seen.dosed > 0);
}

TEST_CASE("Over any book, plan, printed plan, card and levers of every run say the same dose") {
    Agreement all;
    for (unsigned seed = 1; seed <= 12; ++seed) {
        INFO("seed " << seed);
        DicedBook book(seed);
        const auto seen = all_agree(book.plant.app());
        all.runs += seen.runs;
        all.dosed += seen.dosed;
    }
    CHECK(all.runs > 24);
    CHECK(all.dosed > 8);
}

TEST_CASE(
    "A run whose lots were baked is dosed on the plan by the bakes, as on its card, not by its maturity") {
    SmallPlant plant{today, tests::dosing_plant};
    const auto lot = plant.released_lot(plant.draft("OLD")); // mature: nothing would be needed by that
    const auto run = plant.add_run("Pan bread", "2026-11-26", "2");
    plant.plan_week();
    CHECK(plant.planned(run).oxidant_words == "Ascorbic acid is not needed");
    for (const auto& [dose, ml] : {std::pair{"0", "2000"},
                                   {"10", "2110"},
                                   {"20", "2180"},
                                   {"30", "2190"},
                                   {"40", "2150"},
                                   {"60", "2020"}})
        plant.app().handle(LogBake{lot, {"Ascorbic acid", dose, "volume", ml, "", ""}});
    CHECK(plant.planned(run).oxidant_ppm > 10);
    CHECK_THAT(plant.planned(run).oxidant_words, Contains(" mg/kg flour"));
    CHECK(agree(plant.app(), plant.planned(run)));
}

TEST_CASE("What a proposed plan says of a dose its run's card says once it is adopted") {
    SmallPlant plant{today, tests::dosing_plant};
    for (const auto* code : {"A", "B", "C"}) {
        auto draft = tests::young_draft(plant, code);
        draft.mass_kg = "150";
        draft.milled_on = *code == 'A' ? "2026-11-01" : "2026-10-20";
        draft.delivered_on = "2026-11-08";
        plant.released_lot(draft);
    }
    const auto run = plant.add_run("Pan bread", "2026-11-26", "4");
    plant.app().handle(PlanRuns{today, 7});
    plant.app().finish_work();
    REQUIRE(plant.app().plan().standing == PlanModel::Standing::proposed);
    const auto proposed = plant.planned(run);
    CHECK(proposed.lots.size() > 1);
    CHECK(proposed.oxidant_ppm > 0.5);
    plant.app().handle(AdoptPlan{});
    REQUIRE(plant.was_done());
    CHECK(plant.app().card_of(run).oxidant_ppm == proposed.oxidant_ppm);
    CHECK(agree(plant.app(), plant.planned(run)));
}

TEST_CASE(
    "The plan's dose is that of what is left once batches are mixed, and of a finished run what went in") {
    SmallPlant plant{today, tests::dosing_plant};
    plant.released_lot(tests::young_draft(plant, "YOUNG"));
    const auto run = plant.add_run("Pan bread", "2026-11-25", "2");
    plant.plan_week();
    for (int batch = 1; batch <= 2; ++batch) {
        CHECK(agree(plant.app(), plant.planned(run)));
        plant.app().handle(ConfirmBatch{run, {{}, "", "", "", "", "", "nothing to answer"}});
        INFO(plant.said() << plant.refusals());
        REQUIRE(plant.was_done());
    }
    CHECK_THAT(plant.planned(run).oxidant_words, Contains(" mg/kg went in"));
    CHECK(plant.planned(run).oxidant_ppm > 1);
}

TEST_CASE("Flour of a delivery to come counts in the plan's dose as what is expected of it") {
    SmallPlant plant{today, tests::dosing_plant};
    auto pattern = plant.draft("PATTERN");
    pattern.mass_kg = "1";
    pattern.bag_kg = "1";
    plant.released_lot(pattern);
    plant.app().handle(ExpectDelivery{"Mill", "Strong white", "500", "2026-11-26", "2026-11-20"});
    REQUIRE(plant.was_done());
    const auto run = plant.add_run("Pan bread", "2026-12-01", "2");
    plant.plan_week();
    const auto& planned = plant.planned(run);
    REQUIRE_FALSE(planned.lots.empty());
    REQUIRE(planned.lots.front().delivery.is_known());
    CHECK(planned.maturity < 0.5);
    CHECK(planned.oxidant_ppm > 1);
    CHECK_THAT(planned.oxidant_words, Contains(dose_words(OxidantPpm{planned.oxidant_ppm}) + " mg/kg flour"));
}

TEST_CASE("A run without flour has no dose, and says so rather than that none is needed") {
    SmallPlant plant{today, tests::dosing_plant};
    const auto run = plant.add_run("Pan bread", "2026-11-26", "2");
    CHECK(plant.planned(run).oxidant_words == "Ascorbic acid: not known without flour");
}

TEST_CASE("A run whose lot is held has no dose on the plan, as its card has none") {
    SmallPlant plant{today, tests::dosing_plant};
    const auto lot = plant.released_lot(tests::young_draft(plant, "YOUNG"));
    const auto run = plant.add_run("Pan bread", "2026-11-26", "2");
    plant.plan_week();
    REQUIRE(plant.planned(run).oxidant_ppm > 1);
    plant.app().handle(HoldLot{lot, "smells musty"});
    CHECK(plant.planned(run).oxidant_ppm == 0);
    CHECK_THAT(plant.planned(run).oxidant_words, Contains("not known") && Contains("it is not released"));
    CHECK_FALSE(plant.app().card_of(run).refusals.empty());
}
