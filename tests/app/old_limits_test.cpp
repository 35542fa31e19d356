#include "app/acts/limits.h"
#include "app/models/journal.h"
#include "app/models/settings.h"
#include "db/sqlite_connection.h"
#include "dough/limits.h"
#include "small_plant.h"
#include "support/catch.h"
#include "support/fixture_file.h"

#include <SQLiteCpp/Database.h>
#include <fmt/format.h>

#include <algorithm>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

namespace {

/// A plant whose book holds the limits as a version before their correction put them there.
struct OldBook {
    SmallPlant plant;

    OldBook() {
        {
            SQLite::Database book(plant.book_path(), SQLite::OPEN_READWRITE);
            book.exec("DELETE FROM limit_row; DELETE FROM propionate_row");
            book.exec(testing::fixture("books/limits_of_v0007.sql"));
        }
    }
    /// SQL on the book of old, before the version of today sees it.
    void by_the_plant(const std::string& sql) const {
        SQLite::Database book(plant.book_path(), SQLite::OPEN_READWRITE);
        book.exec(sql);
    }
    void starts() { plant.open_again(); }

    std::vector<LimitLine> lines(const std::string& substance, const std::string& market) {
        std::vector<LimitLine> found;
        for (const auto& line : plant.app().settings().limits)
            if (line.substance == substance && line.market == market)
                found.push_back(line);
        return found;
    }
    LimitLine line(const std::string& substance, const std::string& market, const std::string& food) {
        auto found = lines(substance, market);
        std::erase_if(found, [&](const LimitLine& one) { return one.food != food; });
        INFO(substance << ", " << market << ", " << food);
        REQUIRE(found.size() == 1);
        return found.front();
    }
    [[nodiscard]] std::string journal_detail() const {
        SqliteConnection book(plant.book_path());
        std::string detail;
        book.query("SELECT detail FROM journal ORDER BY id DESC LIMIT 1", {},
                   [&](const Row& row) { detail = row.words(0); });
        return detail;
    }
    std::string journal() { return plant.app().journal(1).front().words; }
};

} // namespace

TEST_CASE(
    "A book of an earlier version has the corrected limits after its next start, under its own numbers") {
    OldBook old;
    old.starts();
    const auto flour = old.line("Ascorbic acid", "US-federal", "white flour");
    CHECK(flour.id == LimitRef{LimitRef::Of::oxidants, 1});
    CHECK(flour.standing == "read in its source");
    CHECK_THAT(flour.source, Contains("21 CFR 137.105(a)"));
    for (const char* market : {"EU", "GB"}) {
        CHECK(old.line("Ascorbic acid", market, "white flour").is_confirmed);
        CHECK(old.line("L-Cysteine", market, "whole wheat flour").is_confirmed);
        CHECK_FALSE(old.line("Ascorbic acid", market, "bread").is_confirmed); // 07.1: not read
    }
    const auto manual = old.line("Benzoyl peroxide", "GB", "bread");
    CHECK(manual.id == LimitRef{LimitRef::Of::oxidants, 139});
    CHECK(manual.standing == "unconfirmed: never permits by itself");
    // Lei 10.273: 90 days after the publication on 2001-09-06
    REQUIRE(old.lines("Potassium bromate", "BR").size() == 4);
    CHECK_THAT(old.line("Potassium bromate", "BR", "bread").holds, Contains("2001-12-05"));
    CHECK(old.line("Ammonium persulphate", "Canada", "whole wheat flour").figure == "250 mg/kg");
    CHECK(old.line("Acetone peroxide", "Canada", "white flour").is_confirmed);
    CHECK_THAT(old.journal(), Contains("Limits as they are shipped now: ") && Contains(" corrected, ") &&
                                  !Contains("stay as they are"));
    CHECK_THAT(old.journal_detail(), Contains("corrected: Benzoyl peroxide, GB, bread: ") &&
                                         Contains("not confirmed (assimilated"));
}

TEST_CASE("After the correction the book's limits are those that a new book gets, and a further start writes "
          "none") {
    OldBook old;
    old.starts();
    SmallPlant fresh;
    const auto all = [](SmallPlant& plant) {
        std::vector<std::string> lines;
        for (const auto& line : plant.app().settings().limits)
            lines.push_back(fmt::format("{}|{}|{}|{}|{}|{}|{}", line.market, line.substance, line.food,
                                        line.figure, line.rule, line.source, line.standing));
        std::sort(lines.begin(), lines.end());
        return lines;
    };
    CHECK(all(old.plant) == all(fresh));
    const auto lines = old.plant.app().journal(100).size();
    old.starts();
    CHECK(old.plant.app().journal(100).size() == lines);
}

TEST_CASE("What the plant confirmed, doubted or changed of the old limits stays its own, and is named") {
    OldBook old;
    old.by_the_plant("UPDATE limit_row SET is_confirmed = 1, confirmed_by = 'Ada Example' WHERE id = 1;" // US
                     "UPDATE limit_row SET is_confirmed = 0 WHERE id = 137;"                             // GB
                     "UPDATE limit_row SET limit_ppm = 80 WHERE market_key = 'EU' AND substance = "
                     "'ascorbic_acid' AND food = 'white_flour';"
                     "UPDATE limit_row SET is_confirmed = 0 WHERE market_key = 'BR' AND food = 'bread' AND "
                     "substance = 'potassium_bromate'");
    old.starts();
    CHECK(old.line("Ascorbic acid", "US-federal", "white flour").standing == "confirmed by Ada Example");
    CHECK_THAT(old.line("Ascorbic acid", "US-federal", "white flour").source, Contains("from memory"));
    CHECK_THAT(old.line("Benzoyl peroxide", "GB", "white flour").source,
               Contains("read in an industry manual"));
    CHECK_FALSE(old.line("Benzoyl peroxide", "GB", "white flour").is_confirmed);
    CHECK_FALSE(old.line("Ascorbic acid", "EU", "white flour").is_confirmed);
    // One row, as the plant left it: the corrected one is not added beside it.
    CHECK_THAT(old.line("Potassium bromate", "BR", "bread").holds, Contains("2001-09-05"));
    CHECK_THAT(old.line("Potassium bromate", "BR", "white flour").holds, Contains("2001-12-05"));
    CHECK_THAT(old.journal(), Contains("; 4 that this plant confirmed or changed stay as they are"));
    const auto lines = old.plant.app().journal(100).size();
    old.starts();
    CHECK(old.plant.app().journal(100).size() == lines);
}

TEST_CASE("A confirmation that was taken back by its undo leaves the row as shipped: it is corrected") {
    OldBook old;
    old.by_the_plant("UPDATE limit_row SET is_confirmed = 1, confirmed_by = 'Ada Example' WHERE id = 1;"
                     "UPDATE limit_row SET is_confirmed = 0, confirmed_by = '' WHERE id = 1");
    old.starts();
    CHECK(old.line("Ascorbic acid", "US-federal", "white flour").standing == "read in its source");
}

TEST_CASE(
    "The old limits of the fixture that differ from those shipped now are just those that are corrected") {
    OldBook old;
    old.starts();
    const auto words = old.journal();
    CHECK_THAT(words, Contains(fmt::format(": {} corrected, ", dough::limit_corrections().size() +
                                                                   dough::propionate_corrections().size())));
}
