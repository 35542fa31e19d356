// A plan draws from a silo what would really come out of it.

#include "app/acts/assignments.h"
#include "app/acts/plan.h"
#include "app/book/book.h"
#include "app/book/estimates.h"
#include "app/models/plan.h"
#include "app/plan/problem.h"
#include "app/plan/silos.h"
#include "app/plan/task.h"
#include "db/sqlite_connection.h"
#include "planning/evaluate.h"
#include "silo_plant.h"
#include "support/catch.h"

#include <cmath>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;

namespace {

const Day today = day_from_iso("2026-11-25");

struct Planned : tests::SiloPlant {
    /// What the planner is given, and the book's own plan in it.
    struct Problem {
        Book book;
        Estimates estimates;
        PlanProblem p;
    };
    Problem problem() {
        SqliteConnection connection(book_path());
        Problem made{Book::read(connection, today), {}, {}};
        made.estimates.follow(made.book, today);
        made.p = plan_problem(made.book, made.estimates, {today, today, 7});
        return made;
    }
    double kg_of(RunId run, const std::string& code) {
        for (const auto& lot : planned(run).lots)
            if (lot.code == code)
                return lot.kg;
        return 0;
    }
};

std::vector<std::string> names_of(const PlanProblem& p) {
    std::vector<std::string> names;
    for (const auto& lot : p.problem.lots)
        names.push_back(lot.id);
    return names;
}

} // namespace

TEST_CASE("A silo of which nobody said how it mixes is planned as one mixture of what lies in it") {
    Planned at;
    at.comes("A", "Silo 1", "1000", "12");
    at.comes("B", "Silo 1", "3000", "13");
    at.add_run("Pan bread", "2026-11-27", "3");
    const auto [book, estimates, p] = at.problem();
    REQUIRE(names_of(p) == std::vector<std::string>{"Silo 1 (A 25 %, B 75 %)"});
    CHECK(p.problem.chains.empty());
    CHECK(p.problem.lots[0].stock_t == Approx(4));
    CHECK(p.problem.lots[0].values[0] == Approx(12.75)); // protein by mass
    CHECK(p.problem.usable(0, 0));
    CHECK(p.problem.at(0, 0).maturity_points ==
          Approx(100 * (0.25 * counted_maturity(estimates, at.lot("A"), today + Days{2}).value() +
                        0.75 * counted_maturity(estimates, at.lot("B"), today + Days{2}).value())));
}

TEST_CASE("A run planned from a mixture has its lots in the shares that come, to the gram") {
    Planned at;
    at.comes("A", "Silo 1", "1000");
    at.comes("B", "Silo 1", "3000");
    const RunId run = at.add_run("Pan bread", "2026-11-27", "3");
    at.plan_week();
    CHECK(at.kg_of(run, "A") == Approx(75));
    CHECK(at.kg_of(run, "B") == Approx(225));
    const auto made = at.problem();
    const auto standing = book_plan(made.book, made.p);
    CHECK(planning::evaluate(made.p.problem, standing).keeps_the_rules());
    CHECK(planning::evaluate(made.p.problem, standing).short_t == Approx(0).margin(1e-9));
}

TEST_CASE("A lot in a mixture that may not go in keeps all of it out, and is named") {
    Planned at;
    at.comes("A", "Silo 1", "1000");
    const auto b = at.comes("B", "Silo 1", "3000");
    at.add_run("Pan bread", "2026-11-27", "3");
    at.done(HoldLot{b, "smells musty"});
    const auto made = at.problem();
    CHECK(made.p.problem.at(0, 0).ban == planning::Ban::held);
    CHECK_THAT(made.p.problem.notes.back(), Contains("of B it is on hold: smells musty"));
}

TEST_CASE(
    "First in, first out: runs get the lower lot, the one that ends it some of both, then the upper one") {
    Planned at;
    at.comes("A", "Silo 1", "400");
    at.comes("B", "Silo 1", "3000");
    at.done(SetSiloZone{"Silo 1", "none"});
    const RunId first = at.add_run("Pan bread", "2026-11-26", "3");
    const RunId second = at.add_run("Pan bread", "2026-11-27", "3");
    const RunId third = at.add_run("Pan bread", "2026-11-28", "3");
    at.plan_week();
    CHECK(at.kg_of(first, "A") == Approx(300));
    CHECK(at.kg_of(second, "A") == Approx(100));
    CHECK(at.kg_of(second, "B") == Approx(200));
    CHECK(at.kg_of(third, "B") == Approx(300));
}

