// Lots that lie one on another in a silo: what a plan says is what would come.

#include "planning/make_plan.h"
#include "planning/open_plan.h"
#include "planning/reasons.h"
#include "planning/replan.h"
#include "small_problems.h"
#include "solver/clp_solver.h"
#include "support/catch.h"

#include <cmath>

using namespace mellowbin;
using namespace mellowbin::planning;

namespace {

Outcome plan_of(const Problem& p, std::int64_t steps = 400, std::uint64_t seed = 1) {
    solver::ClpSolver clp;
    return make_plan(p, clp, {steps, BoundProof::leave_out, seed, 0, 1}, nullptr, {});
}

/// The chain as a heap, a run after the other, each drawing from the bottom as many tonnes as the plan has of
/// the chain's lots for it. The greatest difference, in tonnes, between what comes of a lot and what was
/// planned.
double off_the_heap(const Problem& p, const Plan& plan, const std::vector<int>& chain) {
    const auto uses = uses_of(p, plan);
    std::vector<double> heap;
    for (const int l : chain)
        heap.push_back(p.lots[l].stock_t);
    double off = 0;
    for (const int r : in_date_order(p)) {
        double asked = 0;
        for (const int l : chain)
            if (const auto at = uses[r].find(l); at != uses[r].end())
                asked += at->second;
        for (std::size_t k = 0; k < chain.size(); ++k) {
            const double comes = std::min(heap[k], asked);
            heap[k] -= comes;
            asked -= comes;
            const auto at = uses[r].find(chain[k]);
            off = std::max(off, std::abs(comes - (at == uses[r].end() ? 0 : at->second)));
        }
    }
    return off;
}

/// L1 lies below L2 in a silo; L3 lies in a bay.
ProblemMaker silo_and_bay(double below, double above) {
    ProblemMaker maker;
    maker.lot(good_flour("L1", below)).lot(good_flour("L2", above)).lot(good_flour("L3", 20));
    maker.p.chains = {{0, 1}};
    return maker;
}

double tonnes_of(const Plan& plan, int run, int lot) {
    double t = 0;
    for (const auto& a : plan.assignments)
        if (a.run == run && a.lot == lot)
            t += a.tonnes;
    return t;
}

int broken_orders(const Problem& p, const Plan& plan) {
    int count = 0;
    for (const auto& broken : evaluate(p, plan).broken)
        count += broken.rule == Rule::drawing_order ? 1 : 0;
    return count;
}

} // namespace

TEST_CASE("What lies above is drawn once what lies below it is, by runs before or by the run itself") {
    const Problem p = silo_and_bay(4, 10).run("R1", 0, 4).run("R2", 1, 3).make();
    CHECK(broken_orders(p, {{{0, 0, 4.0}, {1, 1, 3.0}}}) == 0);
    CHECK(broken_orders(p, {{{0, 0, 2.0}, {0, 2, 2.0}, {1, 0, 2.0}, {1, 1, 1.0}}}) == 0);
    const Plan too_soon{{{0, 0, 3.0}, {0, 2, 1.0}, {1, 1, 3.0}}};
    CHECK(broken_orders(p, too_soon) == 1);
    CHECK_FALSE(evaluate(p, too_soon).keeps_the_rules());
    CHECK(evaluate(p, too_soon).broken.front().words == "L2 lies above L1, of which 1.000 t are left in R2");
    CHECK(broken_orders(p, {{{0, 1, 4.0}, {1, 0, 3.0}}}) == 1);        // the other way about
    CHECK(broken_orders(p, {{{0, 0, 4.0 - 1e-5}, {1, 1, 3.0}}}) == 0); // what is cut to whole grams
}

TEST_CASE("A lock out of its order is the lock's doing, and a frozen run is not judged") {
    Problem p = silo_and_bay(4, 10).run("R1", 0, 4).run("R2", 1, 3).make();
    p.locks = {{1, 1, 3}};
    const Plan plan{{{0, 2, 4.0}, {1, 1, 3.0}}};
    CHECK(broken_orders(p, plan) == 1);
    CHECK(evaluate(p, plan).keeps_the_rules());
    p.runs[1].state = RunState::frozen;
    CHECK(broken_orders(p, plan) == 0);
}

TEST_CASE("A run that comes to the end of a lot gets the next one with it, in whatever share") {
    Problem p = silo_and_bay(0.3, 10).run("R1", 0, 6).make();
    p.lots[2].stock_t = 0;
    p.products[0].min_share = 0.2; // 0.3 of 6 t is less
    const auto outcome = plan_of(p);
    CHECK(outcome.evaluation.short_t < 1e-6);
    CHECK(tonnes_of(outcome.plan, 0, 0) == Approx(0.3));
    CHECK(tonnes_of(outcome.plan, 0, 1) == Approx(5.7));
    CHECK(outcome.evaluation.keeps_the_rules());
}

