#include "core/quantity.h"
#include "support/catch.h"

#include <random>
#include <type_traits>

namespace mellowbin {
namespace {

template <class A, class B>
concept Addable = requires(A a, B b) {
    a + b;
};
template <class A, class B>
concept Subtractable = requires(A a, B b) {
    a - b;
};
template <class A, class B>
concept Comparable = requires(A a, B b) {
    a < b;
};
template <class A, class B>
concept EqualityComparable = requires(A a, B b) {
    a == b;
};
template <class A, class B>
concept Multiplies = requires(A a, B b) {
    a* b;
};
template <class A, class B>
concept Divides = requires(A a, B b) {
    a / b;
};
template <class A>
concept Negatable = requires(A a) {
    -a;
};

// A temperature is a point: it has no sum and no factor; only a step may be added to it.
static_assert(!Addable<Celsius, Celsius>);
static_assert(!Multiplies<Celsius, double>);
static_assert(!Multiplies<double, Celsius>);
static_assert(!Divides<Celsius, double>);
static_assert(!Divides<Celsius, Celsius>);
static_assert(!Addable<CelsiusStep, Celsius>);
static_assert(Addable<Celsius, CelsiusStep>);
static_assert(Addable<CelsiusStep, CelsiusStep>);
static_assert(std::is_same_v<decltype(Celsius{} - Celsius{}), CelsiusStep>);
static_assert(std::is_same_v<decltype(Celsius{} - CelsiusStep{}), Celsius>);
static_assert(!Comparable<Celsius, CelsiusStep>);

// Percentages of flour do not add, and two bases are never compared.
static_assert(!Addable<Moisture, Moisture>);
static_assert(!Subtractable<Moisture, Moisture>);
static_assert(!Addable<Protein14, Protein14>);
static_assert(!Multiplies<Protein14, double>);
static_assert(!Comparable<Protein14, ProteinAsIs>);
static_assert(!EqualityComparable<Protein14, ProteinAsIs>);
static_assert(Comparable<Protein14, Protein14>);
static_assert(!Subtractable<Protein14, ProteinAsIs>);

// Absorption: points may be added to it, another absorption may not, nor one on another basis.
static_assert(!Addable<Absorption14, Absorption14>);
static_assert(Addable<Absorption14, AbsorptionPoints>);
static_assert(!Addable<AbsorptionAsIs, AbsorptionPoints>);
static_assert(!Comparable<Absorption14, AbsorptionAsIs>);
static_assert(!Subtractable<Absorption14, AbsorptionAsIs>);
static_assert(std::is_same_v<decltype(Absorption14{} - Absorption14{}), AbsorptionPoints>);

// kg and ppm, kg and mL, a falling number and its liquefaction number.
static_assert(!Addable<Kilograms, OxidantPpm>);
static_assert(!Comparable<Kilograms, OxidantPpm>);
static_assert(!Addable<Kilograms, Millilitres>);
static_assert(!Multiplies<Kilograms, Kilograms>);
static_assert(!Multiplies<Kilograms, OxidantPpm>);
static_assert(!Addable<FallingNumber, FallingNumber>);
static_assert(!Addable<Liquefaction, Liquefaction>);
static_assert(!Comparable<FallingNumber, Liquefaction>);
static_assert(!Addable<Maturity, Maturity>);
static_assert(!Multiplies<Maturity, double>);
static_assert(std::is_same_v<decltype(Kilograms{} / Kilograms{1}), double>);

// Nothing becomes a quantity, and no quantity a number, without being asked to.
static_assert(!std::is_convertible_v<double, Kilograms>);
static_assert(!std::is_convertible_v<int, Moisture>);
static_assert(!std::is_convertible_v<Kilograms, double>);
static_assert(!std::is_convertible_v<ProteinAsIs, Protein14>);
static_assert(!std::is_constructible_v<Protein14, ProteinAsIs>);
static_assert(!Addable<Kilograms, double>);
static_assert(!Comparable<Kilograms, double>);
static_assert(!EqualityComparable<Celsius, double>);

// Grams are whole: no kilograms in between, no factor, no share.
static_assert(!std::is_convertible_v<std::int64_t, Grams>);
static_assert(!std::is_convertible_v<Kilograms, Grams>);
static_assert(!std::is_constructible_v<Grams, Kilograms>);
static_assert(!Addable<Grams, Kilograms>);
static_assert(!Multiplies<Grams, double>);
static_assert(!Divides<Grams, int>);
static_assert(Addable<Grams, Grams> && Negatable<Grams>);

// A restatement asks for the moisture, as a moisture.
template <class... Args>
concept RestatesAt14 = requires(Args... args) {
    at_14_percent(args...);
};
static_assert(RestatesAt14<ProteinAsIs, Moisture>);
static_assert(!RestatesAt14<ProteinAsIs>);
static_assert(!RestatesAt14<ProteinAsIs, double>);
static_assert(!RestatesAt14<Protein14, Moisture>);
static_assert(sizeof(Kilograms) == sizeof(double));

constexpr unsigned seed = 20261125;

} // namespace

TEST_CASE("What is stated at 14 % moisture is the very same number for flour at 14 % moisture") {
    for (int tenths = 400; tenths <= 900; ++tenths) {
        const Absorption14 absorption{tenths / 10.0};
        REQUIRE(as_is(absorption, Moisture{14}).value() == absorption.value());
        REQUIRE(at_14_percent(AbsorptionAsIs{tenths / 10.0}, Moisture{14}) == absorption);
        const Protein14 protein{tenths / 40.0};
        REQUIRE(protein.value() * from_14_percent(Moisture{14}) == protein.value());
        REQUIRE(at_14_percent(ProteinAsIs{tenths / 40.0}, Moisture{14}) == protein);
    }
}

TEST_CASE("Restating to as is and back gives the figure one began with") {
    std::mt19937 random{seed};
    std::uniform_real_distribution<double> moistures{0, 30};
    std::uniform_real_distribution<double> proteins{1, 40};
    std::uniform_real_distribution<double> absorptions{40, 90};
    for (int i = 0; i < 2000; ++i) {
        const Moisture m{moistures(random)};
        const Protein14 protein{proteins(random)};
        REQUIRE(at_14_percent(ProteinAsIs{protein.value() * from_14_percent(m)}, m).value() ==
                Approx(protein.value()).epsilon(1e-12));
        const Absorption14 absorption{absorptions(random)};
        REQUIRE(at_14_percent(as_is(absorption, m), m).value() == Approx(absorption.value()).epsilon(1e-12));
    }
}

TEST_CASE("The water in the dough per kg of dry flour does not depend on the flour's moisture") {
    std::mt19937 random{seed};
    std::uniform_real_distribution<double> moistures{8, 18};
    const auto water_per_dry_kg = [](Absorption14 a, Moisture m) {
        const Kilograms added = water_for(Kilograms{100}, as_is(a, m));
        return (added.value() + m.value()) / (100 - m.value());
    };
    const double at_14 = water_per_dry_kg(Absorption14{61.7}, Moisture{14});
    for (int i = 0; i < 500; ++i)
        REQUIRE(water_per_dry_kg(Absorption14{61.7}, Moisture{moistures(random)}) == Approx(at_14));
}

TEST_CASE("A liquefaction number turns back into its falling number, and less of it means sounder flour") {
    for (int seconds = 60; seconds <= 600; seconds += 20) {
        const FallingNumber fn{static_cast<double>(seconds)};
        CHECK(to_falling_number(to_liquefaction(fn)).value() == Approx(fn.value()));
        CHECK(to_liquefaction(FallingNumber{fn.value() + 10}) < to_liquefaction(fn));
    }
}

TEST_CASE("Grams add up exactly and kilograms become the nearest gram") {
    CHECK(to_grams(Kilograms{0.1}) + to_grams(Kilograms{0.2}) == to_grams(Kilograms{0.3}));
    CHECK(to_grams(Kilograms{1.0005}) == Grams{1001});
    CHECK(to_grams(Kilograms{-0.0004}) == Grams{0});
    CHECK(to_kilograms(Grams{22'680}).value() == Approx(22.68));
    Grams sum;
    sum += Grams{1};
    sum += -Grams{3};
    CHECK(sum == Grams{-2});
}

TEST_CASE("20 ppm on 100 kg of flour are 2 grams") {
    CHECK(dose_grams(OxidantPpm{20}, Kilograms{100}) == Approx(2.0));
}

TEST_CASE("A temperature moves by steps") {
    CHECK((Celsius{24} + CelsiusStep{2.5}).value() == Approx(26.5));
    CHECK((Celsius{24} - CelsiusStep{2.5}).value() == Approx(21.5));
    CHECK((Celsius{24} - Celsius{26}) * 3 == CelsiusStep{-6});
}

} // namespace mellowbin
