#include "db/span_store.h"

#include "db/retest_store.h"

namespace mellowbin {

std::vector<NamedMovement> SpanStore::movements(Instant from, Instant before) const {
    std::vector<NamedMovement> movements;
    connection_.query(
        "SELECT m.id, m.lot_id, m.kind, m.from_place_id, m.to_place_id, m.mass_g, m.at, m.who, m.run_id, "
        "m.counters_id, m.note, r.id, l.code, mi.name, f.name, pf.name, pt.name, ru.code FROM movement m "
        "JOIN lot l ON l.id = m.lot_id JOIN mill mi ON mi.id = l.mill_id JOIN flour f ON f.id = l.flour_id "
        "LEFT JOIN place pf ON pf.id = m.from_place_id LEFT JOIN place pt ON pt.id = m.to_place_id "
        "LEFT JOIN run ru ON ru.id = m.run_id LEFT JOIN mill_return r "
        "ON m.kind = 'waste' AND r.movement_id = COALESCE(m.counters_id, m.id) "
        "WHERE m.at >= $1 AND m.at < $2 ORDER BY m.id",
        {from, before}, [&](const Row& row) {
            const auto kind = row.is_null(11) ? row.key(2, movement_kind_from_key) : MovementKind::to_mill;
            movements.push_back(
                {{row.id<MovementId>(0), row.id<LotId>(1), kind, row.maybe_id<PlaceId>(3),
                  row.maybe_id<PlaceId>(4), Grams{row.integer(5)}, row.instant(6), row.words(7),
                  row.maybe_id<RunId>(8), row.maybe_id<MovementId>(9), row.words(10)},
                 {row.words(12), row.words(13), row.words(14)},
                 row.words(15),
                 row.words(16),
                 row.words(17)});
        });
    return movements;
}

std::vector<Retest> SpanStore::retests(Day from, Day until) const {
    std::vector<RetestId> ids;
    connection_.query("SELECT id FROM retest WHERE taken_on BETWEEN $1 AND $2 AND withdraws_id IS NULL "
                      "ORDER BY taken_on, id",
                      {from, until}, [&](const Row& row) { ids.push_back(row.id<RetestId>(0)); });
    std::vector<Retest> retests;
    for (const auto id : ids)
        retests.push_back(*RetestStore(connection_).find(id));
    return retests;
}

std::optional<Instant> SpanStore::countered_at(BatchId batch) const {
    std::optional<Instant> at;
    connection_.query("SELECT at FROM batch WHERE counters_id = $1", {batch},
                      [&](const Row& row) { at = row.instant(0); });
    return at;
}

LotNames SpanStore::names_of(LotId lot) const {
    LotNames names{"?", "?", "?"};
    connection_.query("SELECT l.code, m.name, f.name FROM lot l JOIN mill m ON m.id = l.mill_id "
                      "JOIN flour f ON f.id = l.flour_id WHERE l.id = $1",
                      {lot}, [&](const Row& row) {
                          names = {row.words(0), row.words(1), row.words(2)};
                      });
    return names;
}

} // namespace mellowbin
