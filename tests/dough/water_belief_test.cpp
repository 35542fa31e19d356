#include "dough/water_belief.h"
#include "dough/water_word.h"
#include "support/catch.h"
#include "support/iso.h"

#include <algorithm>
#include <cmath>
#include <tuple>
#include <utility>
#include <vector>

using namespace mellowbin;
using namespace mellowbin::dough;

namespace {

constexpr ProductId pan{1}, bun{2};
constexpr LineId north{1}, south{2};

Day day(int after) { return day_from_iso("2026-03-01") + Days{after}; }

std::vector<LotShare> all_of(std::int64_t lot) { return {{LotId{lot}, 1}}; }

/// A batch of 62 % flour with this much water beside it.
WaterSaid said(double offset, std::optional<Feel> feel, std::int64_t lot, int after = 0) {
    return {pan, north, day(after), all_of(lot), Absorption14{62}, Absorption14{62 + offset}, feel};
}

WaterLearned of_pan(const WaterBelief& belief, std::int64_t lot, int after = 0) {
    return belief.predict(pan, north, all_of(lot), day(after));
}

} // namespace

TEST_CASE("Before any batch the plant's own offset holds, surer than one that is only assumed") {
    WaterBelief belief;
    belief.expect(pan, AbsorptionPoints{2}, true);
    belief.expect(bun, AbsorptionPoints{3}, false);
    const auto assumed = of_pan(belief, 1);
    CHECK(assumed.offset.value() == Approx(2));
    CHECK(assumed.deviation.value() == Approx(0));
    CHECK(assumed.is_assumed);
    CHECK(assumed.batches == 0);
    const auto own = belief.predict(bun, north, all_of(1), day(0));
    CHECK(own.offset.value() == Approx(3));
    CHECK(!own.is_assumed);
    CHECK(own.offset_sd < assumed.offset_sd);
    CHECK(own.sd == Approx(std::hypot(own.offset_sd, own.deviation_sd)));
}

TEST_CASE("A stiff dough asks for more water next time, a slack one for less, a right one for the same") {
    for (const auto& [feel, lowest, highest] :
         {std::tuple{Feel::stiff, 3.0, 6.0}, {Feel::right, 1.9, 2.1}, {Feel::slack, -2.0, 1.0}}) {
        WaterBelief belief;
        belief.expect(pan, AbsorptionPoints{2}, true);
        REQUIRE(belief.observe(said(2, feel, 1)));
        const auto next = of_pan(belief, 1);
        const double points = next.offset.value() + next.deviation.value();
        CHECK(points > lowest);
        CHECK(points < highest);
        CHECK(next.batches == 1);
        CHECK(!next.is_assumed);
    }
}

TEST_CASE("Word by word the water is believed as a second implementation says, to its last digit") {
    struct Step {
        std::optional<Feel> word;
        double given, mean, sd;
    };
    const auto follow = [](const std::vector<Step>& steps) {
        WaterBelief belief;
        belief.expect(pan, AbsorptionPoints{2}, true);
        CHECK(of_pan(belief, 1).sd == Approx(3.1519).margin(6e-5));
        for (const auto& step : steps) {
            belief.observe(said(step.given, step.word, 1));
            const auto now = of_pan(belief, 1);
            CHECK(now.offset.value() + now.deviation.value() == Approx(step.mean).margin(6e-5));
            CHECK(now.sd == Approx(step.sd).margin(6e-5));
        }
        return belief;
    };
    follow({{Feel::stiff, 2, 5.1285, 1.8593},
            {Feel::stiff, 4, 6.4490, 1.2681},
            {Feel::right, 5, 5.5028, 0.7569}});
    const auto belief =
        follow({{Feel::right, 2, 2.0000, 1.0060}, {{}, 2, 2.0000, 0.9457}, {Feel::slack, 2, 0.8097, 0.7174}});
    const auto next = of_pan(belief, 2, 1);
    CHECK(next.offset.value() + next.deviation.value() == Approx(0.8844).margin(6e-5));
    CHECK(next.sd == Approx(1.3110).margin(6e-5));
}

