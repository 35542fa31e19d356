#include "planning/make_plan.h"
#include "planning/reasons.h"
#include "small_problems.h"
#include "solver/clp_solver.h"
#include "support/catch.h"

#include <algorithm>

using namespace mellowbin;
using namespace mellowbin::planning;
using Catch::Matchers::Contains;

namespace {

Plan plan_of(const Problem& p) {
    solver::ClpSolver clp;
    return make_plan(p, clp, {}, nullptr, {}).plan;
}

bool says(const std::vector<std::string>& sentences, const std::string& part) {
    return std::any_of(sentences.begin(), sentences.end(),
                       [&](const std::string& s) { return s.find(part) != std::string::npos; });
}

Lot with_protein(const std::string& id, double stock_t, double protein) {
    Lot lot = good_flour(id, stock_t);
    lot.values[0] = protein;
    return lot;
}

} // namespace

TEST_CASE("The first to expire is called that") {
    Lot soon = good_flour("soon", 10);
    soon.use_by_day = 20;
    const Problem p = ProblemMaker{}.lot(good_flour("late", 10)).lot(soon).run("R1", 0, 6).make();
    const Reasons reasons = explain(p, {{{0, 1, 6.0}}});
    CHECK(reasons.of(0, 1)->why == "First to expire of 2 that suit: use by day 20.");
    CHECK(reasons.of(0, 1)->next_best == "Next best: late; flour that would keep longer.");
    CHECK(reasons.of(0, 0) == nullptr);
}

TEST_CASE("A day is named as the caller names it") {
    const Problem p = ProblemMaker{}.lot(good_flour("a", 10)).lot(good_flour("b", 10)).run("R1", 0, 6).make();
    Background background;
    background.day_in_words = [](double day) {
        return "24 Jan + " + std::to_string(static_cast<int>(day) - 60);
    };
    CHECK(explain(p, {{{0, 1, 6.0}}}, background).of(0, 1)->why ==
          "First to expire of 2 that suit: use by 24 Jan + 0.");
}

TEST_CASE("A lot that brings the blend into its window says so, and what the run would be without it") {
    const Problem p = ProblemMaker{}
                          .lot(with_protein("weak", 10, 11.0))
                          .lot(with_protein("strong", 4, 13.0))
                          .run("R1", 0, 8)
                          .make();
    const Plan plan = plan_of(p);
    const Reasons reasons = explain(p, plan);
    REQUIRE(reasons.of(0, 1));
    CHECK(reasons.of(0, 1)->why.find(
              "Brings protein 11.50 % up into the specification; without it protein 11.00 %.") == 0);
    CHECK(reasons.of(0, 1)->next_best == "Next best: weak; protein 0.50 % below its specification.");
    // Without the weak flour there are only 4 of the 8 t.
    CHECK(reasons.of(0, 0)->next_best.find("4.0 t more would be short") != std::string::npos);
}

TEST_CASE("Mature flour beside young flour, and more oxidant as the next best") {
    Problem p = ProblemMaker{}.lot(good_flour("young", 10)).lot(good_flour("old", 4)).run("R1", 0, 8).make();
    p.at(0, 0).maturity_points = 50;
    const Reasons reasons = explain(p, {{{0, 0, 4.0}, {0, 1, 4.0}}});
    CHECK(reasons.of(0, 1)->why.find("Its maturity (80 %) makes up for what the rest lacks (50 of 60 %).") ==
          0);
    CHECK(reasons.of(0, 1)->next_best ==
          "Next best: young; it is younger: 20 mg/kg more oxidant by maturity.");
}

TEST_CASE("The same flour as the run before is no change, and going on saves one later") {
    const Problem p = ProblemMaker{}
                          .lot(with_protein("L1", 12, 12.0))
                          .lot(with_protein("L2", 12, 12.0))
                          .run("R1", 0, 5)
                          .run("R2", 1, 5)
                          .make();
    const Reasons reasons = explain(p, {{{0, 1, 5.0}, {1, 1, 5.0}}});
    CHECK(reasons.of(1, 1)->why.find("Same flour as R1 before it on the line: no change.") == 0);
    CHECK(reasons.of(0, 1)->why.find("Goes on into R2 after it on the line.") == 0);
    CHECK(reasons.of(1, 1)->next_best == "Next best: L1; 1 more lot change.");
}

