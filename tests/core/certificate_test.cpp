#include "core/certificate.h"
#include "support/flour_formulas.h"
#include "support/refusal_words.h"

#include <random>
#include <set>

namespace mellowbin {
namespace {

using testing::says;

Certificate with(std::initializer_list<CertificateValue> values) {
    Certificate certificate;
    for (const auto& value : values)
        certificate.set(value);
    return certificate;
}

CertificateValue reported(Property property, double value, Basis basis = {}) {
    return {property, value, basis, "", wheat_nitrogen_factor};
}

} // namespace

TEST_CASE("A basis is read in the trade's words and said again in them") {
    const Basis at_14 = Basis::at(Moisture{14});
    for (const char* text :
         {"14 % moisture", "14%", "14 % mb", " 14 %  Moisture", "14", "14,0 %", "14 % MB"}) {
        INFO(text);
        REQUIRE(read_basis("Protein", text));
        CHECK(*read_basis("Protein", text) == at_14);
    }
    CHECK(*read_basis("Protein", "As is") == Basis::as_is());
    CHECK(*read_basis("Protein", "dry matter") == Basis::dry_matter());
    CHECK(*read_basis("Protein", "dm") == Basis::dry_matter());
    CHECK(*read_basis("Protein", "0 %") == Basis::dry_matter());
    CHECK(!read_basis("Protein", " ")->is_stated());
}

TEST_CASE("Words that are no basis are refused, with what was read") {
    for (const char* text : {"wet", "31 %", "-1 %", "14 % moist", "moisture", "%", "14 % 15 %", "nan"}) {
        INFO(text);
        const auto read = read_basis("Protein", text);
        REQUIRE(!read);
        CHECK(read.refusals().front().field == "Protein");
        CHECK(says(read.refusals().front().what, text));
    }
}

TEST_CASE("The words of a basis are read as the same basis") {
    std::mt19937 random{20261125};
    std::uniform_real_distribution<double> moistures{0, 30};
    for (const Basis basis : {Basis{}, Basis::as_is(), Basis::dry_matter(), Basis::at(Moisture{13.5})})
        CHECK(*read_basis("", in_words(basis)) == basis);
    for (int i = 0; i < 500; ++i) {
        const Basis basis = Basis::at(Moisture{std::round(moistures(random) * 1e6) / 1e6});
        REQUIRE(*read_basis("", in_words(basis)) == basis);
    }
    CHECK(in_words(Basis::at(Moisture{14})) == "14 % moisture");
}

TEST_CASE("A certificate holds one result a property, in a fixed order") {
    Certificate certificate =
        with({reported(Property::ash, 0.5, Basis::dry_matter()), reported(Property::moisture, 14.2)});
    certificate.set(reported(Property::ash, 0.6, Basis::dry_matter()));
    REQUIRE(certificate.values().size() == 2);
    CHECK(certificate.values()[0].property == Property::moisture);
    CHECK(certificate.find(Property::ash)->value == 0.6);
    CHECK(certificate.find(Property::protein) == nullptr);
    CHECK(certificate.moisture() == Moisture{14.2});
    CHECK(!Certificate{}.moisture());
}

TEST_CASE("Ash of 0.605 % on dry matter is 0.52 % at 14 % moisture") {
    const auto certificate = with({reported(Property::ash, 0.605, Basis::dry_matter())});
    CHECK(**value_at_14(certificate, Property::ash) == Approx(0.5203));
}

TEST_CASE("A figure as is cannot be restated while the flour's moisture is not known") {
    auto certificate = with({reported(Property::protein, 12.0, Basis::as_is())});
    const auto refused = value_at_14(certificate, Property::protein);
    REQUIRE(!refused);
    CHECK(refused.refusals().front().field == "Protein");
    CHECK(says(refused.refusals().front().remedy, "moisture"));
    CHECK(!comparable_at_14(certificate, Property::protein));

    certificate.set(reported(Property::moisture, 12));
    CHECK(**value_at_14(certificate, Property::protein) == Approx(12.0 * 86 / 88));
}

TEST_CASE("A figure without a basis is never compared") {
    const auto certificate = with({reported(Property::protein, 12.0), reported(Property::moisture, 14)});
    const auto refused = value_at_14(certificate, Property::protein);
    REQUIRE(!refused);
    CHECK(says(refused.refusals().front().what, "without a moisture basis"));
}

TEST_CASE("What was not measured is missing, and is not refused") {
    const auto value = value_at_14(Certificate{}, Property::protein);
    REQUIRE(value);
    CHECK(!value->has_value());
}

TEST_CASE("A property without a basis is unchanged, whatever the moisture") {
    const auto certificate =
        with({reported(Property::falling_number, 320), reported(Property::moisture, 10)});
    CHECK(**value_at_14(certificate, Property::falling_number) == 320);
}

TEST_CASE("Protein reported as N x 6.25 is restated as N x 5.7") {
    // The same nitrogen: 12.00 % by 5.7 is 13.158 % by 6.25, from the definition of the factor.
    CertificateValue protein = reported(Property::protein, 13.158, Basis::at(Moisture{14}));
    protein.nitrogen_factor = 6.25;
    CHECK(**value_at_14(with({protein}), Property::protein) == Approx(12.0).margin(0.0005));
    // The factor is of nitrogen: it changes no other figure.
    CertificateValue gluten = reported(Property::wet_gluten, 30, Basis::at(Moisture{14}));
    gluten.nitrogen_factor = 6.25;
    CHECK(**value_at_14(with({gluten}), Property::wet_gluten) == 30);
}

TEST_CASE("Absorption is restated by the water on dry flour, not as a share of flour") {
    const auto certificate =
        with({reported(Property::absorption, 63.721, Basis::as_is()), reported(Property::moisture, 12)});
    CHECK(**value_at_14(certificate, Property::absorption) == Approx(60.0).margin(0.001));
    CHECK(**value_at_14(with({reported(Property::absorption, 61.7, Basis::at(Moisture{14}))}),
                        Property::absorption) == 61.7);
}

TEST_CASE("Restating keeps the order of two lots and the amount per dry flour") {
    std::mt19937 random{20261125};
    std::uniform_real_distribution<double> moistures{0, 30};
    std::uniform_real_distribution<double> values{1, 40};
    for (int i = 0; i < 1000; ++i) {
        const Moisture basis{moistures(random)};
        const double value = values(random);
        const double at_14 =
            **value_at_14(with({reported(Property::protein, value, Basis::at(basis))}), Property::protein);
        REQUIRE(at_14 / 86 == Approx(value / (100 - basis.value())).epsilon(1e-12));
    }
}

TEST_CASE("The bowl's flour is titrated to an absorption, near 500 FU only") {
    const auto large =
        farinograph_absorption(FarinographBowl::grams_300, Moisture{12}, Millilitres{190}, 520);
    REQUIRE(large);
    CHECK(large->value() == Approx(61.70).margin(0.01));
    CHECK(farinograph_absorption(FarinographBowl::grams_50, Moisture{14}, Millilitres{30}, 480));
    for (const double maximum : {479.9, 520.1, 0.0}) {
        const auto refused =
            farinograph_absorption(FarinographBowl::grams_300, Moisture{12}, Millilitres{190}, maximum);
        REQUIRE(!refused);
        CHECK(refused.refusals().front().field == "Maximum");
    }
}

TEST_CASE("White flour keeps the ash rule up to the last hundredth") {
    CHECK(meets_white_flour_ash_rule(12.0, 0.52));
    // 12.0 % protein at 14 % is 13.953 % dry: ash up to 1.0477 % dry, 0.9010 % at 14 %.
    CHECK(meets_white_flour_ash_rule(12.0, 0.901));
    CHECK(!meets_white_flour_ash_rule(12.0, 0.902));
}

TEST_CASE("Every property has its own row, key, name and sensible range") {
    std::set<std::string_view> keys;
    std::set<std::string_view> names;
    for (const auto& row : all_properties()) {
        INFO(row.key);
        CHECK(&traits(row.property) == &row);
        CHECK(property_from_key(row.key) == row.property);
        CHECK(keys.insert(row.key).second);
        CHECK(names.insert(row.name).second);
        CHECK(row.lowest < row.highest);
        CHECK(row.has_basis == (row.blend == BlendRule::by_mass_at_14));
    }
    CHECK(keys.size() == 21);
    CHECK(!property_from_key("Protein"));
    CHECK(!property_from_key(""));
}

TEST_CASE("Flour that dried keeps its results on their basis and loses only its moisture") {
    Certificate certificate;
    certificate.set({Property::moisture, 14.6, {}, "ISO 712-1"});
    certificate.set({Property::protein, 12.0, Basis::as_is(), "ISO 20483"});
    certificate.set({Property::absorption, 60, Basis::at(Moisture{14}), "ISO 5530-1"});
    const auto dried = at_moisture(certificate, Moisture{13.1});
    CHECK(dried.moisture() == Moisture{13.1});
    CHECK(*comparable_at_14(dried, Property::protein) ==
          Approx(*comparable_at_14(certificate, Property::protein)));
    CHECK(*comparable_at_14(dried, Property::absorption) == Approx(60));
}

} // namespace mellowbin
