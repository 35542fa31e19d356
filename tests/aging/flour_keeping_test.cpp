#include "aging/flour_keeping.h"
#include "aging/flour_moisture.h"
#include "support/aging_formulas.h"
#include "support/catch.h"

using namespace mellowbin;
using namespace mellowbin::aging;

TEST_CASE("Flour comes to more moisture in damper air and less in warmer air") {
    for (auto wheat : {Wheat::soft, Wheat::hard, Wheat::durum}) {
        CHECK(modified_henderson(wheat, RelativeHumidity{0.7}, Celsius{20}) >
              modified_henderson(wheat, RelativeHumidity{0.5}, Celsius{20}));
        CHECK(modified_henderson(wheat, RelativeHumidity{0.6}, Celsius{30}) <
              modified_henderson(wheat, RelativeHumidity{0.6}, Celsius{10}));
    }
    CHECK(chung_pfost(RelativeHumidity{0.7}, Celsius{20}) > chung_pfost(RelativeHumidity{0.5}, Celsius{20}));
}

TEST_CASE("Outside its range flour's own law gives way to that of hard wheat, and the answer says so") {
    CHECK(equilibrium_moisture(RelativeHumidity{0.6}, Celsius{20}).law == MoistureLaw::flour);
    const auto dry = equilibrium_moisture(RelativeHumidity{0.3}, Celsius{20});
    CHECK(dry.law == MoistureLaw::hard_wheat);
    CHECK(dry.moisture == modified_henderson(Wheat::hard, RelativeHumidity{0.3}, Celsius{20}));
    CHECK(equilibrium_moisture(RelativeHumidity{0.6}, Celsius{5}).law == MoistureLaw::hard_wheat);
}

TEST_CASE("The two laws meet within the doubt of either where one takes over at 20 C") {
    const auto inside = flour_law(RelativeHumidity{0.55}, Celsius{20});
    const auto outside = modified_henderson(Wheat::hard, RelativeHumidity{0.55}, Celsius{20});
    CHECK(inside.value() == Approx(outside.value()).margin(0.6));
}

TEST_CASE(
    "Drift begins at the flour's own moisture, ends at the equilibrium, and is slower in a sealed liner") {
    const Moisture start{14.5};
    const Moisture end{12.8};
    CHECK(drifted(start, end, 0, 30) == start);
    CHECK(drifted(start, end, 3000, 30).value() == Approx(12.8));
    CHECK(drifted(start, end, 14, drift_time(DriftPace::sealed)) >
          drifted(start, end, 14, drift_time(DriftPace::bag_in_stack)));
    CHECK(drifted(start, end, 14, drift_time(DriftPace::bag_in_stack)) >
          drifted(start, end, 14, drift_time(DriftPace::small_sample)));
}

TEST_CASE("Fat acidity that does not rise never comes to its limit, and one past it is there already") {
    CHECK(!days_until(fat_acidity_limit(), FatAcidity{20}, FatAcidity{0}));
    CHECK(!days_until(fat_acidity_limit(), FatAcidity{20}, FatAcidity{-1}));
    CHECK(days_until(fat_acidity_limit(), FatAcidity{90}, FatAcidity{0}) == 0.0);
}

TEST_CASE("Fat acidity rises fastest in wholemeal and slowest in white flour") {
    CHECK(fat_acidity_rise(FlourClass::white) < fat_acidity_rise(FlourClass::high_extraction));
    CHECK(fat_acidity_rise(FlourClass::high_extraction) < fat_acidity_rise(FlourClass::wholemeal));
}
