#include "book_support.h"
#include "db/mill_store.h"
#include "db/retest_store.h"
#include "db/supply_store.h"
#include "support/explained_book.h"

#include <fmt/format.h>

namespace mellowbin {
namespace {

constexpr Day day(int of_november) {
    return date::sys_days{2026_y / 11 / static_cast<unsigned>(of_november)};
}

struct Milled {
    SqliteConnection book{":memory:"};
    SmallPlant plant = add_small_plant(book);
    MillStore store{book};
    MillSpan november{plant.mill, day(1), day(30)};

    LotId lot(const std::string& code, Day delivered_on) {
        auto came = delivered(plant, code);
        came.lot.milled_on = delivered_on - Days{3};
        came.lot.delivered_on = delivered_on;
        Change change(book, line("Lot taken in"));
        const auto id = LotStore(book).take_in(change, came);
        change.commit();
        return id.value();
    }
    void journal(LotId lot, const char* intent, const char* words) {
        Change change(book, {0, noon, "Ada Example", intent, "lot", words, "", record_of(lot)});
        change.commit();
    }
    void retest(LotId lot) {
        Retest test;
        test.lot = lot;
        test.taken_on = day(25);
        test.results.set({Property::stability, 9, {}, "", wheat_nitrogen_factor});
        Change change(book, line("Retest"));
        REQUIRE(RetestStore(book).log(change, test));
        change.commit();
    }
    void withdraw_retest(std::int64_t number) {
        Change change(book, line("Retest withdrawn"));
        REQUIRE(RetestStore(book).withdraw(change, RetestId{number}, "x"));
        change.commit();
    }
    /// Expected for the first day, it came on the second with these lots.
    void delivery(int id, Day expected, Day came, const std::vector<LotId>& lots) {
        {
            Change change(book, line("Expected"));
            REQUIRE(SupplyStore(book).expect(
                change, {{}, "", plant.mill, plant.flour, Grams{1000}, expected, expected, false}));
            change.commit();
        }
        book.execute("UPDATE expected_delivery SET has_come = 1 WHERE id = $1", {id});
        book.execute("INSERT INTO delivery (id, mill_id, delivery_note, order_number, delivered_on, "
                     "expected_id, weight_reason, remark, at, who) "
                     "VALUES ($1, $2, '', '', $3, $1, '', '', '2026-11-25T12:00:00Z', '')",
                     {id, plant.mill, came});
        for (const auto lot : lots)
            book.execute("INSERT INTO delivery_lot VALUES ($1, $2, 0)", {lot, id});
    }
    void reject(LotId lot) {
        Change change(book, line("Rejected"));
        REQUIRE(LotStore(book).set_state(change, lot, LotState::rejected, "x"));
        change.commit();
    }
    std::vector<std::string> tested(std::optional<LotId> before = {}, int count = 60) {
        std::vector<std::string> codes;
        for (const auto& lot : store.tested_in_turn(plant.mill, plant.flour, day(1), before, count))
            codes.push_back(lot.code);
        return codes;
    }
};

using Codes = std::vector<std::string>;

} // namespace

TEST_CASE("A mill's lots and tests of some days are those delivered on them, both days included") {
    Milled at;
    const auto before = at.lot("A", day(9)), first = at.lot("B", day(10)), last = at.lot("C", day(20)),
               after = at.lot("D", day(21));
    for (const auto lot : {before, first, last, after})
        at.retest(lot);
    const auto lots = LotStore(at.book).of_mill(at.plant.mill, day(10), day(20));
    REQUIRE(lots.size() == 2);
    CHECK(lots[0].id == first);
    CHECK(lots[1].id == last);
    CHECK(lots[1].certificate == good_lot(at.plant, "C").certificate);
    const auto tests = RetestStore(at.book).of_mill(at.plant.mill, day(10), day(20));
    REQUIRE(tests.size() == 2);
    CHECK(tests[0].lot == first);
    CHECK(tests[1].lot == last);
    CHECK(tests[1].results.values().size() == 1);
    CHECK(LotStore(at.book).of_mill(MillId{9}, day(1), day(30)).empty());
}

TEST_CASE(
    "A lot was held where a person held it or a check at the door did, not where a hold undid something") {
    Milled at;
    const auto held = at.lot("A", day(10)), undone = at.lot("B", day(10)), mistake = at.lot("C", day(10)),
               door = at.lot("D", day(10)), well = at.lot("E", day(10));
    at.journal(held, "hold_lot", "Lot A put on hold: insects");
    at.journal(undone, "hold_lot", "Lot B put on hold: release taken back");
    at.journal(undone, "hold_lot", "Lot B put on hold: rejection taken back");
    at.journal(mistake, "withdraw_lots", "Lot C withdrawn");
    at.book.execute("INSERT INTO lot_door_check VALUES ($1, 0, 'Bags dry', 'no', '', 0)", {door});
    at.book.execute("INSERT INTO lot_door_check VALUES ($1, 0, 'Bags dry', 'yes', '', 0)", {well});
    const auto fates = at.store.fates(at.november);
    const auto of = [&](LotId lot) {
        for (const auto& fate : fates)
            if (fate.lot == lot)
                return fate;
        return LotFate{lot, false, false};
    };
    CHECK(of(held).was_held);
    CHECK_FALSE(of(undone).was_held);
    CHECK(of(mistake).is_withdrawn);
    CHECK_FALSE(of(mistake).was_held);
    CHECK(of(door).was_held);
    CHECK_FALSE(of(well).was_held);
    CHECK(at.store.fates({at.plant.mill, day(11), day(30)}).empty());
}

TEST_CASE("Lots of an expected delivery tell the day it was expected and the day it came") {
    Milled at;
    const auto a = at.lot("A", day(10)), b = at.lot("B", day(10)), c = at.lot("C", day(12));
    at.delivery(1, day(8), day(10), {a, b});
    at.delivery(2, day(12), day(12), {c});
    at.book.execute("UPDATE delivery_lot SET is_withdrawn = 1 WHERE lot_id = $1", {b});
    const auto lots = at.store.expected_lots(at.november);
    REQUIRE(lots.size() == 2);
    CHECK(lots[0].lot == a);
    CHECK(lots[0].expected == "E-1");
    CHECK(lots[0].arrives == day(8));
    CHECK(lots[0].came == day(10));
    CHECK(lots[1].lot == c);
    CHECK(at.store.expected_lots({at.plant.mill, day(13), day(30)}).empty());
}

TEST_CASE("What is expected still and was to come before today is overdue") {
    Milled at;
    const auto expect = [&](Day arrives) {
        Change change(at.book, line("Expected"));
        REQUIRE(SupplyStore(at.book).expect(
            change, {{}, "", at.plant.mill, at.plant.flour, Grams{24'000'000}, arrives, arrives, false}));
        change.commit();
    };
    expect(day(20));
    expect(day(25));
    const auto overdue = at.store.overdue(at.plant.mill, day(25));
    REQUIRE(overdue.size() == 1);
    CHECK(overdue[0].expected == "E-1");
    CHECK(overdue[0].mass == Grams{24'000'000});
    CHECK(at.store.overdue(MillId{9}, day(25)).empty());
}

TEST_CASE("What went back to the mill is told with its weight, unless its movement was countered") {
    Milled at;
    const auto lot = at.lot("A", day(10));
    const auto movement = [&](int id, int grams, std::optional<int> counters) {
        const bool is_back = counters.has_value();
        at.book.execute(
            "INSERT INTO movement (id, lot_id, kind, from_place_id, to_place_id, mass_g, at, who, "
            "counters_id, note) "
            "VALUES ($1, $2, 'waste', $3, $4, $5, '2026-11-25T12:00:00Z', 'x', $6, '')",
            {id, lot, is_back ? Value() : Value(at.plant.bay), is_back ? Value(at.plant.bay) : Value(), grams,
             counters ? Value(*counters) : Value()});
    };
    const auto goes_back = [&](int id) {
        at.book.execute("INSERT INTO mill_return VALUES ($1, $2, $1, 'weevils', 'R-7', "
                        "'2026-11-25T12:00:00Z', 'Ines')",
                        {id, lot});
    };
    movement(100, 500'000, {});
    goes_back(100);
    movement(101, 250'000, {});
    goes_back(101);
    movement(102, 250'000, 101);
    const auto returns = at.store.returns(at.november);
    REQUIRE(returns.size() == 1);
    CHECK(returns[0].lot == lot);
    CHECK(returns[0].mass == Grams{500'000});
    CHECK(returns[0].reason == "weevils");
    CHECK(returns[0].document == "R-7");
    CHECK(at.store.returns({at.plant.mill, day(11), day(30)}).empty());
}

TEST_CASE("Tested lots stand in the order they came, up to the one asked about") {
    Milled at;
    const auto c = at.lot("C", day(12)), a = at.lot("A", day(10)), b = at.lot("B", day(10)),
               untested = at.lot("U", day(11)), mistake = at.lot("M", day(11)), d = at.lot("D", day(20));
    for (const auto lot : {c, a, b, mistake, d})
        at.retest(lot);
    at.reject(mistake);
    at.journal(mistake, "withdraw_lots", "Lot M withdrawn");
    CHECK(at.tested() == Codes{"A", "B", "C", "D"});
    CHECK(at.tested(c) == Codes{"A", "B"});
    CHECK(at.tested(b) == Codes{"A"});
    CHECK(at.tested(untested) == Codes{"A", "B"});
    CHECK(at.tested({}, 2) == Codes{"C", "D"});
    at.withdraw_retest(1); // of C
    CHECK(at.tested() == Codes{"A", "B", "D"});
    const auto last = at.store.tested_in_turn(at.plant.mill, at.plant.flour, day(1), c, 60).back();
    CHECK(at.store.came_after(last, at.plant.mill, at.plant.flour, c) == 1); // U; the mistake never was one
    CHECK(at.store.came_after(last, at.plant.mill, at.plant.flour, {}) == 3);
    CHECK(at.store.tested_in_turn(at.plant.mill, at.plant.flour, day(11), {}, 60).size() == 1);
    CHECK(at.store.tested_in_turn(at.plant.mill, FlourId{9}, day(1), {}, 60).empty());
}

TEST_CASE(
    "Nothing that is asked of a mill walks through all lots, tests, movements or lines of the journal") {
    tests::Walks walks;
    const auto book = tests::open_explained(walks, ":memory:");
    const auto plant = add_small_plant(*book);
    walks.is_listening = true;
    const MillStore store(*book);
    const MillSpan span{plant.mill, day(1), day(30)};
    (void)store.fates(span);
    (void)store.expected_lots(span);
    (void)store.overdue(plant.mill, day(25));
    (void)store.returns(span);
    (void)store.tested_in_turn(plant.mill, plant.flour, day(1), {}, 60);
    (void)store.tested_in_turn(plant.mill, plant.flour, day(1), LotId{1}, 60);
    (void)store.came_after({LotId{1}, "", day(1)}, plant.mill, plant.flour, {});
    (void)LotStore(*book).of_mill(plant.mill, day(1), day(30));
    (void)RetestStore(*book).of_mill(plant.mill, day(1), day(30));
    CHECK(walks.questions >= 14);
    // Deliveries that are still to come are few.
    CHECK(walks.without("delivery_to_come") == std::vector<std::string>{});
    CHECK(walks.searches.size() > 20);
    CHECK(walks.of_all_years() == std::vector<std::string>{});
}

} // namespace mellowbin