TEST_CASE("What a person locked and what is frozen is kept for that reason alone") {
    Problem p = ProblemMaker{}
                    .lot(good_flour("L1", 12))
                    .lot(good_flour("L2", 12))
                    .run("R1", 0, 5)
                    .run("R2", 1, 5)
                    .make();
    p.runs[0].state = RunState::frozen;
    p.locks = {{0, 0, 5}, {1, 1, 2}};
    const Reasons reasons = explain(p, plan_of(p));
    CHECK(reasons.of(0, 0)->why == "Kept as it is: the run is frozen.");
    CHECK(reasons.of(1, 1)->why == "Kept: locked by a person.");
    CHECK(reasons.of(0, 0)->next_best.empty());
    CHECK(reasons.of(1, 1)->next_best == "Without the lock: L1; 1 fewer lot change.");
}

TEST_CASE("The rules that forbid the other lots are named, with the words the caller gave") {
    Problem p = ProblemMaker{}
                    .lot(good_flour("L1", 12))
                    .lot(good_flour("L2", 12))
                    .lot(good_flour("L3", 9))
                    .lot(good_flour("L4", 9))
                    .run("R1", 0, 5)
                    .make();
    p.ban(1, 0, Ban::held, "is held: insects seen");
    p.ban(2, 0, Ban::market_forbids_oxidant, "carries potassium bromate");
    p.ban(3, 0, Ban::wrong_flour);
    const Reasons reasons = explain(p, plan_of(p));
    CHECK(reasons.runs[0].possible_lots == 1);
    CHECK(reasons.runs[0].forbidden ==
          std::vector<std::string>{"On hold: L2 is held: insects seen.",
                                   "Market forbids the mill's oxidant: L3 carries potassium bromate."});
    CHECK(reasons.runs[0].troubles.empty());
    CHECK(reasons.of(0, 0)->next_best == "No other lot can take its place: 5.0 t would be short.");
}

TEST_CASE("A shortage says how much, why, and until when an order can cure it") {
    Problem p = ProblemMaker{}
                    .lot(good_flour("L1", 7))
                    .lot(good_flour("L2", 9))
                    .run("R1", 0, 6)
                    .run("R2", 12, 4)
                    .make();
    p.ban(1, 0, Ban::not_released, "is released on day 14");
    p.ban(1, 1, Ban::not_released, "is released on day 14");
    Background background;
    background.days_to_ready = [](int) { return std::optional<double>(10); };
    const Reasons reasons = explain(p, {{{0, 0, 6.0}, {1, 0, 1.0}}}, background);
    REQUIRE(reasons.runs[1].troubles.size() == 1);
    const Trouble& trouble = reasons.runs[1].troubles[0];
    CHECK(trouble.kind == TroubleKind::shortage);
    CHECK(trouble.amount == Approx(3));
    CHECK(trouble.what == "3.0 t of 4.0 t are short.");
    CHECK(says(trouble.why, "The 7.0 t of the 1 lot that may be used are all planned, also for R1."));
    CHECK(says(trouble.why, "Not released in time: L2 is released on day 14."));
    CHECK(says(trouble.cures, "Release in time L2: 9.0 t not planned elsewhere; nothing would be short."));
    CHECK(trouble.order_by_day == 2.0);
    CHECK(says(trouble.cures, "Order 3.0 t to arrive by day 2: ready in time without oxidant."));

    background.today = 5;
    CHECK(says(explain(p, {{{0, 0, 6.0}, {1, 0, 1.0}}}, background).runs[1].troubles[0].cures,
               "would have had to arrive by day 2"));
}

