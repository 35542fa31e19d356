#include "app/acts/intake.h"
#include "app/acts/looking.h"
#include "app/acts/lots.h"
#include "app/acts/notice.h"
#include "app/models/lots.h"
#include "app/models/mixer.h"
#include "app/models/overview.h"
#include "small_plant.h"
#include "support/catch.h"

#include <fmt/format.h>

using namespace mellowbin;
using namespace mellowbin::app;
using tests::SmallPlant;

namespace {

constexpr const char* two_mills = R"({
  "plant": "Small plant", "mills": ["Mill", "Weir Mill"],
  "flours": [{"name": "Strong white", "class": "white", "windows": [{"property": "protein", "low": 11.5, "high": 14}]}],
  "places": [{"name": "Bay 1", "kind": "bay", "air": "breathable_bag", "temperature_c": 20}],
  "lines": [{"name": "Line 1", "friction_factor_c": 24, "room_c": 22, "tap_water_c": 15, "water_step_kg": 0.1}],
  "products": [{"name": "Pan bread", "flour": "Strong white", "market": "Canada", "food": "bread",
     "windows": [], "maturity_target": 0.85, "most_lots": 3, "least_share": 0.1, "batch_flour_kg": 100}]})";

/// Both mills have called a lot W24-118.
struct TwoMills : SmallPlant {
    LotId ours, theirs;
    TwoMills() : SmallPlant(day_from_iso("2026-11-25"), two_mills) {
        ours = released_lot(draft("W24-118"));
        auto other = draft("W24-118");
        other.mill = "Weir Mill";
        app().handle(TakeIn{{other}});
        for (const auto& row : app().lots().rows)
            if (row.mill == "Weir Mill")
                theirs = row.id;
        REQUIRE(theirs.is_known());
    }
    const Found& search(const std::string& words) {
        app().handle(Search{words});
        return app().overview().found;
    }
    [[nodiscard]] LotId opened() { return app().lots().opened ? app().lots().opened->row.id : LotId{}; }
};

} // namespace

TEST_CASE("Two lots of one number are both offered, told apart by mill, flour and state") {
    TwoMills plant;
    const auto& found = plant.search("w24-118");
    REQUIRE(found.all.size() == 2);
    CHECK(found.all[0].name == "W24-118");
    CHECK(found.all[0].details == "Mill, Strong white, released, 1000 kg");
    CHECK(found.all[1].details == "Weir Mill, Strong white, in quarantine, 1000 kg");
    CHECK_FALSE(plant.opened().is_known());
    plant.app().handle(OpenFound{found.all[1].lot, {}});
    CHECK(plant.opened() == plant.theirs);
    CHECK(plant.app().notice().screen == "Lots");
    CHECK(plant.app().overview().found.all.empty());
}

TEST_CASE("A scanned label is searched by the lot number in it") {
    TwoMills plant;
    CHECK(plant.search("(01)09506000134352(10)W24-118").all.size() == 2);
    plant.app().handle(TakeIn{{plant.draft("W24-119")}});
    CHECK(plant.search("(01)09506000134352(10)W24-119").all.empty());
    CHECK(plant.app().notice().screen == "Lots");
    CHECK(plant.app().lots().opened->row.code == "W24-119");
}

TEST_CASE("What is found can be put away, and another search forgets it") {
    TwoMills plant;
    CHECK(plant.search("w24-118").all.size() == 2);
    plant.app().handle(PutAwayFound{});
    CHECK(plant.app().overview().found.all.empty());
    CHECK(plant.search("w24-118").all.size() == 2);
    CHECK(plant.search("nothing at all").all.empty());
    CHECK(plant.was_refused());
}

TEST_CASE("A whole number goes before those that contain it") {
    TwoMills plant;
    plant.app().handle(TakeIn{{plant.draft("W24")}});
    CHECK(plant.search("w24").all.empty());
    CHECK(plant.app().lots().opened->row.code == "W24");
    CHECK(plant.search("4-11").all.size() == 2);
}

TEST_CASE("A mill's lots and a product's next run are found by a part of their names") {
    TwoMills plant;
    CHECK(plant.search("weir").all.empty());
    CHECK(plant.opened() == plant.theirs);
    const auto run = plant.add_run("Pan bread", "2026-11-26", "2");
    plant.add_run("Pan bread", "2026-11-27", "2");
    CHECK(plant.search("pan").all.empty());
    CHECK(plant.app().notice().screen == "Mixer");
    CHECK(plant.app().mixer().card->run == run);
}

TEST_CASE("No more are offered than are read in one look, and that there are more is told") {
    TwoMills plant;
    for (int i = 0; i < 9; ++i)
        plant.app().handle(TakeIn{{plant.draft(fmt::format("X{}", i))}});
    const auto& found = plant.search("x");
    CHECK(found.all.size() == 8);
    CHECK(found.are_more);
    CHECK(found.all.front().name == "X8");
}
