#include "dough/dose_response.h"
#include "support/catch.h"

#include <algorithm>
#include <cmath>
#include <random>
#include <string>

using namespace mellowbin;
using namespace mellowbin::dough;

namespace {

constexpr OxidantPpm plenty{1000};

Ladder ladder(std::int64_t lot, std::vector<std::pair<double, double>> loaves) {
    Ladder ladder{LotId{lot}, {}};
    for (const auto& [dose, size] : loaves)
        ladder.loaves.push_back({OxidantPpm{dose}, size});
    return ladder;
}

/// A flour whose loaves are largest at `best`: a parabola in the root of the dose, so that it rises fast and
/// falls slowly.
double true_size(double dose, double best, double gain = 90) {
    const double off = std::sqrt(dose) - std::sqrt(best);
    return 850 + gain * (1 - off * off / best);
}

/// Loaves of such a flour, with a scatter of 12 ml.
class Bakery {
public:
    explicit Bakery(unsigned seed) : generator_(seed) {}

    double bake(double dose, double best) { return true_size(dose, best) + scatter_(generator_); }
    Ladder ladder_of(std::int64_t lot, double best, const std::vector<double>& doses) {
        Ladder made{LotId{lot}, {}};
        for (const double dose : doses)
            made.loaves.push_back({OxidantPpm{dose}, bake(dose, best)});
        return made;
    }
    double uniform(double from, double to) { return std::uniform_real_distribution<>(from, to)(generator_); }

private:
    std::mt19937 generator_;
    std::normal_distribution<> scatter_{0, 12};
};

/// Eight lots, best between these doses, five loaves each.
std::vector<Ladder> eight_lots(Bakery& bakery, double from = 10, double to = 20) {
    std::vector<Ladder> ladders;
    for (std::int64_t lot = 1; lot <= 8; ++lot)
        ladders.push_back(bakery.ladder_of(lot, bakery.uniform(from, to), {0, 10, 20, 30, 40}));
    return ladders;
}

double width(const BestDose& best) { return (best.high - best.low).value(); }

const std::vector<std::pair<double, double>> hump{{0, 800}, {10, 870}, {20, 880}, {30, 850}, {40, 790}};

} // namespace

TEST_CASE("An optimum inside the ladder is found, with the decline beyond it") {
    const DoseResponse response(std::vector{ladder(1, hump)});
    const auto best = response.best_dose(LotId{1}, plenty);
    CHECK(best.dose.value() == Approx(17).margin(3));
    CHECK(best.low < best.dose);
    CHECK(best.dose < best.high);
    CHECK(best.high.value() < 30);
    CHECK(best.loaves == 5);
    CHECK(best.lots == 1);
    CHECK(!best.is_at_the_end);
    CHECK(!best.is_cut_by_law);
    CHECK(best.gain == Approx(80).margin(15));
    CHECK(best.gain_low > 0);
    CHECK(best.gain_high > best.gain);
    const auto curve = response.curve(LotId{1}, 5);
    REQUIRE(curve.size() == 5);
    CHECK(curve.back().dose.value() == 40);
    CHECK(curve.back().likely < curve[2].likely - 50);
    CHECK(curve[2].low < curve[2].likely);
}

TEST_CASE("A loaf that keeps growing is not followed past the highest dose baked, and the answer says so") {
    const DoseResponse response(
        std::vector{ladder(1, {{0, 800}, {20, 850}, {40, 890}, {60, 930}, {80, 960}})});
    const auto best = response.best_dose(LotId{1}, plenty);
    CHECK(best.dose.value() == 80);
    CHECK(best.high.value() == 80);
    CHECK(best.highest_baked.value() == 80);
    CHECK(best.is_at_the_end);
}

TEST_CASE("What law and house leave cuts the dose, whatever the loaves would like") {
    const DoseResponse response(std::vector{ladder(1, hump)});
    const auto best = response.best_dose(LotId{1}, OxidantPpm{8});
    CHECK(best.dose.value() == 8);
    CHECK(best.high.value() <= 8);
    CHECK(best.is_cut_by_law);
    CHECK(!response.best_dose(LotId{1}, OxidantPpm{25}).is_cut_by_law);
    const auto none = response.best_dose(LotId{1}, OxidantPpm{0});
    CHECK(none.dose.value() == 0);
    CHECK(none.gain == 0);
}

