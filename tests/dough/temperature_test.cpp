#include "dough/temperature.h"
#include "support/catch.h"
#include "support/dough_formulas.h"

#include <array>

using namespace mellowbin;
using namespace mellowbin::dough;

namespace {

// 100 kg of flour at 24 °C and 62 kg of water
DoughHeat big_dough(double mixing) {
    return {Celsius{26}, Kilograms{62}, {flour_part(Kilograms{100}, Celsius{24})}, mixing};
}

constexpr ColdSource tap_and_ice{Celsius{15}, Celsius{15}, 0.5, Celsius{0}};

} // namespace

TEST_CASE("The friction factor of a batch gives back that batch's water") {
    const std::array all{Celsius{22}, Celsius{19}, Celsius{9}};
    const auto friction = friction_factor(Celsius{25}, all);
    const std::array others{Celsius{22}, Celsius{19}};
    CHECK(water_by_factors(Celsius{25}, others, friction).value() == Approx(9));
}

TEST_CASE("A dough two degrees too warm takes water six degrees colder in the three-factor method") {
    CHECK(next_water(3, Celsius{24}, Celsius{26}).value() == Approx(-6));
}

TEST_CASE("The specific heat of a dough with 62 % water is 2.686 kJ/(kg K)") {
    CHECK(big_dough(0).heat() == Approx(2.686).margin(0.0005));
}

TEST_CASE("More mixing energy asks for colder water, and in the end for ice") {
    CHECK(water_by_heat_balance(big_dough(20)) < water_by_heat_balance(big_dough(0)));
    CHECK(water_by_heat_balance(big_dough(39.6)) < Celsius{0});
}

TEST_CASE("The water worked out closes the balance of heat") {
    const auto dough = big_dough(20);
    const auto water = water_by_heat_balance(dough);
    // what mixing and hydration bring is what flour and water take up
    const double brought = (20 + 15) * 162.0;
    const double taken = 100 * 1.76 * (26 - 24) + 62 * 4.18 * (26 - water.value());
    CHECK(taken == Approx(brought));
}

TEST_CASE("Water the chiller can make takes no ice") {
    const auto mix =
        chill(Celsius{6}, Kilograms{62}, {Celsius{15}, Celsius{2}, 0.5, Celsius{0}}, big_dough(20));
    CHECK(mix.ice.value() == 0);
    CHECK(mix.water.value() == Approx(62));
    CHECK(mix.water_temperature.value() == Approx(6));
    CHECK(!mix.is_capped);
}

TEST_CASE("Water that must be warmer than the tap is warmed, not iced") {
    const auto mix = chill(Celsius{28}, Kilograms{62}, tap_and_ice, big_dough(0));
    CHECK(mix.ice.value() == 0);
    CHECK(mix.water_temperature.value() == Approx(28));
}

TEST_CASE("Ice replaces water kilogram for kilogram, and less of it when the water is chilled first") {
    const auto from_tap = chill(Celsius{-6.77}, Kilograms{62}, tap_and_ice, big_dough(39.6));
    CHECK(from_tap.ice.value() == Approx(14.26).margin(0.01));
    CHECK((from_tap.ice + from_tap.water).value() == Approx(62));
    const auto chilled =
        chill(Celsius{-6.77}, Kilograms{62}, {Celsius{15}, Celsius{2}, 0.5, Celsius{0}}, big_dough(39.6));
    CHECK(chilled.ice < from_tap.ice);
    CHECK(chilled.water_temperature.value() == Approx(2));
}

TEST_CASE("Ice below freezing does more than ice at 0 °C") {
    const auto colder =
        chill(Celsius{-6.77}, Kilograms{62}, {Celsius{15}, Celsius{15}, 0.5, Celsius{-18}}, big_dough(39.6));
    CHECK(colder.ice.value() == Approx(62 * 21.77 / (15 + 79.68 + 0.5017 * 18)).margin(0.01));
}

TEST_CASE("Ice above the line's cap is poured as water, and the dough is that much too warm") {
    // 10 kg allowed of 14.26 needed: 3.9 °C (62 kg of water, 162 kg of dough)
    const auto mix = chill(Celsius{-6.77}, Kilograms{62}, {Celsius{15}, Celsius{15}, 10.0 / 62, Celsius{0}},
                           big_dough(39.6));
    CHECK(mix.is_capped);
    CHECK(mix.ice.value() == Approx(10));
    CHECK(mix.water.value() == Approx(52));
    CHECK(mix.too_warm.value() == Approx(3.9).margin(0.05));
}

TEST_CASE("Water and ice together carry off what the one cold water would have") {
    const ColdSource cold{Celsius{15}, Celsius{3}, 1, Celsius{-18}};
    const auto mix = chill(Celsius{-6}, Kilograms{62}, cold, big_dough(39));
    CHECK(as_one_water(mix.water_temperature, Kilograms{62}, mix.ice, Celsius{-18}).value() == Approx(-6));
    CHECK(as_one_water(Celsius{11}, Kilograms{62}, Kilograms{0}, Celsius{-18}).value() == Approx(11));
}
