#include "db/mill_return_store.h"

#include "core/promised.h"
#include "db/movement_store.h"
#include "db/numbering.h"

namespace mellowbin {

std::vector<MillReturn> MillReturnStore::of(LotId lot) const {
    std::vector<MillReturn> returns;
    connection_.query(
        "SELECT r.id, r.lot_id, r.movement_id, r.reason, r.document, r.at, r.who, c.id FROM mill_return r "
        "LEFT JOIN movement c ON c.counters_id = r.movement_id WHERE r.lot_id = $1 ORDER BY r.id",
        {lot}, [&](const Row& row) {
            returns.push_back({row.integer(0), row.id<LotId>(1), row.id<MovementId>(2), row.words(3),
                               row.words(4), row.instant(5), row.words(6), !row.is_null(7)});
        });
    return returns;
}

Result<MovementId> MillReturnStore::log(Change& change, const Movement& movement, std::string_view reason,
                                        std::string_view document) {
    promised(movement.kind == MovementKind::to_mill && !movement.counters);
    auto& book = change.connection();
    const auto id = MovementStore(book).append(change, movement);
    if (!id)
        return id;
    const auto& line = change.journal_line();
    book.execute("INSERT INTO mill_return (id, lot_id, movement_id, reason, document, at, who) "
                 "VALUES ($1, $2, $3, $4, $5, $6, $7)",
                 {next_number(book, "mill_return"), movement.lot, *id, reason, document, line.at, line.who});
    return id;
}

} // namespace mellowbin
