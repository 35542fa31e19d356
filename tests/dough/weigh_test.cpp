#include "dough/weigh.h"
#include "support/catch.h"
#include "support/dough_formulas.h"

using namespace mellowbin;
using namespace mellowbin::dough;

namespace {
constexpr OxidantScale tenth{0.1, 0.1};
constexpr OxidantScale hundredth{0.01, 0.01};
constexpr OxidantPpm wide_room{1000};
} // namespace

TEST_CASE("75 mg/kg in 100 kg is 7.5 g, exactly and rounded") {
    const auto weighing = weigh(OxidantPpm{75}, Kilograms{100}, 1, tenth, wide_room);
    CHECK(weighing.exact_g == Approx(7.5));
    CHECK(weighing.rounded_g == Approx(7.5));
    CHECK(weighing.resulting.value() == Approx(75));
    CHECK(!weighing.is_too_small);
    CHECK(!weighing.is_rounded_down);
}

TEST_CASE("A preparation of 17 % takes more grams for the same dose") {
    const auto weighing = weigh(OxidantPpm{170}, Kilograms{1}, 0.17, hundredth, wide_room);
    CHECK(weighing.exact_g == Approx(1.0));
    CHECK(weighing.resulting.value() == Approx(170));
}

TEST_CASE("The dose is rounded to the nearest step of the scale") {
    CHECK(weigh(OxidantPpm{56.6}, Kilograms{100}, 1, tenth, wide_room).rounded_g == Approx(5.7));
    CHECK(weigh(OxidantPpm{56.4}, Kilograms{100}, 1, tenth, wide_room).rounded_g == Approx(5.6));
}

TEST_CASE("The dose is rounded down when mass and scale error together would pass the room") {
    // room 45 in 100 kg is 4.5 g; 4.46 g rounds to 4.5, and 4.5 + 0.1 would pass
    const auto weighing = weigh(OxidantPpm{44.6}, Kilograms{100}, 1, tenth, OxidantPpm{45});
    CHECK(weighing.rounded_g == Approx(4.4));
    CHECK(weighing.is_rounded_down);
    CHECK(weighing.rounded_g + tenth.error_g <= 4.5 + 1e-9);
}

TEST_CASE("No room at all leaves nothing to weigh") {
    const auto weighing = weigh(OxidantPpm{10}, Kilograms{100}, 1, tenth, OxidantPpm{0});
    CHECK(weighing.rounded_g == 0);
    CHECK(weighing.resulting.value() == 0);
}

TEST_CASE("A scale that errs by 0.1 g weighs 2 g and more within 5 %; 0.01 g, 0.2 g") {
    CHECK(smallest_weighable_g(tenth) == Approx(2));
    CHECK(smallest_weighable_g(hundredth) == Approx(0.2));
    CHECK(smallest_weighable_g({1, 1}) == Approx(20));
    CHECK(weigh(OxidantPpm{19}, Kilograms{100}, 1, tenth, wide_room).is_too_small);
    CHECK(!weigh(OxidantPpm{20}, Kilograms{100}, 1, tenth, wide_room).is_too_small);
    CHECK(!weigh(OxidantPpm{19}, Kilograms{100}, 1, hundredth, wide_room).is_too_small);
}

TEST_CASE("75 mg/kg in 100 kg is one litre of a 7.5 g/L solution, and a kilogram of the dough's water") {
    const auto pouring = pour(OxidantPpm{75}, Kilograms{100}, 7.5, wide_room);
    CHECK(pouring.rounded.value() == Approx(1000));
    CHECK(pouring.water.value() == Approx(1.0));
    CHECK(pouring.resulting.value() == Approx(75));
}

TEST_CASE("In the laboratory 1 mL of 1 g/L in 100 g of flour is 10 mg/kg") {
    CHECK(pour(OxidantPpm{10}, Kilograms{0.1}, 1, wide_room).rounded.value() == Approx(1));
}

TEST_CASE("A millilitre that would pass the room stays in the bottle") {
    const auto pouring = pour(OxidantPpm{45}, Kilograms{10}, 5, OxidantPpm{44.8});
    CHECK(pouring.rounded.value() == Approx(89));
    CHECK(pouring.resulting < OxidantPpm{44.8});
    CHECK(pouring.is_rounded_down);
}

TEST_CASE("30 mg for 30 mg/kg in 10 kg is a tenth of what is meant, and said so") {
    const auto wrong = agrees(OxidantPpm{30}, Kilograms{10}, 0.030, hundredth);
    REQUIRE(!wrong);
    CHECK_THAT(wrong.refusals().front().what,
               Catch::Matchers::Contains("0.3 g") && Catch::Matchers::Contains("factor of ten"));
    CHECK(agrees(OxidantPpm{30}, Kilograms{10}, 0.3, hundredth));
    CHECK(agrees(OxidantPpm{30}, Kilograms{10}, 0.305, hundredth));
    const auto grams = agrees(OxidantPpm{30}, Kilograms{10}, 300, hundredth);
    REQUIRE(!grams);
    CHECK_THAT(grams.refusals().front().what, Catch::Matchers::Contains("mixed up"));
}
