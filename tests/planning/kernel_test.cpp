#include "planning/evaluate.h"
#include "planning/kernel.h"
#include "planning/plan_lp.h"
#include "small_problems.h"
#include "solver/clp_solver.h"
#include "support/catch.h"

#include <cmath>

using namespace mellowbin::planning;

namespace {

/// One run filled by the kernel, with nothing else asking for the lots.
struct Filled {
    Filled(const Problem& p, int run)
        : tables(make_tables(p)), table(tables.runs[run]), charge(p.lots.size(), 0.0) {
        blend = Kernel{}.best(table, {tables.free_t.data(), nullptr, charge.data()});
        for (const Lock& lock : p.locks)
            if (lock.run == run)
                use[lock.lot] += lock.tonnes;
        for (int i = 0; i < blend.count; ++i)
            use[table.lot[blend.parts[i].candidate]] += blend.parts[i].share * table.fill_t;
    }
    Tables tables;
    const RunTable& table;
    std::vector<double> charge;
    Blend blend;
    Use use;
};

/// What a run's flour costs by the evaluator, as the kernel counts it: with the credit for flour that would
/// expire.
double evaluated(const Problem& p, int run, const Use& use) {
    const RunResult result = evaluate_run(p, run, use, nullptr);
    double credit = 0;
    for (const auto& [l, t] : use)
        if (p.lots[l].use_by_day < p.horizon_days)
            credit += p.weights.waste_per_t * t;
    return result.parts.total() - credit;
}

bool oxidant_is_legal(const Problem& p, int run, const Use& use) {
    double over = 0;
    for (const auto& [l, t] : use)
        over += t * (p.lots[l].mill_oxidant_ppm - p.product_of(run).oxidant_cap_ppm);
    return over <= 1e-6;
}

/// The best of all blends of one or two lots on a grid of shares, for a run without locks that stock can
/// fill.
double best_on_grid(const Problem& p, int run, int steps) {
    const double demand = p.runs[run].demand_t;
    const double least = p.product_of(run).min_share;
    double best = p.weights.short_per_t * demand;
    const auto look = [&](const Use& use) {
        for (const auto& [l, t] : use)
            if (t > p.lots[l].stock_t)
                return;
        if (oxidant_is_legal(p, run, use))
            best = std::min(best, evaluated(p, run, use));
    };
    for (int a = 0; a < p.lot_count(); ++a) {
        if (!p.usable(a, run))
            continue;
        look({{a, demand}});
        for (int b = 0; b < a; ++b)
            for (int s = 0; s <= steps && p.usable(b, run); ++s) {
                const double share = least + (1 - 2 * least) * s / steps;
                look({{a, share * demand}, {b, (1 - share) * demand}});
            }
    }
    return best;
}

/// The best blend by solving one linear programme for each set of lots allowed.
double best_by_enumeration(const Problem& p, const Tables& tables, int run,
                           mellowbin::solver::ClpSolver& clp) {
    double best = 1e100;
    for (unsigned set = 0; set < (1U << p.lot_count()); ++set) {
        Plan support;
        bool fits = true;
        for (int l = 0; l < p.lot_count(); ++l) {
            if ((set >> l & 1U) == 0)
                continue;
            fits = fits && p.usable(l, run);
            support.assignments.push_back({run, l, 1.0});
        }
        if (!fits || static_cast<int>(support.assignments.size()) > p.product_of(run).max_lots)
            continue;
        const TonnesProgram program = polish_program(p, tables, support);
        const LinearResult result = clp.solve(program.program, {});
        if (result.status == LinearStatus::optimal)
            best = std::min(best, result.objective);
    }
    return best;
}

} // namespace

TEST_CASE("The kernel's cost of a blend is the evaluator's") {
    RandomProblems random(11);
    for (int i = 0; i < 60; ++i) {
        Problem p = random.make(6, 1, 1 + i % 4, 0.5 + 0.25 * (i % 8));
        p.runs[0].day = i % 12; // some lots are past their best by then
        const Filled filled(p, 0);
        CHECK(filled.blend.cost == Approx(evaluated(p, 0, filled.use)).margin(1e-6));
    }
}

TEST_CASE("No blend of one or two lots on a fine grid of shares beats the kernel") {
    RandomProblems random(12);
    for (int i = 0; i < 40; ++i) {
        const Problem p = random.make(7, 1, 2, 14.0 + i % 5);
        const Filled filled(p, 0);
        const double grid = best_on_grid(p, 0, 400);
        CHECK(filled.blend.cost <= grid + 1e-6);
        // The grid is fine: if the kernel were far below it, one of the two would count something else.
        CHECK(filled.blend.cost >= grid - 0.02 * std::abs(grid) - 5);
    }
}

