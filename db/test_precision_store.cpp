#include "db/test_precision_store.h"

#include "core/promised.h"
#include "db/numbering.h"
#include "db/only.h"

#include <fmt/format.h>

namespace mellowbin {
namespace {

std::vector<TestPrecision> rows_where(Connection& connection, std::string_view clause,
                                      Parameters parameters) {
    std::vector<TestPrecision> rows;
    connection.query(fmt::format("SELECT id, property, methods, repeatability, reproducibility, is_relative, "
                                 "low, high, mill_replicates, own_replicates, source, at, who "
                                 "FROM test_precision_row {} ORDER BY id",
                                 clause),
                     parameters, [&](const Row& row) {
                         auto& one = rows.emplace_back();
                         one.id = row.integer(0);
                         one.property = row.key(1, property_from_key);
                         one.methods = methods_in(row.text(2));
                         one.r = row.maybe_real(3);
                         one.R = row.real(4);
                         one.given =
                             row.integer(5) != 0 ? PrecisionGiven::relative : PrecisionGiven::absolute;
                         one.low = row.maybe_real(6);
                         one.high = row.maybe_real(7);
                         one.mill_replicates = static_cast<int>(row.integer(8));
                         one.own_replicates = static_cast<int>(row.integer(9));
                         one.source = row.words(10);
                         one.confidence =
                             fmt::format("entered by {}, {}", row.text(12), row.text(11).substr(0, 10));
                     });
    return rows;
}

} // namespace

std::vector<TestPrecision> TestPrecisionStore::rows() const { return rows_where(connection_, "", {}); }

std::optional<TestPrecision> TestPrecisionStore::find(std::int64_t id) const {
    return only(rows_where(connection_, "WHERE id = $1", {id}));
}

std::int64_t TestPrecisionStore::save(Change& change, const TestPrecision& row) {
    promised(row.R.has_value() && row.given != PrecisionGiven::does_not_repeat);
    auto& book = change.connection();
    const auto id = row.id != 0 ? row.id : next_number(book, "test_precision_row");
    book.execute("INSERT INTO test_precision_row (id, property, methods, repeatability, reproducibility, "
                 "is_relative, low, high, mill_replicates, own_replicates, source, at, who) "
                 "VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13) "
                 "ON CONFLICT (id) DO UPDATE SET property = excluded.property, methods = excluded.methods, "
                 "repeatability = excluded.repeatability, reproducibility = excluded.reproducibility, "
                 "is_relative = excluded.is_relative, low = excluded.low, high = excluded.high, "
                 "mill_replicates = excluded.mill_replicates, own_replicates = excluded.own_replicates, "
                 "source = excluded.source, at = excluded.at, who = excluded.who",
                 {id, traits(row.property).key, in_one(row.methods), row.r, row.R,
                  row.given == PrecisionGiven::relative ? 1 : 0, row.low, row.high, row.mill_replicates,
                  row.own_replicates, row.source, change.journal_line().at, change.journal_line().who});
    change.touches({RecordKind::test_precision, id});
    return id;
}

void TestPrecisionStore::remove(Change& change, std::int64_t id) {
    change.connection().execute("DELETE FROM test_precision_row WHERE id = $1", {id});
    change.touches({RecordKind::test_precision, id});
}

} // namespace mellowbin
