#include "core/plant_draft.h"
#include "support/full_plant.h"
#include "support/refusal_words.h"

#include <set>

namespace mellowbin {
namespace {

using testing::all_words;
using testing::says;

std::vector<Flour> two_flours() {
    return {{FlourId{1}, "Strong white", FlourClass::white, {}},
            {FlourId{2}, "Rye", FlourClass::wholemeal, {}}};
}
const std::vector<Market> markets{{"EU", "European Union", ""}, {"Canada", "Canada", ""}};

PlantDraft with(PlantDraft draft, const std::string& key, const std::string& text) {
    draft.texts[key] = text;
    return draft;
}
PlantDraft a_product() {
    auto draft = blank_draft(PlantKind::product);
    draft.texts["name"] = "Pan bread";
    draft.texts["flour"] = "Strong white";
    draft.texts["market"] = "EU";
    draft.texts["food"] = "Bread";
    return draft;
}
PlantDraft a_flour() {
    auto draft = blank_draft(PlantKind::flour);
    draft.texts["name"] = "Strong white";
    draft.texts["class"] = "White";
    return draft;
}
std::string refused_product(const PlantDraft& draft) {
    const auto accepted = accept_product(draft, two_flours(), markets);
    return accepted ? "" : all_words(accepted.refusals());
}
std::string refused_flour(const PlantDraft& draft) {
    const auto accepted = accept_flour(draft);
    return accepted ? "" : all_words(accepted.refusals());
}
std::string refused_line(const PlantDraft& draft) {
    const auto accepted = accept_line(draft);
    return accepted ? "" : all_words(accepted.refusals());
}

} // namespace

TEST_CASE("Every record of a plant, taken as a draft and accepted again, is the same record") {
    const auto plant = tests::full_plant();
    for (const auto& mill : plant.mills)
        CHECK(*accept_mill(draft_of(mill)) == mill);
    for (const auto& flour : plant.flours)
        CHECK(*accept_flour(draft_of(flour)) == flour);
    for (const auto& place : plant.places)
        CHECK(*accept_place(draft_of(place)) == place);
    for (const auto& line : plant.lines)
        CHECK(*accept_line(draft_of(line)) == line);
    for (auto baked : plant.products) {
        baked.product.flour = FlourId{1};
        if (baked.product.second_flour)
            baked.product.second_flour->flour = FlourId{2};
        const auto accepted = accept_product(draft_of(baked.product, two_flours()), two_flours(), markets);
        INFO((accepted ? "" : all_words(accepted.refusals())));
        REQUIRE(accepted);
        CHECK(*accepted == baked.product);
    }
}

TEST_CASE("A share in percent comes back exactly, whatever the division says") {
    for (int tenth = 1; tenth < 1000; ++tenth) {
        auto product = tests::full_product();
        product.flour = FlourId{1};
        product.second_flour->flour = FlourId{2};
        product.second_flour->share = tenth / 1000.0;
        const auto accepted = accept_product(draft_of(product, two_flours()), two_flours(), markets);
        REQUIRE(accepted);
        REQUIRE(accepted->second_flour->share == product.second_flour->share);
    }
}

TEST_CASE("A new record has every field as it is where nobody says otherwise, and asks for the rest") {
    const auto refused = accept_product(blank_draft(PlantKind::product), two_flours(), markets);
    REQUIRE_FALSE(refused);
    for (const char* field : {"Name", "Flour", "Market", "Counts in law as"})
        CHECK_FALSE(testing::reasons_for(refused.refusals(), field).empty());
    Product plain;
    plain.name = "Pan bread";
    plain.flour = FlourId{1};
    plain.market = "EU";
    CHECK(*accept_product(a_product(), two_flours(), markets) == plain);
    Line line;
    line.name = "Line 1";
    CHECK(*accept_line(with(blank_draft(PlantKind::line), "name", " Line 1 ")) == line);
}

TEST_CASE("A decimal comma is a decimal point, and a word of a field may be its name or its key") {
    const auto line =
        accept_line(with(with(blank_draft(PlantKind::line), "name", "Line 1"), "friction_factor_c", "14,5"));
    REQUIRE(line);
    CHECK(line->friction_factor == CelsiusStep{14.5});
    CHECK(accept_flour(with(a_flour(), "class", "wholemeal"))->flour_class == FlourClass::wholemeal);
    CHECK(accept_flour(with(a_flour(), "class", "Wholemeal"))->flour_class == FlourClass::wholemeal);
    CHECK(says(refused_flour(with(a_flour(), "class", "beige")), "Kind of flour: \"beige\" is not known"));
}

TEST_CASE("A line of a specification that cannot be kept is refused by its place") {
    auto draft = a_flour();
    draft.windows = {{"Protein", "14", "12", ""}};
    CHECK(says(refused_flour(draft), "Specification 1: the lowest value 14 is above the highest 12"));
    draft.windows = {{"Protein", "11,5", "", ""}, {"protein", "", "14", ""}};
    CHECK(says(refused_flour(draft), "Specification 2: Protein stands there twice"));
    draft.windows = {{"Protein", "eleven", "", ""}};
    CHECK(says(refused_flour(draft), "Specification 1, lowest: \"eleven\""));
    draft.windows = {{"Colour", "1", "", ""}};
    CHECK(says(refused_flour(draft), "Specification 1, property: \"Colour\" is not known"));
    draft.windows = {{"Protein", "", "", ""}};
    CHECK(says(refused_flour(draft), "Specification 1: the specification has neither"));
    draft.windows = {{"Damaged starch", "5", "", ""}};
    CHECK(says(refused_flour(draft), "Specification 1: the specification names no method"));
    draft.windows = {{"", "", "", ""}, {"Protein", "11,5", "", ""}};
    REQUIRE(accept_flour(draft));
    CHECK(accept_flour(draft)->specification == Specification{{Property::protein, 11.5, {}, ""}});
}

TEST_CASE("A product's flours are those the book has and that hold") {
    auto flours = two_flours();
    CHECK(says(refused_product(with(a_product(), "flour", "Spelt")), "Flour: \"Spelt\" is not known"));
    flours[0].is_retired = true;
    const auto retired = accept_product(a_product(), flours, markets);
    REQUIRE_FALSE(retired);
    CHECK(says(all_words(retired.refusals()), "Flour: \"Strong white\" is retired"));
    auto draft = with(a_product(), "second_flour.share", "30");
    CHECK(says(refused_product(draft), "Second flour: is empty, but its share or specification is said"));
    draft = with(with(a_product(), "second_flour.flour", "Rye"), "second_flour.share", "100");
    CHECK(says(refused_product(draft), "Share of the second flour: its part of all the flour is expected"));
    draft = with(with(a_product(), "second_flour.flour", "Strong white"), "second_flour.share", "30");
    CHECK(says(refused_product(draft), "Second flour: is the first one again"));
}

TEST_CASE("A formula that brings more water than any dough takes is refused") {
    auto draft = a_product();
    draft.ingredients = {{"Whole milk", "300", "100", ""}};
    CHECK(says(refused_product(draft), "Ingredients: they bring 300"));
    draft.ingredients = {{"Salt", "2", "", ""}, {"salt", "2", "", ""}};
    CHECK(says(refused_product(draft), "stands there twice"));
}

TEST_CASE(
    "Numbers outside their range, halves of whole ones and unknown markets are refused at their field") {
    CHECK(says(refused_product(with(a_product(), "maturity_target", "110")),
               "Maturity asked for: 110 was read; from 0 to 100 %"));
    CHECK(says(refused_product(with(a_product(), "most_lots", "2,5")),
               "Most lots: 2.5 was read; a whole number is expected"));
    CHECK(says(refused_product(with(a_product(), "one_lot_a_batch", "perhaps")),
               "One lot a batch: \"perhaps\" was read"));
    CHECK(
        says(refused_product(with(a_product(), "market", "Atlantis")), "Market: \"Atlantis\" is not known"));
    CHECK(accept_product(with(a_product(), "market", "European Union"), two_flours(), markets)->market ==
          "EU");
    CHECK(says(refused_product(with(a_product(), "name", std::string(61, 'n'))),
               "up to 60 characters are expected"));
}

TEST_CASE("A chiller cannot make water warmer than the tap's") {
    auto draft = with(blank_draft(PlantKind::line), "name", "Line 1");
    draft.texts["tap_water_c"] = "10";
    draft.texts["coldest_water_c"] = "10,5";
    CHECK(says(refused_line(draft), "Coldest water: 10.5 °C is above the tap water's 10 °C"));
}

TEST_CASE("A step of a place's climate names its day and its temperature, and no day twice") {
    auto draft = blank_draft(PlantKind::place);
    draft.texts["name"] = "Bay 1";
    draft.texts["kind"] = "Bay";
    draft.texts["air"] = std::string(name_of(Air::breathable_bag));
    draft.climate = {{"2026-09-01", "18"}, {"", ""}, {"2026-06-01", "24,5"}};
    const auto place = accept_place(draft);
    REQUIRE(place);
    CHECK(place->climate == std::vector<ClimateStep>{{day_from_iso("2026-06-01"), Celsius{24.5}},
                                                     {day_from_iso("2026-09-01"), Celsius{18}}});
    draft.climate = {{"", "18"}, {"2026-06-01", ""}, {"2026-06-01", "19"}};
    const auto refused = accept_place(draft);
    REQUIRE_FALSE(refused);
    const auto words = all_words(refused.refusals());
    CHECK(says(words, "Climate 1, from: is empty"));
    CHECK(says(words, "Climate 2, temperature"));
    CHECK(says(words, "Climate 3, from: 2026-06-01 stands there twice"));
}

TEST_CASE("No two fields of a kind of record have one key or one label") {
    for (const auto kind : all_plant_kinds()) {
        std::set<std::string_view> keys, labels;
        for (const auto& field : plant_fields(kind)) {
            CHECK(keys.insert(field.key).second);
            CHECK(labels.insert(field.label).second);
            if (field.shape == FieldShape::one_of)
                CHECK_FALSE(field.words.empty());
        }
        CHECK(plant_kind_named(name_of(kind)) == kind);
        CHECK(plant_kind_named(key_of(kind)) == kind);
    }
    CHECK_FALSE(plant_kind_named("Cellar"));
}

} // namespace mellowbin
