#include "app/app.h"
#include "app/book/setup.h"
#include "app/book/whole_book.h"
#include "app/models/lots.h"
#include "db/sqlite_connection.h"
#include "db/table_store.h"
#include "demo_at_hand.h"
#include "exchange/whole_book.h"
#include "small_plant.h"
#include "support/catch.h"
#include "support/fixture_file.h"
#include "support/full_disk.h"
#include "support/outside.h"
#include "support/temporary_folder.h"

#include <bit>
#include <fstream>
#include <map>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::TemporaryFolder;

namespace {

namespace fs = std::filesystem;

const Instant noon = instant_from_iso("2026-11-25T12:00:00Z");

/// Every value of every table as the engine itself writes it down as SQL, with its kind: nothing of ours
/// reads or writes it.
std::map<std::string, std::vector<std::string>> everything_in(const fs::path& book) {
    SqliteConnection connection(book);
    std::map<std::string, std::vector<std::string>> all;
    for (const auto& table : TableStore(connection).tables()) {
        std::string columns;
        for (const auto& column : table.columns)
            columns += (columns.empty() ? "" : " || '|' || ") +
                       ("typeof(\"" + column.name + "\") || ' ' || quote(\"" + column.name + "\")");
        auto& rows = all[table.name];
        connection.query("SELECT " + columns + " FROM \"" + table.name + "\"", {},
                         [&](const Row& row) { rows.push_back(row.words(0)); });
        std::sort(rows.begin(), rows.end());
    }
    return all;
}

std::vector<std::string> schema_of(const fs::path& book) {
    SqliteConnection connection(book);
    std::vector<std::string> all;
    connection.query("SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY type, name", {},
                     [&](const Row& row) { all.push_back(row.words(0)); });
    return all;
}

void save(const fs::path& book, const fs::path& to) {
    SqliteConnection connection(book);
    const auto saved = save_whole_book(connection, to, noon);
    INFO((saved ? "" : in_words(saved.refusals().front())));
    REQUIRE(saved);
}

std::string refused(const TemporaryFolder& folder, const std::string& document) {
    std::ofstream(folder / "x.json", std::ios::binary | std::ios::trunc) << document;
    const auto made = make_book_of(folder / "x.json", folder / "made.mbook");
    REQUIRE_FALSE(made);
    CHECK_FALSE(fs::exists(folder / "made.mbook"));
    CHECK_FALSE(fs::exists(folder / "made.mbook.unfinished"));
    return in_words(made.refusals().front());
}

std::string replaced(std::string text, std::string_view what, std::string_view with) {
    const auto at = text.find(what);
    REQUIRE(at != std::string::npos);
    return text.replace(at, what.size(), with);
}

} // namespace

TEST_CASE(
    "A whole book saved as JSON and read into an empty book is the same in every table, to the last bit") {
    const TemporaryFolder folder;
    save(tests::demo_at_hand(), folder / "demo.json");
    const auto made = make_book_of(folder / "demo.json", folder / "made.mbook");
    INFO((made ? "" : in_words(made.refusals().front())));
    REQUIRE(made);
    const auto before = everything_in(tests::demo_at_hand()), after = everything_in(folder / "made.mbook");
    CHECK(before.size() > 50);
    CHECK(before.at("movement").size() > 10);
    REQUIRE(before.size() == after.size());
    for (const auto& [table, rows] : before) {
        INFO(table);
        CHECK(rows == after.at(table));
    }
    CHECK(schema_of(tests::demo_at_hand()) == schema_of(folder / "made.mbook")); // triggers and all
    save(folder / "made.mbook", folder / "again.json");
    CHECK(testing::file_bytes(folder / "demo.json") == testing::file_bytes(folder / "again.json"));
    App app({(folder / "made.mbook").string(), "Ines", Clock::standing_at(tests::day_of_demo)});
    CHECK_FALSE(app.lots().rows.empty()); // and can be worked with
}

