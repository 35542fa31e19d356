// A lot that is used up is let go: nothing that is believed of all else may change by it, and what is carried
// along stays as large as what is live.
#include "core/promised.h"
#include "dough/water_belief.h"
#include "support/catch.h"
#include "support/iso.h"

#include <algorithm>
#include <cmath>
#include <random>

using namespace mellowbin;
using namespace mellowbin::dough;

namespace {

constexpr int all_products = 3, all_lines = 2;

/// A plant whose lots come, go into doughs of up to three lots as the dice fall, and are used up.
class DicedPlant {
public:
    explicit DicedPlant(unsigned seed) : dice_(seed) {}

    /// The next dough; `used_up` are then the lots of which it took the last.
    WaterSaid mix() {
        while (stock_.size() < in_stock)
            stock_.push_back({LotId{++newest_}, up_to(12), points(0.6)});
        std::shuffle(stock_.begin(), stock_.end(), dice_);
        WaterSaid said{ProductId{up_to(all_products)},
                       LineId{up_to(all_lines)},
                       day_,
                       {},
                       Absorption14{61},
                       {},
                       std::nullopt};
        double optimum = 2 + static_cast<double>(said.product.number());
        double all = 0;
        for (int i = up_to(3); i-- > 0;) {
            said.lots.push_back({stock_[i].lot, static_cast<double>(up_to(5))});
            all += said.lots.back().share;
        }
        for (std::size_t i = 0; i < said.lots.size(); ++i) {
            said.lots[i].share /= all;
            optimum += said.lots[i].share * stock_[i].deviation;
            --stock_[i].doughs;
        }
        const double given = optimum + points(1);
        said.given = Absorption14{61 + given};
        if (up_to(4) > 1)
            said.feel = given < optimum - 1 ? Feel::stiff : given > optimum + 1 ? Feel::slack : Feel::right;
        used_up.clear();
        for (const auto& lot : stock_)
            if (lot.doughs == 0)
                used_up.push_back(lot.lot);
        std::erase_if(stock_, [](const Stock& lot) { return lot.doughs == 0; });
        day_ += Days{up_to(4) / 4};
        return said;
    }
    [[nodiscard]] Day day() const { return day_; }

    static constexpr std::size_t in_stock = 8;
    std::vector<LotId> used_up;

private:
    struct Stock {
        LotId lot;
        int doughs; ///< that it reaches for
        double deviation;
    };
    int up_to(int most) { return std::uniform_int_distribution(1, most)(dice_); }
    double points(double spread) { return std::normal_distribution(0.0, spread)(dice_); }

    std::mt19937 dice_;
    std::vector<Stock> stock_;
    std::int64_t newest_ = 0;
    Day day_ = day_from_iso("2026-03-01");
};

double difference(const WaterLearned& one, const WaterLearned& other) {
    CHECK(one.batches == other.batches);
    CHECK(one.is_assumed == other.is_assumed);
    return std::max({std::abs((one.offset - other.offset).value()), std::abs(one.offset_sd - other.offset_sd),
                     std::abs((one.deviation - other.deviation).value()),
                     std::abs(one.deviation_sd - other.deviation_sd), std::abs(one.sd - other.sd)});
}

/// The largest difference in any offset, in any lot that was not let go, and in what any two of them have in
/// common: of a blend of both the spread tells it.
double largest_difference(const WaterBelief& everything, const WaterBelief& live, Day day) {
    auto lots = live.lots();
    lots.push_back(LotId{1'000'000}); // that nobody has seen
    double largest = 0;
    for (int product = 1; product <= all_products; ++product)
        for (int line = 1; line <= all_lines; ++line)
            for (const auto one : lots)
                for (const auto other : lots) {
                    std::vector<LotShare> shares{{one, 1}};
                    if (one != other)
                        shares = {{one, 0.3}, {other, 0.7}};
                    const auto of = [&](const WaterBelief& belief) {
                        return belief.predict(ProductId{product}, LineId{line}, shares, day);
                    };
                    largest = std::max(largest, difference(of(everything), of(live)));
                }
    return largest;
}

} // namespace

TEST_CASE("Letting go of lots that are used up changes nothing of what is believed of all others") {
    for (unsigned seed = 1; seed <= 12; ++seed) {
        DicedPlant plant(seed);
        WaterBelief everything, live;
        for (auto* belief : {&everything, &live})
            belief->expect(ProductId{1}, AbsorptionPoints{3}, false);
        for (int batch = 1; batch <= 300; ++batch) {
            const auto said = plant.mix();
            REQUIRE(everything.observe(said) == live.observe(said));
            for (const auto lot : plant.used_up)
                live.let_go(lot);
            if (batch % 50 == 0) {
                INFO("seed " << seed << ", batch " << batch);
                CHECK(largest_difference(everything, live, plant.day()) < 1e-9);
            }
        }
        CHECK(everything.lots().size() > 5 * live.lots().size());
    }
}

