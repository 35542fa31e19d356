#include "planning/make_plan.h"
#include "small_problems.h"
#include "solver/clp_solver.h"
#include "support/catch.h"
#include "support/first_expiring.h"

#include <algorithm>

using namespace mellowbin;
using namespace mellowbin::planning;

namespace {

Outcome plan_of(const Problem& p, const Effort& effort = {}) {
    solver::ClpSolver clp;
    return make_plan(p, clp, effort, nullptr, {});
}

double tonnes_of(const Plan& plan, int run, int lot) {
    double t = 0;
    for (const Assignment& a : plan.assignments)
        if (a.run == run && a.lot == lot)
            t += a.tonnes;
    return t;
}

} // namespace

TEST_CASE("First to expire goes first") {
    Lot late = good_flour("late", 10);
    Lot soon = good_flour("soon", 10);
    soon.use_by_day = 20;
    const Outcome outcome =
        plan_of(ProblemMaker{}.lot(late).lot(soon).run("R1", 0, 6).run("R2", 1, 4).make());
    CHECK(tonnes_of(outcome.plan, 0, 1) == Approx(6));
    CHECK(tonnes_of(outcome.plan, 1, 1) == Approx(4));
}

TEST_CASE("A lot that the next run on the line has anyway is taken before an equal one") {
    Problem p = ProblemMaker{}
                    .lot(good_flour("L1", 20))
                    .lot(good_flour("L2", 20))
                    .run("R1", 0, 6)
                    .run("R2", 1, 4)
                    .make();
    p.locks = {{1, 1, 4}};
    const Outcome outcome =
        plan_of(p, {0, BoundProof::leave_out, 1, 0, 1}); // the search would find it in any case
    CHECK(tonnes_of(outcome.plan, 0, 1) == Approx(6));
    CHECK(outcome.evaluation.lot_changes == 0);
}

TEST_CASE("A shortage is a result: the plan gives what there is and says how much is short") {
    const Outcome outcome =
        plan_of(ProblemMaker{}.lot(good_flour("L1", 7)).run("R1", 0, 6).run("R2", 1, 4).make());
    CHECK(outcome.ending == Ending::finished);
    CHECK(outcome.evaluation.short_t == Approx(3));
    CHECK(outcome.evaluation.parts.shortage == Approx(3 * 5000.0));
    CHECK(tonnes_of(outcome.plan, 0, 0) + tonnes_of(outcome.plan, 1, 0) == Approx(7));
    CHECK(outcome.bound.value() == Approx(outcome.evaluation.objective).epsilon(1e-3));
}

TEST_CASE("Without lots everything is short, without runs nothing is planned") {
    const Outcome none = plan_of(ProblemMaker{}.run("R1", 0, 6).make());
    CHECK(none.plan.assignments.empty());
    CHECK(none.evaluation.short_t == Approx(6));
    CHECK(none.bound.value() == Approx(30000));
    const Outcome idle = plan_of(ProblemMaker{}.lot(good_flour("L1", 7)).make());
    CHECK(idle.plan.assignments.empty());
    CHECK(idle.evaluation.objective == 0);
    CHECK(plan_of(Problem{}).evaluation.objective == 0);
}

TEST_CASE("With all weights zero there is still a plan that keeps the rules") {
    RandomProblems random(32);
    Problem p = random.make(5, 6, 3, 1.0);
    p.weights = {0, 0, 0, 0, 0, 0, 0, 0, 0};
    const Outcome outcome = plan_of(p);
    CHECK(outcome.evaluation.keeps_the_rules());
    CHECK(outcome.evaluation.objective == 0);
}

TEST_CASE("Locks are kept to the tonne and the rest is planned round them") {
    ProblemMaker maker;
    maker.lot(good_flour("L1", 10)).lot(good_flour("L2", 10)).run("R1", 0, 6).run("R2", 1, 4);
    Problem p = maker.make();
    p.lots[1].use_by_day = 20;
    p.locks = {{0, 0, 4.5}};
    const Outcome outcome = plan_of(p);
    CHECK(outcome.evaluation.keeps_the_rules());
    CHECK(tonnes_of(outcome.plan, 0, 0) == Approx(4.5));
    CHECK(tonnes_of(outcome.plan, 0, 1) == Approx(1.5));
    CHECK(outcome.evaluation.short_t == Approx(0).margin(1e-6));
    SECTION("a locked lot may be below its least share") {
        p.locks = {{0, 0, 0.5}};
        const Outcome small = plan_of(p);
        CHECK(small.evaluation.keeps_the_rules());
        CHECK(tonnes_of(small.plan, 0, 0) == Approx(0.5));
        CHECK(small.evaluation.short_t == Approx(0).margin(1e-6));
    }
}

