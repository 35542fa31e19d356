#include "book_support.h"
#include "db/progress.h"

#include <SQLiteCpp/Database.h>

#include <algorithm>

namespace mellowbin {
namespace {

/// The oldest book there is, as the version that shipped with it left it.
std::filesystem::path oldest_book(const TemporaryFolder& folder) {
    SQLite::Database book((folder / "book").string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    book.exec(bytes_of(MELLOWBIN_FIXTURES "/books/v0001.sql"));
    return folder / "book";
}

struct Heard {
    std::vector<std::string> words; ///< each once, in the order they were first said
    std::vector<double> shares;

    Progress listen() {
        return [this](std::string_view what, double share) {
            if (words.empty() || words.back() != what)
                words.emplace_back(what);
            shares.push_back(share);
        };
    }
};

} // namespace

TEST_CASE("An older book says how far it is: copied first, then changed, and never back") {
    const TemporaryFolder folder;
    const auto path = oldest_book(folder);
    Heard heard;
    SqliteConnection book(path, built_in_migrations(), heard.listen());
    CHECK(heard.words == std::vector<std::string>{"copying it first", "changing its form"});
    CHECK(std::is_sorted(heard.shares.begin(), heard.shares.end()));
    REQUIRE_FALSE(heard.shares.empty());
    CHECK(heard.shares.front() > 0);
    CHECK(heard.shares.back() == 1);
}

TEST_CASE("A new book and one in the present form say nothing of it") {
    const TemporaryFolder folder;
    Heard heard;
    { SqliteConnection book(folder / "book", built_in_migrations(), heard.listen()); }
    { SqliteConnection book(folder / "book", built_in_migrations(), heard.listen()); }
    CHECK(heard.shares.empty());
}

TEST_CASE("A long statement of a step says how far it is before its end") {
    const TemporaryFolder folder;
    { SqliteConnection book(folder / "book"); }
    std::vector<Migration> steps(built_in_migrations().begin(), built_in_migrations().end());
    steps.push_back(
        {steps.back().number + 1, "tried_in_a_test",
         "-- A semicolon in a comment; and one in a text\n"
         "CREATE TABLE counted (n INTEGER, words TEXT) STRICT;"
         "INSERT INTO counted WITH RECURSIVE up (n) AS (SELECT 1 UNION ALL SELECT n + 1 FROM up WHERE "
         "n < 200000) SELECT n, 'one; two' FROM up"});
    Heard heard;
    SqliteConnection book(folder / "book", steps, heard.listen());
    CHECK(heard.shares.size() > 8);
    CHECK(std::is_sorted(heard.shares.begin(), heard.shares.end()));
    CHECK(count_of(book, "counted") == 200'000);
}

TEST_CASE("A part of a work is heard as its part of the whole, and where nobody hears, nothing is called") {
    Heard heard;
    const auto part = part_of(heard.listen(), "taking lessons", 0.5, 0.9);
    part(0);
    part(0.5);
    part(1);
    REQUIRE(heard.shares.size() == 3);
    CHECK(heard.shares[0] == Approx(0.5));
    CHECK(heard.shares[1] == Approx(0.7));
    CHECK(heard.shares[2] == Approx(0.9));
    CHECK(heard.words == std::vector<std::string>{"taking lessons"});
    CHECK_FALSE(part_of({}, "nobody hears", 0, 1));
}

} // namespace mellowbin
