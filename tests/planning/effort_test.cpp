// How much work a plan takes: the same again, on threads, stopped, watched; and what a plan makes of poor
// input.

#include "planning/make_plan.h"
#include "planning/open_plan.h"
#include "planning/replan.h"
#include "small_problems.h"
#include "solver/clp_solver.h"
#include "support/catch.h"
#include "support/first_expiring.h"

#include <cmath>
#include <set>

using namespace mellowbin;
using namespace mellowbin::planning;

namespace {

Problem scarce() {
    RandomProblems random(61);
    return random.make(9, 12, 3, 0.95);
}

Outcome plan_of(const Problem& p, const Effort& effort, Progress* progress = nullptr) {
    solver::ClpSolver clp;
    return make_plan(p, clp, effort, progress, {});
}

/// Asks for the end when it is asked for its n-th programme, and gives nothing from then on.
class StopsAt final : public LinearSolver {
public:
    StopsAt(std::stop_source& source, const Progress& progress, int call)
        : source_(source), progress_(progress), call_(call) {}
    LinearResult solve(const LinearProgram& program, std::stop_token stop) override {
        if (--call_ == 0) {
            steps_then = progress_.steps;
            best_then = progress_.best_objective;
            source_.request_stop();
        }
        return clp_.solve(program, stop);
    }
    std::int64_t steps_then = -1;
    double best_then = 0;

private:
    std::stop_source& source_;
    const Progress& progress_;
    int call_;
    solver::ClpSolver clp_;
};

} // namespace

TEST_CASE(
    "The same steps and seed give the same plan, on one thread and on two; another seed walks elsewhere") {
    const Problem p = scarce();
    std::set<double> found;
    for (const int threads : {1, 2}) {
        const Effort effort{256, BoundProof::leave_out, 7, 0, threads};
        const Outcome one = plan_of(p, effort);
        const Outcome two = plan_of(p, effort);
        CAPTURE(threads);
        CHECK(one.plan.assignments == two.plan.assignments);
        CHECK(one.evaluation.objective == two.evaluation.objective);
        CHECK(one.steps == two.steps);
        CHECK(one.steps >= 256 * threads);
        CHECK(one.faults.empty());
    }
    for (const std::uint64_t seed : {1, 2, 3, 4})
        found.insert(plan_of(p, {128, BoundProof::leave_out, seed, 0, 1}).evaluation.objective);
    CHECK(found.size() > 1);
}

TEST_CASE("A watcher reads the steps, the best and the end") {
    const Problem p = scarce();
    Progress progress;
    const Outcome outcome = plan_of(p, {192, BoundProof::prove, 1, 0, 2}, &progress);
    CHECK(progress.steps == outcome.steps);
    CHECK(progress.best_objective == outcome.evaluation.objective);
    CHECK(progress.bound == outcome.bound.value());
    CHECK(progress.stage == Stage::done);
}

TEST_CASE("A search that is stopped ends within a few slices and keeps the best it has") {
    const Problem p = scarce();
    const double first = plan_of(p, {0, BoundProof::leave_out, 1, 0, 1}).evaluation.objective;
    for (const int call : {1, 3}) {
        std::stop_source stop;
        Progress progress;
        StopsAt solver(stop, progress, call);
        const Outcome outcome =
            make_plan(p, solver, {3000, BoundProof::prove, 1, 0, 1}, &progress, stop.get_token());
        CAPTURE(call);
        REQUIRE(solver.steps_then > 0);
        CHECK(progress.steps - solver.steps_then <= 256);
        CHECK(outcome.steps < 3000);
        CHECK(outcome.ending == Ending::stopped);
        CHECK(outcome.evaluation.keeps_the_rules());
        CHECK(outcome.evaluation.objective <= solver.best_then + 1e-6);
        CHECK(outcome.evaluation.objective < first);
        CHECK_FALSE(outcome.bound);
    }
}

TEST_CASE("Counted in seconds a plan ends by itself") {
    const Problem p = scarce();
    const Outcome outcome = plan_of(p, {0, BoundProof::leave_out, 1, 0.5, 2});
    CHECK(outcome.ending == Ending::finished);
    CHECK(outcome.evaluation.keeps_the_rules());
    CHECK(outcome.steps > 0);
}

TEST_CASE("Whole batches are planned whole, urgent runs first") {
    Problem p = ProblemMaker{}.lot(good_flour("L1", 7)).run("R1", 0, 6).run("R2", 1, 6).make();
    p.runs[1].urgency = 3;
    SECTION("flour that is short is short where it hurts less") {
        const Outcome outcome = plan_of(p, {200, BoundProof::prove, 1, 0, 1});
        CHECK(outcome.evaluation.runs[1].short_t == Approx(0).margin(1e-6));
        CHECK(outcome.evaluation.runs[0].short_t == Approx(5));
        CHECK(outcome.bound.value() == Approx(outcome.evaluation.objective).epsilon(1e-6));
    }
    SECTION("a batch is not begun that cannot be ended") {
        p.products[0].one_lot_a_batch = true;
        p.runs[0].batch_t = p.runs[1].batch_t = 2.5;
        const Outcome outcome = plan_of(p, {200, BoundProof::prove, 1, 0, 1});
        CHECK(outcome.evaluation.broken.empty());
        CHECK(outcome.evaluation.runs[1].planned_t == Approx(5));
        CHECK(outcome.evaluation.runs[0].planned_t == Approx(0).margin(1e-9));
        CHECK(outcome.bound.value() <= outcome.evaluation.objective);
    }
}

TEST_CASE("A need that no lot can meet alone is met by several, and as far as they reach") {
    ProblemMaker maker;
    for (int l = 0; l < 4; ++l)
        maker.lot(good_flour("L" + std::to_string(l + 1), 4));
    Problem p = maker.run("R1", 0, 11).make();
    p.products[0].max_lots = 3;
    CHECK(plan_of(p, {100, BoundProof::leave_out, 1, 0, 1}).evaluation.short_t == Approx(0).margin(1e-6));
    p.products[0].max_lots = 2;
    const Outcome two = plan_of(p, {100, BoundProof::leave_out, 1, 0, 1});
    CHECK(two.evaluation.short_t == Approx(3));
    CHECK(two.evaluation.keeps_the_rules());
}

TEST_CASE("Without lots, without runs or without weights the plan, the mending and the rule of thumb stand") {
    solver::ClpSolver clp;
    RandomProblems random(62);
    Problem weightless = random.make_with_every_rule(4, 4, 0.9);
    weightless.weights = {0, 0, 0, 0, 0, 0, 0, 0, 0};
    for (const Problem& p : {Problem{}, ProblemMaker{}.run("R1", 0, 6).make(),
                             ProblemMaker{}.lot(good_flour("L1", 7)).make(), weightless}) {
        REQUIRE(check(p).empty());
        const Outcome outcome = plan_of(p, {100, BoundProof::prove, 1, 0, 2});
        CHECK(outcome.evaluation.keeps_the_rules());
        CHECK(outcome.bound.value() <= outcome.evaluation.objective);
        CHECK(std::isfinite(outcome.evaluation.objective));
        const Mending mending{touched_runs(p, {}), 25, 40, {100, BoundProof::leave_out, 1, 0, 1}};
        CHECK(mend_plan(p, {}, clp, mending, nullptr, {}).evaluation.keeps_the_rules());
        CHECK(evaluate(p, first_expiring_plan(p)).keeps_the_rules());
    }
}
