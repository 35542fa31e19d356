#include "core/plant.h"
#include "support/catch.h"
#include "support/refusal_words.h"

#include <set>

namespace mellowbin {

TEST_CASE("Every class of flour, way of air and kind of place has a key of its own") {
    for (const auto value : {FlourClass::white, FlourClass::high_extraction, FlourClass::wholemeal})
        CHECK(flour_class_from_key(key_of(value)) == value);
    for (const auto value : {Air::breathable_bag, Air::moved_silo, Air::sealed_liner, Air::inert})
        CHECK(air_from_key(key_of(value)) == value);
    for (const auto value : {PlaceKind::bay, PlaceKind::rack, PlaceKind::tote, PlaceKind::silo})
        CHECK(place_kind_from_key(key_of(value)) == value);
    CHECK(!flour_class_from_key("rye"));
    CHECK(!air_from_key(""));
    CHECK(!place_kind_from_key("Bay"));
    CHECK(name_of(FlourClass::wholemeal) == "Wholemeal");
    CHECK(name_of(Air::inert) == "Vacuum, nitrogen or absorber");
}

namespace {

Product mixed_loaf() {
    Product product;
    product.flour = FlourId{1};
    product.windows = {{Property::protein, 12, 13.5, ""}};
    product.second_flour = SecondFlour{FlourId{2}, 0.3, {{Property::falling_number, 120, {}, ""}}};
    return product;
}

} // namespace

TEST_CASE("A second flour is another kind than the first, and less than all of the flour") {
    CHECK(accept_product(mixed_loaf()));
    auto product = mixed_loaf();
    product.second_flour.reset();
    CHECK(accept_product(product));
    for (const double share : {0.0, 1.0, -0.2, 1.5}) {
        product = mixed_loaf();
        product.second_flour->share = share;
        const auto refused = accept_product(product);
        REQUIRE_FALSE(refused);
        REQUIRE(refused.refusals().size() == 1);
        CHECK(refused.refusals()[0].field == "Second flour");
        CHECK(testing::says(refused.refusals()[0].what, "above 0 and below 1 is expected"));
    }
    product = mixed_loaf();
    product.second_flour->flour = product.flour;
    product.second_flour->share = 2;
    product.second_flour->windows[0].high = 100; // below its low end
    product.most_lots = 0;
    const auto refused = accept_product(product);
    REQUIRE_FALSE(refused);
    CHECK(refused.refusals().size() == 4); // every reason at once
}

TEST_CASE("The two flours of a formula add up to the whole, to the gram") {
    auto product = mixed_loaf();
    for (const std::int64_t grams : {1, 2, 3, 7, 99'999, 400'000, 123'456'789}) {
        const Grams all{grams};
        CHECK(grams_of(product, FlourPart::main, all) + grams_of(product, FlourPart::second, all) == all);
    }
    CHECK(grams_of(product, FlourPart::second, Grams{400'000}) == Grams{120'000});
    CHECK(flour_of(product, FlourPart::second) == FlourId{2});
    CHECK(windows_of(product, FlourPart::second).at(0).property == Property::falling_number);
    CHECK(part_of(product, FlourId{1}) == FlourPart::main);
    CHECK(part_of(product, FlourId{2}) == FlourPart::second);
    CHECK_FALSE(part_of(product, FlourId{3}));
    product.second_flour.reset();
    CHECK(grams_of(product, FlourPart::main, Grams{7}) == Grams{7});
    CHECK(grams_of(product, FlourPart::second, Grams{7}) == Grams{0});
    CHECK_FALSE(part_of(product, FlourId{2}));
}

} // namespace mellowbin
