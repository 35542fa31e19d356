#include "book_support.h"

#include <thread>

namespace mellowbin {
namespace {

std::string one_text(Connection& connection, std::string_view sql, Parameters parameters = {}) {
    std::string found = "(no row)";
    connection.query(sql, parameters, [&](const Row& row) { found = row.words(0); });
    return found;
}

} // namespace

TEST_CASE("A parameter is found by its number, in whatever order the statement names them") {
    SqliteConnection book(":memory:");
    CHECK(one_text(book, "SELECT $2 || '-' || $1", {"first", "second"}) == "second-first");
    CHECK(one_text(book, "SELECT $1 || $1", {"a"}) == "aa");
    CHECK(one_text(book, "SELECT 'price in $1' || $1", {" x"}) == "price in $1 x");
}

TEST_CASE("Values come back as they went in") {
    SqliteConnection book(":memory:");
    const std::string odd = std::string("Mühle „Öst“\0x", 18) + "'; DROP TABLE lot; --";
    int rows = 0;
    book.query("SELECT $1, $2, $3, $4", {std::int64_t{INT64_MIN}, 0.1 + 0.2, odd, std::nullopt},
               [&](const Row& row) {
                   ++rows;
                   CHECK(row.integer(0) == INT64_MIN);
                   CHECK(row.real(1) == 0.1 + 0.2);
                   CHECK(row.text(2) == odd);
                   CHECK(row.is_null(3));
                   CHECK_FALSE(row.maybe_real(3));
               });
    CHECK(rows == 1);
}

TEST_CASE("A number left out by one run of a statement is not taken from the run before") {
    SqliteConnection book(":memory:");
    CHECK(one_text(book, "SELECT COALESCE($1, 'nothing')", {"kept"}) == "kept");
    CHECK(one_text(book, "SELECT COALESCE($1, 'nothing')") == "nothing");
}

TEST_CASE("A statement can run inside itself") {
    SqliteConnection book(":memory:");
    add_small_plant(book);
    int pairs = 0;
    const std::string_view sql = "SELECT name FROM place ORDER BY id";
    book.query(sql, {}, [&](const Row&) { book.query(sql, {}, [&](const Row&) { ++pairs; }); });
    CHECK(pairs == 4);
    CHECK(one_text(book, sql) == "Silo 1");
}

TEST_CASE("A change is seen by others once it is committed, and not before") {
    const TemporaryFolder folder;
    SqliteConnection dock(folder / "book");
    SqliteConnection office(folder / "book");
    const auto plant = add_small_plant(dock);
    {
        Change change(dock, line("Lot W1 was taken in"));
        REQUIRE(LotStore(dock).take_in(change, delivered(plant, "W1")));
        CHECK(LotStore(dock).all().size() == 1);
        CHECK(LotStore(office).all().empty());
        change.commit();
    }
    CHECK(LotStore(office).all().size() == 1);
}

TEST_CASE("A reading sees the book of one instant, whatever is written meanwhile") {
    const TemporaryFolder folder;
    SqliteConnection dock(folder / "book");
    SqliteConnection office(folder / "book");
    const auto plant = add_small_plant(dock);
    {
        const Reading reading(office);
        CHECK(LotStore(office).all().empty());
        take_in(dock, plant, "W1");
        CHECK(LotStore(office).all().empty());
    }
    CHECK(LotStore(office).all().size() == 1);
}

TEST_CASE("While one station writes, another waits and is then told that the book is busy") {
    const TemporaryFolder folder;
    SqliteConnection dock(folder / "book");
    SqliteConnection office(folder / "book");
    const auto plant = add_small_plant(dock);
    office.query("PRAGMA busy_timeout = 50", {}, [](const Row&) {}); // five seconds are long in a test
    {
        Change change(dock, line("Lot W1 was taken in"));
        const auto fault = fault_of([&] { take_in(office, plant, "W2"); });
        CHECK(fault.fault() == BookFault::busy);
        CHECK_THAT(fault.what(), Catch::Contains("Another program is writing") &&
                                     Catch::Contains("not saved") && Catch::Contains("Try again"));
    }
    take_in(office, plant, "W2");
    CHECK(LotStore(dock).all().size() == 1);
}

TEST_CASE("Two stations that take lots in at once lose none and use no number twice") {
    const TemporaryFolder folder;
    const auto plant = [&] {
        SqliteConnection book(folder / "book");
        return add_small_plant(book);
    }();
    const auto station = [&](const std::string& mark) {
        SqliteConnection book(folder / "book");
        for (int i = 0; i < 25; ++i)
            take_in(book, plant, mark + std::to_string(i));
    };
    std::thread dock(station, "D");
    std::thread office(station, "O");
    dock.join();
    office.join();

    SqliteConnection book(folder / "book");
    CHECK(LotStore(book).all().size() == 50);
    CHECK(count_of(book, "movement") == 50);
    CHECK(count_of(book, "journal") == 51);
    CHECK(book.faults().empty());
}

} // namespace mellowbin
