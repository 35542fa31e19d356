#include "core/silo.h"
#include "support/catch.h"

#include <deque>
#include <random>

using namespace mellowbin;
using Catch::Matchers::Contains;

namespace {

const LotId a{1}, b{2}, c{3};

constexpr MixingZone plug{Grams{0}}, all_mixed{};
MixingZone zone_of(std::int64_t grams) { return {Grams{grams}}; }

Layer layer(LotId lot, std::int64_t grams) { return {lot, Grams{grams}}; }

/// The same draw, in the way it would be done by hand: a step of flour falls into the zone, is stirred in,
/// and a step of the mixture leaves; half a step leaves before and half after it fell, so that the error goes
/// with the square of the step.
std::map<LotId, double> by_hand(std::span<const Layer> layers, const MixingZone& zone, double mass,
                                double step) {
    std::deque<std::pair<LotId, double>> above;
    double total = 0;
    for (const auto& one : layers) {
        above.emplace_back(one.lot, static_cast<double>(one.mass.count()));
        total += above.back().second;
    }
    const double size = zone.mass ? std::min(static_cast<double>(zone.mass->count()), total) : total;
    std::map<LotId, double> held, left;
    const auto fall = [&](double grams) {
        while (grams > 1e-9 && !above.empty()) {
            auto& [lot, there] = above.front();
            const double now = std::min(grams, there);
            held[lot] += now;
            there -= now;
            grams -= now;
            if (there <= 1e-9)
                above.pop_front();
        }
    };
    const auto leave = [&](double grams) {
        double holds = 0;
        for (const auto& [lot, there] : held)
            holds += there;
        for (auto& [lot, there] : held) {
            const double now = there * grams / holds;
            there -= now;
            left[lot] += now;
        }
    };
    fall(size);
    while (mass > 1e-9) {
        const double now = std::min(step, mass);
        if (size <= 1e-9) { // nothing is stirred: what falls is what leaves
            fall(now);
            leave(now);
        } else {
            leave(now / 2);
            fall(now);
            leave(now / 2);
        }
        mass -= now;
    }
    return left;
}

std::map<LotId, double> grams(const std::vector<DrawnPart>& parts) {
    std::map<LotId, double> of;
    for (const auto& part : parts)
        of[part.lot] += static_cast<double>(part.mass.count());
    return of;
}

Grams sum(std::span<const DrawnPart> parts) {
    Grams sum;
    for (const auto& part : parts)
        sum += part.mass;
    return sum;
}

void check_against(const std::map<LotId, double>& expected, const std::vector<DrawnPart>& parts,
                   double tolerance) {
    const auto found = grams(parts);
    for (const auto& [lot, mass] : expected) {
        const auto at = found.find(lot);
        INFO("lot " << lot.number());
        CHECK(std::abs((at == found.end() ? 0 : at->second) - mass) <= tolerance);
    }
    for (const auto& [lot, mass] : found)
        CHECK(expected.contains(lot));
}

} // namespace

TEST_CASE("A silo of first in, first out gives its layers as they lie, and each is surely in the draw") {
    const std::vector layers{layer(a, 300), layer(b, 500), layer(a, 200)};
    CHECK(*drawn(layers, plug, Grams{300}) == std::vector{DrawnPart{a, Grams{300}, Certainty::contains}});
    CHECK(*drawn(layers, plug, Grams{301}) == std::vector{DrawnPart{a, Grams{300}, Certainty::contains},
                                                          DrawnPart{b, Grams{1}, Certainty::contains}});
    CHECK(*drawn(layers, plug, Grams{1000}) == std::vector{DrawnPart{a, Grams{500}, Certainty::contains},
                                                           DrawnPart{b, Grams{500}, Certainty::contains}});
}

TEST_CASE("A silo that is one mixture gives every lot in proportion, and none of them surely") {
    const std::vector layers{layer(a, 300), layer(b, 600), layer(c, 100)};
    CHECK(*drawn(layers, all_mixed, Grams{100}) ==
          std::vector{DrawnPart{a, Grams{30}, Certainty::may_contain},
                      DrawnPart{b, Grams{60}, Certainty::may_contain},
                      DrawnPart{c, Grams{10}, Certainty::may_contain}});
}

TEST_CASE("The grams of a draw add up to it: the largest remainders get what cutting leaves") {
    const std::vector layers{layer(a, 1), layer(b, 1), layer(c, 1)};
    const auto two = *drawn(layers, all_mixed, Grams{2}); // two thirds each: the first two of equal ones
    CHECK(two == std::vector{DrawnPart{a, Grams{1}, Certainty::may_contain},
                             DrawnPart{b, Grams{1}, Certainty::may_contain}});
    CHECK(sum(*drawn(layers, all_mixed, Grams{3})) == Grams{3});
    const std::vector<double> weights{5, 3, 2};
    const std::vector<Grams> most{Grams{1}, Grams{9}, Grams{9}};
    CHECK(shared_out(Grams{9}, weights, most) == std::vector{Grams{1}, Grams{4}, Grams{4}});
}

TEST_CASE("A lot that lies alone in all that mixes is surely in the draw") {
    const std::vector layers{layer(a, 1000), layer(b, 1000)};
    CHECK(*drawn({{layer(a, 50)}}, all_mixed, Grams{20}) ==
          std::vector{DrawnPart{a, Grams{20}, Certainty::contains}});
    CHECK(*drawn(layers, zone_of(400), Grams{600}) ==
          std::vector{DrawnPart{a, Grams{600}, Certainty::contains}});
    const auto reaches = *drawn(layers, zone_of(400), Grams{700});
    REQUIRE(reaches.size() == 2);
    CHECK(reaches[0].certainty == Certainty::may_contain);
    CHECK(reaches[1].certainty == Certainty::may_contain);
}

