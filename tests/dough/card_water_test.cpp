#include "card_fixture.h"

#include <cmath>

using namespace mellowbin;
using namespace mellowbin::dough;
using Catch::Matchers::Contains;

namespace {

CardCase one_lot() {
    CardCase bakery;
    bakery.add("A", 400'000, 0.9);
    return bakery;
}

WaterLearned learned(double offset, double deviation, int batches) {
    return {AbsorptionPoints{offset}, 0.3, AbsorptionPoints{deviation}, 0.2, 0.36, batches, batches == 0};
}

AbsorptionStart told_from_the_last() {
    return {AbsorptionStart::From::composition, Absorption14{58.9}, 1.0,
            "58.9 % from W24-101 of the same mill, protein +0.4, damaged starch -0.3"};
}

Certificate without_absorption(const Certificate& certificate) {
    Certificate bare;
    for (const auto& value : certificate.values())
        if (value.property != Property::absorption)
            bare.set(value);
    return bare;
}

} // namespace

TEST_CASE("What batches said takes the place of the offset that was set, and is told as measured") {
    auto bakery = one_lot();
    bakery.input.water_learned = learned(3.1, -0.4, 12);
    const auto card = bakery.card();
    REQUIRE(card.water);
    CHECK(card.water->dough.target.value() == Approx(62 + 3.1 - 0.4));
    CHECK(card.water->dough.offset.value() == Approx(3.1));
    CHECK(card.water->dough.deviation.value() == Approx(-0.4));
    CHECK(card.water->offset_origin == Origin::measured);
    CHECK(card.water->batches == 12);
    CHECK(card.water->sd == Approx(0.36));
    CHECK(!warns(card, CautionAt::water, "assumed"));
}

TEST_CASE("Before a batch is scored the product's own offset holds, with its doubt") {
    auto bakery = one_lot();
    const auto assumed = bakery.card();
    CHECK(assumed.water->dough.target.value() == Approx(64));
    CHECK(assumed.water->offset_origin == Origin::assumed);
    CHECK(assumed.water->batches == 0);
    CHECK(warns(assumed, CautionAt::water, "2.0 points against the farinograph are assumed"));
    bakery.input.product.is_offset_assumed = false;
    const auto own = bakery.card();
    CHECK(own.water->offset_origin == Origin::measured);
    CHECK(own.water->sd > 0);
    CHECK(own.water->sd < assumed.water->sd);
    bakery.input.product.is_offset_assumed = true;
    bakery.input.water_learned = learned(2, 0, 0);
    CHECK(bakery.card().water->offset_origin == Origin::assumed);
}

TEST_CASE("A lot without absorption is watered from the mill's last lot, with a wider spread and a caution") {
    CardCase bakery;
    auto& known = bakery.add("A", 200'000, 0.9);
    auto& bare = bakery.add("B", 200'000, 0.9);
    bakery.input.water_learned = learned(2, 0, 12);
    REQUIRE(known.certificate.find(Property::absorption));
    bare.certificate = without_absorption(bare.certificate);
    CHECK(!bakery.card().water); // nothing to tell it from
    bakery.input.lots[1].start = told_from_the_last();
    const auto card = bakery.card();
    REQUIRE(card.water);
    CHECK(card.water->dough.farinograph.value() == Approx((62 + 58.9) / 2));
    CHECK(card.water->sd == Approx(std::hypot(0.36, 0.5 * 1.0)));
    REQUIRE(card.water->guessed.size() == 1);
    CHECK(card.water->guessed.front().absorption.value() == Approx(58.9));
    CHECK(warns(card, CautionAt::water,
                "Lot B: the absorption is not measured. 58.9 % from W24-101 of the same mill, protein +0.4, "
                "damaged starch -0.3; it may lie 2.0 points lower or higher (95 of 100)"));
    bool is_estimate = false;
    for (const auto& caution : cautions_at(card, CautionAt::water))
        is_estimate |= caution.kind == CautionKind::estimate && caution.words.starts_with("Lot B");
    CHECK(is_estimate);
}

TEST_CASE("A lot's own absorption stands before anything told from other lots") {
    auto bakery = one_lot();
    bakery.input.lots[0].start = told_from_the_last();
    const auto card = bakery.card();
    CHECK(card.water->dough.farinograph.value() == Approx(62));
    CHECK(card.water->guessed.empty());
    CHECK(!warns(card, CautionAt::water, "not measured"));
}

TEST_CASE("A jump of absorption since the last run stands before every other caution of the water") {
    auto bakery = one_lot();
    bakery.lots[0].certificate = without_absorption(bakery.lots[0].certificate);
    bakery.input.lots[0].start = told_from_the_last();
    bakery.input.line.mixing_energy_kj_per_kg = 45;
    bakery.input.line.most_ice = 0.01;
    bakery.input.last_run_absorption = Absorption14{64};
    const auto cautions = cautions_at(bakery.card(), CautionAt::water);
    REQUIRE(cautions.size() >= 4);
    CHECK_THAT(cautions.front().words, Contains("3.1 points lower than in the last run"));
}

TEST_CASE("The first batch goes by factors, the next by the heat its mixer was measured to bring in") {
    auto bakery = one_lot();
    const auto first = bakery.card();
    CHECK(first.temperature->method == TemperatureMethod::factors);
    CHECK(!first.temperature->learned);
    bakery.input.mixing = MixingHeat{20, 1, 3};
    const auto next = bakery.card();
    REQUIRE(next.temperature);
    CHECK(next.temperature->method == TemperatureMethod::heat_balance);
    REQUIRE(next.temperature->learned);
    CHECK(next.temperature->learned->batches == 3);
    // it goes before the figure that was set for the line
    bakery.input.line.mixing_energy_kj_per_kg = 5;
    CHECK(bakery.card().temperature->mix.needed == next.temperature->mix.needed);
    bakery.input.mixing.reset();
    CHECK(bakery.card().temperature->mix.needed > next.temperature->mix.needed);
    CHECK(bakery.card().temperature->method == TemperatureMethod::heat_balance);
}

TEST_CASE("Heat taken from other products on the mixer is told as such, with what it may be off") {
    auto bakery = one_lot();
    bakery.input.mixing = MixingHeat{20, 6, 0, 6.6};
    const auto card = bakery.card();
    CHECK(warns(card, CautionAt::water, "heat of mixing is that of other products"));
    CHECK(card.temperature->give_or_take.value() == Approx(1.2816 * 6.6 / 2.7).margin(0.2));
    CHECK(warns(card, CautionAt::water, "in 80 of 100"));
    bakery.input.mixing->batches = 1;
    CHECK(!warns(bakery.card(), CautionAt::water, "heat of mixing is that of other products"));
}

TEST_CASE("The card's water and ice close the heat balance that it learned") {
    auto bakery = one_lot();
    bakery.input.product.ingredients.clear();
    bakery.input.mixing = MixingHeat{40, 1, 5};
    bakery.input.line.most_ice = 1;
    bakery.input.line.ice_temperature = Celsius{-18};
    const auto card = bakery.card();
    REQUIRE(card.water);
    REQUIRE(card.water->ice.value() > 1);
    const auto all = card.water->told + card.water->ice + card.water->stock_solution;
    const DoughHeat dough{card.temperature->dough, all, {flour_part(Kilograms{200}, Celsius{20})}, 0};
    const double heat =
        mixing_heat_of({dough, card.temperature->mix.water_temperature, card.water->ice, Celsius{-18}});
    CHECK(heat == Approx(40).margin(0.3)); // ice and water were rounded to a tenth of a kilogram
}

TEST_CASE("Ice below freezing is needed in smaller amount") {
    auto bakery = one_lot();
    bakery.input.mixing = MixingHeat{40, 1, 5};
    const auto at_zero = bakery.card();
    bakery.input.line.ice_temperature = Celsius{-20};
    const auto below = bakery.card();
    CHECK(below.temperature->mix.ice_needed < 0.95 * at_zero.temperature->mix.ice_needed);
    CHECK(below.water->ice < at_zero.water->ice);
}

TEST_CASE("Without ice the card says how warm the dough will be and what is possible instead") {
    auto bakery = one_lot();
    bakery.input.mixing = MixingHeat{40, 1, 5};
    bakery.input.line.most_ice = 0;
    const auto card = bakery.card();
    REQUIRE(card.temperature);
    CHECK(card.water->ice.value() == 0);
    CHECK(card.temperature->mix.water_temperature.value() == Approx(2));
    CHECK(card.temperature->mix.too_warm.value() > 1);
    CHECK(warns(card, CautionAt::water, "the line's coldest is 2.0 °C and it has no ice"));
    CHECK(warns(card, CautionAt::water, "a smaller batch or shorter mixing"));
    CHECK(!warns(card, CautionAt::water, "kg of ice would be needed"));
    // flour colder by what it names brings the dough where it was to be
    const auto& cautions = cautions_at(card, CautionAt::water);
    double colder = 0;
    for (const auto& caution : cautions)
        if (const auto at = caution.words.find("Instead: flour "); at != std::string::npos)
            colder = std::stod(caution.words.substr(at + 15));
    REQUIRE(colder > 0);
    bakery.input.lots[0].temperature = Celsius{20 - colder};
    CHECK(bakery.card().temperature->mix.too_warm.value() == Approx(0).margin(0.05));
}