TEST_CASE(
    "What JSON has no word for comes back as it was: bytes that are no text, and numbers at their ends") {
    std::ostringstream document;
    exchange::WholeBookWriter writer(document, 1, "2026-11-25T12:00:00Z");
    const std::vector<exchange::BookColumn> columns{{"a", exchange::BookColumn::Holds::whole},
                                                    {"b", exchange::BookColumn::Holds::real},
                                                    {"c", exchange::BookColumn::Holds::text}};
    writer.begin_table("t", columns);
    const double inf = std::numeric_limits<double>::infinity();
    const std::vector<TableRow> before{
        {std::numeric_limits<std::int64_t>::max(), inf, std::string("\xFF\x00\"\\\r\n", 6)},
        {std::numeric_limits<std::int64_t>::min(), -inf, std::string("\xF0\x9F\x8C\xBE\0x", 6)},
        {std::monostate{}, 5e-324, std::string()},
        {std::int64_t{0}, -0.0, std::monostate{}},
        {std::int64_t{-1}, 123456789012345678.0, std::string("Мука")},
        {std::int64_t{1}, 0.1 + 0.2, std::string("{\"hex\":1}")}};
    for (const auto& row : before)
        writer.row(row);
    writer.end_table();
    writer.end();
    struct Heard final : exchange::WholeBookListener {
        Result<Done> begin(int) override { return Done{}; }
        Result<Done> table(const std::string&, const std::vector<exchange::BookColumn>&) override {
            return Done{};
        }
        Result<Done> row(const std::vector<exchange::BookCell>& cells) override {
            rows.push_back(cells);
            return Done{};
        }
        std::vector<TableRow> rows;
    } heard;
    std::istringstream in(document.str());
    REQUIRE(exchange::read_whole_book(in, heard));
    REQUIRE(heard.rows.size() == before.size());
    for (std::size_t r = 0; r < before.size(); ++r) {
        CHECK(heard.rows[r][0] == before[r][0]);
        CHECK(std::bit_cast<std::uint64_t>(std::get<double>(heard.rows[r][1])) ==
              std::bit_cast<std::uint64_t>(std::get<double>(before[r][1])));
        CHECK(heard.rows[r][2] == before[r][2]);
    }
}

TEST_CASE("A book of an older form is read in that form and brought to the present one") {
    const TemporaryFolder folder;
    {
        SqliteConnection old(folder / "old.mbook", built_in_migrations().first(9));
        {
            Transaction transaction(old);
            old.execute("INSERT INTO mill (id, name) VALUES (7, 'Weir Mill')");
            transaction.commit();
        }
        REQUIRE(save_whole_book(old, folder / "old.json", noon));
    }
    CHECK_THAT(testing::file_bytes(folder / "old.json"), Contains("\"book_form\": 9"));
    REQUIRE(make_book_of(folder / "old.json", folder / "made.mbook"));
    SqliteConnection made(folder / "made.mbook");
    CHECK(TableStore(made).form() == built_in_migrations().back().number);
    std::string mill;
    made.query("SELECT name FROM mill WHERE id = 7", {}, [&](const Row& row) { mill = row.words(0); });
    CHECK(mill == "Weir Mill");
    for (const auto& entry : fs::directory_iterator(folder.path())) // no copies, nothing half made
        CHECK_THAT(entry.path().string(), !Contains("before") && !Contains("unfinished"));
}

TEST_CASE("The file keeps to its schema, by another reader of JSON schemas") {
    if (testing::run_outside("python3 -c 'import jsonschema'").code != 0) {
        WARN("python3-jsonschema is not installed: skipped as judge of the whole book's schema");
        return;
    }
    const TemporaryFolder folder;
    save(tests::demo_at_hand(), folder / "demo.json");
    const std::string schema = MELLOWBIN_SOURCE "/src/exchange/whole_book.schema.json";
    const auto judged = [&](const fs::path& file) {
        return testing::run_outside(
            "python3 -c 'import json,sys,jsonschema\n"
            "s=json.load(open(sys.argv[1])); jsonschema.Draft7Validator.check_schema(s)\n"
            "jsonschema.Draft7Validator(s).validate(json.load(open(sys.argv[2])))' " +
            schema + " " + file.string());
    };
    const auto good = judged(folder / "demo.json");
    INFO(good.out);
    CHECK(good.code == 0);
    const auto whole = testing::file_bytes(folder / "demo.json");
    for (const auto& [what, with] :
         std::map<std::string, std::string>{{"\"version\": 1", "\"version\": 2"},
                                            {"\"holds\": \"text\"", "\"holds\": \"blob\""},
                                            {"\"rows\"", "\"lines\""}}) {
        std::ofstream(folder / "bad.json", std::ios::trunc) << replaced(whole, what, with);
        CHECK(judged(folder / "bad.json").code != 0);
    }
}

