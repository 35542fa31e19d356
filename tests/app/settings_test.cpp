#include "aging/clocks.h"
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

TEST_CASE(
    "The page of published numbers says how a best time is read, and what reading it otherwise would give") {
    // 0.057 and 0.106 a day of white flour were worked out by hand from the pooled best times.
    const auto rate = [](double as) {
        return aging::rate_if_best_time_is(Maturity{as}, FlourClass::white).median;
    };
    CHECK(rate(0.8) == Approx(0.057).margin(0.001));
    CHECK(rate(0.95) == Approx(0.106).margin(0.001));
    CHECK(rate(0.9) == aging::published_priors(FlourClass::white).k20.median);
    SmallPlant plant;
    const auto words = plant.app().settings().best_time_words;
    CHECK_THAT(words, Contains("reads as 90 % mature, by convention") &&
                          Contains("0.082 a day, mature likely after 28 days at 20 °C, 80 % sure after 50") &&
                          Contains("Read as 80 % it would be 0.057 a day, mature likely after 40 days") &&
                          Contains("read as 95 %, 0.107 a day, mature likely after 22 days"));
    plant.app().handle(ChangeSetting{"confidence", "0.5"}); // then sure means likely
    CHECK_THAT(plant.app().settings().best_time_words, Contains("50 % sure after 28"));
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

TEST_CASE("Checks at the door are told on one line, and undone as a whole") {
    SmallPlant plant;
    plant.app().handle(ChangeSetting{"door_checks", "Seal whole\n  \nDriver signed"});
    CHECK(plant.said() == "Checks at the door: Seal whole; Driver signed (was empty)");
    CHECK(plant.app().notice().undo == "Undo: Checks at the door as before");
    const auto undoing = plant.app().notice().undoing;
    for (const auto& act : undoing)
        plant.app().handle(act);
    const auto& settings = plant.app().settings().settings;
    const auto row = std::find_if(settings.begin(), settings.end(),
                                  [](const auto& one) { return one.key == "door_checks"; });
    REQUIRE(row != settings.end());
    CHECK(row->value.empty());
    CHECK(row->is_lines);
}