TEST_CASE("Locks and frozen runs are kept on random problems, and every plan keeps the rules") {
    RandomProblems random(33);
    int planned = 0;
    for (int i = 0; i < 25; ++i) {
        Problem p = random.make(8, 8, 2 + i % 3, 0.7 + 0.1 * (i % 6));
        p.runs[0].state = RunState::frozen;
        p.locks = {{0, 1, 0.3 * p.lots[1].stock_t}, {0, 2, 0.2 * p.lots[2].stock_t}};
        for (int l = 3; l < 6; ++l)
            if (p.usable(l, l))
                p.locks.push_back({l, l, std::min(0.4 * p.lots[l].stock_t, 0.5 * p.runs[l].demand_t)});
        if (!check(p).empty())
            continue;
        ++planned;
        const Outcome outcome = plan_of(p, {800, BoundProof::prove, 1, 0, 1});
        CAPTURE(i);
        for (const Broken& b : outcome.evaluation.broken)
            UNSCOPED_INFO(b.words);
        CHECK(outcome.evaluation.keeps_the_rules());
        for (const Lock& lock : p.locks)
            CHECK(tonnes_of(outcome.plan, lock.run, lock.lot) == Approx(lock.tonnes).margin(1e-9));
        CHECK(outcome.bound.value() <= outcome.evaluation.objective + 1e-6);
    }
    CHECK(planned >= 15);
}

TEST_CASE("The same problem, effort and seed give the same plan") {
    RandomProblems random(34);
    const Problem p = random.make(12, 16, 3, 1.0);
    const Outcome one = plan_of(p);
    const Outcome two = plan_of(p);
    CHECK(one.plan.assignments == two.plan.assignments);
    CHECK(one.evaluation.objective == two.evaluation.objective);
}

TEST_CASE("The search and the polish make a plan better, never worse") {
    RandomProblems random(35);
    const Problem p = random.make(20, 30, 3, 1.0);
    const double first = plan_of(p, {0, BoundProof::leave_out, 1, 0, 1}).evaluation.objective;
    const Outcome outcome = plan_of(p, {3000, BoundProof::leave_out, 1, 0, 1});
    const double searched = outcome.evaluation.objective;
    CHECK(outcome.is_polished);
    CHECK(searched < first);
    CHECK(searched < evaluate(p, first_expiring_plan(p)).objective);
}

TEST_CASE("The rule of thumb keeps every rule too") {
    RandomProblems random(36);
    for (int i = 0; i < 20; ++i) {
        const Problem p = random.make(10, 12, 2 + i % 3, 0.8 + 0.1 * (i % 5));
        const Evaluation e = evaluate(p, first_expiring_plan(p));
        CAPTURE(i);
        for (const Broken& b : e.broken)
            UNSCOPED_INFO(b.words);
        CHECK(e.broken.empty());
    }
}

TEST_CASE("A plan that is stopped keeps the best found so far") {
    RandomProblems random(37);
    const Problem p = random.make(20, 30, 3, 1.0);
    std::stop_source stop;
    solver::ClpSolver clp;
    SECTION("before it began: locks only, everything short, no rule broken") {
        stop.request_stop();
        const Outcome outcome = make_plan(p, clp, {}, nullptr, stop.get_token());
        CHECK(outcome.ending == Ending::stopped);
        CHECK(outcome.evaluation.keeps_the_rules());
        CHECK_FALSE(outcome.bound);
    }
    SECTION("by the solver, in the middle of the polish") {
        class StopsIt final : public LinearSolver {
        public:
            explicit StopsIt(std::stop_source& source) : source_(source) {}
            LinearResult solve(const LinearProgram&, std::stop_token) override {
                source_.request_stop();
                return {LinearStatus::stopped, 0, {}, {}};
            }

        private:
            std::stop_source& source_;
        } solver(stop);
        Progress progress;
        const Outcome outcome = make_plan(p, solver, {}, &progress, stop.get_token());
        CHECK(outcome.ending == Ending::stopped);
        CHECK_FALSE(outcome.is_polished);
        CHECK(outcome.evaluation.keeps_the_rules());
        CHECK(outcome.evaluation.objective <
              plan_of(p, {0, BoundProof::leave_out, 1, 0, 1}).evaluation.objective);
        CHECK(progress.best_objective == outcome.evaluation.objective);
        CHECK(progress.stage == Stage::done);
        CHECK(progress.steps > 0);
    }
}
