#include "book_support.h"
#include "db/journal_store.h"
#include "db/test_precision_store.h"

namespace mellowbin {

TEST_CASE("The plant's own test precision comes back as it went in, is changed and dropped") {
    SqliteConnection book(":memory:");
    TestPrecision row;
    row.property = Property::protein;
    row.methods = {"ISO 20483", "ICC 105/2"};
    row.r = 0.2;
    row.R = 0.5;
    row.high = 18;
    row.own_replicates = 2;
    row.source = "ISO 20483, table B.1";
    const auto written = [&](const auto& act) {
        Change change(book, line("Test precision"));
        act(change);
        change.commit();
        return TestPrecisionStore(book).rows();
    };
    auto rows = written([&](Change& change) { row.id = TestPrecisionStore(book).save(change, row); });
    row.confidence = "entered by Ada Example, 2026-11-25";
    CHECK(rows == std::vector{row});
    row.given = PrecisionGiven::relative;
    row.r.reset();
    row.R = 4;
    rows = written([&](Change& change) { TestPrecisionStore(book).save(change, row); });
    CHECK(rows == std::vector{row});
    CHECK(TestPrecisionStore(book).find(row.id) == row);
    rows = written([&](Change& change) { TestPrecisionStore(book).remove(change, row.id); });
    CHECK(rows.empty());
    const auto changes = JournalStore(book).since(0);
    CHECK(std::any_of(changes.records.begin(), changes.records.end(), [&](const RecordRef& record) {
        return record == RecordRef{RecordKind::test_precision, row.id};
    }));
}

} // namespace mellowbin
