#include "book_support.h"
#include "db/journal_store.h"
#include "db/mill_word_store.h"

#include <algorithm>

namespace mellowbin {
namespace {

MillWord wet_gluten(MillId mill) {
    return {mill,
            MillWordKind::label,
            "feuchtkleber",
            "Feuchtkleber",
            "wet_gluten",
            "%",
            "14 % moisture",
            "ICC 155",
            "",
            {},
            ""};
}

MillWord protein(MillId mill) {
    auto word = wet_gluten(mill);
    word.word = word.shown = "protein";
    word.means = "protein";
    word.nitrogen_factor = "5.7";
    return word;
}

/// As it stands in the book once the line's person kept it.
MillWord in_book(MillWord word) {
    word.since = line("").at;
    word.who = line("").who;
    return word;
}

void keep(Connection& book, const MillWord& word) {
    Change change(book, line("A word was learned"));
    MillWordStore(book).keep(change, word);
    change.commit();
}

} // namespace

TEST_CASE("What a mill's words mean comes back as it was kept, in the order it was learned") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    keep(book, protein(plant.mill));
    keep(book, wet_gluten(plant.mill));
    const MillWord days{plant.mill, MillWordKind::dates, "", "", "day_first", "", "", "", "", {}, ""};
    keep(book, days);
    CHECK(MillWordStore(book).holding() ==
          std::vector{in_book(protein(plant.mill)), in_book(wet_gluten(plant.mill)), in_book(days)});
}

TEST_CASE("The newest meaning of a word holds, and the one before stays in the book") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    keep(book, wet_gluten(plant.mill));
    auto later = wet_gluten(plant.mill);
    later.basis = "dry matter";
    keep(book, later);
    CHECK(MillWordStore(book).holding() == std::vector{in_book(later)});
    CHECK(count_of(book, "mill_word") == 2);
}

TEST_CASE("A word that is forgotten means nothing any more, of that mill alone") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    Change another(book, line("Mill added"));
    const auto other = PlantStore(book).save(another, Mill{{}, "Weir Mill"});
    REQUIRE(other);
    another.commit();
    keep(book, wet_gluten(plant.mill));
    keep(book, wet_gluten(*other));
    Change change(book, line("A word was forgotten"));
    MillWordStore(book).forget(change, wet_gluten(plant.mill));
    change.commit();
    CHECK(MillWordStore(book).holding() == std::vector{in_book(wet_gluten(*other))});
    CHECK(count_of(book, "mill_word") == 2);
}

TEST_CASE("Other stations learn of a mill's words by the mill") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    const auto before = JournalStore(book).version();
    keep(book, protein(plant.mill));
    CHECK(JournalStore(book).since(before).records == std::vector<RecordRef>{record_of(plant.mill)});
}

TEST_CASE("A mill whose words were learned is retired, not taken off") {
    SqliteConnection book(":memory:");
    const auto plant = add_small_plant(book);
    keep(book, protein(plant.mill));
    Change change(book, line("Mill taken off"));
    const auto removed = PlantStore(book).remove(change, {PlantKind::mill, plant.mill.number()});
    REQUIRE_FALSE(removed);
    CHECK_THAT(removed.refusals().front().what, Catch::Contains("1 words of its certificates"));
}

TEST_CASE("Every kind of a mill's word is found by its key") {
    for (const auto kind : {MillWordKind::label, MillWordKind::mill, MillWordKind::flour, MillWordKind::place,
                            MillWordKind::dates, MillWordKind::decimals})
        CHECK(mill_word_kind_from_key(key_of(kind)) == kind);
    CHECK_FALSE(mill_word_kind_from_key("colour"));
}

} // namespace mellowbin
