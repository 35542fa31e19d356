#include "core/blend.h"
#include "support/flour_formulas.h"
#include "support/refusal_words.h"

#include <random>

namespace mellowbin {
namespace {

Certificate flour_with(double moisture, std::initializer_list<CertificateValue> values) {
    Certificate certificate;
    certificate.set({Property::moisture, moisture, {}, "", wheat_nitrogen_factor});
    for (const auto& value : values)
        certificate.set(value);
    return certificate;
}

CertificateValue at_14(Property property, double value, std::string method = "") {
    return {property, value, Basis::at(Moisture{14}), std::move(method), wheat_nitrogen_factor};
}
CertificateValue plain(Property property, double value) {
    return {property, value, {}, "", wheat_nitrogen_factor};
}

} // namespace

TEST_CASE("Protein of a blend is the mean by mass at one moisture, not as the flours lie there") {
    const auto dry = flour_with(10, {at_14(Property::protein, 14)});
    const auto moist = flour_with(15, {at_14(Property::protein, 10)});
    const BlendPart parts[] = {{&dry, Kilograms{50}}, {&moist, Kilograms{50}}};
    const auto protein = blend_value(parts, Property::protein);
    REQUIRE(protein);
    // 50 kg at 10 % hold 45 kg of dry flour, 50 kg at 15 % hold 42.5.
    CHECK(protein->value == Approx((45.0 * 14 + 42.5 * 10) / 87.5));
    CHECK(!protein->is_estimate);
    CHECK(blend_value(parts, Property::moisture)->value == Approx(12.5));
}

TEST_CASE("A blend's dry protein is the sum of its parts' dry protein") {
    std::mt19937 random{20261125};
    std::uniform_real_distribution<double> moistures{8, 16};
    std::uniform_real_distribution<double> proteins{8, 16};
    std::uniform_real_distribution<double> masses{1, 500};
    for (int i = 0; i < 500; ++i) {
        const double m[] = {moistures(random), moistures(random), moistures(random)};
        std::vector<Certificate> flours;
        for (const double moisture : m)
            flours.push_back(flour_with(moisture, {{Property::protein, proteins(random), Basis::as_is(), "",
                                                    wheat_nitrogen_factor}}));
        std::vector<BlendPart> parts;
        for (const auto& flour : flours)
            parts.push_back({&flour, Kilograms{masses(random)}});
        double protein_kg = 0;
        double mass_kg = 0;
        for (const auto& part : parts) {
            protein_kg += part.mass.value() * part.certificate->find(Property::protein)->value / 100;
            mass_kg += part.mass.value();
        }
        const double moisture = blend_value(parts, Property::moisture)->value;
        const double as_is_of_blend = protein_of(parts)->value() * from_14_percent(Moisture{moisture});
        REQUIRE(as_is_of_blend == Approx(100 * protein_kg / mass_kg).epsilon(1e-10));
    }
}

TEST_CASE("Falling numbers blend through the liquefaction number, far below their mean") {
    const auto sound = flour_with(14, {plain(Property::falling_number, 400)});
    const auto sprouted = flour_with(14, {plain(Property::falling_number, 220)});
    const BlendPart parts[] = {{&sound, Kilograms{500}}, {&sprouted, Kilograms{500}}};
    const auto blended = blend_value(parts, Property::falling_number);
    CHECK(blended->value == Approx(279).margin(0.5));
    CHECK(!blended->is_estimate);
}

TEST_CASE("A strength value of a blend is an estimate, of one flour it is the flour's own") {
    const auto a = flour_with(14, {plain(Property::alveograph_w, 300), plain(Property::stability, 10)});
    const auto b = flour_with(14, {plain(Property::alveograph_w, 200), plain(Property::stability, 6)});
    const BlendPart both[] = {{&a, Kilograms{50}}, {&b, Kilograms{50}}};
    CHECK(blend_value(both, Property::alveograph_w)->is_estimate);
    CHECK(blend_value(both, Property::alveograph_w)->value == Approx(250));
    const BlendPart one[] = {{&a, Kilograms{50}}, {&b, Kilograms{0}}};
    CHECK(!blend_value(one, Property::alveograph_w)->is_estimate);
    CHECK(blend_value(one, Property::alveograph_w)->value == 300);
}

TEST_CASE("A part that was not measured leaves the blend unknown, unless nothing of it goes in") {
    const auto measured = flour_with(14, {at_14(Property::ash, 0.5)});
    const auto unmeasured = flour_with(14, {});
    const BlendPart both[] = {{&measured, Kilograms{50}}, {&unmeasured, Kilograms{1}}};
    CHECK(!blend_value(both, Property::ash));
    const BlendPart none_of_it[] = {{&measured, Kilograms{50}}, {&unmeasured, Kilograms{0}}};
    CHECK(blend_value(none_of_it, Property::ash)->value == 0.5);
    CHECK(!blend_value({}, Property::ash));
    const auto no_basis = flour_with(14, {plain(Property::ash, 0.5)});
    const BlendPart unstated[] = {{&measured, Kilograms{50}}, {&no_basis, Kilograms{50}}};
    CHECK(!blend_value(unstated, Property::ash));
}

TEST_CASE("Damaged starch by two methods is not averaged") {
    // Rogers et al. 1994: the same flours read about 1.6 times as much by 76-30A as by 76-31.
    const auto a = flour_with(14, {at_14(Property::starch_damage, 11.7, "AACC 76-30A")});
    const auto b = flour_with(14, {at_14(Property::starch_damage, 7.2, "AACC 76-31")});
    const auto c = flour_with(14, {at_14(Property::starch_damage, 6.0, "aacc 76-31")});
    const BlendPart mixed[] = {{&a, Kilograms{50}}, {&b, Kilograms{50}}};
    CHECK(!blend_value(mixed, Property::starch_damage));
    const BlendPart alike[] = {{&b, Kilograms{50}}, {&c, Kilograms{50}}};
    CHECK(blend_value(alike, Property::starch_damage)->value == Approx(6.6));
}

TEST_CASE("A falling number of 50 s and less has no blend") {
    const auto a = flour_with(14, {plain(Property::falling_number, 50)});
    const auto b = flour_with(14, {plain(Property::falling_number, 300)});
    const BlendPart parts[] = {{&a, Kilograms{50}}, {&b, Kilograms{50}}};
    CHECK(!blend_value(parts, Property::falling_number));
}

TEST_CASE("The two shares of a Pearson square are one whole and give the target back") {
    std::mt19937 random{20261125};
    std::uniform_real_distribution<double> values{8, 16};
    std::uniform_real_distribution<double> between{0, 1};
    for (int i = 0; i < 500; ++i) {
        const double first = values(random);
        const double second = values(random) + 0.01;
        const double target = second + between(random) * (first - second);
        const auto shares = pearson_square(first, second, target);
        REQUIRE(shares);
        REQUIRE(shares->first + shares->second == Approx(1.0));
        REQUIRE(shares->first * first + shares->second * second == Approx(target));
        REQUIRE(shares->first >= -1e-12);
    }
}

TEST_CASE("A target outside the two flours is refused") {
    for (const double target : {10.9, 13.6}) {
        const auto refused = pearson_square(13.5, 11.0, target);
        REQUIRE(!refused);
        CHECK(testing::says(refused.refusals().front().what, "between 11 and 13.5"));
    }
    CHECK(!pearson_square(12, 12, 12));
    CHECK(!share_for_falling_number(FallingNumber{400}, FallingNumber{220}, FallingNumber{410}));
    CHECK(!share_for_falling_number(FallingNumber{400}, FallingNumber{50}, FallingNumber{300}));
    CHECK(*share_for_falling_number(FallingNumber{400}, FallingNumber{220}, FallingNumber{220}) ==
          Approx(0).margin(1e-12));
}

} // namespace mellowbin
