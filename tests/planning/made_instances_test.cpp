// The generator that the bench measures plans on.

#include "bench/made_instances.h"
#include "exchange/instance.h"
#include "planning/make_plan.h"
#include "solver/clp_solver.h"
#include "support/catch.h"
#include "support/first_expiring.h"

#include <set>

using namespace mellowbin;
using namespace mellowbin::planning;

TEST_CASE("A made instance has its size, its plenty, and is read back without a refusal") {
    for (const char* name : {"S", "M", "L", "XL"}) {
        const MadeSize* size = made_size(name);
        REQUIRE(size);
        const auto read = exchange::read_instance(made_instance(*size, 3));
        CAPTURE(name);
        REQUIRE(read);
        CHECK(read->lot_count() == size->lots);
        CHECK(read->run_count() == size->runs);
        CHECK(read->horizon_days == size->days);
        CHECK(read->weights == Weights{});
        double stock = 0;
        double need = 0;
        std::set<int> lines;
        int usable = 0;
        for (const Lot& lot : read->lots)
            stock += lot.stock_t;
        for (int r = 0; r < read->run_count(); ++r) {
            need += read->runs[r].demand_t;
            lines.insert(read->runs[r].line);
            for (int l = 0; l < read->lot_count(); ++l)
                usable += read->usable(l, r) ? 1 : 0;
        }
        CHECK(stock / need == Approx(size->plenty).epsilon(0.02));
        CHECK(static_cast<int>(lines.size()) == size->lines);
        CHECK(usable > read->run_count() * read->lot_count() / 3); // lots come while others are used up
        CHECK(usable < read->run_count() * read->lot_count());
    }
    CHECK_FALSE(made_size("XXL"));
}

TEST_CASE("The same seed makes the same instance, another seed another") {
    const MadeSize& size = *made_size("S");
    CHECK(made_instance(size, 1) == made_instance(size, 1));
    CHECK(made_instance(size, 1) != made_instance(size, 2));
}

TEST_CASE(
    "A made instance is about as tight as the reference ones: next to nothing short, and windows that ask "
    "for blending") {
    for (const std::uint64_t seed : {1, 2}) {
        const Problem p = made_problem(*made_size("S"), seed);
        solver::ClpSolver clp;
        const Outcome outcome = make_plan(p, clp, {640, BoundProof::leave_out, 1, 0, 1}, nullptr, {});
        const Evaluation by_hand = evaluate(p, first_expiring_plan(p));
        CAPTURE(seed, outcome.evaluation.objective, by_hand.objective, outcome.evaluation.short_t);
        CHECK(outcome.evaluation.short_t < 1);
        CHECK(outcome.evaluation.lot_changes > 0);
        CHECK(by_hand.keeps_the_rules());
        CHECK(by_hand.objective > 1.2 * outcome.evaluation.objective);
    }
}
