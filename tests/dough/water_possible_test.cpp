#include "dough/water.h"
#include "support/catch.h"

using namespace mellowbin;
using namespace mellowbin::dough;
using Catch::Matchers::Contains;

namespace {

/// 100 kg at 14 % moisture that takes 62 % of water.
DoughWater plain_dough() {
    Certificate flour;
    flour.set({Property::moisture, 14, Basis::as_is(), "", wheat_nitrogen_factor});
    flour.set({Property::absorption, 60, Basis::at(Moisture{14}), "", wheat_nitrogen_factor});
    const std::vector<WaterLot> lots{{"Lot A", &flour, Kilograms{100}, std::nullopt}};
    return *dough_water(lots, AbsorptionPoints{2}, AbsorptionPoints{0}, 0.1);
}

constexpr ColdSource chiller_and_ice{Celsius{15}, Celsius{2}, 0.5, Celsius{0}};

Refusals refusals(const WaterGiven& given, const ColdSource& cold = chiller_and_ice) {
    const auto answer = possible_water(given, plain_dough(), cold);
    return answer ? Refusals{} : answer.refusals();
}

} // namespace

TEST_CASE("Water that a dough takes, with ice that the line gives, is possible") {
    CHECK(refusals({Kilograms{62}, Kilograms{0}, Celsius{12}}).empty());
    CHECK(refusals({Kilograms{62}, Kilograms{31}, Celsius{2}}).empty());
    CHECK(refusals({Kilograms{30}, Kilograms{0}, std::nullopt}).empty());
    CHECK(refusals({Kilograms{110}, Kilograms{0}, std::nullopt}).empty());
}

TEST_CASE("Negative or absurd water is refused with what was read and what the dough is to have") {
    for (const auto& [water, words] : {std::pair{-62.0, "-62.0 kg was read"},
                                       {6.2, "6.2 kg was read, 6.2 % on the flour"},
                                       {620.0, "620.0 kg was read"},
                                       {29.0, "here 30.0 kg to 110.0 kg"},
                                       {111.0, "a dough takes 30 to 110 %"}}) {
        const auto said = refusals({Kilograms{water}, Kilograms{0}, std::nullopt});
        REQUIRE(said.size() == 1);
        CHECK(said.front().field == "Water");
        CHECK_THAT(said.front().what, Contains(words));
        CHECK_THAT(said.front().remedy, Contains("62.0 kg, 62.0 %"));
    }
}

TEST_CASE("Ice above what the line takes is refused with how much it may be") {
    const auto over = refusals({Kilograms{62}, Kilograms{40}, std::nullopt});
    REQUIRE(over.size() == 1);
    CHECK(over.front().field == "Ice");
    CHECK_THAT(over.front().what, Contains("up to 50 % of the water, 31.0 kg"));
    CHECK_THAT(refusals({Kilograms{62}, Kilograms{-1}, std::nullopt}).front().what, Contains("-1.0 kg"));
    CHECK_THAT(refusals({Kilograms{62}, Kilograms{63}, std::nullopt}).front().what,
               Contains("more than all the water"));
    const auto none = refusals({Kilograms{62}, Kilograms{5}, std::nullopt}, {Celsius{15}, Celsius{2}, 0, {}});
    CHECK_THAT(none.front().what, Contains("takes no ice"));
    CHECK_THAT(none.front().remedy, Contains("Cooler flour"));
}

TEST_CASE("Water colder than the line can make it is refused with what is possible instead") {
    const auto cold = refusals({Kilograms{62}, Kilograms{0}, Celsius{-3}});
    REQUIRE(cold.size() == 1);
    CHECK(cold.front().field == "Water temperature");
    CHECK_THAT(cold.front().what, Contains("-3.0 °C was read; the line's coldest water is 2.0 °C"));
    CHECK_THAT(cold.front().remedy, Contains("Give water of 2.0 °C and ice"));
    const auto no_ice =
        refusals({Kilograms{62}, Kilograms{0}, Celsius{-3}}, {Celsius{15}, Celsius{2}, 0, Celsius{0}});
    CHECK_THAT(no_ice.front().remedy, Contains("smaller batch"));
    CHECK(refusals({Kilograms{62}, Kilograms{0}, Celsius{260}}).size() == 1);
}

TEST_CASE("Every fault of the water is told at once") {
    CHECK(refusals({Kilograms{-1}, Kilograms{-1}, Celsius{-20}}).size() == 3);
}

TEST_CASE("Too little and too much water are told by what people see") {
    CHECK_THAT(water_words(AbsorptionPoints{-1.5}), Contains("1.5 points below") && Contains("bucky"));
    CHECK_THAT(water_words(AbsorptionPoints{1}), Contains("1.0 points above") && Contains("slack"));
    CHECK_THAT(water_words(AbsorptionPoints{0.64}), Contains("at its optimum"));
    CHECK_THAT(water_words(AbsorptionPoints{-0.64}), Contains("at its optimum"));
    CHECK_THAT(water_words(AbsorptionPoints{-0.65}), Contains("below"));
}

TEST_CASE("A lot whose absorption is told from others takes that; a measured one keeps its own") {
    Certificate bare, full;
    for (auto* certificate : {&bare, &full})
        certificate->set({Property::moisture, 14, Basis::as_is(), "", wheat_nitrogen_factor});
    full.set({Property::absorption, 60, Basis::at(Moisture{14}), "", wheat_nitrogen_factor});
    const std::vector<WaterLot> lots{{"Lot A", &bare, Kilograms{50}, Absorption14{64}},
                                     {"Lot B", &full, Kilograms{50}, Absorption14{70}}};
    const auto water =
        dough_water(lots, AbsorptionPoints{1}, AbsorptionPoints{0}, 0.1, AbsorptionPoints{0.5});
    REQUIRE(water);
    CHECK(water->farinograph.value() == Approx(62));
    CHECK(water->target.value() == Approx(63.5));
    CHECK(water->exact.value() == Approx(63.5));
}
