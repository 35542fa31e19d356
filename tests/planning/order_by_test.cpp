#include "planning/order_by.h"
#include "support/catch.h"

using namespace mellowbin::planning;

TEST_CASE("Missing flour of one kind and week is one order, by the latest day that suits all of it") {
    const auto orders = orders_for({{0, 10, 2.0, 4.0}, {0, 9, 3.0, 2.0}}, 0, 2); // day 0 is a Wednesday
    REQUIRE(orders.size() == 1);
    CHECK(orders[0].tonnes == Approx(5));
    CHECK(orders[0].missing == std::vector<int>{1, 0});
    CHECK(orders[0].first_day == 9);
    CHECK(orders[0].arrive_by == 2.0);
}

TEST_CASE("A week ends on Sunday, and kinds of flour are ordered apart") {
    // Day 0 is a Wednesday: day 4 is the Sunday of its week, day 5 the Monday of the next.
    const auto orders = orders_for({{0, 4, 1.0, 1.0}, {0, 5, 1.0, 2.0}, {1, 5, 1.0, 3.0}}, 0, 2);
    REQUIRE(orders.size() == 3);
    CHECK(orders[0].first_day == 4);
    CHECK(orders[1].kind == 0);
    CHECK(orders[2].kind == 1);
}

TEST_CASE("One run that is too late does not make the order of the others too late") {
    const auto orders = orders_for({{0, 8, 1.0, -3.0}, {0, 9, 4.0, 1.0}, {0, 9, 2.0, std::nullopt}}, 0, 0);
    REQUIRE(orders.size() == 2);
    CHECK_FALSE(orders[0].arrive_by);
    CHECK(orders[0].tonnes == Approx(3));
    CHECK(orders[1].arrive_by == 1.0);
    CHECK(orders[1].tonnes == Approx(4));
}

TEST_CASE("An order that can still come today is in time") {
    CHECK(orders_for({{0, 8, 1.0, 0.0}}, 0, 0).at(0).arrive_by == 0.0);
}

TEST_CASE("Nothing missing, nothing to order") { CHECK(orders_for({}, 0, 0).empty()); }
