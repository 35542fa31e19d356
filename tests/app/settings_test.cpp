#include "app/acts/limits.h"
#include "app/acts/notice.h"
#include "app/acts/settings.h"
#include "app/models/settings.h"
#include "small_plant.h"
#include "support/catch.h"

#include <algorithm>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

TEST_CASE("Every published number is shown with its source and how it came into the table") {
    SmallPlant plant;
    const auto& constants = plant.app().settings().constants;
    REQUIRE_FALSE(constants.empty());
    for (const auto& row : constants) {
        INFO(row.key);
        CHECK_FALSE(row.source.empty());
        CHECK_FALSE(row.standing.empty());
    }
}

TEST_CASE("A limit that nobody has read in its source is shown unconfirmed until a person confirms it") {
    SmallPlant plant;
    const auto unconfirmed = [&] {
        const auto& limits = plant.app().settings().limits;
        return std::find_if(limits.begin(), limits.end(), [](const auto& l) { return !l.is_confirmed; });
    };
    REQUIRE(unconfirmed() != plant.app().settings().limits.end());
    const auto id = unconfirmed()->id;
    CHECK_THAT(unconfirmed()->standing, Contains("never permits"));
    const auto standing_of = [&](LimitRef row) {
        for (const auto& l : plant.app().settings().limits)
            if (l.id == row)
                return l.standing;
        return std::string();
    };
    plant.app().handle(ConfirmLimit{id});
    CHECK(standing_of(id) == "confirmed by Tomas");
    const Intents undo = plant.app().notice().undoing;
    for (const auto& intent : undo)
        plant.app().handle(intent);
    CHECK_THAT(standing_of(id), Contains("unconfirmed"));
}

TEST_CASE("A higher confidence makes lots ready later; a setting outside its range is refused") {
    SmallPlant plant;
    auto draft = plant.draft("A");
    plant.released_lot(draft);
    const auto before = plant.row("A").ready_on;
    REQUIRE(before);
    plant.app().handle(ChangeSetting{"confidence", "0,95"});
    CHECK(plant.was_done());
    REQUIRE(plant.row("A").ready_on);
    CHECK(*plant.row("A").ready_on > *before);
    plant.app().handle(ChangeSetting{"confidence", "95"});
    CHECK(plant.was_refused());
    CHECK_THAT(plant.refusals(), Contains("Confidence of a ready date: 95 was read; from 0.5 to 0.99"));
}

TEST_CASE("A time zone that the tables do not know is refused") {
    SmallPlant plant;
    plant.app().handle(ChangeSetting{"time_zone", "Mars/Olympus"});
    CHECK(plant.was_refused());
}
