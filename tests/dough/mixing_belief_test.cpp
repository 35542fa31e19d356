#include "dough/mixing_belief.h"
#include "support/catch.h"

#include <random>

using namespace mellowbin;
using namespace mellowbin::dough;

namespace {

constexpr LineId spiral{1}, planetary{2};
constexpr ProductId pan{1}, bun{2};

/// 100 kg of flour at 24 °C, 62 kg of water, a dough of 26 °C.
DoughHeat pan_dough(double mixing) {
    return {Celsius{26}, Kilograms{62}, {flour_part(Kilograms{100}, Celsius{24})}, mixing};
}

} // namespace

TEST_CASE("The heat of mixing read back from a dough is the one its water was worked out with") {
    for (const double heat : {0.0, 12.0, 20.0, 39.6}) {
        const auto water = water_by_heat_balance(pan_dough(heat));
        CHECK(mixing_heat_of({pan_dough(0), water, Kilograms{0}}) == Approx(heat).margin(1e-9));
    }
}

TEST_CASE("Ice of a batch is melted and warmed before its heat of mixing is read, also ice below freezing") {
    for (const double ice : {0.0, -18.0}) {
        const auto needed = water_by_heat_balance(pan_dough(39.6));
        const auto mix =
            chill(needed, Kilograms{62}, {Celsius{15}, Celsius{2}, 1, Celsius{ice}}, pan_dough(39.6));
        REQUIRE(mix.ice.value() > 1);
        CHECK(mixing_heat_of({pan_dough(0), mix.water_temperature, mix.ice, Celsius{ice}}) ==
              Approx(39.6).margin(1e-9));
    }
}

TEST_CASE("A dough that came out one degree warmer took its specific heat more of mixing") {
    const auto water = water_by_heat_balance(pan_dough(20));
    auto warmer = pan_dough(0);
    warmer.dough = Celsius{27};
    CHECK(mixing_heat_of({warmer, water, Kilograms{0}}) == Approx(20 + pan_dough(0).heat()));
}

TEST_CASE("Before a mixer's first dough was measured nothing is said of it") {
    MixingBelief belief;
    CHECK(!belief.predict(spiral, pan, Kilograms{160}));
    belief.observe(spiral, pan, Kilograms{160}, 22);
    CHECK(belief.predict(spiral, pan, Kilograms{160}));
    CHECK(!belief.predict(planetary, pan, Kilograms{160}));
}

TEST_CASE(
    "Scattered batches bring a mixer's heat out, surer with each of the first, and as sure as a mixer that "
    "drifts allows") {
    MixingBelief belief;
    std::mt19937 dice(3);
    std::normal_distribution<double> heat(22, 2.5);
    double sd = 1e9;
    for (int i = 1; i <= 30; ++i) {
        REQUIRE(belief.observe(spiral, pan, Kilograms{160}, heat(dice)));
        const auto told = belief.predict(spiral, pan, Kilograms{160});
        if (i <= 5)
            CHECK(told->sd < sd);
        CHECK(told->reading_sd > told->sd);
        CHECK(told->batches == i);
        sd = told->sd;
    }
    CHECK(belief.predict(spiral, pan, Kilograms{160})->kj_per_kg == Approx(22).margin(1.5));
    CHECK(sd < 1.4);
}

TEST_CASE("Another product on the mixer begins where the first stands, and then goes its own way") {
    MixingBelief belief;
    for (int i = 0; i < 10; ++i)
        belief.observe(spiral, pan, Kilograms{160}, 22);
    const auto first = belief.predict(spiral, bun, Kilograms{160});
    CHECK(first->batches == 0);
    CHECK(first->kj_per_kg == Approx(22).margin(2));
    CHECK(first->sd > belief.predict(spiral, pan, Kilograms{160})->sd);
    for (int i = 0; i < 10; ++i)
        belief.observe(spiral, bun, Kilograms{160}, 30);
    CHECK(belief.predict(spiral, bun, Kilograms{160})->kj_per_kg == Approx(30).margin(1));
    CHECK(belief.predict(spiral, pan, Kilograms{160})->kj_per_kg == Approx(22).margin(1));
}

TEST_CASE("Small batches that warm less are told from large ones, and sizes between lie between") {
    MixingBelief belief;
    for (int i = 0; i < 15; ++i) {
        belief.observe(spiral, pan, Kilograms{80}, 18);
        belief.observe(spiral, pan, Kilograms{240}, 25);
    }
    const double small = belief.predict(spiral, pan, Kilograms{80})->kj_per_kg;
    const double middle = belief.predict(spiral, pan, Kilograms{140})->kj_per_kg;
    const double large = belief.predict(spiral, pan, Kilograms{240})->kj_per_kg;
    CHECK(small == Approx(18).margin(0.7));
    CHECK(large == Approx(25).margin(0.7));
    CHECK(small < middle);
    CHECK(middle < large);
    // far from every size that was mixed it is less sure
    CHECK(belief.predict(spiral, pan, Kilograms{1500})->sd > belief.predict(spiral, pan, Kilograms{140})->sd);
}

TEST_CASE("A figure that cannot be of mixing, or lies far from the mixer's, is passed over") {
    MixingBelief belief;
    CHECK(!belief.observe(spiral, pan, Kilograms{160}, -5));
    CHECK(!belief.observe(spiral, pan, Kilograms{160}, 400));
    CHECK(!belief.predict(spiral, pan, Kilograms{160}));
    for (int i = 0; i < 10; ++i)
        belief.observe(spiral, pan, Kilograms{160}, 22);
    const auto before = belief.predict(spiral, pan, Kilograms{160});
    CHECK(!belief.observe(spiral, pan, Kilograms{160}, 60));
    CHECK(belief.predict(spiral, pan, Kilograms{160})->kj_per_kg == before->kj_per_kg);
    CHECK(belief.predict(spiral, pan, Kilograms{160})->batches == 10);
}

TEST_CASE("A mixer that stays changed is believed at its third batch") {
    MixingBelief belief;
    for (int i = 0; i < 10; ++i)
        belief.observe(spiral, pan, Kilograms{160}, 22);
    CHECK(!belief.observe(spiral, pan, Kilograms{160}, 45));
    CHECK(!belief.observe(spiral, pan, Kilograms{160}, 45));
    CHECK(belief.observe(spiral, pan, Kilograms{160}, 45));
    CHECK(belief.predict(spiral, pan, Kilograms{160})->kj_per_kg > 40);
}

TEST_CASE("A copy of the mixers' belief learns on its own") {
    MixingBelief first;
    first.observe(spiral, pan, Kilograms{160}, 22);
    MixingBelief second(first);
    second.observe(spiral, pan, Kilograms{160}, 26);
    CHECK(first.predict(spiral, pan, Kilograms{160})->batches == 1);
    CHECK(second.predict(spiral, pan, Kilograms{160})->batches == 2);
}