TEST_CASE("A lot is never told more than its own highest dose, though others were baked higher") {
    Bakery bakery(3);
    auto ladders = eight_lots(bakery);
    ladders.push_back(ladder(9, {{0, 850}, {10, 900}}));
    const auto best = DoseResponse(ladders).best_dose(LotId{9}, plenty);
    CHECK(best.highest_baked.value() == 10);
    CHECK(best.high.value() <= 10);
}

TEST_CASE("The lots behind it narrow the interval of a lot with two loaves") {
    Bakery bakery(5);
    auto ladders = eight_lots(bakery);
    const auto two = bakery.ladder_of(9, 14, {0, 40});
    const auto alone = DoseResponse(std::vector{two}).best_dose(LotId{9}, plenty);
    ladders.push_back(two);
    const auto pooled = DoseResponse(ladders).best_dose(LotId{9}, plenty);
    CHECK(pooled.loaves == 2);
    CHECK(pooled.lots == 9);
    CHECK(width(pooled) < 0.7 * width(alone));
    CHECK(pooled.low.value() <= 14);
    CHECK(pooled.high.value() >= 14);
}

TEST_CASE("A lot of two loaves leans on the others, one with twenty of its own stands by itself") {
    Bakery bakery(7);
    const auto needing_little = eight_lots(bakery, 8, 11);
    const auto needing_much = eight_lots(bakery, 24, 30);
    const auto few = bakery.ladder_of(9, 15, {0, 40});
    std::vector<double> doses;
    for (int i = 0; i < 4; ++i)
        for (const double dose : {0.0, 10.0, 20.0, 30.0, 40.0})
            doses.push_back(dose);
    const auto many = bakery.ladder_of(9, 15, doses);
    const auto best = [&](std::vector<Ladder> others, const Ladder& own) {
        others.push_back(own);
        return DoseResponse(others).best_dose(LotId{9}, plenty).dose.value();
    };
    const double few_moved = best(needing_much, few) - best(needing_little, few);
    const double many_moved = best(needing_much, many) - best(needing_little, many);
    INFO(few_moved << " of two, " << many_moved << " of twenty");
    CHECK(few_moved > 3);
    CHECK(std::abs(many_moved) < few_moved / 2);
    CHECK(best(needing_much, many) == Approx(15).margin(4));
}

TEST_CASE("A lot without a loaf has what the others have in common, and a wide interval") {
    Bakery bakery(11);
    const DoseResponse response(eight_lots(bakery));
    const auto unknown = response.best_dose(LotId{77}, plenty);
    CHECK(unknown.loaves == 0);
    CHECK(unknown.lots == 8);
    CHECK(unknown.highest_baked.value() == 40);
    CHECK(unknown.dose.value() > 9);
    CHECK(unknown.dose.value() < 21);
    CHECK(width(unknown) > width(response.best_dose(LotId{1}, plenty)));
}

TEST_CASE("One loaf or two tell little, and the interval is as wide as what was baked") {
    const auto one = DoseResponse(std::vector{ladder(1, {{20, 800}})}).best_dose(LotId{1}, plenty);
    CHECK(one.low.value() == 0);
    CHECK(one.high.value() == 20);
    CHECK(one.is_at_the_end);
    const auto two = DoseResponse(std::vector{ladder(1, {{0, 800}, {20, 805}})}).best_dose(LotId{1}, plenty);
    CHECK(width(two) > 15);
    CHECK(two.gain_low < 0);
}

TEST_CASE("Untreated loaves alone permit no dose, and a first one to bake is named") {
    const DoseResponse response(std::vector{ladder(1, {{0, 800}, {0, 812}})});
    const auto best = response.best_dose(LotId{1}, plenty);
    CHECK(best.dose.value() == 0);
    CHECK(best.is_at_the_end);
    const auto next = response.next_doses(LotId{1}, plenty);
    REQUIRE(!next.empty());
    CHECK(next.front().dose.value() == 10);
    CHECK(response.next_doses(LotId{1}, OxidantPpm{6}).front().dose.value() == 6);
}

