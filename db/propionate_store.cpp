#include "db/propionate_store.h"

#include "db/numbering.h"

namespace mellowbin {

std::vector<PropionateRow> PropionateStore::rows() const {
    std::vector<PropionateRow> rows;
    connection_.query(
        "SELECT id, market_key, bread, sold_as, status, mg_per_kg, counted_as, rule_words, source, "
        "source_date, is_confirmed, confirmed_by FROM propionate_row ORDER BY id",
        {}, [&](const Row& row) {
            auto& limit = rows.emplace_back();
            limit.id = row.integer(0);
            limit.market = row.words(1);
            limit.bread = row.words(2);
            limit.sold_as = row.maybe_key(3, sold_as_from_key);
            limit.status = row.key(4, limit_status_from_key);
            limit.mg_per_kg = row.maybe_real(5);
            limit.counted_as = row.key(6, propionate_count_from_key);
            limit.rule = row.words(7);
            limit.source = row.words(8);
            limit.source_date = row.words(9);
            limit.is_confirmed = row.integer(10) != 0;
            limit.confirmed_by = row.words(11);
        });
    return rows;
}

LimitUpdate<PropionateRow> PropionateStore::seed(Change& change, std::span<const PropionateRow> shipped,
                                                 std::span<const Correction<PropionateRow>> corrections) {
    auto due = update_of(rows(), shipped, corrections);
    for (const auto* written : {&due.added, &due.corrected})
        for (const auto& row : *written)
            save(change, row);
    return due;
}

std::int64_t PropionateStore::save(Change& change, const PropionateRow& row) {
    auto& book = change.connection();
    const auto id = row.id != 0 ? row.id : next_number(book, "propionate_row");
    book.execute(
        "INSERT INTO propionate_row (id, market_key, bread, sold_as, status, mg_per_kg, counted_as, "
        "rule_words, "
        "source, source_date, is_confirmed, confirmed_by) "
        "VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12) "
        "ON CONFLICT (id) DO UPDATE SET market_key = excluded.market_key, bread = excluded.bread, "
        "sold_as = excluded.sold_as, status = excluded.status, mg_per_kg = excluded.mg_per_kg, "
        "counted_as = excluded.counted_as, rule_words = excluded.rule_words, source = excluded.source, "
        "source_date = excluded.source_date, is_confirmed = excluded.is_confirmed, "
        "confirmed_by = excluded.confirmed_by",
        {id, row.market, row.bread, row.sold_as ? Value(key_of(*row.sold_as)) : Value(), key_of(row.status),
         row.mg_per_kg, key_of(row.counted_as), row.rule, row.source, row.source_date,
         row.is_confirmed ? 1 : 0, row.confirmed_by});
    change.touches({RecordKind::propionate_limit, id});
    return id;
}

} // namespace mellowbin
