#include "book_support.h"
#include "db/learning_store.h"

namespace mellowbin {
namespace {

LearningId adopted(Connection& book, const std::string& words, const std::vector<LearningSite>& sites) {
    Change change(book, line(words));
    const auto id = LearningStore(book).adopt(change, words, sites);
    change.commit();
    return id.value();
}

Result<LearningId> restored(Connection& book, LearningId id) {
    Change change(book, line("What held before was restored"));
    auto row = LearningStore(book).restore(change, id, "As before");
    if (row)
        change.commit();
    return row;
}

constexpr LearningId published{0};

} // namespace

TEST_CASE("Before anything was learned, the published figures hold") {
    SqliteConnection book(":memory:");
    const LearningStore store(book);
    CHECK(store.all().empty());
    CHECK_FALSE(store.newest());
    CHECK_FALSE(store.holding());
    CHECK_FALSE(store.find(LearningId{1}));
    CHECK_FALSE(store.find(published));
}

TEST_CASE("What was adopted comes back with each lot's contribution, and holds") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    const auto first = take_in(book, plant, "W1");
    const auto second = take_in(book, plant, "W2");
    const std::vector<LearningSite> sites{{second, R"({"rate": 0.09})"}, {first, "{}"}, {second, "[1]"}};
    const auto a = adopted(book, "From 1 lot", {{first, "{}"}});
    const auto b = adopted(book, "From 2 lots", sites);
    const LearningStore store(book);
    const Learning expected{b, noon, "Ada Example", "From 2 lots", {}, sites};
    CHECK(store.find(b) == expected);
    CHECK(store.newest() == expected);
    CHECK(store.holding() == expected);
    REQUIRE(store.all().size() == 2);
    CHECK(store.all()[0] == Learning{a, noon, "Ada Example", "From 1 lot", {}, {{first, "{}"}}});
    CHECK(store.all()[1] == expected);
}

TEST_CASE("An earlier adoption, or the published figures, hold again once they are restored") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    const auto lot = take_in(book, plant, "W1");
    const auto a = adopted(book, "First", {{lot, "1"}});
    const auto b = adopted(book, "Second", {{lot, "2"}});
    const LearningStore store(book);
    REQUIRE(restored(book, a));
    CHECK(store.holding()->id == a);
    CHECK(store.newest()->restores == a);
    CHECK(store.newest()->sites.empty());
    REQUIRE(restored(book, published));
    CHECK_FALSE(store.holding());
    CHECK(store.newest()->restores == published);
    CHECK(store.newest()->words == "As before");
    REQUIRE(restored(book, b));
    CHECK(store.holding()->sites.at(0).document == "2");
    CHECK(store.all().size() == 5);
}

TEST_CASE("What is no adoption, or holds already, is not restored, and nothing is written") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    const auto lot = take_in(book, plant, "W1");
    CHECK_FALSE(restored(book, published)); // holds already
    CHECK_FALSE(restored(book, LearningId{1}));
    const auto a = adopted(book, "First", {{lot, "1"}});
    CHECK(restored(book, a).refusals().at(0).what == "holds already");
    const auto back = restored(book, published);
    REQUIRE(back);
    CHECK(restored(book, *back).refusals().at(0).what == "is no adoption of this book");
    CHECK_FALSE(restored(book, published));
    CHECK(count_of(book, "learning") == 2);
    Change change(book, line("Nothing"));
    CHECK(LearningStore(book).adopt(change, "From nothing", {}).refusals().at(0).field == "Learning");
}

TEST_CASE("By SQL, too, what was learned is neither edited nor deleted") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    const auto lot = take_in(book, plant, "W1");
    adopted(book, "First", {{lot, "1"}});
    for (const char* sql : {
             "UPDATE learning SET words = ''",
             "DELETE FROM learning",
             "UPDATE learning_site SET document = '2'",
             "DELETE FROM learning_site",
             "INSERT INTO learning VALUES (2, '2026-11-25T12:00:00Z', '', '', 2)",
             "INSERT INTO learning VALUES (2, '2026-11-25T12:00:00Z', '', '', -1)",
             "INSERT INTO learning_site VALUES (1, 1, 99, '{}')",
             "INSERT INTO learning_site VALUES (1, 1, 1, '')",
         }) {
        INFO(sql);
        CHECK(fault_of([&] { book.execute(sql); }).fault() == BookFault::rule_broken);
    }
}

} // namespace mellowbin
