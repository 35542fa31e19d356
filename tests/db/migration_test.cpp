#include "book_support.h"
#include "db/journal_store.h"
#include "db/limit_store.h"
#include "db/migration.h"
#include "db/movement_store.h"
#include "db/settings_store.h"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>

namespace mellowbin {
namespace {

namespace fs = std::filesystem;

std::string fixture() { return bytes_of(MELLOWBIN_FIXTURES "/books/v0001.sql"); }

/// The book of the fixture, as the version that shipped with it left it.
fs::path first_book(const TemporaryFolder& folder) {
    SQLite::Database book((folder / "book").string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    book.exec(fixture());
    return folder / "book";
}

std::vector<std::string> schema_of(const fs::path& path) {
    SQLite::Database book(path.string(), SQLite::OPEN_READWRITE);
    SQLite::Statement query(book, "SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY type, name");
    std::vector<std::string> schema;
    while (query.executeStep())
        schema.push_back(query.getColumn(0).getString());
    return schema;
}

std::vector<Migration> with_next(std::string_view sql) {
    std::vector<Migration> steps(built_in_migrations().begin(), built_in_migrations().end());
    steps.push_back({steps.back().number + 1, "tried_in_a_test", sql});
    return steps;
}

std::string before_next(const fs::path& book) {
    const auto number = std::to_string(built_in_migrations().back().number + 1);
    return book.string() + ".before-" + std::string(4 - number.size(), '0') + number;
}

} // namespace

TEST_CASE("The migrations are numbered from 1 without a gap") {
    int number = 0;
    for (const auto& step : built_in_migrations()) {
        CHECK(step.number == ++number);
        CHECK_FALSE(step.name.empty());
        CHECK_FALSE(step.sql.empty());
    }
    CHECK(number >= 1);
}

TEST_CASE("The first migration still makes the book that shipped with it") {
    const TemporaryFolder folder;
    { SqliteConnection book(folder / "new", built_in_migrations().first(1)); }
    CHECK(schema_of(folder / "new") == schema_of(first_book(folder)));
}

TEST_CASE("A book of the first form opens in this version with all that it held") {
    const TemporaryFolder folder;
    SqliteConnection book(first_book(folder));

    const auto lots = LotStore(book).all();
    REQUIRE(lots.size() == 2);
    CHECK(lots[0].code == "W24-118");
    CHECK(lots[0].received == Grams{25'000'000});
    CHECK(lots[0].milled_on == date::sys_days{2026_y / 11 / 16});
    CHECK(lots[0].state == LotState::released);
    REQUIRE(lots[0].certificate.find(Property::protein) != nullptr);
    CHECK(lots[0].certificate.find(Property::protein)->value == 11.85);
    CHECK(lots[0].certificate.find(Property::protein)->basis == Basis::at(Moisture{14}));
    REQUIRE(lots[0].mill_additions.size() == 1);
    CHECK(lots[0].mill_additions[0] == MillAddition{Substance::ascorbic_acid, OxidantPpm{20}});
    CHECK_FALSE(lots[1].milled_on);
    CHECK(lots[1].state == LotState::held);

    CHECK(PlantStore(book).mills().at(0).name == "Upper mill");
    CHECK(PlantStore(book).flours().at(0).specification.size() == 2);
    CHECK(PlantStore(book).places().at(0).climate.size() == 1);
    CHECK(PlantStore(book).products().at(0).ingredients.size() == 2);
    CHECK(PlantStore(book).lines().at(0).friction_factor == CelsiusStep{14.5});
    CHECK(StockBook(MovementStore(book).all()).total(lots[0].id) == Grams{24'600'000});
    CHECK(RunStore(book).all().at(0).code == "R-1126-1");
    CHECK(RunStore(book).assignments().at(0).is_locked);
    CHECK(LimitStore(book).rows().at(0).limit == OxidantPpm{50});
    CHECK(LimitStore(book).markets().size() == 2);
    CHECK(SettingsStore(book).find("room_temperature")->value == "22");
    CHECK(JournalStore(book).newest(100).size() == 6);
    CHECK(book.faults().empty());
}

TEST_CASE("An older book is copied before it is brought to the present form") {
    const TemporaryFolder folder;
    const auto path = first_book(folder);
    const auto steps =
        with_next("ALTER TABLE mill ADD COLUMN town TEXT NOT NULL DEFAULT ''; UPDATE mill SET town = 'x'");
    {
        SqliteConnection book(path, steps);
        CHECK(LotStore(book).all().size() == 2);
        book.query("SELECT town FROM mill", {}, [](const Row& row) { CHECK(row.text(0) == "x"); });
    }
    REQUIRE(fs::exists(before_next(path)));
    SqliteConnection copy(before_next(path));
    CHECK(LotStore(copy).all().size() == 2);
    CHECK(fault_of([&] { copy.execute("SELECT town FROM mill"); }).fault() == BookFault::rule_broken);
    CHECK(fault_of([&] { SqliteConnection older_program(path); }).fault() == BookFault::newer_book);
}

TEST_CASE("A book in the present form is not copied") {
    const TemporaryFolder folder;
    const auto path = first_book(folder);
    { SqliteConnection book(path); }
    { SqliteConnection book(path, with_next("SELECT 1")); }
    { SqliteConnection book(path, with_next("SELECT 1")); }
    int copies = 0;
    for (const auto& entry : fs::directory_iterator(folder.path()))
        copies += entry.path().string().find(".before-") != std::string::npos ? 1 : 0;
    CHECK(copies == 1);
}

TEST_CASE("A migration that fails half-way leaves the book as it was") {
    const TemporaryFolder folder;
    const auto path = first_book(folder);
    const auto sql =
        GENERATE(as<std::string>{}, "DELETE FROM assignment; CREATE TABLE mill (name TEXT)",
                 "DELETE FROM assignment; DELETE FROM place"); // movements would refer to nothing
    const auto fault = fault_of([&] { SqliteConnection book(path, with_next(sql)); });
    CHECK(fault.fault() == BookFault::rule_broken);
    CHECK(fs::exists(before_next(path)));
    SqliteConnection book(path);
    CHECK(RunStore(book).assignments().size() == 1);
    CHECK(PlantStore(book).places().size() == 2);
    CHECK(book.faults().empty());
}

TEST_CASE("A migration may rebuild a table that others refer to") {
    const TemporaryFolder folder;
    const auto path = first_book(folder);
    SqliteConnection book(
        path, with_next("CREATE TABLE mill_new (id INTEGER PRIMARY KEY, name TEXT NOT NULL) STRICT;"
                        "INSERT INTO mill_new SELECT id, name FROM mill; DROP TABLE mill;"
                        "ALTER TABLE mill_new RENAME TO mill;"));
    CHECK(PlantStore(book).mills().size() == 1);
    CHECK(LotStore(book).all().size() == 2);
    CHECK(book.faults().empty());
    CHECK(fault_of([&] { book.execute("DELETE FROM mill"); }).fault() ==
          BookFault::rule_broken); // keys hold again
}

} // namespace mellowbin
