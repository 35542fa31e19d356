#include "db/past_store.h"

#include "db/like.h"

#include <fmt/format.h>

#include <array>

namespace mellowbin {
namespace {

constexpr std::array<std::string_view, 6> columns{"l.state_at", "l.code",         "m.name",
                                                  "f.name",     "l.delivered_on", "l.received_g"};

constexpr std::string_view past_lots =
    "FROM lot l JOIN mill m ON m.id = l.mill_id JOIN flour f ON f.id = l.flour_id "
    "WHERE l.state IN ('used_up', 'rejected') "
    "AND (lower(l.code) LIKE lower($1) ESCAPE '\\' OR lower(m.name) LIKE lower($1) ESCAPE '\\')";

/// Flour of a rejected lot went back to the mill, which was not taken back, and nothing of it is left.
constexpr std::string_view all_went_back =
    "CASE WHEN l.state = 'rejected' AND EXISTS (SELECT 1 FROM mill_return r WHERE r.lot_id = l.id "
    "AND NOT EXISTS (SELECT 1 FROM movement c WHERE c.counters_id = r.movement_id)) "
    "AND (SELECT SUM(CASE WHEN to_place_id IS NULL THEN 0 ELSE mass_g END - "
    "CASE WHEN from_place_id IS NULL THEN 0 ELSE mass_g END) FROM movement WHERE lot_id = l.id) = 0 "
    "THEN 1 ELSE 0 END";

} // namespace

PastLots PastStore::lots(const PastLotQuery& query) const {
    PastLots page;
    const auto pattern = containing(query.words);
    connection_.query(fmt::format("SELECT COUNT(*) {}", past_lots), {pattern},
                      [&](const Row& row) { page.all = row.integer(0); });
    const auto column = columns[static_cast<std::size_t>(query.order)];
    const auto direction = query.is_descending ? "DESC" : "ASC";
    connection_.query(
        fmt::format(
            "SELECT l.id, l.code, m.name, f.name, l.state, l.state_reason, l.delivered_on, l.received_g, "
            "l.state_at, {} {} ORDER BY {} {}, l.id {} LIMIT $2 OFFSET $3",
            all_went_back, past_lots, column, direction, direction),
        {pattern, query.count, query.from}, [&](const Row& row) {
            page.lots.push_back({row.id<LotId>(0), row.words(1), row.words(2), row.words(3),
                                 row.key(4, lot_state_from_key), row.words(5), row.day(6),
                                 Grams{row.integer(7)}, row.instant(8), row.integer(9) != 0});
        });
    return page;
}

bool PastStore::went_back(LotId lot) const {
    bool is_so = false;
    connection_.query(fmt::format("SELECT {} FROM lot l WHERE l.id = $1", all_went_back), {lot},
                      [&](const Row& row) { is_so = row.integer(0) != 0; });
    return is_so;
}

} // namespace mellowbin