TEST_CASE("No stock of a kind of flour is said plainly") {
    Problem p = ProblemMaker{}.lot(good_flour("L1", 7)).run("R1", 0, 6).make();
    p.ban(0, 0, Ban::wrong_flour);
    CHECK(says(explain(p, {}).runs[0].troubles.at(0).why, "There is no stock of this kind of flour."));
}

TEST_CASE("A window that cannot be held names who could have helped and where that flour went") {
    const Problem p = ProblemMaker{}
                          .lot(with_protein("weak", 20, 11.0))
                          .lot(with_protein("strong", 6, 12.0))
                          .run("R1", 0, 6)
                          .run("R2", 1, 6)
                          .make();
    const Reasons reasons = explain(p, {{{0, 1, 6.0}, {1, 0, 6.0}}});
    REQUIRE(reasons.runs[1].troubles.size() == 1);
    CHECK(reasons.runs[1].troubles[0].what == "Protein 11.00 %: protein 0.50 % below its specification.");
    CHECK(says(reasons.runs[1].troubles[0].why, "strong could bring it up; planned for R1."));
}

TEST_CASE("Missing maturity says whether oxidant is forbidden or at its limit") {
    Problem p = ProblemMaker{}.lot(good_flour("young", 20)).run("R1", 0, 6).make();
    p.at(0, 0).maturity_points = 5;
    const auto why = [&] { return explain(p, {{{0, 0, 6.0}}}).runs[0].troubles.at(0); };
    CHECK(why().what == "Strength is short: 55 of 60 % mature.");
    CHECK(says(
        why().why,
        "By maturity oxidant is at its limit: 0 mg/kg from the mill, 100 mg/kg added, 100 mg/kg allowed."));
    p.products[0].oxidant = OxidantPolicy::forbidden;
    CHECK(why().amount == Approx(55));
    CHECK(says(why().why, "Oxidant may not be added to this product."));
}

TEST_CASE("The next best names the oxidant and the figure as the bakery weighs it") {
    Problem p = ProblemMaker{}.lot(good_flour("young", 10)).lot(good_flour("old", 8)).run("R1", 0, 8).make();
    p.at(0, 0).maturity_points = 50;
    Background background;
    background.dose = [](int, double ppm) { return Dose{ppm * 1.5, "potassium bromate"}; };
    const Reasons reasons = explain(p, {{{0, 1, 8.0}}}, background);
    CHECK(reasons.of(0, 1)->next_best ==
          "Next best: young; it is younger: 30 mg/kg more potassium bromate by maturity.");
    CHECK(reasons.of(0, 1)->costs_more == Approx(8 * 60 * 0.2)); // 20 counted mg/kg in 8 t at 60 per 100
}

TEST_CASE("A next best that is past its best says from when") {
    Lot stale = good_flour("stale", 10);
    stale.best_before_day = 2;
    const Problem p = ProblemMaker{}.lot(good_flour("fresh", 10)).lot(stale).run("R1", 4, 6).make();
    CHECK(explain(p, {{{0, 0, 6.0}}}).of(0, 0)->next_best ==
          "Next best: stale; stale is past its best from day 3.");
}

TEST_CASE("What a next best costs beside the run, at the run after it, is counted") {
    const Problem p = ProblemMaker{}
                          .lot(good_flour("L1", 20))
                          .lot(good_flour("L2", 20))
                          .run("R1", 0, 5)
                          .run("R2", 1, 5)
                          .make();
    // R1 has no run before it: another lot changes nothing there, but R2 would change.
    const Reasons reasons = explain(p, {{{0, 0, 5.0}, {1, 0, 5.0}}});
    CHECK(reasons.of(0, 0)->costs_more == Approx(25));
    CHECK(says({reasons.of(0, 0)->next_best}, "would cost more"));
}