TEST_CASE("For one and two lots the kernel finds what a linear programme for every pair finds") {
    RandomProblems random(13);
    mellowbin::solver::ClpSolver clp;
    for (int i = 0; i < 40; ++i) {
        const Problem p = random.make(6, 1, 1 + i % 2, 2.0 + i % 6);
        const Filled filled(p, 0);
        CHECK(filled.blend.cost == Approx(best_by_enumeration(p, filled.tables, 0, clp)).margin(1e-5));
    }
}

TEST_CASE("For three and four lots the kernel is never better than the truth and seldom worse") {
    RandomProblems random(14);
    mellowbin::solver::ClpSolver clp;
    int missed = 0;
    const int cases = 30;
    for (int i = 0; i < cases; ++i) {
        const Problem p = random.make(6, 1, 3 + i % 2, 1.0 + 0.5 * (i % 8));
        const Filled filled(p, 0);
        const double best = best_by_enumeration(p, filled.tables, 0, clp);
        CHECK(filled.blend.cost >= best - 1e-5);
        if (filled.blend.cost > best + 0.01 * std::abs(best) + 1)
            ++missed;
    }
    CHECK(missed <= cases / 10);
}

TEST_CASE("A blend keeps stock, least share, most lots and the oxidant cap, beside locked flour too") {
    RandomProblems random(15);
    for (int i = 0; i < 200; ++i) {
        Problem p = random.make(6, 1, 1 + i % 4, 0.3 + 0.3 * (i % 7));
        if (i % 3 == 0 && p.usable(0, 0))
            p.locks = {{0, 0, std::min(p.lots[0].stock_t, p.runs[0].demand_t / 3)}};
        if (!check(p).empty())
            continue;
        Plan plan;
        for (const auto& [l, t] : Filled(p, 0).use)
            plan.assignments.push_back({0, l, t});
        const Evaluation e = evaluate(p, plan);
        CAPTURE(i);
        for (const Broken& b : e.broken)
            UNSCOPED_INFO(b.words);
        CHECK(e.keeps_the_rules());
    }
}

TEST_CASE("A lot change tips the choice between two equal lots, a price too") {
    const Problem p =
        ProblemMaker{}.lot(good_flour("L1", 10)).lot(good_flour("L2", 10)).run("R1", 0, 5).make();
    const Tables tables = make_tables(p);
    Kernel kernel;
    const auto chosen = [&](std::vector<double> price, std::vector<double> charge) {
        const Blend blend = kernel.best(tables.runs[0], {tables.free_t.data(), price.data(), charge.data()});
        REQUIRE(blend.count == 1);
        return p.lots[tables.runs[0].lot[blend.parts[0].candidate]].id;
    };
    CHECK(chosen({0, 0}, {25, 0}) == "L2");
    CHECK(chosen({0, 0}, {0, 25}) == "L1");
    CHECK(chosen({3, 0}, {0, 0}) == "L2");
    CHECK(chosen({0, 3}, {0, 10}) == "L1");
}

TEST_CASE("Oxidant fills missing maturity only where a mature lot is not there") {
    Problem p = ProblemMaker{}.lot(good_flour("young", 10)).lot(good_flour("old", 3)).run("R1", 0, 5).make();
    p.at(0, 0).maturity_points = 50;
    const Filled filled(p, 0);
    // 60 points are asked for: 3 t of 80 and 2 t of 50 bring 68, so a third of the old lot would do, and
    // costs nothing.
    const RunResult result = evaluate_run(p, 0, filled.use, nullptr);
    CHECK(result.added_oxidant_ppm == Approx(0).margin(1e-9));
    p.lots[1].stock_t = 0;
    const RunResult alone = evaluate_run(p, 0, Filled(p, 0).use, nullptr);
    CHECK(alone.added_oxidant_ppm == Approx(20)); // (60 - 50) points / 0.5 points per ppm
    CHECK(alone.maturity_gap_points == Approx(0).margin(1e-9));
    p.products[0].oxidant = OxidantPolicy::forbidden;
    CHECK(evaluate_run(p, 0, Filled(p, 0).use, nullptr).maturity_gap_points == Approx(10));
}