TEST_CASE("A zone that mixes is planned in steps, whose lots add up to what lies in the silo") {
    Planned at;
    const auto a = at.comes("A", "Silo 1", "1000");
    const auto b = at.comes("B", "Silo 1", "3000");
    at.done(SetSiloZone{"Silo 1", "500"});
    at.add_run("Pan bread", "2026-11-27", "3");
    const auto made = at.problem();
    const auto layers = silo_layers(made.book);
    REQUIRE(layers.size() == 1);
    const auto portions =
        portions_of(made.book, layers.begin()->first, layers.begin()->second, Grams{30'000});
    REQUIRE(portions.size() > 5);
    CHECK(portions.size() == made.p.problem.lots.size());
    CHECK(made.p.problem.chains.at(0).size() == portions.size());
    std::map<LotId, Grams> real, named;
    for (const auto& portion : portions) {
        for (const auto& part : portion.holds)
            real[part.lot] += part.mass;
        for (const auto& part : portion.named)
            named[part.lot] += part.mass;
    }
    CHECK(real == std::map<LotId, Grams>{{a, Grams{1'000'000}}, {b, Grams{3'000'000}}});
    CHECK(named == real);
    CHECK(portions.front().holds.front().lot == a);
    CHECK(portions.back().holds.back().lot == b);
    CHECK(portions.back().holds.back().mass > Grams{350'000}); // nearly all of the last step
}

TEST_CASE("A lot in a silo and in a bay is two flours of the plan, told apart by their names") {
    Planned at;
    const auto a = at.comes("A", "Silo 1", "1000");
    at.comes("B", "Silo 1", "1000");
    at.done(MoveLot{a, at.place("Silo 1"), at.place("Bay 1"), "200"});
    at.add_run("Pan bread", "2026-11-27", "3");
    const auto made = at.problem();
    REQUIRE(made.p.problem.lots.size() == 2);
    CHECK(made.p.problem.lots[0].id == "A");
    CHECK(made.p.problem.lots[0].stock_t == Approx(0.2));
    CHECK(made.p.problem.lots[1].stock_t == Approx(1.8));
}

TEST_CASE("What is kept back of a lot in a silo is kept back from what comes last") {
    Planned at;
    at.comes("A", "Silo 1", "1000");
    at.comes("B", "Silo 1", "1000");
    at.done(SetSiloZone{"Silo 1", "none"});
    at.add_run("Pan bread", "2026-11-27", "3");
    const RunId later = at.add_run("Pan bread", "2026-12-10", "4"); // outside the week
    at.done(PlanRuns{day_from_iso("2026-12-10"), 1});
    at.app().finish_work();
    at.done(AdoptPlan{});
    const auto made = at.problem();
    double t = 0;
    for (const auto& lot : made.p.problem.lots)
        t += lot.stock_t;
    CHECK(t == Approx(1.6)); // 400 kg are the later run's
    CHECK(at.planned(later).lots.size() >= 1);
}

TEST_CASE("A run of today that is planned from a mixture is frozen with all its lots, and nothing stands "
          "against it") {
    Planned at;
    at.comes("A", "Silo 1", "1000");
    at.comes("B", "Silo 1", "3000");
    at.add_run("Pan bread", "2026-11-25", "3");
    at.add_run("Pan bread", "2026-11-27", "3");
    at.plan_week();
    const auto made = at.problem();
    REQUIRE(made.p.problem.runs[0].state == planning::RunState::frozen);
    REQUIRE(made.p.problem.locks.size() == 1);
    CHECK(made.p.problem.locks[0].tonnes == Approx(0.3));
    CHECK(planning::check(made.p.problem).empty());
    at.done(PlanRuns{today, 7}); // and it can be planned anew
    at.app().finish_work();
    CHECK(at.was_done());
}
