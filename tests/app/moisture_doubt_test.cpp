// A moisture that is told by the drift in the lot's place and not measured: the water's range says so.
#include "app/acts/retests.h"
#include "app/models/card.h"
#include "dough_plant.h"

#include <regex>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

namespace {

/// The dosing plant with a first bay whose air is said to be so damp.
std::string in_air_of(int percent) {
    std::string plant = tests::dosing_plant;
    const std::string at = "\"temperature_c\": 20}";
    return plant.replace(plant.find(at), at.size(),
                         "\"temperature_c\": 20, \"humidity_percent\": " + std::to_string(percent) + "}");
}

struct StoredLot {
    SmallPlant plant;
    LotId lot;
    RunId run;

    StoredLot(int humidity, const char* moisture, const char* delivered_on)
        : plant(day_from_iso("2026-11-25"), in_air_of(humidity)) {
        auto draft = plant.draft("W24-118");
        draft.milled_on = "2026-06-01";
        draft.delivered_on = delivered_on;
        draft.figure(Property::moisture).value = moisture;
        lot = plant.released_lot(draft);
        run = plant.add_run("Plain loaf", "2026-11-25", "1");
        plant.plan_week();
    }
    CardModel card() { return plant.app().card_of(run); }
    /// The card's "give or take", points.
    double give_or_take() {
        std::smatch found;
        const std::string note = card().water.note;
        REQUIRE(std::regex_search(note, found,
                                  std::regex("give or take ([0-9.]+) points \\(80 of 100 doughs\\)")));
        return std::stod(found[1]);
    }
    bool asks_for_moisture() {
        for (const auto& caution : card().cautions)
            if (caution.words.find("test its moisture before the first dough") != std::string::npos)
                return true;
        return false;
    }
    void test_moisture(const char* value) {
        RetestDraft draft;
        draft.figure(Property::moisture).value = value;
        plant.app().handle(LogRetest{lot, draft});
        REQUIRE(plant.was_done());
    }
};

} // namespace

TEST_CASE("The longer flour lies untested the wider is the water's range, and a test of today narrows it") {
    StoredLot fresh(60, "13.3", "2026-11-24"), old(60, "13.3", "2026-06-02");
    CHECK(old.give_or_take() > fresh.give_or_take() + 0.05);
    CHECK(!old.asks_for_moisture()); // the air keeps it where it was: nothing has moved
    const double before = old.give_or_take();
    old.test_moisture("13.3");
    CHECK(old.give_or_take() < before);
    CHECK(old.give_or_take() == Approx(fresh.give_or_take()).margin(0.11)); // told to a tenth
}

TEST_CASE("Damp flour that has dried by more than two points of water asks for a test of its moisture") {
    StoredLot dried(40, "15.3", "2026-06-02");
    REQUIRE(dried.card().refusals.empty());
    CHECK(dried.asks_for_moisture());
    CHECK_THAT(dried.card().water.note, Contains("by drift in its place (15.3 % on its certificate)"));
    dried.test_moisture("11.4");
    CHECK(!dried.asks_for_moisture());
    CHECK_THAT(dried.card().water.note, Contains("11.4 % moisture on the day"));
}

TEST_CASE("The card says how often the water's range holds, and when it does less") {
    StoredLot fresh(60, "13.3", "2026-11-24");
    CHECK_THAT(fresh.card().water_range_words, Contains("80 of 100 doughs"));
    CHECK_THAT(fresh.card().water_range_words, Contains("a certificate is wrong"));
    CHECK_THAT(fresh.card().lots.front().readiness, Contains("in 80 of 100"));
}