TEST_CASE("A better lot above is not planned before what lies below it is drawn") {
    Problem p = silo_and_bay(5, 10).run("R1", 0, 4).run("R2", 1, 4).make();
    p.lots[0].values[0] = 11.0; // below the window, by one half width
    p.lots[2].stock_t = 0;
    const auto outcome = plan_of(p);
    CHECK(tonnes_of(outcome.plan, 0, 1) == 0);
    CHECK(tonnes_of(outcome.plan, 0, 0) == Approx(4));
    CHECK(tonnes_of(outcome.plan, 1, 0) == Approx(1));
    CHECK(tonnes_of(outcome.plan, 1, 1) == Approx(3));
    CHECK(outcome.faults.empty());
    p.chains.clear(); // in bays
    CHECK(plan_of(p).evaluation.objective < outcome.evaluation.objective - 100);
}

TEST_CASE("A lot that no run may use keeps all that lies above it in its place") {
    Problem p = silo_and_bay(5, 10).run("R1", 0, 4).make();
    p.ban(0, 0, Ban::held);
    const auto outcome = plan_of(p);
    CHECK(tonnes_of(outcome.plan, 0, 2) == Approx(4));
}

TEST_CASE("Plans of random problems with silos draw what the silos would give") {
    RandomProblems random(20'261'201);
    double off = 0;
    for (int i = 0; i < 40; ++i) {
        Problem p = random.make(9, 12, 2 + random.whole(3), 0.9 + 0.1 * random.whole(6));
        p.chains = {{2, 5, 1}, {7, 3}};
        if (i % 3 == 0)
            p.chains = {{8, 7, 6, 5, 4, 3}};
        const auto outcome = plan_of(p, 300, static_cast<std::uint64_t>(i));
        INFO(i);
        CHECK(outcome.faults.empty());
        CHECK(outcome.evaluation.keeps_the_rules());
        for (const auto& chain : p.chains)
            off = std::max(off, off_the_heap(p, outcome.plan, chain));
    }
    CHECK(off < 1e-4);
}

TEST_CASE("A plan that is mended keeps the order in which silos give their flour") {
    RandomProblems random(7);
    int mended = 0;
    for (int i = 0; i < 25; ++i) {
        Problem p = random.make(9, 12, 2, 1.3);
        p.chains = {{2, 5, 1}, {7, 3}};
        const auto before = plan_of(p, 200).plan;
        for (int r = 0; r < p.run_count(); ++r)
            p.ban(4, r, Ban::held);
        const auto touched = touched_runs(p, before);
        if (touched.empty())
            continue;
        ++mended;
        solver::ClpSolver clp;
        const Mending mending{touched, 20, 40, {200, BoundProof::leave_out, 1, 0, 1}};
        const auto outcome = mend_plan(p, before, clp, mending, nullptr, {});
        INFO(i);
        CHECK(outcome.evaluation.keeps_the_rules());
        for (const auto& chain : p.chains)
            CHECK(off_the_heap(p, outcome.plan, chain) < 1e-4);
    }
    CHECK(mended > 10);
}

TEST_CASE("No choice of half tonnes that a silo can give is better than the plan by a hundredth") {
    RandomProblems random(99);
    for (int i = 0; i < 6; ++i) {
        Problem p = silo_and_bay(1.5 + 0.5 * random.whole(4), 3)
                        .run("R1", 0, 2)
                        .run("R2", 1, 2)
                        .run("R3", 2, 2)
                        .make();
        p.lots[2].stock_t = 2;
        p.products[0].min_share = 0;
        for (auto& lot : p.lots)
            lot.values = {random.between(11, 13), random.between(0.5, 0.7)};
        for (auto& cell : p.table)
            cell.maturity_points = random.between(40, 80);
        double best = 1e100;
        constexpr int halves = 4; // of a run
        // How many half tonnes each run draws from the silo and from the bay; the rest stays short.
        for (int code = 0; code < 25 * 25 * 25; ++code) {
            Plan plan;
            double below = p.lots[0].stock_t;
            double above = p.lots[1].stock_t;
            double bay = p.lots[2].stock_t;
            bool is_possible = true;
            for (int r = 0, left = code; r < 3; ++r, left /= 25) {
                const double silo_t = 0.5 * (left % 25 / 5);
                const double bay_t = 0.5 * (left % 25 % 5);
                const double low = std::min(below, silo_t);
                below -= low;
                above -= silo_t - low;
                bay -= bay_t;
                is_possible = is_possible && above >= 0 && bay >= 0 && silo_t + bay_t <= 0.5 * halves;
                for (const auto& [lot, t] : {std::pair{0, low}, {1, silo_t - low}, {2, bay_t}})
                    if (t > 0)
                        plan.assignments.push_back({r, lot, t});
            }
            if (!is_possible)
                continue;
            const auto evaluation = evaluate(p, plan);
            if (evaluation.keeps_the_rules())
                best = std::min(best, evaluation.objective);
        }
        INFO(i);
        CHECK(plan_of(p, 2000).evaluation.objective <= 1.01 * best + 1e-6);
    }
}

TEST_CASE("A chain that names a lot twice or none of the list is refused") {
    Problem p = silo_and_bay(4, 10).run("R1", 0, 4).make();
    p.chains = {{0, 1}, {1, 2}};
    CHECK_FALSE(check(p).empty());
    p.chains = {{0, 7}};
    CHECK_FALSE(check(p).empty());
    p.chains = {{0, 1}};
    CHECK(check(p).empty());
}