TEST_CASE("Every batch makes the water surer, and a batch about which nobody spoke hardly does") {
    WaterBelief spoken, silent;
    for (auto* belief : {&spoken, &silent})
        belief->expect(pan, AbsorptionPoints{2}, true);
    double sd = of_pan(spoken, 1).sd;
    for (int i = 0; i < 5; ++i) {
        spoken.observe(said(2.5, Feel::right, 1));
        CHECK(of_pan(spoken, 1).sd < sd);
        sd = of_pan(spoken, 1).sd;
    }
    silent.observe(said(2.5, {}, 1));
    CHECK(of_pan(silent, 1).sd > 2 * sd);
    CHECK(of_pan(silent, 1).batches == 0);
    CHECK(of_pan(silent, 1).is_assumed);
}

TEST_CASE("What one lot alone asks for stays with the lot; what all ask for becomes the product's offset") {
    WaterBelief belief;
    belief.expect(pan, AbsorptionPoints{2}, true);
    for (int lot = 1; lot <= 8; ++lot)
        for (int i = 0; i < 3; ++i)
            belief.observe(said(lot == 5 ? 3.5 : 2, Feel::right, lot, lot));
    CHECK(of_pan(belief, 99, 9).offset.value() == Approx(2.2).margin(0.2));
    CHECK(of_pan(belief, 5, 9).deviation.value() > 0.3);
    CHECK(of_pan(belief, 4, 9).deviation.value() < 0);
    CHECK(of_pan(belief, 99, 9).deviation_sd > of_pan(belief, 5, 9).deviation_sd);
}

TEST_CASE("A blend deviates by the shares of its lots") {
    WaterBelief belief;
    belief.expect(pan, AbsorptionPoints{2}, false);
    for (int i = 0; i < 6; ++i) {
        belief.observe(said(3.2, Feel::right, 1, i));
        belief.observe(said(1.2, Feel::right, 2, i));
    }
    const std::vector<LotShare> blend{{LotId{1}, 0.25}, {LotId{2}, 0.75}};
    const double one = of_pan(belief, 1, 6).deviation.value();
    const double other = of_pan(belief, 2, 6).deviation.value();
    CHECK(belief.predict(pan, north, blend, day(6)).deviation.value() == Approx(0.25 * one + 0.75 * other));
    CHECK(one > other + 1);
}

TEST_CASE("A product on another line begins where it stands on the first, less sure") {
    WaterBelief belief;
    belief.expect(pan, AbsorptionPoints{0}, true);
    for (int i = 0; i < 10; ++i)
        belief.observe(said(3, Feel::right, 1, i));
    const auto there = belief.predict(pan, south, all_of(1), day(10));
    const auto here = of_pan(belief, 1, 10);
    CHECK(there.offset.value() == Approx(3).margin(0.5));
    CHECK(there.offset_sd > here.offset_sd);
    CHECK(there.batches == 0);
    CHECK(!there.is_assumed);
    // and another product knows nothing of it
    CHECK(belief.predict(bun, north, all_of(99), day(10)).offset.value() == 0);
}

TEST_CASE("A year without batches makes an offset unsure again by the drift") {
    const auto spreads = published_water_spreads();
    WaterBelief belief(spreads);
    belief.expect(pan, AbsorptionPoints{2}, false);
    belief.observe(said(2, Feel::right, 1));
    const double then = of_pan(belief, 1).offset_sd;
    const double after = of_pan(belief, 1, 365).offset_sd;
    CHECK(after == Approx(std::hypot(then, spreads.drift)).margin(0.001));
    // a batch said later counts more for it than before
    WaterBelief later = belief;
    later.observe(said(3, Feel::right, 2, 365));
    WaterBelief at_once = belief;
    at_once.observe(said(3, Feel::right, 2));
    CHECK(of_pan(later, 9, 365).offset > of_pan(at_once, 9).offset);
}

