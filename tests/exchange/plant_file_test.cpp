#include "exchange/plant_file.h"
#include "support/full_plant.h"
#include "support/refusal_words.h"

namespace mellowbin::exchange {

TEST_CASE("A place of a plant file may say how humid its air is, in percent") {
    const auto file = [](const std::string& humidity) {
        return read_plant_file(R"({"plant": "Small plant", "places": [{"name": "Bay 1", "kind": "bay",
            "air": "breathable_bag", "temperature_c": 18)" +
                               humidity + "}]}");
    };
    REQUIRE(file(R"(, "humidity_percent": 62.5)"));
    CHECK(file(R"(, "humidity_percent": 62.5)")->places.at(0).humidity == RelativeHumidity{0.625});
    CHECK_FALSE(file("")->places.at(0).humidity);
    const auto refused = file(R"(, "humidity_percent": 162)");
    REQUIRE_FALSE(refused);
    CHECK(testing::says(testing::all_words(refused.refusals()),
                        "places[0].humidity_percent: 162 was read; a number from 0 to 100 is expected"));
}

namespace {

Result<PlantDescription> with_product(const std::string& more) {
    return read_plant_file(R"({"plant": "Small plant",
        "flours": [{"name": "White", "class": "white"}, {"name": "Rye", "class": "wholemeal"}],
        "products": [{"name": "Mixed loaf", "flour": "White", "market": "EU", "food": "bread")" +
                           more + "}]}");
}

std::string refused(const std::string& more) {
    const auto read = with_product(more);
    return read ? "" : testing::all_words(read.refusals());
}

} // namespace

TEST_CASE("A product of a plant file may have a second flour, and take one lot a batch") {
    const auto plain = with_product("");
    REQUIRE(plain);
    CHECK_FALSE(plain->products.at(0).product.second_flour);
    CHECK_FALSE(plain->products.at(0).product.one_lot_a_batch);
    const auto mixed = with_product(R"(, "one_lot_a_batch": true, "second_flour": {"flour": "Rye",
        "share": 0.3, "windows": [{"property": "falling_number", "low": 120}]})");
    REQUIRE(mixed);
    const auto& baked = mixed->products.at(0);
    CHECK(baked.product.one_lot_a_batch);
    CHECK(baked.second_flour == "Rye");
    REQUIRE(baked.product.second_flour);
    CHECK(baked.product.second_flour->share == 0.3);
    CHECK(baked.product.second_flour->windows == Specification{{Property::falling_number, 120, {}, ""}});
}

TEST_CASE("A product of a plant file may say what it is sold as") {
    CHECK_FALSE(with_product("")->products.at(0).product.sold_as);
    const auto said = with_product(R"(, "sold_as": "not_prepacked")");
    REQUIRE(said);
    CHECK(said->products.at(0).product.sold_as == SoldAs::not_prepacked);
    CHECK(testing::says(refused(R"(, "sold_as": "sliced")"),
                        "products[0].sold_as: \"sliced\" was read; one of prepacked_sliced, "
                        "prepacked_part_baked, prepacked_other, not_prepacked is expected"));
}

TEST_CASE("How a dough may be helped and its bread is kept is read where it is said") {
    const auto plain = with_product("");
    REQUIRE(plain);
    CHECK(plain->products.at(0).product.process == DoughProcess::straight);
    CHECK_FALSE(plain->products.at(0).product.maturity_per_hour);
    const auto said = with_product(R"(, "process": "sponge", "most_fermentation_minutes": 300,
        "maturity_per_hour": 0.04, "preservative": "cultured_wheat", "cultured_acid_percent": 9.5,
        "enzyme": "maltogenic amylase", "bread_erh_percent": 95.5)");
    REQUIRE(said);
    const auto& product = said->products.at(0).product;
    CHECK(product.process == DoughProcess::sponge);
    CHECK(product.most_fermentation_minutes == 300);
    CHECK(product.maturity_per_hour == 0.04);
    CHECK(product.preservative == Preservative::cultured_wheat);
    CHECK(product.cultured_acid_percent == 9.5);
    CHECK(product.enzyme == "maltogenic amylase");
    CHECK(product.bread_erh == 95.5);
    CHECK(testing::says(
        refused(R"(, "process": "boiled")"),
        "products[0].process: \"boiled\" was read; one of straight, sponge, no_time is expected"));
    CHECK(testing::says(refused(R"(, "bread_erh_percent": 10)"), "bread_erh_percent"));
}

TEST_CASE("A second flour that cannot be is refused by the name of what is wrong") {
    using testing::says;
    CHECK(says(
        refused(R"(, "second_flour": {"flour": "Rye", "share": 1})"),
        "products[0].second_flour.share: its part of all the flour is expected, above 0 and below 100 %"));
    CHECK(says(refused(R"(, "second_flour": {"flour": "Rye"})"), "products[0].second_flour.share"));
    CHECK(says(refused(R"(, "second_flour": {"share": 0.2})"), "products[0].second_flour.flour"));
    CHECK(says(refused(R"(, "second_flour": "Rye")"), "products[0].second_flour: an object"));
    CHECK(says(refused(R"(, "second_flour": {"flour": "Spelt", "share": 0.2})"),
               "products[0].second_flour.flour: \"Spelt\" is not known"));
    CHECK(says(refused(R"(, "second_flour": {"flour": "White", "share": 0.2})"), "is the first one again"));
    CHECK(says(refused(R"(, "second_flour": {"flour": "Rye", "share": 0.2,
                   "windows": [{"property": "protein", "low": 12, "high": 11}]})"),
               "products[0].second_flour.windows[0]"));
    CHECK(says(refused(R"(, "one_lot_a_batch": "yes")"),
               "products[0].one_lot_a_batch: \"yes\" was read; true or false is expected"));
}

