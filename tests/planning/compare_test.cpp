#include "planning/compare.h"
#include "small_problems.h"
#include "support/catch.h"

using namespace mellowbin;
using namespace mellowbin::planning;

namespace {

Lot with_protein(const std::string& id, double stock_t, double protein) {
    Lot lot = good_flour(id, stock_t);
    lot.values[0] = protein;
    return lot;
}

Problem two_runs() {
    return ProblemMaker{}
        .lot(with_protein("weak", 20, 11.0))
        .lot(with_protein("good", 20, 12.0))
        .run("R1", 0, 6)
        .run("R2", 1, 6)
        .make();
}

bool has(const std::string& words, const std::string& part) { return words.find(part) != std::string::npos; }

} // namespace

TEST_CASE("A plan held against itself moves nothing and gains nothing") {
    const Problem p = two_runs();
    const Plan plan{{{0, 1, 6.0}, {1, 1, 6.0}}};
    const Comparison c = compare(p, plan, p, plan);
    CHECK(c.moved.empty());
    CHECK(c.verdict ==
          "In flour, specification, strength and waste both are alike. No run gets other flour.");
    CHECK(c.before.objective == c.after.objective);
}

TEST_CASE("The figures people ask for are counted by hand alike") {
    Problem p = two_runs();
    p.at(0, 1).maturity_points =
        50; // R2 lacks 10 of 60 points in its weak flour: 20 mg/kg at half a point each
    p.lots[0].best_before_day = 0; // past its best on R2's day
    const Plan plan{{{0, 1, 6.0}, {1, 0, 4.0}}};
    const PlanFigures f = figures_of(p, plan, evaluate(p, plan));
    CHECK(f.planned_t == Approx(10));
    CHECK(f.short_t == Approx(2));
    CHECK(f.short_runs == 1);
    CHECK(f.out_of_window_runs == 1);
    CHECK(f.immature_runs == 0);
    CHECK(f.mean_oxidant_ppm == Approx(4 * 20.0 / 10));
    CHECK(f.past_best_t == Approx(4));
    CHECK(f.wasted_t == 0);
    CHECK(f.lot_changes == 1);
}

TEST_CASE("A better plan says what it gains, and a rise of lot changes as plainly") {
    const Problem p = two_runs();
    const Plan before{{{0, 0, 6.0}, {1, 0, 6.0}}};
    const Plan after{{{0, 0, 3.0}, {0, 1, 3.0}, {1, 1, 6.0}}};
    Problem later = p;
    later.runs[1].prev_on_line = -1;
    const Comparison c = compare(later, before, p, {{{0, 0, 6.0}, {1, 1, 6.0}}});
    CHECK(has(c.verdict, "Better: 1 fewer run outside specification. "));
    CHECK(has(c.verdict, "Lot changes rise from 0 to 1. "));
    CHECK(has(c.verdict, "1 run gets other flour."));
    const Comparison both = compare(p, before, p, after);
    REQUIRE(both.moved.size() == 2);
    CHECK(both.moved[0].words == "protein inside its specification");
    CHECK(both.moved[0].gain > 0);
    CHECK(has(both.verdict, "2 fewer runs outside specification"));
}

TEST_CASE("A worse plan is called worse") {
    const Problem p = two_runs();
    const Comparison c = compare(p, {{{0, 1, 6.0}, {1, 1, 6.0}}}, p, {{{0, 1, 6.0}, {1, 1, 4.5}}});
    CHECK(has(c.verdict, "Worse: 1.5 t more of flour short. "));
    REQUIRE(c.moved.size() == 1);
    CHECK(c.moved[0].after == 1);
    CHECK(c.moved[0].gain < 0);
    CHECK(c.moved[0].words == "1.5 t more would be short");
}

TEST_CASE("Runs and lots are known by their names, however the two problems count them") {
    const Problem p = two_runs();
    Problem other = p;
    std::swap(other.lots[0], other.lots[1]);
    std::swap(other.runs[0], other.runs[1]);
    for (Run& run : other.runs)
        run.prev_on_line = -1;
    const Comparison same = compare(p, {{{0, 1, 6.0}, {1, 0, 6.0}}}, other, {{{1, 0, 6.0}, {0, 1, 6.0}}});
    CHECK(same.moved.empty());
    const Comparison moved = compare(p, {{{0, 1, 6.0}, {1, 0, 6.0}}}, other, {{{1, 1, 6.0}, {0, 0, 6.0}}});
    REQUIRE(moved.moved.size() == 2);
    CHECK(moved.moved[0].after == 0);
    CHECK(moved.moved[0].before == 1);
}

TEST_CASE("A run that only one of the problems has did not move") {
    const Problem p = two_runs();
    const Problem fewer = ProblemMaker{}.lot(with_protein("good", 20, 12.0)).run("R1", 0, 6).make();
    CHECK(compare(p, {{{0, 1, 6.0}, {1, 1, 6.0}}}, fewer, {{{0, 0, 6.0}}}).moved.empty());
}

TEST_CASE("With weights of zero the words of a comparison stay") {
    Problem p = two_runs();
    p.weights = {0, 0, 0, 0, 0, 0, 0, 0, 0};
    const Comparison c = compare(p, {{{0, 0, 6.0}, {1, 1, 6.0}}}, p, {{{0, 1, 6.0}, {1, 1, 3.0}}});
    CHECK(c.before.objective == 0);
    CHECK(has(c.verdict, "1 fewer run outside specification"));
    CHECK(has(c.verdict, "3.0 t more of flour short"));
}

TEST_CASE("What still stands of a plan leaves out what may not stay, and keeps locks") {
    Problem p = ProblemMaker{}
                    .lot(good_flour("L1", 5))
                    .lot(good_flour("L2", 20))
                    .run("R1", 0, 6)
                    .run("R2", 1, 6)
                    .run("R3", 2, 4)
                    .make();
    p.locks = {{2, 0, 2}};
    p.ban(1, 1, Ban::held);
    const Plan plan{{{0, 0, 4.0}, {1, 0, 1.0}, {1, 1, 5.0}, {2, 0, 2.0}, {2, 1, 3.0}}};
    const Plan stands = still_standing(p, plan);
    // L1: 2 t are locked to R3, so R1 keeps 3 of its 4 and R2 nothing; L2 may not go into R2 any more, and R3
    // wants only 2 t beside the lock.
    CHECK(stands.assignments == std::vector<Assignment>{{0, 0, 3.0}, {2, 0, 2.0}, {2, 1, 2.0}});
    CHECK(evaluate(p, stands).keeps_the_rules());
}

TEST_CASE("A plan that holds stands as it is") {
    const Problem p = two_runs();
    const Plan plan{{{0, 0, 3.0}, {0, 1, 3.0}, {1, 1, 6.0}}};
    CHECK(still_standing(p, plan).assignments == plan.assignments);
}
