#include "db/limit_store.h"

#include "core/promised.h"
#include "db/numbering.h"

namespace mellowbin {
std::vector<LimitRow> LimitStore::rows() const {
    std::vector<LimitRow> rows;
    connection_.query(
        "SELECT id, market_key, substance, food, status, limit_ppm, sum_group, valid_from, valid_to, "
        "rule_words, source, source_date, is_confirmed, confirmed_by FROM limit_row ORDER BY id",
        {}, [&](const Row& row) {
            auto& limit = rows.emplace_back();
            limit.id = row.integer(0);
            limit.market = row.words(1);
            limit.substance = row.key(2, substance_from_key);
            limit.food = row.key(3, food_class_from_key);
            limit.status = row.key(4, limit_status_from_key);
            if (const auto ppm = row.maybe_real(5))
                limit.limit = OxidantPpm{*ppm};
            limit.sum_group = row.words(6);
            limit.valid_from = row.maybe_day(7);
            limit.valid_to = row.maybe_day(8);
            limit.rule = row.words(9);
            limit.source = row.words(10);
            limit.source_date = row.words(11);
            limit.is_confirmed = row.integer(12) != 0;
            limit.confirmed_by = row.words(13);
        });
    return rows;
}

std::vector<Market> LimitStore::markets() const {
    std::vector<Market> markets;
    connection_.query("SELECT market_key, name, lies_in FROM market ORDER BY market_key", {},
                      [&](const Row& row) {
                          markets.push_back({row.words(0), row.words(1), row.words(2)});
                      });
    return markets;
}

LimitUpdate<LimitRow> LimitStore::seed(Change& change, std::span<const Market> markets,
                                       std::span<const LimitRow> shipped,
                                       std::span<const Correction<LimitRow>> corrections) {
    auto& book = change.connection();
    // The wider market may come after one that lies in it: first all, then what lies where.
    for (const auto& market : markets)
        book.execute("INSERT INTO market (market_key, name) VALUES ($1, $2) ON CONFLICT DO NOTHING",
                     {market.key, market.name});
    for (const auto& market : markets)
        if (!market.lies_in.empty())
            book.execute("UPDATE market SET lies_in = $2 WHERE market_key = $1 AND lies_in IS NULL",
                         {market.key, market.lies_in});
    auto due = update_of(rows(), shipped, corrections);
    for (const auto* written : {&due.added, &due.corrected})
        for (const auto& row : *written)
            promised(static_cast<bool>(save(change, row))); // a shipped row ends after it begins
    return due;
}

Result<std::int64_t> LimitStore::save(Change& change, const LimitRow& row) {
    auto& book = change.connection();
    if (row.valid_from && row.valid_to && *row.valid_to < *row.valid_from)
        return change.refuse({"Valid to", iso(*row.valid_to) + " was read, which is before the first day",
                              "See the source for the day it ends, or leave it empty"});
    const auto id = row.id != 0 ? row.id : next_number(book, "limit_row");
    book.execute(
        "INSERT INTO limit_row (id, market_key, substance, food, status, limit_ppm, sum_group, valid_from, "
        "valid_to, "
        "rule_words, source, source_date, is_confirmed, confirmed_by) "
        "VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14) "
        "ON CONFLICT (id) DO UPDATE SET market_key = excluded.market_key, substance = excluded.substance, "
        "food = excluded.food, status = excluded.status, limit_ppm = excluded.limit_ppm, "
        "sum_group = excluded.sum_group, valid_from = excluded.valid_from, valid_to = excluded.valid_to, "
        "rule_words = excluded.rule_words, source = excluded.source, source_date = excluded.source_date, "
        "is_confirmed = excluded.is_confirmed, confirmed_by = excluded.confirmed_by",
        {id, row.market, key_of(row.substance), key_of(row.food), key_of(row.status), row.limit,
         row.sum_group, row.valid_from, row.valid_to, row.rule, row.source, row.source_date,
         row.is_confirmed ? 1 : 0, row.confirmed_by});
    change.touches({RecordKind::limit, id});
    return id;
}

} // namespace mellowbin