TEST_CASE("An ingredient of a plant file may state its water, in percent or as usual, and its temperature") {
    const auto read = with_product(R"(, "ingredients": [{"name": "Salt", "percent_of_flour": 2},
        {"name": "Whole egg", "percent_of_flour": 12, "water_percent": 75.5, "temperature_c": 4},
        {"name": "Honey", "percent_of_flour": 5, "water_percent": "usual"}])");
    REQUIRE(read);
    const auto& ingredients = read->products.at(0).product.ingredients;
    CHECK(ingredients == std::vector<Ingredient>{{"Salt", 2, 0, {}},
                                                 {"Whole egg", 12, 75.5, Celsius{4}},
                                                 {"Honey", 5, 17.1, {}}});
}

TEST_CASE("An ingredient of a plant file that cannot be is refused by the name of the member") {
    using testing::says;
    const auto with = [](const std::string& more) {
        return refused(R"(, "ingredients": [{"name": "Egg", "percent_of_flour": 12, )" + more + "}]");
    };
    CHECK(says(with(R"("water_percent": 120)"),
               "products[0].ingredients[0].water_percent: 120 was read; a number from 0 to 100 is expected"));
    CHECK(says(with(R"("water_percent": -1)"), "products[0].ingredients[0].water_percent"));
    CHECK(says(with(R"("water_percent": "wet")"),
               "products[0].ingredients[0].water_percent: \"wet\" was read"));
    CHECK(says(with(R"("water_percent": "usual")"),
               "products[0].ingredients[0].water_percent: no usual water of \"Egg\" is known"));
    CHECK(says(with(R"("temperature_c": 90)"), "products[0].ingredients[0].temperature_c: 90 was read"));
    CHECK(says(with(R"("water_pct": 75)"), "products[0].ingredients[0].water_pct: is no member it takes"));
}

TEST_CASE("A plant with every field and list goes through a plant file and comes back the same") {
    const auto plant = tests::full_plant();
    const auto read = read_plant_file(write_plant_file(plant));
    INFO((read ? "" : testing::all_words(read.refusals())));
    REQUIRE(read);
    CHECK(read->mills == plant.mills);
    CHECK(read->flours == plant.flours);
    CHECK(read->places == plant.places);
    CHECK(read->lines == plant.lines);
    CHECK(read->products == plant.products);
    CHECK(*read == plant);
}

TEST_CASE("A plant file leaves out what is as it is where nobody says") {
    PlantDescription plant;
    plant.plant = "Small plant";
    plant.mills = {{{}, "Weir Mill"}};
    plant.lines.emplace_back().name = "Line 1";
    CHECK(write_plant_file(plant) == R"({
  "plant": "Small plant",
  "mills": [
    "Weir Mill"
  ],
  "flours": [],
  "places": [],
  "lines": [
    {
      "name": "Line 1"
    }
  ],
  "products": []
}
)");
}

TEST_CASE("A plant file says what the plant chose, and refuses what is no choice at its place") {
    const auto read = read_plant_file(R"({"plant": "P", "door_checks": ["Bags dry", " Seal whole "],
        "test_errors": {"alveograph_w": 4}, "settings": {"warm_flour": 32.5, "time_zone": "Europe/Lisbon"}})");
    REQUIRE(read);
    CHECK(read->door_checks == std::vector<std::string>{"Bags dry", "Seal whole"});
    CHECK(read->test_errors == std::map<std::string, std::string>{{"alveograph_w", "4"}});
    CHECK(read->settings ==
          std::map<std::string, std::string>{{"time_zone", "Europe/Lisbon"}, {"warm_flour", "32.5"}});
    const auto refused = read_plant_file(R"({"plant": "P", "door_checks": [""], "test_errors": [],
        "settings": {"warm_flour": true}, "mill": []})");
    REQUIRE_FALSE(refused);
    const auto words = testing::all_words(refused.refusals());
    CHECK(testing::says(words, "door_checks[0]: a text is expected"));
    CHECK(testing::says(words, "test_errors: an object"));
    CHECK(testing::says(words, "settings.warm_flour: a text or a number is expected"));
    CHECK(testing::says(words, "mill: is no member it takes"));
}

TEST_CASE("A name that stands twice in a plant file is refused, also in other letters") {
    const auto refused = read_plant_file(R"({"plant": "P", "mills": ["Weir Mill", "weir mill"]})");
    REQUIRE_FALSE(refused);
    CHECK(testing::says(testing::all_words(refused.refusals()), "mills: \"weir mill\" stands there twice"));
}

TEST_CASE("A line whose chiller warms the water is refused where the file says so") {
    const auto refused = read_plant_file(
        R"({"plant": "P", "lines": [{"name": "Line 1", "tap_water_c": 10, "coldest_water_c": 12}]})");
    REQUIRE_FALSE(refused);
    CHECK(testing::says(testing::all_words(refused.refusals()), "lines[0].coldest_water_c: 12 °C is above"));
}

} // namespace mellowbin::exchange
