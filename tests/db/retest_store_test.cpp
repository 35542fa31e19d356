#include "book_support.h"
#include "db/journal_store.h"
#include "db/retest_store.h"

#include <cmath>

namespace mellowbin {
namespace {

Retest good_retest(LotId lot) {
    Retest retest;
    retest.lot = lot;
    retest.taken_on = date::sys_days{2026_y / 11 / 25};
    retest.note = "Second shift";
    retest.results.set({Property::glutathione, 41.5, Basis::at(Moisture{14}), "HPLC", wheat_nitrogen_factor});
    retest.results.set({Property::protein, 12.1, Basis::dry_matter(), "Dumas", 6.25});
    retest.results.set({Property::extensograph_resistance, 322, {}, "ISO 5530-2", wheat_nitrogen_factor});
    return retest;
}

RetestId logged(Connection& book, const Retest& retest) {
    Change change(book, line("A lot was retested"));
    const auto id = RetestStore(book).log(change, retest);
    change.commit();
    return id.value();
}

Result<Done> withdrawn(Connection& book, RetestId id) {
    Change change(book, line("A retest was withdrawn"));
    auto done = RetestStore(book).withdraw(change, id, "Of another lot");
    if (done)
        change.commit();
    return done;
}

} // namespace

TEST_CASE("A retest comes back as it was logged, by the person of the change") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    Retest retest = good_retest(take_in(book, plant, "W1"));
    retest.place = plant.silo;
    retest.id = logged(book, retest);
    retest.who = "Ada Example";
    retest.logged_at = noon;
    CHECK(RetestStore(book).all() == std::vector{retest});
    CHECK(RetestStore(book).find(retest.id) == retest);
    CHECK_FALSE(RetestStore(book).find(RetestId{9}));
    CHECK(JournalStore(book).newest(1).at(0).words == "A lot was retested");
}

TEST_CASE("Each lot has its own retests, each retest its own results, in the order they were logged") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    const auto first = take_in(book, plant, "W1");
    const auto second = take_in(book, plant, "W2");
    Retest only_stability = good_retest(second);
    only_stability.results = {};
    only_stability.results.set({Property::stability, 11.5, {}, "", wheat_nitrogen_factor});
    const auto a = logged(book, good_retest(second));
    const auto b = logged(book, good_retest(first));
    const auto c = logged(book, only_stability);

    const RetestStore store(book);
    const auto all = store.all();
    REQUIRE(all.size() == 3);
    CHECK(all[0].id == a);
    CHECK(all[1].id == b);
    CHECK(all[2].id == c);
    CHECK(all[0].results.values().size() == 3);
    CHECK(all[2].results == only_stability.results);
    CHECK(store.of(first) == std::vector{all[1]});
    CHECK(store.of(second) == std::vector{all[0], all[2]});
    CHECK(store.of(LotId{99}).empty());
}

TEST_CASE("A withdrawn retest stays in the list as withdrawn, and the withdrawal is no retest of its own") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    const auto lot = take_in(book, plant, "W1");
    const auto first = logged(book, good_retest(lot));
    const auto second = logged(book, good_retest(lot));
    REQUIRE(withdrawn(book, first));
    const auto third = logged(book, good_retest(lot));

    const auto all = RetestStore(book).all();
    REQUIRE(all.size() == 3);
    CHECK(all[0].is_withdrawn);
    CHECK(all[0].note == "Second shift");
    CHECK(all[0].results.values().size() == 3);
    CHECK_FALSE(all[1].is_withdrawn);
    CHECK(all[2].id == third);
    CHECK(RetestStore(book).of(lot) == all);
    CHECK(count_of(book, "retest") == 4);
    CHECK(count_of(book, "retest_value") == 9);
    CHECK(all[1].id == second);
}

TEST_CASE("A retest is withdrawn once, and only if it is there; refused, nothing is written") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    const auto id = logged(book, good_retest(take_in(book, plant, "W1")));
    REQUIRE(withdrawn(book, id));
    const auto lines = count_of(book, "journal");

    const auto again = withdrawn(book, id);
    REQUIRE_FALSE(again);
    CHECK(again.refusals().at(0) == Refusal{"Retest", "was withdrawn before", "Look at the lot's list"});
    const auto of_the_withdrawal = withdrawn(book, RetestId{id.number() + 1});
    REQUIRE_FALSE(of_the_withdrawal);
    CHECK(of_the_withdrawal.refusals().at(0).what == "is not in the book");
    CHECK_FALSE(withdrawn(book, RetestId{99}));
    CHECK(count_of(book, "retest") == 2);
    CHECK(count_of(book, "journal") == lines);
}

