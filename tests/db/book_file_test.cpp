#include "book_support.h"
#include "db/journal_store.h"
#include "db/movement_store.h"
#include "db/settings_store.h"

#include <SQLiteCpp/Database.h>

#include <linux/magic.h>
#include <random>
#include <sqlite3.h>
#include <sys/stat.h>
#include <unistd.h>

namespace mellowbin {
namespace {

namespace fs = std::filesystem;

BookError opening(const fs::path& path) {
    return fault_of([&] { SqliteConnection book(path); });
}

std::int64_t pragma(const fs::path& path, const std::string& name) {
    return SQLite::Database(path.string(), SQLite::OPEN_READWRITE).execAndGet("PRAGMA " + name).getInt64();
}

/// A book with three lots in a plant, closed.
fs::path small_book(const TemporaryFolder& folder) {
    SqliteConnection book(folder / "book");
    const auto plant = add_small_plant(book);
    for (const char* code : {"W1", "W2", "W3"})
        take_in(book, plant, code);
    return folder / "book";
}

/// Reads all that the stores can read.
void read_all(Connection& book) {
    const PlantStore plant(book);
    (void)plant.mills();
    (void)plant.flours();
    (void)plant.places();
    (void)plant.products();
    (void)plant.lines();
    (void)LotStore(book).all();
    (void)MovementStore(book).all();
    (void)RunStore(book).all();
    (void)SettingsStore(book).all();
    (void)JournalStore(book).newest(1000);
}

constexpr uid_t nobody = 65534;

/// What opening the book says to a person who may not write there: 0 for read_only, else what went wrong.
int opened_by_another_person(const fs::path& book) {
    if (::getuid() == 0 && ::setuid(nobody) != 0)
        return 1;
    try {
        SqliteConnection connection(book);
        return 2;
    } catch (const BookError& error) {
        const bool says_so =
            std::string_view(error.what()).find("cannot be written") != std::string_view::npos;
        return error.fault() == BookFault::read_only && says_so ? 0 : 3;
    }
}

} // namespace

TEST_CASE("A new book is one file with our mark, a write-ahead log and full synchronising") {
    const TemporaryFolder folder;
    {
        SqliteConnection book(folder / "book");
        const auto number = [&](std::string_view sql) {
            std::int64_t found = -1;
            book.query(sql, {}, [&](const Row& row) { found = row.integer(0); });
            return found;
        };
        book.query("PRAGMA journal_mode", {}, [](const Row& row) { CHECK(row.text(0) == "wal"); });
        CHECK(number("PRAGMA synchronous") == 2);
        CHECK(number("PRAGMA foreign_keys") == 1);
        CHECK(number("PRAGMA recursive_triggers") == 1);
        CHECK(number("PRAGMA busy_timeout") == 5000);
        CHECK(number("SELECT COUNT(*) FROM pragma_table_list WHERE schema = 'main' AND type = 'table' "
                     "AND name NOT LIKE 'sqlite%' AND strict = 0") == 0);
    }
    int files = 0;
    for ([[maybe_unused]] const auto& entry : fs::directory_iterator(folder.path()))
        ++files;
    CHECK(files == 1);
    CHECK(pragma(folder / "book", "application_id") == book_application_id);
    CHECK(pragma(folder / "book", "user_version") == built_in_migrations().back().number);
}

TEST_CASE("What was entered is there when the book is opened again") {
    const TemporaryFolder folder;
    const auto path = small_book(folder);
    SqliteConnection book(path);
    CHECK(LotStore(book).all().size() == 3);
    CHECK(book.faults().empty());
}

TEST_CASE("A file that is not a book is refused with a sentence, and left as it is") {
    const TemporaryFolder folder;
    const auto text = folder / "notes.txt";
    write_file(text, "Flour came at ten, two pallets.\n");
    auto fault = opening(text);
    CHECK(fault.fault() == BookFault::not_a_book);
    CHECK_THAT(fault.what(), Catch::Contains("notes.txt") && Catch::Contains("is not a mellowbin book"));
    CHECK(bytes_of(text) == "Flour came at ten, two pallets.\n");

    write_file(folder / "long.txt", std::string(20'000, 'x'));
    CHECK(opening(folder / "long.txt").fault() == BookFault::not_a_book);

    write_file(folder / "empty", "");
    fault = opening(folder / "empty");
    CHECK(fault.fault() == BookFault::not_a_book);
    CHECK_THAT(fault.what(), Catch::Contains("empty"));
    CHECK(bytes_of(folder / "empty").empty());

    fault = opening(folder.path());
    CHECK(fault.fault() == BookFault::not_a_book);
    CHECK_THAT(fault.what(), Catch::Contains("folder"));
    CHECK(opening("/dev/null").fault() == BookFault::not_a_book);
}

TEST_CASE("Another program's database is not a book, and is left as it is") {
    const TemporaryFolder folder;
    const auto path = folder / "addresses";
    SQLite::Database(path.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE)
        .exec("CREATE TABLE person (name TEXT); INSERT INTO person VALUES ('Ada')");
    const auto before = bytes_of(path);
    const auto fault = opening(path);
    CHECK(fault.fault() == BookFault::not_a_book);
    CHECK_THAT(fault.what(), Catch::Contains("another program"));
    CHECK(bytes_of(path) == before);
}

TEST_CASE("A book of a newer version is refused with a sentence, and left as it is") {
    const TemporaryFolder folder;
    const auto path = small_book(folder);
    SQLite::Database(path.string(), SQLite::OPEN_READWRITE).exec("PRAGMA user_version = 99");
    const auto before = bytes_of(path);
    const auto fault = opening(path);
    CHECK(fault.fault() == BookFault::newer_book);
    CHECK_THAT(fault.what(), Catch::Contains("newer version") && Catch::Contains("99"));
    CHECK(bytes_of(path) == before);
}

TEST_CASE("A book cut short is said to be damaged, or not to be a book when next to nothing is left") {
    const TemporaryFolder folder;
    const auto whole = bytes_of(small_book(folder));
    for (const std::size_t length : {whole.size() - 1, whole.size() / 2, std::size_t{5000}, std::size_t{600},
                                     std::size_t{100}, std::size_t{17}}) {
        INFO(length);
        write_file(folder / "torn", std::string_view(whole).substr(0, length));
        const auto fault = fault_of([&] {
            SqliteConnection book(folder / "torn");
            read_all(book);
        });
        CHECK((fault.fault() == BookFault::damaged || fault.fault() == BookFault::not_a_book));
        CHECK_THAT(fault.what(), Catch::Contains("torn"));
    }
}

TEST_CASE("The hostile book files are refused with a sentence") {
    int files = 0;
    const TemporaryFolder folder;
    for (const auto& entry : fs::directory_iterator(MELLOWBIN_FIXTURES "/hostile")) {
        if (entry.path().extension() != ".mellowbin")
            continue;
        ++files;
        DYNAMIC_SECTION(entry.path().filename().string()) {
            fs::copy_file(entry.path(), folder / "copy");
            const auto fault = fault_of([&] {
                SqliteConnection book(folder / "copy");
                read_all(book);
            });
            CHECK((fault.fault() == BookFault::damaged || fault.fault() == BookFault::not_a_book));
        }
    }
    CHECK(files >= 3);
}

TEST_CASE("A book with bytes flipped anywhere is read or refused, and never brings the program down") {
    const TemporaryFolder folder;
    const auto whole = bytes_of(small_book(folder));
    std::mt19937 random(20261125); // always the same faults
    int refused = 0;
    for (int round = 0; round < 100; ++round) {
        auto spoiled = whole;
        for (int flips = 0; flips < 8; ++flips)
            spoiled[random() % spoiled.size()] = static_cast<char>(random());
        fs::remove(folder / "spoiled");
        write_file(folder / "spoiled", spoiled);
        try {
            SqliteConnection book(folder / "spoiled");
            read_all(book);
            (void)book.faults();
        } catch (const BookError& error) {
            CHECK(std::string(error.what()).size() > 20);
            ++refused;
        }
    }
    CHECK(refused > 0);
    CHECK(refused < 100);
}

TEST_CASE("A folder that is not there is said so") {
    const TemporaryFolder folder;
    const auto fault = opening(folder / "nowhere/book");
    CHECK(fault.fault() == BookFault::cannot_open);
    CHECK_THAT(fault.what(), Catch::Contains("There is no folder") && Catch::Contains("nowhere"));
}

TEST_CASE("A folder or file that this person may not write is said so") {
    const TemporaryFolder folder;
    const auto in_closed_folder = small_book(folder);
    REQUIRE(::chmod(folder.path().c_str(), 0555) == 0);
    CHECK(in_a_child([&] { return opened_by_another_person(in_closed_folder); }) == 0);
    CHECK(in_a_child([&] { return opened_by_another_person(folder / "new"); }) == 0);
    REQUIRE(::chmod(folder.path().c_str(), 0777) == 0);
    REQUIRE(::chmod(in_closed_folder.c_str(), 0444) == 0);
    CHECK(in_a_child([&] { return opened_by_another_person(in_closed_folder); }) == 0);
}

TEST_CASE("A book that becomes read-only while it is open says so, and that nothing was saved") {
    const TemporaryFolder folder;
    SqliteConnection book(folder / "book");
    const auto plant = add_small_plant(book);
    book.query("PRAGMA query_only = ON", {}, [](const Row&) {});
    const auto fault = fault_of([&] { take_in(book, plant, "W1"); });
    CHECK(fault.fault() == BookFault::read_only);
    CHECK_THAT(fault.what(), Catch::Contains("cannot be written") && Catch::Contains("not saved"));
}

TEST_CASE("Network file systems are known by their number") {
    CHECK(network_file_system(NFS_SUPER_MAGIC) == "NFS");
    CHECK(network_file_system(0xFF534D42) == "SMB");
    CHECK(network_file_system(0xFE534D42) == "SMB");
    CHECK(network_file_system(0x517B) == "SMB");
    CHECK_FALSE(network_file_system(EXT4_SUPER_MAGIC));
    CHECK_FALSE(network_file_system(TMPFS_MAGIC));
    CHECK_FALSE(network_file_system(BTRFS_SUPER_MAGIC));
}

TEST_CASE("A saved copy is a whole book that needs nothing beside it") {
    const TemporaryFolder folder;
    SqliteConnection book(folder / "book");
    const auto plant = add_small_plant(book);
    take_in(book, plant, "W1");
    REQUIRE(book.save_copy(folder / "copy"));
    take_in(book, plant, "W2");

    // Byte 18 of the head is 2 for a write-ahead log, which could not be read from a disk that cannot be
    // written.
    CHECK(bytes_of(folder / "copy")[18] == 1);
    int files = 0;
    for (const auto& entry : fs::directory_iterator(folder.path()))
        files += entry.path().filename().string().starts_with("copy") ? 1 : 0;
    CHECK(files == 1);
    SqliteConnection copy(folder / "copy");
    CHECK(LotStore(copy).all().size() == 1);
    CHECK(copy.faults().empty());
}

TEST_CASE("A copy never takes the place of another file, the book itself least of all") {
    const TemporaryFolder folder;
    SqliteConnection book(folder / "book");
    add_small_plant(book);
    write_file(folder / "letter", "Dear miller,");
    CHECK(book.save_copy(folder / "letter").refusals().at(0).field == "Copy to");
    CHECK(bytes_of(folder / "letter") == "Dear miller,");
    CHECK_FALSE(book.save_copy(folder / "book"));
    CHECK(fault_of([&] { (void)book.save_copy(folder / "nowhere/copy"); }).fault() == BookFault::cannot_open);
    CHECK(PlantStore(book).mills().size() == 1);
}

TEST_CASE("A book that holds what this version cannot read says so instead of guessing") {
    const TemporaryFolder folder;
    const auto path = small_book(folder);
    const auto spoil =
        GENERATE(as<std::string>{}, "UPDATE lot SET delivered_on = '2026-13-45' WHERE id = 2",
                 "UPDATE lot SET state_at = '2026-11-25 12:00:00Z' WHERE id = 2",
                 "UPDATE lot_value SET basis = 'roughly' WHERE lot_id = 2 AND property = 'protein'",
                 "UPDATE lot SET state = 'lost' WHERE id = 2");
    {
        SQLite::Database raw(path.string(), SQLite::OPEN_READWRITE);
        raw.exec("PRAGMA ignore_check_constraints = ON");
        raw.exec(spoil);
    }
    SqliteConnection book(path);
    const auto fault = fault_of([&] { (void)LotStore(book).all(); });
    CHECK(fault.fault() == BookFault::damaged);
    CHECK_THAT(fault.what(), Catch::Contains("The book holds"));
}

TEST_CASE("A row that refers to nothing is found when the book is checked") {
    const TemporaryFolder folder;
    const auto path = small_book(folder);
    SQLite::Database(path.string(), SQLite::OPEN_READWRITE).exec("DELETE FROM mill");
    SqliteConnection book(path);
    const auto faults = book.faults();
    CHECK(faults.size() == 3);
    CHECK_THAT(faults.at(0), Catch::Contains("lot") && Catch::Contains("mill"));
}

} // namespace mellowbin
