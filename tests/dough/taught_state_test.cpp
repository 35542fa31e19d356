// What doughs taught is put down in plain numbers and taken up again: that must change nothing, to the last
// bit.
#include "dough/mixing_belief.h"
#include "dough/taught_state.h"
#include "dough/water_belief.h"
#include "support/catch.h"
#include "support/iso.h"

#include <algorithm>
#include <cmath>
#include <random>

using namespace mellowbin;
using namespace mellowbin::dough;

namespace {

constexpr ProductId pan{1}, bun{2};
constexpr LineId north{1}, south{2};
const Day today = day_from_iso("2026-03-01");

/// Doughs as the dice fall, of two products on two lines and six lots.
struct Doughs {
    explicit Doughs(unsigned seed) : dice(seed) {}

    WaterSaid next() {
        const int lot = up_to(6);
        WaterSaid said{ProductId{up_to(2)},
                       LineId{up_to(2)},
                       today + Days{++mixed / 10},
                       {{LotId{lot}, 0.7}, {LotId{1 + lot % 6}, 0.3}},
                       Absorption14{61},
                       Absorption14{62 + up_to(20) * 0.1},
                       Feel::right};
        if (up_to(3) == 1)
            said.feel = std::nullopt;
        return said;
    }
    int up_to(int most) { return std::uniform_int_distribution(1, most)(dice); }

    std::mt19937 dice;
    int mixed = 0;
};

TaughtState some_state() {
    Doughs doughs(4);
    WaterBelief water;
    MixingBelief mixing;
    water.expect(pan, AbsorptionPoints{1.7}, false);
    for (int i = 0; i < 40; ++i) {
        const auto said = doughs.next();
        water.observe(said);
        mixing.observe(said.line, said.product, Kilograms{100.0 + i}, 20 + 0.1 * i);
    }
    return {water.state(), mixing.state(), {{pan, {LotId{3}, LotId{4}}}}};
}

} // namespace

TEST_CASE("A belief taken up from its state goes on as the one that it was put down from, to the last bit") {
    Doughs doughs(1);
    WaterBelief water;
    MixingBelief mixing;
    water.expect(pan, AbsorptionPoints{2}, false);
    for (int i = 0; i < 60; ++i) {
        const auto said = doughs.next();
        water.observe(said);
        mixing.observe(said.line, said.product, Kilograms{150.0 + i}, 18 + doughs.up_to(9));
    }
    water.let_go(LotId{2});
    WaterBelief again(water.state());
    MixingBelief mixing_again(mixing.state());
    CHECK(again.state() == water.state());
    CHECK(mixing_again.state() == mixing.state());
    for (int i = 0; i < 60; ++i) {
        auto said = doughs.next();
        std::erase_if(said.lots, [](const LotShare& lot) { return lot.lot == LotId{2}; });
        CHECK(again.observe(said) == water.observe(said));
        CHECK(mixing_again.observe(said.line, said.product, Kilograms{170}, 20) ==
              mixing.observe(said.line, said.product, Kilograms{170}, 20));
    }
    CHECK(again.state() == water.state());
    CHECK(mixing_again.state() == mixing.state());
    const std::vector<LotShare> lots{{LotId{1}, 0.5}, {LotId{3}, 0.5}};
    CHECK(again.predict(pan, south, lots, today + Days{40}).sd ==
          water.predict(pan, south, lots, today + Days{40}).sd);
    CHECK(mixing_again.predict(north, bun, Kilograms{90})->kj_per_kg ==
          mixing.predict(north, bun, Kilograms{90})->kj_per_kg);
}

TEST_CASE("A lot that was let go is told of again once it is recalled, until it is forgotten") {
    WaterBelief before;
    for (int i = 0; i < 8; ++i)
        before.observe({pan,
                        north,
                        today,
                        {{LotId{i % 2 + 1}, 1}},
                        Absorption14{61},
                        Absorption14{i % 2 ? 64.0 : 63.0},
                        Feel::right});
    const auto was = before.let_go(LotId{2});
    WaterBelief after(before.state());
    const std::vector<LotShare> odd{{LotId{2}, 1}};
    CHECK_FALSE(after.was_let_go(LotId{2}));
    CHECK(after.predict(pan, north, odd, today).deviation.value() == 0);
    after.recall(LotId{2}, was);
    CHECK(after.was_let_go(LotId{2}));
    CHECK_FALSE(after.knows(LotId{2}));
    CHECK(after.knows(LotId{1}));
    CHECK(after.predict(pan, north, odd, today).deviation ==
          before.predict(pan, north, odd, today).deviation);
    CHECK(after.predict(pan, north, odd, today).sd == before.predict(pan, north, odd, today).sd);
    after.forget(LotId{2});
    CHECK(after.predict(pan, north, odd, today).deviation.value() == 0);
}

TEST_CASE("Two states are as far apart as the one figure in which they differ") {
    const auto kept = some_state();
    REQUIRE(is_whole(kept));
    CHECK(difference(kept, kept) == 0);
    auto made = kept;
    made.water.groups[3].unknowns.mean[2] += 0.25;
    CHECK(difference(kept, made) == Approx(0.25));
    made = kept;
    made.water.groups[5].unknowns.covariance[4] -= 0.125;
    CHECK(difference(kept, made) == Approx(0.125));
    made = kept;
    made.water.groups[0].weight += 0.5;
    CHECK(difference(kept, made) == Approx(0.5));
    made = kept;
    made.water.operators[1].weights[7] += 0.75;
    CHECK(difference(kept, made) == Approx(0.75));
    made = kept;
    made.mixing.unknowns.mean[0] += 3;
    CHECK(difference(kept, made) == Approx(3));
    made = kept;
    made.mixing.mixers[0].scattered += 2;
    CHECK(difference(kept, made) == Approx(2));
}

