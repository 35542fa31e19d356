#include "card_fixture.h"
#include "dough/mixing_belief.h"

#include <cmath>

using Catch::Matchers::Contains;

namespace mellowbin::dough {
namespace {

/// A dough with 12 % of egg, three quarters of it water.
CardCase with_egg(std::optional<Celsius> temperature = {}, double percent = 12) {
    CardCase bakery;
    bakery.add("W24-1", 400'000, 0.95);
    bakery.input.product.oxidant.reset();
    bakery.input.product.ingredients = {{"Salt", 2, 0, {}}, {"Egg", percent, 75, temperature}};
    return bakery;
}

CardCase without_egg() {
    auto bakery = with_egg();
    bakery.input.product.ingredients = {{"Salt", 2, 0, {}}};
    return bakery;
}

} // namespace

TEST_CASE("The water that ingredients bring is taken off the water to pour, and the dough's water stays") {
    const auto card = with_egg().card();
    const auto plain = without_egg().card();
    REQUIRE(card.water);
    REQUIRE(plain.water);
    CHECK(card.water->dough.exact == plain.water->dough.exact);
    CHECK(card.water->ingredients.value() == Approx(200 * 0.12 * 0.75));
    CHECK((plain.water->told - card.water->told).value() == Approx(18).margin(0.1 + 1e-9));
    CHECK(card.water->resulting.value() == Approx(card.water->dough.target.value()).margin(0.05));
    REQUIRE(card.ingredients.size() == 2);
    CHECK(card.ingredients[1].mass.value() == Approx(24));
    CHECK(card.ingredients[1].water.value() == Approx(18));
}

TEST_CASE("The dough in all weighs what went in: flour, water, ingredients") {
    const auto card = with_egg().card();
    REQUIRE(card.dough);
    CHECK(card.dough->value() == Approx(200 + card.water->told.value() + card.water->ice.value() + 24 + 4));
}

TEST_CASE("With the learned heat, water, ice and cold ingredients close the balance") {
    auto bakery = with_egg(Celsius{4}, 30);
    bakery.input.mixing = MixingHeat{40, 1, 5};
    bakery.input.line.most_ice = 1;
    const auto card = bakery.card();
    REQUIRE(card.water);
    const auto poured = card.water->told + card.water->ice;
    const DoughHeat dough{card.temperature->dough,
                          poured,
                          {flour_part(Kilograms{200}, Celsius{20}),
                           ingredient_part(Kilograms{4}, 0, Celsius{22}),
                           ingredient_part(Kilograms{60}, 75, Celsius{4})},
                          0};
    const double heat =
        mixing_heat_of({dough, card.temperature->mix.water_temperature, card.water->ice, Celsius{0}});
    CHECK(heat == Approx(40).margin(0.3)); // ice and water were rounded to a tenth of a kilogram
}

TEST_CASE("Egg from the cold room lets the water be warmer than egg of the room") {
    auto warm = with_egg();
    auto cold = with_egg(Celsius{4});
    warm.input.mixing = cold.input.mixing = MixingHeat{20, 1, 5};
    CHECK(cold.card().temperature->mix.needed > warm.card().temperature->mix.needed);
}

TEST_CASE("The factor method says that it does not count what goes in cold") {
    CHECK(warns(with_egg(Celsius{4}).card(), CautionAt::water,
                "Egg goes in at 4.0 °C, which the factor method does not count"));
    CHECK_FALSE(warns(with_egg().card(), CautionAt::water, "factor method does not count"));
}

TEST_CASE("Ingredients that bring more water than the dough takes leave no water to be told") {
    const auto card = with_egg({}, 100).card();
    REQUIRE_FALSE(card.water);
    CHECK_THAT(mellowbin::in_words(card.water.refusals().front()),
               Contains("the ingredients bring 150.0 kg of water, the dough takes 128.0 kg in all"));
    CHECK_FALSE(card.temperature);
    CHECK_FALSE(card.dough);
}

TEST_CASE("What ingredients bring counts in what water a dough can have") {
    const auto card = without_egg().card();
    REQUIRE(card.water);
    const auto& dough = card.water->dough;
    const ColdSource cold{Celsius{15}, Celsius{2}, 0.5, Celsius{0}};
    const Kilograms egg{90};
    CHECK(possible_water({Kilograms{40}, {}, {}, egg}, dough, cold));
    CHECK_FALSE(possible_water({Kilograms{40}, {}, {}, {}}, dough, cold));
    const auto drowned = possible_water({Kilograms{140}, {}, {}, egg}, dough, cold);
    REQUIRE_FALSE(drowned);
    CHECK_THAT(mellowbin::in_words(drowned.refusals().front()),
               Contains("140.0 kg was read, with 90.0 kg in ingredients 115.0 % on the flour") &&
                   Contains("here 0.0 kg to 130.0 kg") && Contains("This dough is to have 38.0 kg"));
}

TEST_CASE("An ingredient without water heats and cools as flour does") {
    const auto part = ingredient_part(Kilograms{3}, 0, Celsius{20});
    CHECK(part.heat == flour_part(Kilograms{3}, Celsius{20}).heat);
    CHECK(ingredient_part(Kilograms{3}, 100, Celsius{20}).heat == Approx(4.18));
}

} // namespace mellowbin::dough