TEST_CASE("Ladders need no common doses, and several of one lot are taken together") {
    const DoseResponse whole(std::vector{ladder(1, hump), ladder(2, {{5, 810}, {17, 860}, {33, 825}})});
    const DoseResponse parts(std::vector{ladder(2, {{33, 825}}), ladder(1, hump), ladder(3, {}),
                                         ladder(2, {{5, 810}, {17, 860}})});
    const auto best = whole.best_dose(LotId{2}, plenty);
    CHECK(best.loaves == 3);
    CHECK(best.lots == 2);
    CHECK(parts.best_dose(LotId{2}, plenty).dose == best.dose);
    CHECK(parts.best_dose(LotId{2}, plenty).lots == 2);
    CHECK(DoseResponse({}).knows_nothing());
    CHECK(DoseResponse(std::vector{ladder(3, {})}).knows_nothing());
    CHECK(!parts.knows_nothing());
}

TEST_CASE("Doses ten times as high and sizes a tenth give the same answer, restated") {
    Bakery bakery(13);
    const auto ladders = eight_lots(bakery);
    auto restated = ladders;
    for (auto& one : restated)
        for (auto& loaf : one.loaves)
            loaf = {loaf.dose * 10, loaf.size / 10};
    const DoseResponse here(ladders);
    const DoseResponse there(restated);
    const auto a = here.best_dose(LotId{4}, OxidantPpm{35});
    const auto b = there.best_dose(LotId{4}, OxidantPpm{350});
    CHECK(b.dose.value() == Approx(10 * a.dose.value()));
    CHECK(b.low.value() == Approx(10 * a.low.value()));
    CHECK(b.high.value() == Approx(10 * a.high.value()));
    CHECK(b.gain == Approx(a.gain / 10));
    CHECK(there.loaf_scatter() == Approx(here.loaf_scatter() / 10));
    const auto next = here.next_doses(LotId{4}, OxidantPpm{35});
    CHECK(there.next_doses(LotId{4}, OxidantPpm{350}).front().dose.value() ==
          Approx(10 * next.front().dose.value()));
}

TEST_CASE("The scatter of loaves is learned from the loaves") {
    Bakery bakery(17);
    CHECK(DoseResponse(eight_lots(bakery)).loaf_scatter() == Approx(12).margin(5));
}

TEST_CASE("The next dose is never above what is permitted, nor more than a step above what was baked") {
    Bakery bakery(19);
    const DoseResponse response(eight_lots(bakery));
    double highest = 0;
    for (const auto& next : response.next_doses(LotId{1}, plenty))
        highest = std::max(highest, next.dose.value());
    CHECK(highest == 50);
    for (const auto& next : response.next_doses(LotId{1}, OxidantPpm{23}))
        CHECK(next.dose.value() <= 23);
}

TEST_CASE("Where loaves still grow at the end, the step above is what teaches most") {
    const DoseResponse response(
        std::vector{ladder(1, {{0, 800}, {20, 850}, {40, 890}, {60, 930}, {80, 960}})});
    const auto next = response.next_doses(LotId{1}, plenty);
    CHECK(next.front().dose.value() == 100);
    CHECK(next.front().interval_expected < next.front().interval_now);
    CHECK(next.front().gain_expected > 0);
    CHECK(response.next_doses(LotId{1}, OxidantPpm{80}).front().dose.value() <= 80);
}

TEST_CASE(
    "The dose said to teach most narrows the interval in fact, and more than the one said to teach least") {
    double before = 0;
    double told = 0;
    double least = 0;
    for (unsigned seed = 0; seed < 8; ++seed) {
        Bakery bakery(100 + seed);
        auto ladders = eight_lots(bakery);
        const double best = bakery.uniform(10, 20);
        ladders.push_back(bakery.ladder_of(9, best, {0, 40}));
        const DoseResponse now(ladders);
        const auto next = now.next_doses(LotId{9}, plenty);
        const auto after = [&](double dose) {
            auto more = ladders;
            more.push_back(bakery.ladder_of(9, best, {dose}));
            return width(DoseResponse(more).best_dose(LotId{9}, plenty));
        };
        before += width(now.best_dose(LotId{9}, plenty));
        told += after(next.front().dose.value());
        least += after(next.back().dose.value());
    }
    INFO(before / 8 << " before, " << told / 8 << " after the dose told, " << least / 12
                    << " after the last");
    CHECK(told < 0.95 * before);
    CHECK(told < least);
}

