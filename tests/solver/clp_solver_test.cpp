#include "exchange/instance.h"
#include "glpsol.h"
#include "planning/make_plan.h"
#include "planning/plan_lp.h"
#include "planning/small_problems.h"
#include "solver/clp_solver.h"
#include "solver/plan_and_bound.h"
#include "support/catch.h"

#include <chrono>
#include <fstream>
#include <sstream>
#include <thread>

using namespace mellowbin;
using namespace mellowbin::planning;

namespace {

/// A textbook case: two products of a plant with three machines; 3 a + 5 b is greatest at (2, 6), worth 36,
/// and an hour of the machines is worth 0, 1.5 and 1.
LinearProgram two_products() {
    LinearProgram lp;
    const int a = lp.add_column(-3, 0, unbounded, "a");
    const int b = lp.add_column(-5, 0, unbounded, "b");
    lp.add(lp.add_row(-unbounded, 4, "m1"), a, 1);
    lp.add(lp.add_row(-unbounded, 12, "m2"), b, 2);
    const int third = lp.add_row(-unbounded, 18, "m3");
    lp.add(third, a, 3);
    lp.add(third, b, 2);
    return lp;
}

LinearResult solved(const LinearProgram& lp) {
    solver::ClpSolver clp;
    return clp.solve(lp, {});
}

/// Polish and bound of a problem, solved by both.
void compare(const Problem& p) {
    const Glpsol glpsol;
    const Tables tables = make_tables(p);
    solver::ClpSolver clp;
    const Outcome outcome = make_plan(p, clp, {300, BoundProof::leave_out, 1, 0, 1}, nullptr, {});
    const auto check_one = [&](const TonnesProgram& tonnes) {
        const LinearResult ours = clp.solve(tonnes.program, {});
        REQUIRE(ours.status == LinearStatus::optimal);
        const auto theirs = glpsol.optimum(tonnes.program);
        REQUIRE(theirs);
        CHECK(ours.objective + tonnes.constant ==
              Approx(*theirs + tonnes.constant).epsilon(1e-6).margin(1e-6));
        return ours;
    };
    const TonnesProgram polish = polish_program(p, tables, outcome.plan);
    const LinearResult polished = check_one(polish);
    // The programme's objective is the evaluator's, but for the lot changes.
    const Evaluation e = evaluate(p, polish.plan_of(p, polished.x));
    CHECK(e.keeps_the_rules());
    CHECK(polished.objective + polish.constant + e.parts.lot_changes ==
          Approx(e.objective).epsilon(1e-6).margin(1e-3));
    const TonnesProgram bound = bound_program(p, tables);
    const LinearResult proven = check_one(bound);
    CHECK(proven.objective + bound.constant <= e.objective - e.parts.lot_changes + 1e-3);
    // Its tonnes, judged by the evaluator, cost what the programme says.
    const Evaluation free = evaluate(p, bound.plan_of(p, proven.x));
    CHECK(proven.objective + bound.constant ==
          Approx(free.objective - free.parts.lot_changes).epsilon(1e-6).margin(1e-2));
}

} // namespace

TEST_CASE("A textbook programme is solved, with what each row is worth") {
    const LinearResult result = solved(two_products());
    REQUIRE(result.status == LinearStatus::optimal);
    CHECK(result.objective == Approx(-36));
    CHECK(result.x[0] == Approx(2));
    CHECK(result.x[1] == Approx(6));
    CHECK(result.row_duals[0] == Approx(0).margin(1e-9));
    CHECK(result.row_duals[1] == Approx(-1.5));
    CHECK(result.row_duals[2] == Approx(-1));
}

TEST_CASE("What cannot be met and what has no end are told apart") {
    LinearProgram lp = two_products();
    lp.add(lp.add_row(5, unbounded, "more"), 0, 1);
    CHECK(solved(lp).status == LinearStatus::infeasible);
    LinearProgram endless;
    endless.add_column(-1, 0, unbounded, "x");
    endless.add(endless.add_row(0, unbounded, "r"), 0, 1);
    CHECK(solved(endless).status == LinearStatus::without_bound);
    CHECK(solved(LinearProgram{}).status == LinearStatus::optimal);
}

TEST_CASE("The exported text says the same programme to a second solver") {
    if (!Glpsol::is_installed()) {
        WARN("skipped: glpsol is not installed");
        return;
    }
    const Glpsol glpsol;
    CHECK(glpsol.optimum(two_products()).value() == Approx(-36));
    LinearProgram bounds = two_products();
    bounds.columns[0].lower = -unbounded;
    bounds.columns[1] = {-5, -2.5, 1e-7, "b"};
    bounds.rows[2].lower = -7.25; // ranged
    CHECK(glpsol.optimum(bounds).value() == Approx(solved(bounds).objective));
    bounds.rows[0] = {-1, -1, "m1"}; // an equation
    CHECK(glpsol.optimum(bounds).value() == Approx(solved(bounds).objective));
    bounds.rows[0] = {100, 100, "m1"};
    CHECK_FALSE(glpsol.optimum(bounds));
}

