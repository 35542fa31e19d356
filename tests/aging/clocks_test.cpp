#include "aging/clocks.h"
#include "support/aging_formulas.h"
#include "support/catch.h"

#include <cmath>

using namespace mellowbin;
using namespace mellowbin::aging;

namespace {

Rates white() { return medians_of(published_priors(FlourClass::white)); }
Rates wholemeal() { return medians_of(published_priors(FlourClass::wholemeal)); }

double matured(double days, double celsius, Air air = Air::breathable_bag) {
    const Piece piece{days, Celsius{celsius}, air};
    return maturity(theta({&piece, 1}, white())).value();
}

} // namespace

TEST_CASE("Maturity never falls and never passes 1") {
    double before = -1;
    for (int days = 0; days <= 2000; days += 10) {
        const double now = matured(days, 20);
        CHECK(now >= before);
        CHECK(now <= 1);
        before = now;
    }
    CHECK(matured(0, 20) == 0);
}

TEST_CASE("The age clock does not saturate: twice the time is twice the age") {
    const Piece year{365, Celsius{20}, Air::breathable_bag};
    const Piece ten_years{3650, Celsius{20}, Air::breathable_bag};
    CHECK(age({&year, 1}, white()) == Approx(1));
    CHECK(age({&ten_years, 1}, white()) == Approx(10));
}

TEST_CASE("Warmth ages wholemeal faster than it matures it") {
    const Piece cool{10, Celsius{20}, Air::breathable_bag};
    const Piece warm{10, Celsius{30}, Air::breathable_bag};
    const double maturing = theta({&warm, 1}, wholemeal()) / theta({&cool, 1}, wholemeal());
    const double ageing = age({&warm, 1}, wholemeal()) / age({&cool, 1}, wholemeal());
    CHECK(maturing == Approx(1.85));
    CHECK(ageing > maturing);
}

TEST_CASE("Above 35 C the clocks run as at 35; downwards they slow without a floor, in the frost too") {
    CHECK(matured(10, 50) == matured(10, 35));
    CHECK(matured(10, 34) < matured(10, 35));
    double before = matured(10, 20);
    for (double t = 19; t >= -30; --t) {
        const double now = matured(10, t);
        CHECK(now < before);
        CHECK(now > 0); // slower, not still: Borsuk et al. 2016
        before = now;
    }
    const Piece frozen{365, Celsius{-18}, Air::breathable_bag}, cool{365, Celsius{0}, Air::breathable_bag};
    CHECK(age({&frozen, 1}, white()) < age({&cool, 1}, white()));
}

TEST_CASE("Below 10 C maturing slows by 2.5 per 10 K, and there is no step where that begins") {
    const auto at = [](double t) { return maturing_speed_at(Celsius{t}, white()); };
    CHECK(at(20) == 1);
    CHECK(at(10) == Approx(1 / 1.85));
    CHECK(at(9.999) == Approx(at(10)).epsilon(1e-3));
    CHECK(at(0) == Approx(at(10) / 2.5));
    CHECK(at(-20) == Approx(at(10) / std::pow(2.5, 3)));
    CHECK(at(15) == Approx(std::pow(1.85, -0.5))); // what was measured stays
}

TEST_CASE("The order in which a lot meets its temperatures does not matter") {
    const Piece there[] = {{5, Celsius{10}, Air::breathable_bag}, {9, Celsius{25}, Air::moved_silo}};
    const Piece back[] = {there[1], there[0]};
    CHECK(theta(there, white()) == Approx(theta(back, white())));
}

TEST_CASE("Flour that begins half mature keeps that lead in proportion") {
    const double t = 1.3;
    CHECK(maturity(t, Maturity{0.5}).value() == Approx(1 - 0.5 * std::exp(-t)));
    CHECK(maturity(0, Maturity{0.5}) == Maturity{0.5});
}

TEST_CASE("theta_for undoes maturity") {
    for (double m : {0.0, 0.2, 0.5, 0.9, 0.999})
        CHECK(maturity(theta_for(Maturity{m})).value() == Approx(m));
}

TEST_CASE("Moisture up to 13.5 % or unknown leaves the whole life, damp flour loses it quickly") {
    CHECK(life_share_at({}, white()) == 1);
    CHECK(life_share_at(Moisture{13.5}, white()) == 1);
    CHECK(life_share_at(Moisture{13.6}, white()) == Approx(1).margin(0.01)); // no jump where the rule begins
    double before = 1;
    for (double m = 13.5; m < 20; m += 0.1) {
        const double now = life_share_at(Moisture{m}, white());
        CHECK(now <= before);
        before = now;
    }
    CHECK(before < 0.05);
}

TEST_CASE("An activation energy and a Q10 say the same") {
    const double joules = activation_energy(1, Celsius{15}, 1.85, Celsius{25});
    CHECK(q10_from_activation_energy(joules, Celsius{15}, Celsius{25}) == Approx(1.85));
    CHECK(arrhenius(2, Celsius{15}, Celsius{25}, joules) == Approx(3.7));
    CHECK(arrhenius(2, Celsius{15}, Celsius{15}, joules) == Approx(2));
}

TEST_CASE("A blend is as mature as the mean of its lots by mass") {
    const BlendShare shares[] = {{Kilograms{300}, Maturity{0.9}}, {Kilograms{100}, Maturity{0.5}}};
    CHECK(blend_maturity(shares).value() == Approx(0.8));
    CHECK(blend_maturity({}).value() == 0);
}