TEST_CASE("The lots that were possible are named") {
    Problem p = ProblemMaker{}
                    .lot(good_flour("L1", 12))
                    .lot(good_flour("L2", 12))
                    .lot(good_flour("L3", 9))
                    .run("R1", 0, 5)
                    .make();
    p.ban(1, 0, Ban::held);
    const RunReason reason = explain(p, {{{0, 0, 5.0}}}).runs[0];
    CHECK(reason.possible_lots == 2);
    CHECK(reason.possible == "L1 and L3");
}

TEST_CASE("A lock that costs something says what the run would do without it") {
    Problem p = ProblemMaker{}
                    .lot(with_protein("weak", 12, 11.0))
                    .lot(with_protein("good", 12, 12.0))
                    .run("R1", 0, 5)
                    .make();
    p.locks = {{0, 0, 5}};
    const Reasons reasons = explain(p, {{{0, 0, 5.0}}});
    CHECK(reasons.of(0, 0)->why == "Kept: locked by a person.");
    CHECK(reasons.of(0, 0)->next_best == "Without the lock: good; protein inside its specification.");
    CHECK(says(reasons.runs[0].troubles.at(0).cures,
               "Undo the lock of weak here: the blend would be inside specification."));
}

TEST_CASE("Undoing a lock is a cure only where the run that holds it has another way") {
    Problem p = ProblemMaker{}
                    .lot(good_flour("L1", 5))
                    .lot(good_flour("L2", 5))
                    .run("R1", 0, 5)
                    .run("R2", 1, 5)
                    .make();
    p.ban(1, 1, Ban::not_ready);
    p.locks = {{0, 0, 5}};
    const Plan plan{{{0, 0, 5.0}}};
    CHECK(says(explain(p, plan).runs[1].troubles.at(0).cures,
               "Undo the lock of L1 to R1: nothing would be short; R1 would be served all the same."));

    p.ban(1, 0, Ban::not_ready); // now R1 would be short instead
    CHECK_FALSE(says(explain(p, plan).runs[1].troubles.at(0).cures, "Undo the lock"));
}

TEST_CASE("A release is a cure of a window only where the lot lies on the right side of it") {
    Problem p = ProblemMaker{}
                    .lot(with_protein("weak", 20, 11.0))
                    .lot(with_protein("weaker", 20, 10.5))
                    .lot(with_protein("strong", 20, 12.0))
                    .run("R1", 0, 6)
                    .make();
    p.ban(1, 0, Ban::held);
    p.ban(2, 0, Ban::held);
    Background background;
    background.days_to_ready = [](int) { return std::optional<double>(20); };
    background.today = -30;
    const Trouble trouble = explain(p, {{{0, 0, 6.0}}}, background).runs[0].troubles.at(0);
    CHECK(says(trouble.cures,
               "Judge and release strong: 20.0 t not planned elsewhere; the blend would be inside "
               "specification."));
    CHECK_FALSE(says(trouble.cures, "weaker"));
    // Half of the run as far inside as the other half is outside.
    CHECK(says(trouble.cures, "Order 3.0 t with protein 12.00 % or more to arrive by day -20"));
}

TEST_CASE("Missing maturity names the held lot that is mature, and what is left without oxidant") {
    Problem p = ProblemMaker{}.lot(good_flour("young", 20)).lot(good_flour("old", 20)).run("R1", 0, 6).make();
    p.products[0].oxidant = OxidantPolicy::forbidden;
    p.at(0, 0).maturity_points = 30;
    p.ban(1, 0, Ban::held, "is held: smells musty");
    const Trouble trouble = explain(p, {{{0, 0, 6.0}}}).runs[0].troubles.at(0);
    CHECK(trouble.kind == TroubleKind::maturity);
    CHECK(says(trouble.cures,
               "Judge and release old: 20.0 t not planned elsewhere; nothing would be missing."));
    CHECK(says(trouble.cures, "a longer fermentation or a later day"));
}

