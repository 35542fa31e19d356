#include "dough/water_belief.h"
#include "support/catch.h"
#include "support/iso.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <random>

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
         {std::tuple{Feel::stiff, 2.5, 3.1}, {Feel::right, 1.9, 2.1}, {Feel::slack, 0.9, 1.5}}) {
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
    CHECK(of_pan(belief, 5, 9).deviation.value() > 0.8);
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

TEST_CASE("A slip of the pen is passed over; a dough that stays changed is believed at its third batch") {
    WaterBelief belief;
    belief.expect(pan, AbsorptionPoints{2}, false);
    for (int i = 0; i < 10; ++i)
        belief.observe(said(2, Feel::right, 1, i));
    const double before = of_pan(belief, 1, 10).offset.value();
    CHECK(!belief.observe(said(9, Feel::right, 1, 10)));
    CHECK(of_pan(belief, 1, 10).offset.value() == before);
    CHECK(belief.observe(said(2, Feel::right, 1, 10)));
    CHECK(!belief.observe(said(9, Feel::right, 1, 11)));
    CHECK(!belief.observe(said(9, Feel::right, 1, 11)));
    CHECK(belief.observe(said(9, Feel::right, 1, 11)));
    const auto now = of_pan(belief, 1, 11);
    CHECK(now.offset.value() + now.deviation.value() > 8);
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

TEST_CASE("On one day the order of batches does not matter") {
    std::vector<WaterSaid> batches{said(2, Feel::right, 1), said(2.5, Feel::stiff, 2), said(1.5, {}, 1),
                                   said(3, Feel::slack, 3)};
    WaterBelief forward, backward;
    for (const auto& batch : batches)
        forward.observe(batch);
    std::reverse(batches.begin(), batches.end());
    for (const auto& batch : batches)
        backward.observe(batch);
    for (const std::int64_t lot : {1, 2, 3, 4}) {
        CHECK(of_pan(forward, lot).offset.value() == Approx(of_pan(backward, lot).offset.value()));
        CHECK(of_pan(forward, lot).deviation.value() == Approx(of_pan(backward, lot).deviation.value()));
        CHECK(of_pan(forward, lot).sd == Approx(of_pan(backward, lot).sd));
    }
}

TEST_CASE("The belief is that of all batches at once, solved as one set of equations") {
    const auto spreads = published_water_spreads();
    WaterBelief belief(spreads);
    belief.expect(pan, AbsorptionPoints{2}, true);
    // unknowns: the product's offset, the line's, four lots
    Eigen::MatrixXd precision = Eigen::MatrixXd::Zero(6, 6);
    Eigen::VectorXd pull = Eigen::VectorXd::Zero(6);
    precision(0, 0) = 1 / (spreads.assumed_offset * spreads.assumed_offset);
    pull(0) = 2 * precision(0, 0);
    precision(1, 1) = 1 / (spreads.line * spreads.line);
    for (int lot = 0; lot < 4; ++lot)
        precision(2 + lot, 2 + lot) = 1 / (spreads.lot * spreads.lot);
    std::mt19937 dice(5);
    std::normal_distribution<double> points(2.5, 0.4);
    for (int i = 0; i < 25; ++i) {
        const int one = i % 4, other = (i + 1) % 4;
        const double share = 0.2 + 0.1 * (i % 5), offset = points(dice);
        REQUIRE(belief.observe({pan,
                                north,
                                day(0),
                                {{LotId{one + 1}, share}, {LotId{other + 1}, 1 - share}},
                                Absorption14{61},
                                Absorption14{61 + offset},
                                Feel::right}));
        Eigen::VectorXd row = Eigen::VectorXd::Zero(6);
        row(0) = row(1) = 1;
        row(2 + one) = share;
        row(2 + other) = 1 - share;
        const double weight = 1 / (spreads.batch * spreads.batch);
        precision += weight * row * row.transpose();
        pull += weight * offset * row;
    }
    const Eigen::MatrixXd covariance = precision.inverse();
    const Eigen::VectorXd mean = covariance * pull;
    const auto told = of_pan(belief, 3);
    CHECK(told.offset.value() == Approx(mean(0) + mean(1)));
    CHECK(told.deviation.value() == Approx(mean(4)));
    Eigen::VectorXd sum = Eigen::VectorXd::Zero(6);
    sum(0) = sum(1) = sum(4) = 1;
    CHECK(told.sd == Approx(std::sqrt(sum.dot(covariance * sum))));
}
