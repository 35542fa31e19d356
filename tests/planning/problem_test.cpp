#include "planning/problem.h"
#include "small_problems.h"
#include "support/catch.h"

#include <cmath>

using namespace mellowbin;
using namespace mellowbin::planning;

namespace {

Problem sound() {
    return ProblemMaker{}
        .lot(good_flour("L1", 10))
        .lot(good_flour("L2", 10))
        .run("R1", 0, 5)
        .run("R2", 1, 5)
        .make();
}

/// The one refusal a fault must give, in words.
std::string refusal_of(const Problem& p) {
    const Refusals no = check(p);
    REQUIRE(no.size() == 1);
    return in_words(no.front());
}

} // namespace

TEST_CASE("A sound problem, one without lots and one without runs have nothing to be refused") {
    CHECK(check(sound()).empty());
    CHECK(check(ProblemMaker{}.run("R1", 0, 5).make()).empty());
    CHECK(check(ProblemMaker{}.lot(good_flour("L1", 10)).make()).empty());
    CHECK(check(Problem{}).empty());
}

TEST_CASE("A problem that contradicts itself is refused by name") {
    Problem p = sound();
    SECTION("window") {
        p.products[0].windows[0] = {12.5, 11.5, 0.5};
        CHECK(refusal_of(p) ==
              "white bread, protein: the specification's low 12.5 is above its high 11.5. Exchange "
              "them or correct one");
    }
    SECTION("stock") {
        p.lots[1].stock_t = -2;
        CHECK(refusal_of(p) == "L2: has -2 t in stock; zero or more is expected. Count the lot");
    }
    SECTION("not a number") {
        p.runs[0].demand_t = std::nan("");
        CHECK(refusal_of(p) == "R1: needs nan t; zero or more is expected");
    }
    SECTION("product") {
        p.runs[1].product = 7;
        CHECK(refusal_of(p) == "R2: names a product that is not in the list. Name one of the products");
    }
    SECTION("loop on the line") {
        p.runs[0].prev_on_line = 1;
        CHECK(refusal_of(p).find("form a loop") != std::string::npos);
    }
    SECTION("a run that follows itself") {
        p.runs[0].prev_on_line = 0;
        CHECK(refusal_of(p).find("R1: comes before itself") == 0);
    }
    SECTION("one lot a batch without a batch") {
        p.products[0].one_lot_a_batch = true;
        p.runs[0].batch_t = 3;
        CHECK(refusal_of(p) == "R2: takes one lot a batch: the flour of a batch must be above zero");
    }
    SECTION("no urgency at all") {
        p.runs[1].urgency = 0;
        CHECK(refusal_of(p) == "R2: its urgency must be above zero");
    }
    SECTION("a run before it that is not there") {
        p.runs[1].prev_on_line = 9;
        CHECK(refusal_of(p) == "R2: names a run before it on the line that is not in the list");
    }
    SECTION("twice the same name") {
        p.lots[1].id = "L1";
        CHECK(refusal_of(p) == "L1: stands twice in the list of lots. Keep one");
    }
    SECTION("a figure that is not known") {
        p.lots[0].values[1] = std::nan("");
        CHECK(refusal_of(p).find("L1: has a property that is not known") == 0);
        p.ban(0, 0, Ban::not_measured);
        p.ban(0, 1, Ban::not_measured);
        CHECK(check(p).empty());
    }
    SECTION("weights") {
        p.weights.short_per_t = -1;
        CHECK(refusal_of(p) == "Weights: every weight must be zero or more");
    }
}

TEST_CASE("Locks that contradict each other or the rules are refused, with what to undo") {
    Problem p = sound();
    SECTION("a lot both locked and held") {
        p.ban(0, 1, Ban::held);
        p.locks = {{1, 0, 2}};
        CHECK(refusal_of(p) == "R2: L1 is locked to this run but may not be used in it. Undo the lock, or "
                               "lift what forbids the lot");
        p.runs[1].state = RunState::frozen;
        CHECK(check(p).empty());
    }
    SECTION("more than there is") {
        p.lots[0].stock_t = 4;
        p.locks = {{0, 0, 3}, {1, 0, 2}};
        CHECK(refusal_of(p) == "L1: 5.000 t are locked, 4.000 t are there. Undo a lock or count the lot");
    }
    SECTION("more than is needed") {
        p.locks = {{0, 0, 3}, {0, 1, 2.5}};
        CHECK(refusal_of(p) == "R1: 5.500 t are locked, 5.000 t are needed. Undo a lock");
    }
    SECTION("mill oxidant that no other flour can thin enough") {
        p.lots[0].mill_oxidant_ppm = 150;
        p.locks = {{0, 0, 4}};
        CHECK(refusal_of(p).find("more oxidant from the mill than the limit allows") != std::string::npos);
    }
    SECTION("twice") {
        p.locks = {{0, 0, 1}, {0, 0, 1}};
        CHECK(refusal_of(p) == "R1: L1 is locked twice. Undo one of the locks");
    }
}

TEST_CASE("Runs come by day, then shift, line and place in the list") {
    Problem p;
    p.runs = {{"a", 1, 0, 0, -1, 1, 0, {}},
              {"b", 0, 1, 0, -1, 1, 0, {}},
              {"c", 0, 0, 2, -1, 1, 0, {}},
              {"d", 0, 0, 1, -1, 1, 0, {}}};
    CHECK(in_date_order(p) == std::vector<int>{3, 2, 1, 0});
}
