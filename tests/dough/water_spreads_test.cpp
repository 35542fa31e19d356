#include "support/catch.h"
#include "support/iso.h"
#include "water_spreads.h"

#include <algorithm>
#include <random>

using namespace mellowbin;
using namespace mellowbin::dough;

namespace {

constexpr std::size_t processes = 4;

/// Offsets drawn with these spreads around 3 points.
std::vector<OffsetSeen> drawn(const OffsetSpreads& truth, int seasons, int flours, unsigned seed) {
    std::mt19937 dice(seed);
    std::normal_distribution<double> normal;
    std::vector<double> process(processes);
    for (auto& one : process)
        one = truth.process * normal(dice);
    std::vector<OffsetSeen> seen;
    for (int season = 0; season < seasons; ++season) {
        const double crop = truth.season * normal(dice);
        for (std::size_t p = 0; p < processes; ++p)
            for (int flour = 0; flour < flours; ++flour)
                seen.push_back(
                    {p, season, AbsorptionPoints{3 + process[p] + crop + truth.flour * normal(dice)}, 0});
    }
    return seen;
}

} // namespace

TEST_CASE("Spreads of seasons and flours are learned from the offsets that were drawn with them") {
    const OffsetSpreads truth{1.5, 0.7, 0.25};
    const auto learned = SeasonedOffsets(drawn(truth, 40, 4, 7)).spreads();
    CHECK(learned.flour == Approx(truth.flour).margin(0.03));
    CHECK(learned.season == Approx(truth.season).margin(0.25));
    CHECK(learned.process > 0.5);
    // and from seasons that hardly differ, a smaller one
    CHECK(SeasonedOffsets(drawn({1.5, 0.1, 0.25}, 40, 4, 7)).spreads().season < 0.5);
}

TEST_CASE("A new season is foretold within the interval of 80 % about four times in five") {
    int inside = 0, all = 0;
    for (unsigned seed = 1; seed <= 40; ++seed) {
        const auto seen = drawn({1.5, 0.7, 0.3}, 9, 2, seed);
        const auto is_last = [](const OffsetSeen& one) { return one.season == 8; };
        std::vector<OffsetSeen> before;
        std::remove_copy_if(seen.begin(), seen.end(), std::back_inserter(before), is_last);
        const SeasonedOffsets learned(before);
        for (const auto& one : seen)
            if (is_last(one)) {
                const auto told = learned.in_a_new_season(one.process);
                const double off = one.offset.value() - told.offset.value();
                inside += std::abs(off) <= 1.2816 * told.sd ? 1 : 0;
                ++all;
            }
    }
    INFO(inside << " of " << all);
    CHECK(inside > 0.72 * all);
    CHECK(inside < 0.92 * all);
}

TEST_CASE("One odd crop widens what is expected of the next, yet hardly moves it") {
    auto seen = drawn({1, 0.4, 0.2}, 8, 3, 11);
    const auto before = SeasonedOffsets(seen).in_a_new_season(0);
    for (std::size_t p = 0; p < processes; ++p)
        seen.push_back({p, 99, AbsorptionPoints{-4}, 0});
    const auto after = SeasonedOffsets(seen).in_a_new_season(0);
    CHECK(after.offset.value() ==
          Approx(before.offset.value()).margin(0.4)); // a plain mean would fall by 0.8
    CHECK(after.offset < before.offset);
    CHECK(after.sd > before.sd);
}

TEST_CASE("A process that was never seen is told by the others, less surely") {
    const SeasonedOffsets learned(drawn({1.5, 0.5, 0.3}, 8, 3, 5));
    const auto unseen = learned.in_a_new_season(77);
    CHECK(unseen.offset.value() == Approx(3).margin(1.5));
    CHECK(unseen.sd > learned.in_a_new_season(0).sd);
    const auto nothing = SeasonedOffsets({}).in_a_new_season(0);
    CHECK(nothing.offset.value() == 0);
    CHECK(nothing.sd > 5);
}

TEST_CASE("With nothing but one flour the assumed spreads hold") {
    const std::vector<OffsetSeen> one{{0, 2026, AbsorptionPoints{3}, 0}};
    const auto learned = SeasonedOffsets(one).spreads();
    const auto assumed = assumed_offset_spreads();
    CHECK(learned.flour > 0.7 * assumed.flour);
    CHECK(learned.season > 0.7 * assumed.season);
    CHECK(learned.process > 0.7 * assumed.process);
}
