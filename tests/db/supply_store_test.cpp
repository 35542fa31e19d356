#include "book_support.h"
#include "db/supply_store.h"

namespace mellowbin {
namespace {

struct Supplied {
    SqliteConnection book{":memory:"};
    SmallPlant plant = add_small_plant(book);
    LotId lot = take_in(book, plant, "W1");
    SupplyStore supply{book};

    ExpectedDelivery order() const {
        return {{},
                "",
                plant.mill,
                plant.flour,
                Grams{24'000'000},
                date::sys_days{2026_y / 12 / 4},
                date::sys_days{2026_y / 12 / 1},
                false};
    }
    template <class Act> auto done(Act act) {
        Change change(book, line("Something was done"));
        auto result = act(change);
        if (result)
            change.commit();
        return result;
    }
};

} // namespace

TEST_CASE("A delivery comes back as it was ordered, with a number and a code of its own") {
    Supplied at;
    auto first = at.order();
    const auto expected = at.done([&](Change& change) { return at.supply.expect(change, first); });
    REQUIRE(expected);
    CHECK(expected->code == "E-1");
    first.id = ExpectedId{1};
    first.code = "E-1";
    CHECK(at.supply.expected() == std::vector{first});
    CHECK(at.done([&](Change& change) { return at.supply.expect(change, at.order()); })->code == "E-2");
}

TEST_CASE("The number of its order comes back with a delivery, and one without stays without") {
    Supplied at;
    auto ordered = at.order();
    ordered.order = "PO-4711";
    REQUIRE(at.done([&](Change& change) { return at.supply.expect(change, ordered); }));
    REQUIRE(at.done([&](Change& change) { return at.supply.expect(change, at.order()); }));
    const auto all = at.supply.expected_since(ordered.arrives);
    REQUIRE(all.size() == 2);
    CHECK(all[0].order == "PO-4711");
    CHECK(all[1].order.empty());
}

TEST_CASE("A delivery ends once, stays in the book, and can be expected again") {
    Supplied at;
    const auto id = at.done([&](Change& change) { return at.supply.expect(change, at.order()); })->id;
    const auto end = [&](Change& change) { return at.supply.end(change, id); };
    const auto again = [&](Change& change) { return at.supply.expect_again(change, id); };
    CHECK_FALSE(at.done(again)); // it is expected
    REQUIRE(at.done(end));
    REQUIRE(at.supply.expected().size() == 1);
    CHECK(at.supply.expected()[0].has_come);
    CHECK_FALSE(at.done(end));
    REQUIRE(at.done(again));
    CHECK_FALSE(at.supply.expected()[0].has_come);
    CHECK_FALSE(at.done([&](Change& change) { return at.supply.end(change, ExpectedId{7}); }));
    CHECK(fault_of([&] { at.book.execute("DELETE FROM expected_delivery"); }).fault() ==
          BookFault::rule_broken);
}

TEST_CASE("A delivery of nothing, or milled after it arrives, is refused") {
    Supplied at;
    auto nothing = at.order();
    nothing.mass = Grams{0};
    CHECK_FALSE(at.done([&](Change& change) { return at.supply.expect(change, nothing); }));
    auto early = at.order();
    early.arrives = early.milled - Days{1};
    const auto refused = at.done([&](Change& change) { return at.supply.expect(change, early); });
    REQUIRE_FALSE(refused);
    CHECK(refused.refusals()[0].field == "Milled on");
    CHECK(at.supply.expected().empty());
}

TEST_CASE("A reservation is of a product or of so many grams, holds until it ends, and is never deleted") {
    Supplied at;
    const Reservation kept{{}, at.lot, {}, Grams{500'000}, "for trials"};
    const Reservation whole{{}, at.lot, at.plant.product, Grams{0}, "asked for"};
    const auto reserve = [&](const Reservation& reservation) {
        return at.done([&](Change& change) { return at.supply.reserve(change, reservation); });
    };
    REQUIRE(reserve(kept));
    REQUIRE(reserve(whole));
    auto both = at.supply.reservations();
    REQUIRE(both.size() == 2);
    CHECK(both[0] == Reservation{ReservationId{1}, at.lot, {}, Grams{500'000}, "for trials"});
    CHECK(both[1].product == at.plant.product);
    CHECK_FALSE(reserve({{}, at.lot, at.plant.product, Grams{1}, ""}));
    CHECK_FALSE(reserve({{}, at.lot, {}, Grams{0}, ""}));

    const auto end = [&](Change& change) { return at.supply.end(change, ReservationId{1}); };
    REQUIRE(at.done(end));
    CHECK_FALSE(at.done(end));
    CHECK(at.supply.reservations().size() == 1);
    CHECK(fault_of([&] { at.book.execute("DELETE FROM reservation"); }).fault() == BookFault::rule_broken);
}

} // namespace mellowbin