TEST_CASE("The 80 % interval holds the true optimum of four lots in five, or a little more") {
    int held = 0;
    int asked = 0;
    for (unsigned seed = 0; seed < 10; ++seed) {
        Bakery bakery(200 + seed);
        std::vector<Ladder> ladders;
        std::vector<double> best;
        for (std::int64_t lot = 1; lot <= 8; ++lot) {
            best.push_back(bakery.uniform(8, 25));
            ladders.push_back(bakery.ladder_of(lot, best.back(), {0, 10, 20, 30, 40}));
        }
        const DoseResponse response(ladders);
        for (std::int64_t lot = 1; lot <= 8; ++lot, ++asked) {
            const auto told = response.best_dose(LotId{lot}, plenty);
            const double truly = best[static_cast<std::size_t>(lot - 1)];
            held += told.low.value() <= truly && truly <= told.high.value() ? 1 : 0;
        }
    }
    INFO(held << " of " << asked);
    CHECK(held >= 0.7 * asked);
    CHECK(held <= 0.98 * asked);
}

namespace {

/// Loaves of a flour that likes 30 mg/kg when it is fresh and so much less when it is mature, of each lot at
/// two maturities or at one.
std::vector<Ladder> ladders_of_maturing_lots(double fall, bool at_two_ages, unsigned seed) {
    Bakery bakery(seed);
    std::vector<Ladder> ladders;
    for (std::int64_t lot = 1; lot <= 6; ++lot) {
        Ladder made{LotId{lot}, {}};
        const double fresh = bakery.uniform(28, 36);
        const auto bake_at = [&](double maturity, int day) {
            for (const double dose : {0.0, 10.0, 20.0, 30.0, 45.0})
                made.loaves.push_back({OxidantPpm{dose}, bakery.bake(dose + fall * maturity, fresh),
                                       Maturity{maturity}, Day{Days{day}}});
        };
        bake_at(bakery.uniform(0.2, 0.4), static_cast<int>(lot));
        if (at_two_ages)
            bake_at(bakery.uniform(0.8, 0.95), static_cast<int>(lot) + 40);
        ladders.push_back(made);
    }
    return ladders;
}

MaturityRange surely(double maturity) { return {Maturity{maturity}, Maturity{maturity}, Maturity{maturity}}; }

} // namespace

TEST_CASE("As a lot matures its dose falls by the starting guess where no ladder says more, with its "
          "range") {
    const DoseResponse response(ladders_of_maturing_lots(6, false, 31),
                                assumed_fall(Substance::ascorbic_acid));
    const double at = response.baked_at(LotId{1})->value();
    const auto baked = response.best_dose(LotId{1}, plenty, surely(at));
    const auto later = response.best_dose(LotId{1}, plenty, surely(at + 0.5));
    CHECK(baked.fallen.likely == Approx(0).margin(0.01));
    CHECK(later.when_baked.value() == Approx(baked.dose.value()));
    CHECK(later.fallen.likely == Approx(3).margin(1.5)); // 6 mg/kg from fresh to mature
    CHECK(later.dose.value() == Approx(baked.dose.value() - later.fallen.likely));
    CHECK(later.fallen.low >= 0);
    CHECK(later.fallen.low < later.fallen.likely);
    CHECK(later.fallen.high > 1.5 * later.fallen.likely);
    CHECK(later.baked_at->value() == at);
    CHECK(later.dosed_at->value() == Approx(at + 0.5));
    CHECK(later.fallen.high < 12);
}

