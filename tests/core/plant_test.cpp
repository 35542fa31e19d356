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

namespace {

/// Ferments 45 min and at most 90; an hour more stands for 8 % of maturity.
Product calibrated() {
    Product product;
    product.name = "Pan bread";
    product.maturity_target = Maturity{0.85};
    product.fermentation_minutes = 45;
    product.most_fermentation_minutes = 90;
    product.maturity_per_hour = 0.08;
    return product;
}

Run longer_by(int minutes) {
    Run run;
    run.longer_fermentation_minutes = minutes;
    return run;
}

} // namespace

TEST_CASE("A run that ferments longer asks so much less maturity as its minutes stand for, and no less than "
          "none") {
    const auto baked = as_baked(calibrated(), longer_by(30));
    CHECK(baked.fermentation_minutes == 75);
    CHECK(baked.maturity_target.value() == Approx(0.81)); // 0.85 less half an hour at 0.08
    auto product = calibrated();
    product.maturity_per_hour = 1;
    product.maturity_target = Maturity{0.3};
    CHECK(as_baked(product, longer_by(45)).maturity_target.value() == 0);
    CHECK(as_baked(calibrated(), longer_by(0)) == calibrated());
}

TEST_CASE("Where nobody calibrated an hour more, longer minutes lower nothing") {
    auto product = calibrated();
    product.maturity_per_hour.reset();
    const auto baked = as_baked(product, longer_by(30));
    CHECK(baked.fermentation_minutes == 75);
    CHECK(baked.maturity_target == product.maturity_target);
}

TEST_CASE(
    "A dough ferments longer only as far as its product's longest, calibrated, and never a no-time one") {
    CHECK(why_not_fermented_longer(calibrated(), 45).empty());
    const auto refused = why_not_fermented_longer(calibrated(), 46);
    REQUIRE(refused.size() == 1);
    CHECK(testing::says(refused[0].what,
                        "46 min was read; Pan bread ferments 45 min and may ferment at most 90"));
    Product plain; // neither calibrated nor to be lengthened
    plain.process = DoughProcess::no_time;
    CHECK(why_not_fermented_longer(plain, 1).size() == 3); // every reason at once
}

TEST_CASE("Minutes that are missing are told as whole ones that are enough") {
    CHECK(whole_minutes(0) == 0);
    CHECK(whole_minutes(24.01) == 25);
    CHECK(whole_minutes(0.15 / 0.36 * 60) == 25); // 25, but for the last digit
    CHECK(whole_minutes(-3) == 0);
}

} // namespace mellowbin
