#include "book_support.h"
#include "db/journal_store.h"
#include "db/propionate_store.h"

namespace mellowbin {
namespace {

// The figures are invented: the store keeps what it is given.
PropionateRow full_row() {
    PropionateRow row;
    row.market = "EU";
    row.bread = "prepacked sliced bread";
    row.sold_as = SoldAs::prepacked_sliced;
    row.status = LimitStatus::permitted;
    row.mg_per_kg = 3000.5;
    row.counted_as = PropionateCount::not_stated;
    row.rule = "sum of E280 to E283";
    row.source = "Annex II";
    row.source_date = "2008";
    return row;
}

PropionateRow any_bread() {
    PropionateRow row;
    row.market = "US-federal";
    row.bread = "any bread";
    row.status = LimitStatus::permitted_gmp;
    row.counted_as = PropionateCount::acid;
    row.is_confirmed = true;
    return row;
}

int seeded(Connection& book, const std::vector<PropionateRow>& rows) {
    Change change(book, line("The limits as shipped were added"));
    const auto done = PropionateStore(book).seed(change, rows);
    change.commit();
    return static_cast<int>(done.added.size());
}

} // namespace

TEST_CASE("Limits on propionate come back as they were seeded, of any bread and of one kind of it") {
    SqliteConnection book(":memory:");
    CHECK(seeded(book, {full_row(), any_bread()}) == 2);
    auto first = full_row();
    auto second = any_bread();
    first.id = 1;
    second.id = 2;
    CHECK(PropionateStore(book).rows() == std::vector{first, second});
}

TEST_CASE("Seeding limits on propionate again adds what is new and never touches what the plant has") {
    SqliteConnection book(":memory:");
    seeded(book, {full_row()});
    PropionateStore limits(book);
    auto row = limits.rows()[0];
    row.status = LimitStatus::not_permitted;
    row.mg_per_kg.reset();
    row.is_confirmed = true;
    row.confirmed_by = "Ada Example";
    {
        Change change(book, line("A limit was changed"));
        CHECK(limits.save(change, row) == 1);
        change.commit();
    }
    CHECK(seeded(book, {full_row(), any_bread()}) == 1);
    REQUIRE(limits.rows().size() == 2);
    CHECK(limits.rows()[0] == row);
}

TEST_CASE("A written limit on propionate is told to the journal as one of its own list") {
    SqliteConnection book(":memory:");
    seeded(book, {full_row()});
    CHECK(JournalStore(book).since(0).records == std::vector<RecordRef>{{RecordKind::propionate_limit, 1}});
    CHECK(record_kind_from_key(key_of(RecordKind::propionate_limit)) == RecordKind::propionate_limit);
}

} // namespace mellowbin
