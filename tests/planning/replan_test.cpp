// A plan that no longer holds: which runs that touches, and what mending them moves.

#include "planning/replan.h"
#include "small_problems.h"
#include "solver/clp_solver.h"
#include "support/catch.h"

#include <algorithm>
#include <set>

using namespace mellowbin;
using namespace mellowbin::planning;

namespace {

/// A plan with nothing short, made for a problem with some flour to spare.
struct Planned {
    explicit Planned(std::uint64_t seed) {
        RandomProblems random(seed);
        for (;;) {
            p = random.make(10, 14, 2, 1.6);
            solver::ClpSolver clp;
            const Outcome outcome = make_plan(p, clp, {192, BoundProof::leave_out, 1, 0, 1}, nullptr, {});
            plan = outcome.plan;
            if (outcome.evaluation.short_t < 1e-6)
                return;
        }
    }

    [[nodiscard]] std::vector<int> holders(int lot) const {
        std::vector<int> runs;
        for (const int r : in_date_order(p))
            for (const Assignment& a : plan.assignments)
                if (a.run == r && a.lot == lot)
                    runs.push_back(r);
        return runs;
    }
    [[nodiscard]] int lot_used_most() const {
        int most = 0;
        for (int l = 0; l < p.lot_count(); ++l)
            if (holders(l).size() > holders(most).size())
                most = l;
        return most;
    }
    void hold(int lot) {
        for (int r = 0; r < p.run_count(); ++r)
            p.ban(lot, r, Ban::held);
    }
    [[nodiscard]] Outcome mended(double charge, std::int64_t steps) const {
        solver::ClpSolver clp;
        const Mending mending{touched_runs(p, plan), charge, 40, {steps, BoundProof::leave_out, 1, 0, 1}};
        return mend_plan(p, plan, clp, mending, nullptr, {});
    }
    /// Runs that were not touched and have other lots than before.
    [[nodiscard]] int others_changed(const Plan& after) const {
        const std::vector<int> touched = touched_runs(p, plan);
        const std::vector<Use> had = uses_of(p, plan);
        const std::vector<Use> has = uses_of(p, after);
        int changed = 0;
        for (int r = 0; r < p.run_count(); ++r) {
            const bool same = had[r].size() == has[r].size() &&
                              std::equal(had[r].begin(), had[r].end(), has[r].begin(),
                                         [](const auto& a, const auto& b) { return a.first == b.first; });
            changed += !same && std::find(touched.begin(), touched.end(), r) == touched.end() ? 1 : 0;
        }
        return changed;
    }

    Problem p;
    Plan plan;
};

double tonnes_of(const Plan& plan, int run, int lot) {
    double t = 0;
    for (const Assignment& a : plan.assignments)
        if (a.run == run && a.lot == lot)
            t += a.tonnes;
    return t;
}

} // namespace

TEST_CASE("A plan that holds touches nothing, and a held lot exactly the runs that have it") {
    Planned planned(71);
    CHECK(touched_runs(planned.p, planned.plan).empty());
    const int lot = planned.lot_used_most();
    const std::vector<int> holders = planned.holders(lot);
    REQUIRE(holders.size() >= 2);
    planned.hold(lot);
    CHECK(touched_runs(planned.p, planned.plan) == holders);
}

TEST_CASE("A lot that comes later touches the runs before that day") {
    Planned planned(72);
    const int lot = planned.lot_used_most();
    const std::vector<int> holders = planned.holders(lot);
    const double day = planned.p.runs[holders.back()].day;
    REQUIRE(planned.p.runs[holders.front()].day < day);
    std::vector<int> early;
    for (const int r : holders)
        if (planned.p.runs[r].day < day)
            early.push_back(r);
    for (int r = 0; r < planned.p.run_count(); ++r)
        if (planned.p.runs[r].day < day)
            planned.p.ban(lot, r, Ban::not_arrived);
    CHECK(touched_runs(planned.p, planned.plan) == early);
}

TEST_CASE("A bigger need touches its run, and so does a smaller one; a frozen run is never touched") {
    Planned planned(73);
    planned.p.runs[5].demand_t += 1.5;
    CHECK(touched_runs(planned.p, planned.plan) == std::vector<int>{5});
    planned.p.runs[5].demand_t -= 3;
    CHECK(touched_runs(planned.p, planned.plan) == std::vector<int>{5});
    planned.p.runs[5].state = RunState::frozen;
    CHECK(touched_runs(planned.p, planned.plan).empty());
}

namespace {

/// The later of the lot's runs, as many as it takes to do without so many tonnes.
std::vector<int> later_holders(const Planned& planned, int lot, double tonnes) {
    const std::vector<int> holders = planned.holders(lot);
    std::vector<int> later;
    for (auto r = holders.rbegin(); r != holders.rend() && tonnes > 1e-5; ++r) {
        tonnes -= tonnes_of(planned.plan, *r, lot);
        later.insert(later.begin(), *r);
    }
    return later;
}

} // namespace

TEST_CASE("Less stock than planned touches the later of the runs that draw on the lot") {
    Planned planned(74);
    const int lot = planned.lot_used_most();
    const double left = evaluate(planned.p, planned.plan).left_t[lot];
    planned.p.lots[lot].stock_t -= left + 0.5;
    CHECK(touched_runs(planned.p, planned.plan) == later_holders(planned, lot, 0.5));
}

