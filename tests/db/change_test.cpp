#include "book_support.h"
#include "db/journal_store.h"
#include "db/movement_store.h"
#include "db/settings_store.h"

namespace mellowbin {

TEST_CASE("A change and its journal line come into the book together") {
    SqliteConnection book(":memory:");
    Change change(book,
                  {0, noon, "Ada Example", "set_setting", "setting room", "The room is 22 °C", "typed 22"});
    SettingsStore(book).set(change, "room", "22", "°C");
    change.commit();

    const auto lines = JournalStore(book).newest(10);
    REQUIRE(lines.size() == 1);
    CHECK(lines[0] == JournalLine{1, noon, "Ada Example", "set_setting", "setting room", "The room is 22 °C",
                                  "typed 22"});
    CHECK(SettingsStore(book).find("room").has_value());
}

TEST_CASE("A change that is left without commit leaves nothing behind") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    const auto lines = count_of(book, "journal");
    {
        Change change(book, line("Lot W1 was taken in"));
        REQUIRE(LotStore(book).take_in(change, delivered(plant, "W1")));
    }
    CHECK(count_of(book, "lot") == 0);
    CHECK(count_of(book, "lot_value") == 0);
    CHECK(count_of(book, "movement") == 0);
    CHECK(count_of(book, "journal") == lines);
}

TEST_CASE("A connection knows of the last change whether it is in the book, and by which line") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    take_in(book, plant, "W1");
    CHECK(book.last_change().fate == Fate::in_the_book);
    CHECK(book.last_change().line == count_of(book, "journal"));
    CHECK(book.last_change().words == JournalStore(book).newest(1).at(0).words);
    CHECK(look_again(book, book.last_change()) == Fate::in_the_book);

    book.forget_last_change();
    {
        Change change(book, line("Lot W2 was taken in"));
        REQUIRE(LotStore(book).take_in(change, delivered(plant, "W2")));
    }
    CHECK(book.last_change().fate == Fate::not_in_the_book);
    CHECK(book.last_change().line == 0);
}

TEST_CASE("A line is looked for by its number and its words") {
    SqliteConnection book(":memory:");
    take_in(book, add_small_plant(book), "W1");
    LastChange change = book.last_change();
    change.words = "Lot W9 was taken in"; // another station's line has the number now
    CHECK(look_again(book, change) == Fate::not_in_the_book);
    ++change.line;
    CHECK(look_again(book, change) == Fate::not_in_the_book);
}

TEST_CASE("An exception on the way undoes the change, and the next one works") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    auto without_mill = delivered(plant, "W1");
    without_mill.lot.mill = MillId{77};
    const auto fault = fault_of([&] {
        Change change(book, line("Lot W1 was taken in"));
        REQUIRE(LotStore(book).take_in(change, delivered(plant, "W0")));
        (void)LotStore(book).take_in(change, without_mill);
        change.commit();
    });
    CHECK(fault.fault() == BookFault::rule_broken);
    CHECK(count_of(book, "lot") == 0);
    take_in(book, plant, "W1");
    CHECK(count_of(book, "lot") == 1);
}

TEST_CASE("A change in which something was refused cannot be committed") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    take_in(book, plant, "W1");
    Change change(book, line("Lots were taken in"));
    REQUIRE(LotStore(book).add(change, good_lot(plant, "W2")));
    REQUIRE_FALSE(LotStore(book).add(change, good_lot(plant, "W1")));
    CHECK_THROWS_AS(change.commit(), std::logic_error);
}

TEST_CASE("A change about several records writes a line for each") {
    SqliteConnection book(":memory:");
    Change change(book, line("Lot W1 was released"));
    JournalLine second = line("Lot W2 was released");
    second.about = record_of(LotId{2});
    change.also(second);
    change.commit();
    CHECK(JournalStore(book).about(record_of(LotId{2})).size() == 1);
    REQUIRE(JournalStore(book).newest(1).size() == 1);
    CHECK(JournalStore(book).newest(1)[0].words == "Lot W2 was released");
    CHECK(JournalStore(book).about(record_of(LotId{1})).empty());
    CHECK(JournalStore(book).about(record_of(RunId{2})).empty());
}

TEST_CASE("What is appended can be neither edited nor deleted nor replaced") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    take_in(book, plant, "W1");
    {
        Change change(book, line("The room is 22 °C"));
        SettingsStore(book).set(change, "room", "22", "°C");
        change.commit();
    }
    const std::string_view tries[] = {
        "UPDATE journal SET words = 'nothing happened'",
        "DELETE FROM journal",
        "INSERT OR REPLACE INTO journal (id, at, who, intent, subject, words, detail) "
        "VALUES (1, '2026-01-01T00:00:00Z', 'x', 'x', 'x', 'x', 'x')",
        "UPDATE movement SET mass_g = 1",
        "DELETE FROM movement",
        "INSERT OR REPLACE INTO movement (id, lot_id, kind, to_place_id, mass_g, at, who, note) "
        "VALUES (1, 1, 'receipt', 1, 5, '2026-01-01T00:00:00Z', 'x', '')",
        "UPDATE setting SET value = '5'",
        "DELETE FROM setting",
        "DELETE FROM lot",
    };
    const auto before = JournalStore(book).newest(10);
    for (const auto sql : tries) {
        INFO(sql);
        CHECK(fault_of([&] { book.execute(sql); }).fault() == BookFault::rule_broken);
    }
    CHECK(JournalStore(book).newest(10) == before);
    CHECK(MovementStore(book).all().at(0).mass == Grams{25'000'000});
}

} // namespace mellowbin
