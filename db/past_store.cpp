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
            "l.state_at {} ORDER BY {} {}, l.id {} LIMIT $2 OFFSET $3",
            past_lots, column, direction, direction),
        {pattern, query.count, query.from}, [&](const Row& row) {
            page.lots.push_back({row.id<LotId>(0), row.words(1), row.words(2), row.words(3),
                                 row.key(4, lot_state_from_key), row.words(5), row.day(6),
                                 Grams{row.integer(7)}, row.instant(8)});
        });
    return page;
}

} // namespace mellowbin