TEST_CASE("Polish and bound agree with a second solver on random problems, and with the evaluator") {
    if (!Glpsol::is_installed()) {
        WARN("skipped: glpsol is not installed");
        return;
    }
    RandomProblems random(41);
    for (int i = 0; i < 8; ++i) {
        Problem p = random.make(8, 10, 2 + i % 3, 0.7 + 0.1 * i);
        if (i % 2 == 1)
            for (int r = 0; r < 3; ++r)
                if (p.usable(r, r))
                    p.locks.push_back({r, r, std::min(0.3 * p.lots[r].stock_t, 0.4 * p.runs[r].demand_t)});
        if (!check(p).empty())
            continue;
        CAPTURE(i);
        compare(p);
    }
}

TEST_CASE(
    "Polish and bound agree with a second solver where runs are frozen, locked, urgent or take one lot a "
    "batch") {
    if (!Glpsol::is_installed()) {
        WARN("skipped: glpsol is not installed");
        return;
    }
    RandomProblems random(44);
    int batches = 0;
    int locks = 0;
    for (int i = 0; i < 10; ++i) {
        const Problem p = random.make_with_every_rule(6, 8, 0.7 + 0.1 * i);
        for (int r = 0; r < p.run_count(); ++r)
            batches += p.product_of(r).one_lot_a_batch ? 1 : 0;
        locks += static_cast<int>(p.locks.size());
        CAPTURE(i);
        compare(p);
    }
    CHECK(batches > 0);
    CHECK(locks > 0);
}

TEST_CASE("What stays of a plan is not in the programme that moves the rest, and its flour is not either") {
    if (!Glpsol::is_installed()) {
        WARN("skipped: glpsol is not installed");
        return;
    }
    RandomProblems random(45);
    const Glpsol glpsol;
    solver::ClpSolver clp;
    for (int i = 0; i < 4; ++i) {
        const Problem p = random.make_with_every_rule(6, 8, 0.9);
        const Tables tables = make_tables(p);
        const Plan plan = make_plan(p, clp, {0, BoundProof::leave_out, 1, 0, 1}, nullptr, {}).plan;
        const std::vector<int> open = {1, 3, 5};
        const TonnesProgram tonnes = polish_program(p, tables, plan, &open);
        const LinearResult ours = clp.solve(tonnes.program, {});
        REQUIRE(ours.status == LinearStatus::optimal);
        CHECK(ours.objective == Approx(glpsol.optimum(tonnes.program).value()).epsilon(1e-6).margin(1e-6));
        const Plan after = tonnes.plan_of(p, ours.x);
        CHECK(evaluate(p, after).keeps_the_rules());
        const std::vector<Use> had = uses_of(p, plan);
        const std::vector<Use> has = uses_of(p, after);
        for (const int r : {0, 2, 4, 6, 7})
            CHECK(had[r] == has[r]);
    }
}

TEST_CASE("Polish and bound agree with a second solver on the reference instances") {
    const std::filesystem::path data = MELLOWBIN_REFERENCE_DATA;
    if (data.empty() || !std::filesystem::exists(data / "plan") || !Glpsol::is_installed()) {
        WARN("skipped: no reference data, or glpsol is not installed");
        return;
    }
    for (const char* name : {"S-1.json", "M-1.json"}) {
        std::ifstream file(data / "plan" / name);
        std::stringstream text;
        text << file.rdbuf();
        const auto p = exchange::read_instance(text.str());
        REQUIRE(p);
        compare(*p);
    }
}

TEST_CASE("A stop is obeyed in the middle of a programme") {
    RandomProblems random(42);
    const Problem p = random.make(60, 120, 3, 1.0);
    const TonnesProgram bound = bound_program(p, make_tables(p));
    solver::ClpSolver clp;
    std::stop_source stop;
    std::jthread asks([&] {
        std::this_thread::sleep_for(std::chrono::milliseconds(5));
        stop.request_stop();
    });
    const LinearResult result = clp.solve(bound.program, stop.get_token());
    CHECK(result.status == LinearStatus::stopped); // it takes some 0.2 s to the end
    asks.join();
    CHECK(clp.solve(bound.program, stop.get_token()).status == LinearStatus::stopped);
}

TEST_CASE("The bound proven beside the plan is the one proven after it, and the plan is the same") {
    RandomProblems random(43);
    const Problem p = random.make(12, 16, 3, 1.0);
    solver::ClpSolver clp;
    const Outcome after = make_plan(p, clp, {}, nullptr, {});
    Progress progress;
    const Outcome beside = solver::plan_and_bound(p, {}, &progress, {});
    CHECK(beside.plan.assignments == after.plan.assignments);
    CHECK(beside.bound.value() == Approx(after.bound.value()));
    CHECK(progress.bound == beside.bound.value());
    CHECK(progress.stage == Stage::done);
    CHECK_FALSE(solver::plan_and_bound(p, {100, BoundProof::leave_out, 1, 0, 1}, nullptr, {}).bound);
    std::stop_source stop;
    stop.request_stop();
    const Outcome stopped = solver::plan_and_bound(p, {}, nullptr, stop.get_token());
    CHECK(stopped.ending == Ending::stopped);
    CHECK_FALSE(stopped.bound);
}