TEST_CASE("A slip of the pen moves little and is told to be odd; a dough that stays changed is followed") {
    WaterBelief belief;
    belief.expect(pan, AbsorptionPoints{2}, false);
    for (int i = 0; i < 10; ++i)
        CHECK(belief.observe(said(2, Feel::right, 1, i)));
    const double before = of_pan(belief, 1, 10).offset.value();
    CHECK(!belief.observe(said(9, Feel::stiff, 1, 10)));
    CHECK(of_pan(belief, 1, 10).offset.value() == Approx(before).margin(0.1));
    for (int i = 0; i < 4; ++i) {
        const auto now = of_pan(belief, 1, 11);
        belief.observe(said(now.offset.value() + now.deviation.value(), Feel::stiff, 1, 11));
    }
    const auto now = of_pan(belief, 1, 11);
    CHECK(now.offset.value() + now.deviation.value() > before + 1.5);
}

TEST_CASE("A copy of the belief learns on its own") {
    WaterBelief first;
    first.expect(pan, AbsorptionPoints{2}, true);
    first.observe(said(2, Feel::right, 1));
    WaterBelief second(first);
    second.observe(said(4, Feel::right, 1));
    CHECK(of_pan(first, 1).batches == 1);
    CHECK(of_pan(second, 1).batches == 2);
    CHECK(of_pan(second, 1).offset > of_pan(first, 1).offset);
    first = second;
    CHECK(of_pan(first, 1).offset == of_pan(second, 1).offset);
}

TEST_CASE("The order of a day's batches matters less than what is not known anyhow") {
    std::vector<WaterSaid> batches{said(2, Feel::right, 1), said(2.5, Feel::stiff, 2), said(1.5, {}, 1),
                                   said(3, Feel::slack, 3)};
    WaterBelief forward, backward;
    for (const auto& batch : batches)
        forward.observe(batch);
    std::reverse(batches.begin(), batches.end());
    for (const auto& batch : batches)
        backward.observe(batch);
    for (const std::int64_t lot : {1, 2, 3, 4}) {
        const auto one = of_pan(forward, lot), other = of_pan(backward, lot);
        const double apart = (one.offset + one.deviation - other.offset - other.deviation).value();
        CHECK(std::abs(apart) < 0.5 * std::min(one.sd, other.sd));
    }
}

TEST_CASE("After many words on one dough the belief is near the exact one, summed over every possibility") {
    const auto spreads = published_water_spreads();
    const std::vector<std::pair<double, Feel>> words{
        {2, Feel::stiff}, {4, Feel::slack}, {3, Feel::right}, {3.4, Feel::right}, {2.4, Feel::stiff}};
    WaterBelief belief(spreads);
    belief.expect(pan, AbsorptionPoints{2}, true);
    for (const auto& [given, word] : words)
        belief.observe(said(given, word, 1));
    // the optimum on a grid, for every spread of lots, step of crops and habit of the operator
    double all = 0, first = 0, second = 0;
    constexpr double step = 0.005;
    for (const double lot : spreads.lots)
        for (const bool steps : {false, true})
            for (const auto& band : spreads.bands)
                for (const double noise : spreads.noise) {
                    const auto squared = [](double x) { return x * x; };
                    const double variance = squared(spreads.assumed_offset) + squared(spreads.line) +
                                            squared(lot) + (steps ? squared(spreads.crop_step) : 0);
                    const double prior = band.weight * (steps ? spreads.crop_share : 1 - spreads.crop_share);
                    for (double u = -8; u <= 14; u += step) {
                        double weight =
                            prior * std::exp(-squared(u - 2) / (2 * variance)) / std::sqrt(variance);
                        for (const auto& [given, word] : words)
                            weight *= cut_by_word(given - u, 0, {band.width, noise}, word, spreads.trust)
                                          .likelihood;
                        all += weight;
                        first += weight * u;
                        second += weight * u * u;
                    }
                }
    const double mean = first / all, sd = std::sqrt(second / all - mean * mean);
    const auto told = of_pan(belief, 1);
    CHECK(std::abs((told.offset + told.deviation).value() - mean) < told.sd);
    CHECK(told.sd > 0.9 * sd); // a word at a time is a little less sure than all of them at once, never surer
    CHECK(told.sd < 1.6 * sd);
}