TEST_CASE("A file that is not a whole book is refused with its place, and no book is made") {
    const TemporaryFolder folder;
    tests::SmallPlant plant;
    save(plant.book_path(), folder / "good.json");
    const auto good = testing::file_bytes(folder / "good.json");
    CHECK_THAT(refused(folder, ""), Contains("torn, or no JSON"));
    CHECK_THAT(refused(folder, "[]"), Contains("a list stands where none belongs"));
    CHECK_THAT(refused(folder, "{}"), Contains("it has no tables"));
    CHECK_THAT(refused(folder, good.substr(0, good.size() / 2)), Contains("torn"));
    CHECK_THAT(refused(folder, good + "x"), Contains("torn, or no JSON"));
    CHECK_THAT(refused(folder, replaced(good, "whole book\"", "half book\"")),
               Contains("no whole book of version 1"));
    CHECK_THAT(refused(folder, replaced(good, "\"version\": 1", "\"version\": 2")), Contains("version 1"));
    CHECK_THAT(refused(folder, replaced(good, "\"book_form\": ", "\"book_form\": 9")),
               Contains("this version knows up to"));
    CHECK_THAT(refused(folder, replaced(good, "\"mill\": {", "\"miller\": {")),
               Contains("has no table \"miller\""));
    CHECK_THAT(refused(folder, replaced(good, "[1,\"Mill\"]", "[1,\"Mill\",3]")),
               Contains("Table mill, row 1"));
    CHECK_THAT(refused(folder, replaced(good, "[1,\"Mill\"]", "[1]")),
               Contains("1 cells were read; 2 are expected"));
    CHECK_THAT(refused(folder, replaced(good, "[1,\"Mill\"]", "[1,2]")),
               Contains("column name holds something else"));
    CHECK_THAT(refused(folder, replaced(good, "[1,\"Mill\"]", "[1,{\"hex\":\"f\"}]")),
               Contains("Table mill, row 1"));
    CHECK_THAT(refused(folder, replaced(good, "[1,\"Mill\"]", "[1,\"\"]")),
               Contains("the book does not take it"));
    CHECK_THAT(refused(folder, replaced(good, "[1,\"Mill\"]", "[1,\"Mill\"],\n[1,\"Other\"]")),
               Contains("Table mill, row 2: the book does not take it"));
    CHECK_THAT(refused(folder, replaced(good, "[1,\"Mill\"]", std::string(100'000, '['))),
               Contains("Table mill"));
    std::ofstream(folder / "made.mbook") << "taken";
    const auto taken = make_book_of(folder / "good.json", folder / "made.mbook");
    REQUIRE_FALSE(taken);
    CHECK_THAT(in_words(taken.refusals().front()), Contains("is already there"));
    CHECK_FALSE(make_book_of(folder / "none.json", folder / "other.mbook"));
}

TEST_CASE("A row that refers to nothing keeps the whole book from being made") {
    const TemporaryFolder folder;
    tests::SmallPlant plant;
    plant.released_lot(plant.draft("W24-118"));
    save(plant.book_path(), folder / "good.json");
    const auto good = testing::file_bytes(folder / "good.json");
    CHECK_THAT(refused(folder, replaced(good, "[1,\"Mill\"]", "[2,\"Mill\"]")), Contains("does not take it"));
}

TEST_CASE("On a full disk the whole book saved before stays, and no half of the new one") {
    const TemporaryFolder folder;
    std::ofstream(folder / "demo.json") << "as it was";
    SqliteConnection book(tests::demo_at_hand());
    Result<Done> saved = Done{};
    {
        const testing::FullDisk full(30'000);
        saved = save_whole_book(book, folder / "demo.json", noon);
    }
    REQUIRE_FALSE(saved);
    CHECK_THAT(in_words(saved.refusals().front()), Contains("cannot be written"));
    CHECK(testing::file_bytes(folder / "demo.json") == "as it was");
    CHECK(std::distance(fs::directory_iterator(folder.path()), {}) == 1);
}