TEST_CASE("Of hundreds of lots those left are believed of as beside all the others") {
    DicedPlant plant(77);
    WaterBelief everything, live;
    while (everything.lots().size() < 250) {
        const auto said = plant.mix();
        everything.observe(said);
        live.observe(said);
        for (const auto lot : plant.used_up)
            live.let_go(lot);
    }
    CHECK(largest_difference(everything, live, plant.day()) < 1e-9);
}

TEST_CASE("Over thousands of lots a belief stays as large as what is live") {
    DicedPlant plant(3);
    WaterBelief belief;
    std::size_t largest = 0, used_up = 0;
    while (used_up < 3000) {
        belief.observe(plant.mix());
        for (const auto lot : plant.used_up)
            belief.let_go(lot);
        used_up += plant.used_up.size();
        largest = std::max(largest, belief.unknowns());
    }
    CHECK(largest <= DicedPlant::in_stock + all_products + all_products * all_lines);
    CHECK(belief.unknowns() == belief.lots().size() + all_products + all_products * all_lines);
}

TEST_CASE("A lot that was let go is told of as it was believed to be then") {
    constexpr ProductId pan{1};
    constexpr LineId north{1};
    const Day day = day_from_iso("2026-03-01");
    const std::vector<LotShare> odd{{LotId{1}, 1}}, half_odd{{LotId{1}, 0.5}, {LotId{2}, 0.5}};
    WaterBelief belief;
    belief.expect(pan, AbsorptionPoints{2}, false);
    for (int i = 0; i < 12; ++i) {
        const std::int64_t lot = 1 + i % 3;
        belief.observe({pan,
                        north,
                        day,
                        {{LotId{lot}, 1}},
                        Absorption14{62},
                        Absorption14{lot == 1 ? 65.5 : 64},
                        Feel::right});
    }
    const auto of = [&](const std::vector<LotShare>& lots) { return belief.predict(pan, north, lots, day); };
    const auto then = of(odd);
    CHECK(then.deviation.value() > 0.5);
    CHECK_FALSE(belief.was_let_go(LotId{1}));

    belief.let_go(LotId{1});
    CHECK(belief.was_let_go(LotId{1}));
    CHECK_FALSE(belief.was_let_go(LotId{2}));
    CHECK(of(odd).deviation.value() == Approx(then.deviation.value()));
    CHECK(of(odd).deviation_sd == Approx(then.deviation_sd));
    CHECK(of(odd).offset == then.offset);
    // What the lot and the offset had in common is not known any more: never surer than before.
    CHECK(of(odd).sd == Approx(std::hypot(then.offset_sd, then.deviation_sd)));
    CHECK(of(half_odd).deviation.value() ==
          Approx(0.5 * then.deviation.value() + 0.5 * of({{LotId{2}, 1}}).deviation.value()));
    // Letting go of others, in whatever order, and more batches leave it so; a copy knows it too.
    belief.let_go(LotId{3});
    belief.let_go(LotId{2});
    belief.observe({pan, north, day, {{LotId{4}, 1}}, Absorption14{62}, Absorption14{64}, Feel::right});
    const WaterBelief copy = belief;
    CHECK(copy.predict(pan, north, odd, day).deviation == then.deviation);
    CHECK(copy.lots() == std::vector{LotId{4}});
}

TEST_CASE("Of a thousand lots let go one after another the offset keeps what they told") {
    constexpr ProductId pan{1};
    constexpr LineId north{1};
    const Day day = day_from_iso("2026-03-01");
    WaterBelief belief;
    belief.expect(pan, AbsorptionPoints{0}, true);
    for (int lot = 1; lot <= 1000; ++lot) {
        belief.observe({pan,
                        north,
                        day + Days{lot / 10},
                        {{LotId{lot}, 1}},
                        Absorption14{62},
                        Absorption14{64},
                        Feel::right});
        belief.let_go(LotId{lot});
    }
    const std::vector<LotShare> next{{LotId{1001}, 1}};
    const auto learned = belief.predict(pan, north, next, day + Days{100});
    CHECK(learned.offset.value() == Approx(2).margin(0.05));
    const auto spreads = published_water_spreads();
    CHECK(learned.deviation_sd > spreads.lots.front());
    CHECK(learned.deviation_sd < spreads.lots.back());
}

TEST_CASE("A batch of a lot that was let go is a fault of ours, and teaches nothing half") {
    const Day day = day_from_iso("2026-03-01");
    const WaterSaid said{ProductId{1},     LineId{1},        day,        {{LotId{2}, 0.5}, {LotId{1}, 0.5}},
                         Absorption14{62}, Absorption14{64}, Feel::right};
    WaterBelief belief;
    belief.observe(said);
    belief.let_go(LotId{1});
    const auto before = belief.predict(ProductId{1}, LineId{1}, said.lots, day);
    CHECK_THROWS_AS(belief.observe(said), BrokenPromise);
    CHECK_THROWS_AS(belief.let_go(LotId{1}), BrokenPromise);
    CHECK_THROWS_AS(belief.let_go(LotId{7}), BrokenPromise);
    CHECK(belief.predict(ProductId{1}, LineId{1}, said.lots, day).offset == before.offset);
}
