#include "book_support.h"
#include "db/journal_store.h"
#include "db/movement_store.h"
#include "db/settings_store.h"

namespace mellowbin {
namespace {

/// Sets a setting, as a station that knows the book as of this line.
void set_room(Connection& book, std::int64_t decided_on, const char* degrees) {
    Change change(book, line("The room is so warm"), decided_on);
    SettingsStore(book).set(change, "room", degrees, "°C");
    change.commit();
}

} // namespace

TEST_CASE("The journal's greatest line is the book's version, and every change raises it") {
    SqliteConnection book(":memory:");
    CHECK(JournalStore(book).version() == 0);
    const auto plant = add_small_plant(book);
    const auto before = JournalStore(book).version();
    take_in(book, plant, "W1");
    CHECK(JournalStore(book).version() == before + 1);
}

TEST_CASE("The journal tells which records were written since a line") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    const auto before = JournalStore(book).version();
    CHECK(JournalStore(book).since(before).records.empty());
    const auto lot = take_in(book, plant, "W1");
    const auto run = add_run(book, good_run(plant, "R1"));
    const auto changes = JournalStore(book).since(before);
    CHECK(changes.is_known);
    CHECK(changes.version == before + 2);
    CHECK(changes.lines.size() == 2);
    CHECK(changes.records == std::vector{record_of(lot), record_of(run)});
}

TEST_CASE("A line that does not say what it wrote may have written anything") {
    SqliteConnection book(":memory:");
    book.execute("INSERT INTO journal (id, at, who, intent, subject, words, detail) "
                 "VALUES (1, '2026-11-25T12:00:00Z', 'x', 'x', '', 'Something was done', '')");
    CHECK_FALSE(JournalStore(book).since(0).is_known);
    CHECK(JournalStore(book).since(0).version == 1);
}

TEST_CASE("What was decided on an older state of the book is not written") {
    const TemporaryFolder folder;
    SqliteConnection dock(folder / "book"), office(folder / "book");
    const auto seen = JournalStore(dock).version();
    set_room(office, seen, "22");
    CHECK_THROWS_AS(set_room(dock, seen, "23"), BookMoved);
    CHECK(SettingsStore(dock).find("room")->value == "22");
    set_room(dock, JournalStore(dock).version(), "23");
    CHECK(SettingsStore(office).find("room")->value == "23");
}

TEST_CASE("A connection notices that another one wrote, and not its own writing") {
    const TemporaryFolder folder;
    SqliteConnection dock(folder / "book"), office(folder / "book");
    (void)dock.was_written_elsewhere();
    CHECK_FALSE(dock.was_written_elsewhere());
    set_room(dock, JournalStore(dock).version(), "22");
    CHECK_FALSE(dock.was_written_elsewhere());
    set_room(office, JournalStore(office).version(), "23");
    CHECK(dock.was_written_elsewhere());
    CHECK_FALSE(dock.was_written_elsewhere());
}

TEST_CASE("The journal is read a page at a time, newest first") {
    SqliteConnection book(":memory:");
    for (int i = 0; i < 5; ++i)
        set_room(book, i, "22");
    const auto page = JournalStore(book).newest(2);
    REQUIRE(page.size() == 2);
    CHECK(page.back().id == 4);
    const auto older = JournalStore(book).before(page.back().id, 10);
    REQUIRE(older.size() == 3);
    CHECK(older.front().id == 3);
    CHECK(older.back().id == 1);
}

TEST_CASE("The records of a line are never edited nor deleted") {
    SqliteConnection book(":memory:");
    set_room(book, 0, "22");
    CHECK(fault_of([&] { book.execute("DELETE FROM journal_record"); }).fault() == BookFault::rule_broken);
    CHECK(fault_of([&] { book.execute("UPDATE journal_record SET number = 7"); }).fault() ==
          BookFault::rule_broken);
}

TEST_CASE("Flour of a lot that is not released is drawn for no dough, whoever asks") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    const auto lot = take_in(book, plant, "W1");
    Movement use;
    use.lot = lot;
    use.kind = MovementKind::use;
    use.from = plant.bay;
    use.mass = Grams{1000};
    use.at = noon;
    const auto draw = [&] {
        Change change(book, line("Flour was drawn"));
        const auto drawn = MovementStore(book).append(change, use);
        if (drawn)
            change.commit();
        return drawn;
    };
    const auto put = [&](LotState state) {
        Change change(book, line("The lot was judged"));
        REQUIRE(LotStore(book).set_state(change, lot, state, "as it is"));
        change.commit();
    };
    CHECK_FALSE(draw());
    put(LotState::released);
    CHECK(draw());
    put(LotState::held);
    const auto refused = draw();
    REQUIRE_FALSE(refused);
    CHECK(refused.refusals().front().field == "Lot W1");
    const auto fault = fault_of([&] {
        book.execute("INSERT INTO movement (id, lot_id, kind, from_place_id, mass_g, at, who, note) "
                     "VALUES (99, 1, 'use', 1, 5, '2026-11-25T12:00:00Z', 'x', '')");
    });
    CHECK(fault.fault() == BookFault::rule_broken);
}

} // namespace mellowbin
