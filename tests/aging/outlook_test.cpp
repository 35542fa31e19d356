#include "aging/flour.h"
#include "aging/outlook.h"
#include "support/catch.h"

using namespace mellowbin;
using namespace mellowbin::aging;

TEST_CASE("White flour in bags at 20 C is young, usable, mature, to be used first, past its best, in "
          "that order") {
    const auto t = turns(Estimate{stored_flour()});
    REQUIRE((t.usable_from && t.mature_from && t.use_first_from && t.past_best_from));
    CHECK(t.state_on(milled) == Readiness::young);
    CHECK(t.state_on(*t.usable_from - Days{1}) == Readiness::young);
    CHECK(t.state_on(*t.usable_from) == Readiness::usable);
    CHECK(t.state_on(*t.mature_from) == Readiness::mature);
    CHECK(t.state_on(*t.use_first_from) == Readiness::use_first);
    CHECK(t.state_on(*t.past_best_from) == Readiness::past_best);
    CHECK(t.usable_from < t.mature_from);
    CHECK(t.mature_from < t.use_first_from);
    CHECK(t.use_first_from < t.past_best_from);
}

TEST_CASE("White flour is half through its life of a year after half a year") {
    CHECK(turns(Estimate{stored_flour()}).use_first_from == day(183)); // 0.5 x 365 days, next whole day
}

TEST_CASE("Wanting to be surer makes a lot ready later and past its best sooner") {
    const Estimate estimate{stored_flour()};
    const auto sure = turns(estimate, 0.95);
    const auto bold = turns(estimate, 0.5);
    CHECK(bold.mature_from < sure.mature_from);
    CHECK(sure.past_best_from < bold.past_best_from);
}

TEST_CASE("The day of readiness at 80 % lies between the likely day and the late one") {
    const auto seen = outlook(Estimate{stored_flour()}, milled);
    CHECK(seen.mature.likely < seen.turns.mature_from);
    CHECK(seen.turns.mature_from < seen.mature.late);
    CHECK(seen.mature.early < seen.mature.likely);
    CHECK(seen.past_best.early < seen.turns.past_best_from);
    CHECK(seen.turns.past_best_from < seen.past_best.likely);
}

TEST_CASE("An outlook shows the state and the probability of the day asked about") {
    const Estimate estimate{stored_flour()};
    const auto seen = outlook(estimate, day(28));
    CHECK(seen.probability_mature == estimate.probability_of(nine_tenths, day(28)));
    CHECK(seen.now == seen.turns.state_on(day(28)));
    CHECK(seen.now == Readiness::usable);
}

TEST_CASE("Wholemeal in a warm place can pass its best before it is surely mature, and is then not "
          "called mature") {
    auto flour = stored_flour(FlourClass::wholemeal);
    flour.path = stay_from(milled, climate_at(Celsius{32}, Air::inert));
    const auto t = turns(Estimate{flour});
    REQUIRE((t.past_best_from && t.mature_from));
    CHECK(t.past_best_from < t.mature_from);
    CHECK(t.state_on(*t.mature_from) == Readiness::past_best);
}

TEST_CASE("What does not come within two years has no day") {
    const auto t = turns(Estimate{stored_at(Celsius{0}, Air::inert)});
    CHECK(!t.mature_from);
    CHECK(!t.past_best_from);
    CHECK(t.state_on(day(700)) == Readiness::usable);
}

TEST_CASE("The band's days carry the states of the turns, and probabilities that only rise") {
    const Estimate estimate{of_unknown_milling()};
    const auto t = turns(estimate);
    const auto days = band(estimate, day(0), 120);
    REQUIRE(days.size() == 120);
    for (std::size_t i = 0; i < days.size(); ++i) {
        CHECK(days[i].day == day(static_cast<int>(i)));
        CHECK(days[i].state == t.state_on(days[i].day));
        if (i > 0) {
            CHECK(days[i].probability_mature >= days[i - 1].probability_mature);
            CHECK(days[i].probability_past_best >= days[i - 1].probability_past_best);
        }
    }
    CHECK(band(estimate, day(0), 0).empty());
}

TEST_CASE("The curve's low, likely and high maturity are in that order and rise") {
    const auto days = curve(Estimate{stored_flour()}, milled, 60);
    for (std::size_t i = 1; i < days.size(); ++i) {
        CHECK(days[i].low < days[i].likely);
        CHECK(days[i].likely < days[i].high);
        CHECK(days[i].low > days[i - 1].low);
    }
    CHECK(days[28].likely.value() == Approx(0.9).margin(0.005));
}
