#include "core/ingredient.h"
#include "core/plant.h"
#include "support/catch.h"
#include "support/refusal_words.h"

#include <set>

namespace mellowbin {
namespace {

Ingredient egg(double percent = 12) { return {"Whole egg", percent, 75, Celsius{4}}; }

std::string refused(const std::vector<IngredientDraft>& rows, const HouseUnits& house = HouseUnits()) {
    const auto read = accept_ingredients(rows, house);
    return read ? "" : testing::all_words(read.refusals());
}

} // namespace

TEST_CASE("Ingredients as typed are read with point or comma, in the unit of the house") {
    const auto read = accept_ingredients(
        std::vector<IngredientDraft>{{"Salt", "1,8", "", ""}, {"Whole egg", "12", "76.2", "39,2"}, {}},
        HouseUnits("kg", "°F"));
    REQUIRE(read);
    REQUIRE(read->size() == 2); // a line without anything is none
    CHECK(read->front() == Ingredient{"Salt", 1.8, 0, {}});
    CHECK(read->back().water_percent == 76.2);
    CHECK(read->back().temperature->value() == Approx(4));
}

TEST_CASE(
    "The usual water stands for its name, whatever the case; one that is not known is refused with those "
    "that are") {
    const auto read = accept_ingredients(
        std::vector<IngredientDraft>{{"whole EGG", "12", "usual", ""}, {"Honey", "5", "Usual", ""}},
        HouseUnits());
    REQUIRE(read);
    CHECK(read->front().water_percent == usual_ingredient("Whole egg")->water_percent);
    CHECK(read->back().water_percent == 17.1);
    const auto words = refused({{"Pear juice", "5", "usual", ""}});
    CHECK(testing::says(words, "Ingredient Pear juice, water: no usual water of \"Pear juice\" is known"));
    CHECK(testing::says(words, "Whole egg, Egg yolk"));
}

TEST_CASE("Every fault of the ingredients is named with its field and what was read") {
    using testing::says;
    const auto words = refused({{"Egg", "12", "120", "90"},
                                {"", "3", "", ""},
                                {"Milk", "much", "-5", ""},
                                {"Salt", "", "", ""},
                                {"salt", "2", "", ""}});
    CHECK(says(words, "Ingredient Egg, water: 120"));
    CHECK(says(words, "Ingredient Egg, temperature: 90"));
    CHECK(says(words, "Ingredient 2: has no name"));
    CHECK(says(words, "Ingredient Milk, amount: \"much\""));
    CHECK(says(words, "Ingredient Milk, water: -5"));
    CHECK(says(words, "Ingredient Salt, amount"));
    CHECK(says(words, "Ingredient salt: stands there twice"));
    CHECK(says(refused({{"Ice cream", "5", "60", "-18"}}), "Ingredient Ice cream, temperature: -18"));
    CHECK(says(refused({{"Ice cream", "5", "60", "0"}}, HouseUnits("lb", "°F")), "°F"));
}

TEST_CASE("Ingredients that bring more water than any dough takes are refused, as typed and in a product") {
    const auto words = refused({{"Milk", "100", "88", ""}, {"Whole egg", "40", "76", ""}});
    CHECK(testing::says(words, "Ingredients: they bring 118.4 % of water on the flour"));
    Product product;
    product.ingredients = {{"Milk", 150, 88, {}}};
    CHECK_FALSE(accept_product(product));
    product.ingredients = {{"Milk", 60, 88, {}}};
    CHECK(accept_product(product));
}

TEST_CASE(
    "What goes in beside flour is summed up, with its water, and by its heat where it has a temperature") {
    const std::vector<Ingredient> all{{"Salt", 2, 0, {}}, egg(), {"Milk", 20, 88, Celsius{10}}};
    const auto beside = beside_flour(all);
    CHECK(beside.percent == Approx(34));
    CHECK(beside.water_percent == Approx(12 * 0.75 + 20 * 0.88));
    CHECK(beside.tempered_percent == Approx(32));
    const double of_egg = 12 * (0.25 * 1.76 + 0.75 * 4.18);
    const double of_milk = 20 * (0.12 * 1.76 + 0.88 * 4.18);
    CHECK(beside.tempered.value() == Approx((of_egg * 4 + of_milk * 10) / (of_egg + of_milk)));
    CHECK(water_of(all, Kilograms{200}).value() == Approx(2 * 26.6));
}

TEST_CASE("Only water of ingredients that were there before is counted otherwise") {
    const std::vector<Ingredient> dry{{"Salt", 2, 0, {}}, {"Whole egg", 12, 0, {}}};
    CHECK(counted_otherwise(dry, std::vector{egg()}) == Approx(9)); // also with another amount: as it was
    CHECK(counted_otherwise(dry, std::vector{egg(20)}) == Approx(9));
    CHECK(counted_otherwise({}, std::vector{egg()}) == 0);
    CHECK(counted_otherwise(std::vector{egg()}, {}) == 0);
    CHECK(counted_otherwise(std::vector{egg()}, dry) == Approx(-9));
}

TEST_CASE("Every ready figure lies in its range, has a source that says how it was come by, and a name of "
          "its own") {
    std::set<std::string> names;
    REQUIRE(usual_ingredients().size() > 10);
    for (const auto& usual : usual_ingredients()) {
        INFO(usual.name);
        CHECK(names.insert(usual.name).second);
        CHECK(usual.low <= usual.water_percent);
        CHECK(usual.water_percent <= usual.high);
        CHECK((usual.source.find("read") != std::string::npos ||
               usual.source.find("from memory") != std::string::npos ||
               usual.source.find("computed") != std::string::npos));
    }
    CHECK(usual_ingredient("Compressed yeast"));
    CHECK_FALSE(usual_ingredient("Gravel"));
}

TEST_CASE("An ingredient is typed again as it was read") {
    const HouseUnits house("lb", "°F");
    const auto typed = as_typed(egg(), house);
    CHECK(typed == IngredientDraft{"Whole egg", "12", "75", "39.2"});
    const auto again = accept_ingredients(std::vector{typed}, house);
    REQUIRE(again);
    CHECK(again->front().temperature->value() == Approx(4));
}

} // namespace mellowbin