TEST_CASE("States that count, expect or ask for something else are not to be compared") {
    const auto kept = some_state();
    const auto differs = [&](auto change) {
        auto made = kept;
        change(made);
        return std::isinf(difference(kept, made)) && std::isinf(difference(made, kept));
    };
    CHECK(differs([](TaughtState& s) { ++s.water.products[0].words; }));
    CHECK(differs([](TaughtState& s) { ++s.water.lines[0].words; }));
    CHECK(differs([](TaughtState& s) { s.water.products[0].met.pop_back(); }));
    CHECK(differs([](TaughtState& s) { s.water.operators.pop_back(); }));
    CHECK(differs([](TaughtState& s) { s.water.expected[0].offset = 0; }));
    CHECK(differs([](TaughtState& s) { s.water.today = today; }));
    CHECK(differs([](TaughtState& s) { ++s.mixing.products[0].batches; }));
    CHECK(differs([](TaughtState& s) { ++s.mixing.mixers[0].far_away; }));
    CHECK(differs([](TaughtState& s) { ++s.mixing.mixers[0].batches; }));
    CHECK(differs([](TaughtState& s) { s.mixing.mixers[0].scattered = std::nan(""); }));
    CHECK(differs([](TaughtState& s) { s.newest.clear(); }));
    CHECK(differs([](TaughtState& s) { s.mixing.unknowns.mean[0] = std::nan(""); }));
}

TEST_CASE("A lot that only one of two states let go does not set them apart, but one that is lost does") {
    Doughs doughs(2);
    WaterBelief all, live;
    for (int i = 0; i < 50; ++i) {
        const auto said = doughs.next();
        all.observe(said);
        live.observe(said);
    }
    live.let_go(LotId{5});
    CHECK(difference({live.state(), {}, {}}, {all.state(), {}, {}}) < 1e-12);
    CHECK(std::isinf(difference({all.state(), {}, {}}, {live.state(), {}, {}})));
}

TEST_CASE("A state in which an unknown has no place, or shares one, is not whole") {
    const auto kept = some_state();
    const auto is_whole_with = [&](auto change) {
        auto changed = kept;
        change(changed);
        return is_whole(changed);
    };
    CHECK_FALSE(is_whole_with([](TaughtState& s) { s.water.lots.begin()->second = 999; }));
    CHECK_FALSE(is_whole_with([](TaughtState& s) { s.water.lots.begin()->second = -1; }));
    CHECK_FALSE(is_whole_with([](TaughtState& s) { s.water.lots.erase(s.water.lots.begin()); }));
    CHECK_FALSE(
        is_whole_with([](TaughtState& s) { s.water.products[0].unknown = s.water.products[1].unknown; }));
    CHECK_FALSE(is_whole_with([](TaughtState& s) { s.water.groups[2].unknowns.covariance.pop_back(); }));
    CHECK_FALSE(is_whole_with([](TaughtState& s) { s.mixing.unknowns.mean.push_back(0); }));
    CHECK_FALSE(is_whole_with([](TaughtState& s) { s.water.groups.pop_back(); }));
    CHECK_FALSE(is_whole_with([](TaughtState& s) { s.water.groups.clear(); }));
    CHECK_FALSE(is_whole_with([](TaughtState& s) { s.water.operators[0].weights.pop_back(); }));
    CHECK(is_whole(TaughtState{}));
}

TEST_CASE("The models' form is a short word, the same whenever it is asked for") {
    CHECK(form_of_taught_state() == form_of_taught_state());
    CHECK(form_of_taught_state().starts_with("doughs-2-"));
    CHECK(form_of_taught_state().size() < 30);
}

TEST_CASE(
    "What the plant says anew of a product opens its offset again; lots and other products keep theirs") {
    WaterBelief belief;
    belief.expect(pan, AbsorptionPoints{2}, true);
    belief.expect(bun, AbsorptionPoints{3}, true);
    for (int i = 0; i < 12; ++i)
        for (const auto product : {pan, bun})
            belief.observe({product,
                            north,
                            today,
                            {{LotId{i % 3 + 1}, 1}},
                            Absorption14{61},
                            Absorption14{i % 3 ? 63.5 : 65.5},
                            Feel::right});
    const std::vector<LotShare> odd{{LotId{1}, 1}};
    const auto of = [&](ProductId product) { return belief.predict(product, north, odd, today); };
    const auto pan_before = of(pan), bun_before = of(bun);
    belief.expect(pan, AbsorptionPoints{6}, false);
    CHECK(belief.expects(pan, AbsorptionPoints{6}, false));
    CHECK(of(pan).offset.value() > 5);
    CHECK(of(pan).offset_sd > pan_before.offset_sd);
    CHECK(of(pan).batches == 0);
    CHECK_FALSE(of(pan).is_assumed); // the plant's own
    CHECK(of(pan).deviation == bun_before.deviation);
    CHECK(of(bun).offset == bun_before.offset);
    CHECK(of(bun).sd == Approx(bun_before.sd));
    CHECK(of(bun).batches == bun_before.batches);
    // From here on it learns as ever.
    for (int i = 0; i < 10; ++i)
        belief.observe({pan, north, today, {{LotId{2}, 1}}, Absorption14{61}, Absorption14{66}, Feel::right});
    CHECK(of(pan).batches == 10);
    CHECK(of(pan).offset_sd < 0.8);
}