TEST_CASE("A retest without results is refused") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    Retest retest = good_retest(take_in(book, plant, "W1"));
    retest.results = {};
    Change change(book, line("A lot was retested"));
    const auto refused = RetestStore(book).log(change, retest);
    REQUIRE_FALSE(refused);
    CHECK(refused.refusals().at(0).field == "Results");
}

TEST_CASE(
    "The book holds core's limits of every retested property, and no zero, even when core was passed by") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    const auto lot = take_in(book, plant, "W1");
    const auto is_kept = [&](Property property, double value) {
        Retest retest = good_retest(lot);
        retest.results = {};
        retest.results.set({property, value, basis_for(property), "", wheat_nitrogen_factor});
        try {
            logged(book, retest);
            return true;
        } catch (const BookError& error) {
            CHECK(error.fault() == BookFault::rule_broken);
            return false;
        }
    };
    for (const auto& t : all_properties()) {
        INFO(t.key);
        CHECK(is_kept(t.property, t.lowest) == (t.lowest > 0));
        CHECK(is_kept(t.property, t.highest));
        CHECK_FALSE(is_kept(t.property, t.highest + 0.01));
        CHECK_FALSE(is_kept(t.property, 0));
        CHECK_FALSE(is_kept(t.property, -1));
        CHECK_FALSE(is_kept(t.property, NAN));
    }
}

TEST_CASE("By SQL, too, no impossible retest is written, and none is edited or deleted") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    const auto id = logged(book, good_retest(take_in(book, plant, "W1")));
    take_in(book, plant, "W2");
    REQUIRE(withdrawn(book, id));
    const auto before = RetestStore(book).all();
    // 1 is the retest, 2 its withdrawal
    for (const char* sql : {
             "INSERT INTO retest_value VALUES (1, 'stability', -4, '', '', 5.7)",
             "INSERT INTO retest_value VALUES (1, 'loveliness', 4, '', '', 5.7)",
             "INSERT INTO retest_value VALUES (2, 'stability', 4, '', '', 5.7)",
             "INSERT INTO retest_value VALUES (9, 'stability', 4, '', '', 5.7)",
             "INSERT INTO retest VALUES (3, 1, '2026-11-25', NULL, '2026-11-25T12:00:00Z', '', '', 1)",
             "INSERT INTO retest VALUES (3, 1, '2026-11-25', NULL, '2026-11-25T12:00:00Z', '', '', 2)",
             "INSERT INTO retest VALUES (3, 1, '2026-11-25', NULL, '2026-11-25T12:00:00Z', '', '', 3)",
             "INSERT INTO retest VALUES (3, 9, '2026-11-25', NULL, '2026-11-25T12:00:00Z', '', '', NULL)",
             "INSERT INTO retest VALUES (3, 1, 'yesterday', NULL, '2026-11-25T12:00:00Z', '', '', NULL)",
             "UPDATE retest SET taken_on = '2026-11-20'",
             "UPDATE retest SET withdraws_id = NULL WHERE id = 2",
             "DELETE FROM retest WHERE id = 2",
             "REPLACE INTO retest VALUES (1, 2, '2026-11-25', NULL, '2026-11-25T12:00:00Z', '', '', NULL)",
             "UPDATE retest_value SET value = value + 1",
             "DELETE FROM retest_value",
         }) {
        INFO(sql);
        CHECK(fault_of([&] { book.execute(sql); }).fault() == BookFault::rule_broken);
    }
    CHECK(RetestStore(book).all() == before);
    const auto other = logged(book, good_retest(LotId{1}));
    CHECK(fault_of([&] {
              book.execute("INSERT INTO retest VALUES (9, 2, '2026-11-25', NULL, '2026-11-25T12:00:00Z', '', "
                           "'', $1)",
                           {other});
          }).fault() == BookFault::rule_broken); // of another lot
}

} // namespace mellowbin