TEST_CASE("A frozen run says that nothing is changed any more, and offers no cure") {
    Problem p = ProblemMaker{}
                    .lot(with_protein("weak", 20, 11.0))
                    .lot(with_protein("strong", 20, 12.0))
                    .run("R1", 0, 6)
                    .make();
    p.runs[0].state = RunState::frozen;
    p.locks = {{0, 0, 6}};
    p.ban(1, 0, Ban::held);
    const Trouble trouble = explain(p, {{{0, 0, 6.0}}}).runs[0].troubles.at(0);
    CHECK(trouble.cures.empty());
    CHECK(says(trouble.why, "The run is frozen"));
}

TEST_CASE("Where a batch takes one lot alone, no lot is said to make up for another") {
    Problem p = ProblemMaker{}
                    .lot(with_protein("low", 20, 11.6))
                    .lot(with_protein("high", 20, 12.4))
                    .run("R1", 0, 6)
                    .make();
    p.products[0].one_lot_a_batch = true;
    p.runs[0].batch_t = 3;
    const Reasons reasons = explain(p, {{{0, 0, 3.0}, {0, 1, 3.0}}});
    CHECK(reasons.of(0, 0)->why.find("Brings") == std::string::npos);
    CHECK_FALSE(reasons.of(0, 0)->next_best.empty());
}

TEST_CASE("With weights of zero the reasons still say what differs") {
    Problem p = ProblemMaker{}
                    .lot(with_protein("weak", 10, 11.0))
                    .lot(with_protein("good", 10, 12.0))
                    .run("R1", 0, 8)
                    .make();
    p.weights = {0, 0, 0, 0, 0, 0, 0, 0, 0};
    const Reasons reasons = explain(p, {{{0, 0, 8.0}}});
    CHECK_FALSE(reasons.of(0, 0)->why.empty());
    REQUIRE(reasons.runs[0].troubles.size() == 1);
    CHECK(reasons.runs[0].troubles[0].what == "Protein 11.00 %: protein 0.50 % below its specification.");
}

TEST_CASE("No lots and no runs leave nothing to explain") {
    Problem none = ProblemMaker{}.make();
    CHECK(explain(none, {}).runs.empty());
    const Problem no_lots = ProblemMaker{}.run("R1", 0, 5).make();
    CHECK(
        says(explain(no_lots, {}).runs.at(0).troubles.at(0).why, "There is no stock of this kind of flour."));
}

TEST_CASE("A lot that expires sooner and stays is named, with what speaks against it in this run") {
    Problem p = ProblemMaker{}.lot(good_flour("L1", 10)).lot(good_flour("L2", 10)).run("R1", 0, 5).make();
    p.lots[0].use_by_day = 20;
    p.lots[0].values[0] = 11.0; // below its window
    const Plan plan{{{0, 1, 5.0}}};
    const auto why = explain(p, plan).of(0, 1)->why;
    CHECK_THAT(why, Contains("L1 expires sooner (day 20)") && Contains("are left:") && Contains("below"));
    p.lots[0].values[0] = 12.0; // nothing speaks against it
    CHECK_THAT(explain(p, plan).of(0, 1)->why, Contains("by the figures it would do"));
    p.ban(0, 0, Ban::held);
    CHECK_THAT(explain(p, plan).of(0, 1)->why, !Contains("expires sooner"));
}

TEST_CASE(
    "A lot is not called passed over while it lies under others, is drawn up, or goes into the run too") {
    Problem p = ProblemMaker{}
                    .lot(good_flour("L1", 10))
                    .lot(good_flour("L2", 10))
                    .lot(good_flour("L3", 10))
                    .run("R1", 0, 5)
                    .make();
    p.lots[0].use_by_day = 20;
    p.chains = {{2, 0}}; // L1 lies above L3
    CHECK_THAT(explain(p, {{{0, 1, 5.0}}}).of(0, 1)->why, !Contains("expires sooner"));
    p.chains.clear();
    CHECK_THAT(explain(p, {{{0, 0, 2.0}, {0, 1, 3.0}}}).of(0, 1)->why, !Contains("expires sooner"));
    p.lots[0].stock_t = 0;
    CHECK_THAT(explain(p, {{{0, 1, 5.0}}}).of(0, 1)->why, !Contains("expires sooner"));
}