TEST_CASE("A zone of Z grams washes out by exp(-m/Z) while flour falls in, and empties in proportion then") {
    // 1 000 g of A in the zone, B above: after 1 000 g of B fell in, exp(-1) of A is left.
    const std::vector layers{layer(a, 1000), layer(b, 1000)};
    const auto parts = grams(*drawn(layers, zone_of(1000), Grams{1000}));
    CHECK(parts.at(a) == std::round(1000 * (1 - std::exp(-1.0))));
    CHECK(parts.at(b) == 1000 - parts.at(a));
    // Half of what is in the zone then.
    const auto more = grams(*drawn(layers, zone_of(1000), Grams{1500}));
    CHECK(more.at(a) == std::round(1000 - 500 * std::exp(-1.0)));
}

TEST_CASE(
    "More than lies there, or less than nothing, is refused with what lies there; nothing gives nothing") {
    const std::vector layers{layer(a, 2500)};
    const auto refused = drawn(layers, plug, Grams{2501});
    REQUIRE_FALSE(refused);
    CHECK_THAT(in_words(refused.refusals().front()), Contains("2.501 kg was read, but 2.500 kg lies there"));
    CHECK_FALSE(drawn(layers, plug, Grams{-1}));
    CHECK_FALSE(drawn({}, all_mixed, Grams{1}));
    CHECK(drawn(layers, plug, Grams{0})->empty());
    CHECK(drawn({}, all_mixed, Grams{0})->empty());
}

TEST_CASE("Draws are what a simulation kilogram by kilogram gives, in silos of tonnes") {
    std::mt19937 random(20261201);
    const auto whole = [&](int low, int high) {
        return std::uniform_int_distribution<int>(low, high)(random);
    };
    for (int silo = 0; silo < 60; ++silo) {
        std::vector<Layer> layers;
        std::int64_t total = 0;
        for (int i = whole(1, 6); i > 0; --i) {
            layers.push_back(layer(LotId{whole(1, 4)}, 1000LL * whole(200, 9000)));
            total += layers.back().mass.count();
        }
        const MixingZone zone = silo % 4 == 0   ? plug
                                : silo % 4 == 1 ? all_mixed
                                                : zone_of(1000LL * whole(500, 8000));
        const Grams mass{whole(1, 100) * (total / 100)};
        const auto parts = drawn(layers, zone, mass);
        REQUIRE(parts);
        INFO("silo " << silo << ", " << in_words(zone));
        CHECK(sum(*parts) == mass);
        // A kilogram beside a zone of half a tonne: the scheme's own error is (1/500)^2 / 24 of the zone.
        check_against(by_hand(layers, zone, static_cast<double>(mass.count()), 1000), *parts, 5);
    }
}

TEST_CASE("Draws are what a simulation gram by gram gives, to the gram, in silos of a bucket") {
    std::mt19937 random(7);
    const auto whole = [&](int low, int high) {
        return std::uniform_int_distribution<int>(low, high)(random);
    };
    for (int silo = 0; silo < 200; ++silo) {
        std::vector<Layer> layers;
        std::int64_t total = 0;
        for (int i = whole(1, 5); i > 0; --i) {
            layers.push_back(layer(LotId{whole(1, 3)}, whole(1, 400)));
            total += layers.back().mass.count();
        }
        const MixingZone zone = zone_of(whole(0, 500));
        const Grams mass{whole(0, static_cast<int>(total))};
        const auto parts = *drawn(layers, zone, mass);
        INFO("silo " << silo << ", " << in_words(zone) << ", " << mass.count() << " g");
        CHECK(sum(parts) == mass);
        check_against(by_hand(layers, zone, static_cast<double>(mass.count()), 0.05), parts, 1.0);
    }
}

TEST_CASE("A silo that is drawn in many small lots gives what it gives in one") {
    std::mt19937 random(3);
    for (const auto& zone : {plug, zone_of(250'000), zone_of(900'000), all_mixed}) {
        const std::vector<Layer> start{layer(a, 400'000), layer(b, 700'000), layer(c, 300'000),
                                       layer(a, 500'000)};
        const auto whole = grams(*drawn(start, zone, Grams{1'200'000}));
        auto layers = start;
        std::map<LotId, double> bit_by_bit;
        std::int64_t rest = 1'200'000;
        while (rest > 0) {
            const auto now = std::min<std::int64_t>(rest, 1 + static_cast<std::int64_t>(random() % 40'000));
            const auto parts = *drawn(layers, zone, Grams{now});
            for (const auto& [lot, mass] : grams(parts))
                bit_by_bit[lot] += mass;
            take_out(layers, parts);
            rest -= now;
        }
        INFO(in_words(zone));
        for (const auto& [lot, mass] : whole)
            CHECK(std::abs(bit_by_bit[lot] - mass) <=
                  60); // a gram of cutting a draw at most, and there are 60
    }
}

TEST_CASE("A mixing zone is read as kilograms, none or all, and anything else is refused") {
    CHECK(*read_mixing_zone(" all ") == all_mixed);
    CHECK(*read_mixing_zone("None") == plug);
    CHECK(*read_mixing_zone("2,5") == zone_of(2500));
    CHECK(*read_mixing_zone("0") == plug);
    for (const char* wrong : {"", "much", "-1", "1000001"})
        CHECK_FALSE(read_mixing_zone(wrong));
    CHECK(in_words(zone_of(2'500'000)) == "its lowest 2500 kg are one mixture");
}
