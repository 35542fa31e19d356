// The evaluator against figures worked out by hand.

#include "planning/evaluate.h"
#include "small_problems.h"
#include "support/catch.h"

using namespace mellowbin::planning;

namespace {

/// One run of 6 t in batches of 2 t, each of one lot: protein 11.5 to 12.5, 60 points of maturity.
Problem one_lot_a_batch() {
    Problem p = ProblemMaker{}.lot(good_flour("L1", 10)).lot(good_flour("L2", 10)).run("R1", 0, 6).make();
    p.products[0].one_lot_a_batch = true;
    p.runs[0].batch_t = 2;
    return p;
}

bool breaks(const Evaluation& e, Rule rule, Cause cause) {
    for (const Broken& broken : e.broken)
        if (broken.rule == rule && broken.cause == cause)
            return true;
    return false;
}

} // namespace

TEST_CASE("With one lot a batch nothing evens out: each lot is outside its specification by itself") {
    Problem p = one_lot_a_batch();
    p.lots[0].values[0] = 11.2;
    p.lots[1].values[0] = 12.9;
    const Plan plan{{{0, 0, 4.0}, {0, 1, 2.0}}};
    const Evaluation e = evaluate(p, plan);
    // 4 t are 0.3 below and 2 t are 0.4 above, in half widths of 0.5: (4·0.6 + 2·0.8)·400.
    CHECK(e.parts.windows == Approx(400 * (4 * 0.6 + 2 * 0.8)));
    CHECK(e.runs[0].off_window[0] == Approx((2 * 0.4 - 4 * 0.3) / 6));
    CHECK(e.runs[0].blend[0] == Approx((4 * 11.2 + 2 * 12.9) / 6)); // what the run takes in the mean
    CHECK(e.broken.empty());
    p.products[0].one_lot_a_batch = false; // blended: 11.767, inside
    CHECK(evaluate(p, plan).parts.windows == 0);
}

TEST_CASE("With one lot a batch an old lot does not make up for a young one") {
    Problem p = one_lot_a_batch();
    p.at(0, 0).maturity_points = 90;
    p.at(1, 0).maturity_points = 50; // 10 points missing, 20 ppm at half a point each
    const Plan plan{{{0, 0, 4.0}, {0, 1, 2.0}}};
    CHECK(evaluate(p, plan).parts.oxidant == Approx(60 * 2 * 20.0 / 100));
    CHECK(evaluate(p, plan).runs[0].added_oxidant_ppm == Approx(2 * 20.0 / 6));
    p.products[0].oxidant = OxidantPolicy::forbidden;
    CHECK(evaluate(p, plan).parts.oxidant == 0);
    CHECK(evaluate(p, plan).parts.maturity == Approx(300 * 2 * 10.0 / 10));
    CHECK(evaluate(p, plan).runs[0].maturity_gap_points == Approx(2 * 10.0 / 6));
    p.products[0].one_lot_a_batch = false;
    CHECK(evaluate(p, plan).parts.maturity == 0);
}

TEST_CASE("With one lot a batch the mill's oxidant is under the cap in each lot, not in the mean") {
    Problem p = one_lot_a_batch();
    p.lots[1].mill_oxidant_ppm = 120; // 40 in the mean, 100 allowed
    const Plan plan{{{0, 0, 4.0}, {0, 1, 2.0}}};
    CHECK(breaks(evaluate(p, plan), Rule::oxidant_cap, Cause::plan));
    p.products[0].one_lot_a_batch = false;
    CHECK(evaluate(p, plan).broken.empty());
}

TEST_CASE("Parts of a batch break a rule, unless a lock says so") {
    Problem p = one_lot_a_batch();
    CHECK(evaluate(p, {{{0, 0, 4.0}}}).broken.empty());
    CHECK(breaks(evaluate(p, {{{0, 0, 3.0}}}), Rule::whole_batches, Cause::plan));
    CHECK_FALSE(evaluate(p, {{{0, 0, 3.0}}}).keeps_the_rules());
    p.locks = {{0, 0, 3}};
    CHECK(breaks(evaluate(p, {{{0, 0, 3.0}}}), Rule::whole_batches, Cause::lock));
    CHECK(evaluate(p, {{{0, 0, 3.0}}}).keeps_the_rules());
}

TEST_CASE("A tonne short counts by the urgency of its run") {
    Problem p = ProblemMaker{}.lot(good_flour("L1", 10)).run("R1", 0, 6).run("R2", 1, 4).make();
    p.runs[1].urgency = 2.5;
    const Evaluation e = evaluate(p, {{{0, 0, 5.0}, {1, 0, 1.0}}});
    CHECK(e.short_t == Approx(1 + 3));
    CHECK(e.parts.shortage == Approx(5000 * (1 + 2.5 * 3)));
    CHECK(e.runs[1].parts.shortage == Approx(5000 * 2.5 * 3));
    CHECK(e.objective == Approx(e.parts.shortage + e.parts.age));
}