TEST_CASE(
    "Lots baked at two ages teach the plant's own fall of the dose, be it more or less than was assumed") {
    int held = 0;
    const auto taught = [&](double fall) {
        double sum = 0;
        for (const unsigned seed : {37U, 38U}) {
            const DoseResponse response(ladders_of_maturing_lots(fall, true, seed),
                                        assumed_fall(Substance::ascorbic_acid));
            const auto told = response.fall();
            CHECK(response.maturity_baked_over() > 0.4);
            held += told.low <= fall && fall <= told.high ? 1 : 0;
            sum += told.likely / 2;
        }
        return sum;
    };
    const double little = taught(3);
    const double usual = taught(6);
    const double much = taught(15);
    INFO(little << " of 3, " << usual << " of 6, " << much << " of 15; " << held << " held");
    CHECK(little < 0.85 * usual);
    CHECK(much > 1.4 * usual);
    CHECK(held >= 4);
}

TEST_CASE("The assumed fall of ascorbic acid is 6 mg/kg, 1.5 to 20 in 95 of 100; of others only the doses "
          "baked tell") {
    const auto ascorbic = assumed_fall(Substance::ascorbic_acid);
    CHECK(ascorbic.likely == 6);
    CHECK(6 * std::exp(1.96 * ascorbic.spread) == Approx(20).epsilon(0.1));
    CHECK(6 * std::exp(-1.96 * ascorbic.spread) == Approx(1.5).epsilon(0.15));
    CHECK(assumed_fall(Substance::potassium_bromate).likely == 0);
    const auto ladders = std::vector{ladder(1, hump)};
    const auto other = DoseResponse(ladders, assumed_fall(Substance::potassium_bromate)).fall();
    CHECK(other.likely == Approx(0.15 * 40).epsilon(0.05));
    CHECK(other.high / other.low >
          DoseResponse(ladders, ascorbic).fall().high / DoseResponse(ladders, ascorbic).fall().low);
}

TEST_CASE("What law leaves is all of it where mature flour likes more, and a ladder that still rose is not "
          "followed past "
          "its end") {
    auto young = ladder(1, hump);
    for (auto& loaf : young.loaves)
        loaf.maturity = Maturity{0.3};
    const auto fall = assumed_fall(Substance::ascorbic_acid);
    const auto cut = DoseResponse(std::vector{young}, fall).best_dose(LotId{1}, OxidantPpm{8}, surely(0.8));
    CHECK(cut.dose.value() == 8); // some 17 when it was baked, 14 now
    CHECK(cut.is_cut_by_law);
    auto rising = ladder(1, {{0, 800}, {20, 850}, {40, 890}, {60, 930}, {80, 960}});
    for (auto& loaf : rising.loaves)
        loaf.maturity = Maturity{0.3};
    const auto open = DoseResponse(std::vector{rising}, fall).best_dose(LotId{1}, plenty, surely(0.8));
    CHECK(open.when_baked.value() == 80);
    CHECK(open.dose.value() <= 80);
    CHECK(open.dose.value() > 65);
    CHECK(open.fallen.likely >= 0);
    CHECK(open.high.value() == 80); // where it ends is not known
    CHECK(open.is_at_the_end);
}

TEST_CASE("Of a lot whose maturity at its bakes nobody knows, no fall is told") {
    const DoseResponse response(std::vector{ladder(1, hump)}, assumed_fall(Substance::ascorbic_acid));
    const auto now = response.best_dose(LotId{1}, plenty, surely(0.9));
    CHECK(!now.dosed_at);
    CHECK(now.fallen.likely == 0);
    CHECK(now.dose == response.best_dose(LotId{1}, plenty).dose);
}

TEST_CASE("A day whose oven bakes everything larger is not taken for a fall of the dose") {
    auto ladders = ladders_of_maturing_lots(6, true, 41);
    for (auto& one : ladders)
        for (auto& loaf : one.loaves)
            if (loaf.baked_on >= Day{Days{40}})
                loaf.size *= 1.04;
    const auto fall = DoseResponse(ladders, assumed_fall(Substance::ascorbic_acid)).fall();
    INFO(fall.low << " " << fall.likely << " " << fall.high);
    CHECK(fall.low < 6);
    CHECK(fall.high > 6);
    CHECK(fall.likely < 14);
}