TEST_CASE(
    "A new lock touches its run, and the later ones that draw on the lot where it takes more than is left") {
    Planned planned(75);
    const Evaluation e = evaluate(planned.p, planned.plan);
    int locked = 0;
    for (int l = 0; l < planned.p.lot_count(); ++l) {
        const int r = 4;
        if (!planned.p.usable(l, r) || tonnes_of(planned.plan, r, l) > 0 ||
            planned.p.lots[l].mill_oxidant_ppm > planned.p.product_of(r).oxidant_cap_ppm)
            continue;
        const double tonnes = 0.5 * planned.p.runs[r].demand_t;
        if (planned.p.lots[l].stock_t < tonnes || locked == 4)
            continue;
        ++locked;
        planned.p.locks = {{r, l, tonnes}};
        REQUIRE(check(planned.p).empty());
        std::set<int> expected = {r};
        if (e.left_t[l] < tonnes)
            for (const int holder : later_holders(planned, l, tonnes - e.left_t[l]))
                expected.insert(holder);
        const std::vector<int> touched = touched_runs(planned.p, planned.plan);
        CHECK(std::set<int>(touched.begin(), touched.end()) == expected);
        const Outcome outcome = planned.mended(25, 64);
        CHECK(tonnes_of(outcome.plan, r, l) == Approx(tonnes));
        CHECK(outcome.evaluation.keeps_the_rules());
    }
    CHECK(locked >= 2);
}

TEST_CASE("Mending is never worse than filling the touched runs only, moves nothing else where that is "
          "charged out of reach, and little at the usual charge") {
    int touched = 0;
    int moved_free = 0;
    int moved_usual = 0;
    double saved_free = 0;
    for (std::uint64_t seed = 81; seed < 85; ++seed) {
        Planned planned(seed);
        planned.hold(planned.lot_used_most());
        const std::size_t count = touched_runs(planned.p, planned.plan).size();
        touched += static_cast<int>(count);
        const Outcome filled = planned.mended(0, 0);
        const Outcome fixed = planned.mended(1e9, 192);
        const Outcome usual = planned.mended(planned.p.weights.lot_change, 192);
        const Outcome free = planned.mended(0, 192);
        CAPTURE(seed);
        CHECK(planned.others_changed(filled.plan) == 0);
        CHECK(changed_runs(planned.p, planned.plan, filled.plan).size() <= count);
        CHECK(planned.others_changed(fixed.plan) == 0);
        for (const Outcome* outcome : {&filled, &fixed, &usual, &free}) {
            CHECK(outcome->evaluation.keeps_the_rules());
            CHECK(outcome->faults.empty());
            CHECK(outcome->evaluation.objective <= filled.evaluation.objective + 1e-6);
        }
        moved_free += planned.others_changed(free.plan);
        moved_usual += planned.others_changed(usual.plan);
        CHECK(changed_runs(planned.p, planned.plan, usual.plan).size() <= 3 * count);
        saved_free += fixed.evaluation.objective - free.evaluation.objective;
    }
    CHECK(moved_free > 0);
    CHECK(moved_usual <= moved_free);
    CHECK(saved_free > 0);
    CHECK(touched >= 4);
}

TEST_CASE("Mending keeps locks and frozen runs to the tonne, and the same effort mends alike") {
    Planned planned(91);
    const int held = planned.lot_used_most();
    Assignment kept;
    Assignment frozen;
    for (const Assignment& a : planned.plan.assignments)
        if (a.lot != held)
            (a.run % 2 == 0 ? kept : frozen) = a;
    planned.p.runs[frozen.run].state = RunState::frozen;
    for (const Assignment& a : planned.plan.assignments)
        if (a.run == frozen.run)
            planned.p.locks.push_back({a.run, a.lot, a.tonnes});
    planned.p.locks.push_back({kept.run, kept.lot, kept.tonnes});
    planned.hold(held);
    REQUIRE(check(planned.p).empty());
    const Outcome outcome = planned.mended(0, 192);
    for (const Lock& lock : planned.p.locks)
        CHECK(tonnes_of(outcome.plan, lock.run, lock.lot) == Approx(lock.tonnes).margin(1e-9));
    const std::vector<Use> had = uses_of(planned.p, planned.plan);
    CHECK(uses_of(planned.p, outcome.plan)[frozen.run].size() == had[frozen.run].size());
    CHECK(outcome.plan.assignments == planned.mended(0, 192).plan.assignments);
}

TEST_CASE("Mending that is stopped at once still gives a plan that keeps the rules") {
    Planned planned(92);
    planned.hold(planned.lot_used_most());
    std::stop_source stop;
    stop.request_stop();
    solver::ClpSolver clp;
    const Mending mending{touched_runs(planned.p, planned.plan), 25, 40, {}};
    const Outcome outcome = mend_plan(planned.p, planned.plan, clp, mending, nullptr, stop.get_token());
    CHECK(outcome.ending == Ending::stopped);
    CHECK(outcome.evaluation.keeps_the_rules());
    CHECK(planned.others_changed(outcome.plan) == 0);
}

TEST_CASE("Runs count as changed by lots or by more than slight tonnes") {
    const Problem p = ProblemMaker{}
                          .lot(good_flour("L1", 9))
                          .lot(good_flour("L2", 9))
                          .run("R1", 0, 4)
                          .run("R2", 1, 4)
                          .make();
    const Plan before{{{0, 0, 4.0}, {1, 0, 2.0}, {1, 1, 2.0}}};
    CHECK(changed_runs(p, before, before).empty());
    CHECK(changed_runs(p, before, {{{0, 1, 4.0}, {1, 0, 2.0}, {1, 1, 2.0}}}) == std::vector<int>{0});
    const Plan shifted{{{0, 0, 4.0}, {1, 0, 2.1}, {1, 1, 1.9}}};
    CHECK(changed_runs(p, before, shifted) == std::vector<int>{1});
    CHECK(changed_runs(p, before, shifted, 0.2).empty());
}
