#include "db/concession_store.h"

#include "db/numbering.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin {
namespace {

Lot* in(std::vector<Lot>& lots, LotId id) {
    const auto at = std::lower_bound(lots.begin(), lots.end(), id,
                                     [](const Lot& lot, LotId wanted) { return lot.id < wanted; });
    return at != lots.end() && at->id == id ? &*at : nullptr;
}

} // namespace

void read_concessions(Connection& connection, std::string_view of_these, Parameters parameters,
                      std::vector<Lot>& lots) {
    const auto newest = fmt::format("(SELECT MAX(id) FROM lot_concession {} GROUP BY lot_id)", of_these);
    connection.query(
        fmt::format("SELECT lot_id, deviation, by_whom, until FROM lot_concession WHERE deviation <> '' "
                    "AND id IN {}",
                    newest),
        parameters, [&](const Row& row) {
            if (Lot* const lot = in(lots, row.id<LotId>(0)))
                lot->concession = Concession{row.words(1), row.words(2), row.day(3), {}};
        });
    connection.query(
        fmt::format("SELECT c.lot_id, p.product_id FROM lot_concession c JOIN lot_concession_product p "
                    "ON p.concession_id = c.id WHERE c.id IN {} ORDER BY p.product_id",
                    newest),
        parameters, [&](const Row& row) {
            if (Lot* const lot = in(lots, row.id<LotId>(0)); lot && lot->concession)
                lot->concession->products.push_back(row.id<ProductId>(1));
        });
}

std::optional<Concession> ConcessionStore::of(LotId id) const {
    std::vector<Lot> lots(1);
    lots.front().id = id;
    read_concessions(connection_, "WHERE lot_id = $1", {id}, lots);
    return lots.front().concession;
}

void ConcessionStore::set(Change& change, LotId lot, const std::optional<Concession>& concession) {
    auto& book = change.connection();
    const auto& line = change.journal_line();
    const auto id = next_number(book, "lot_concession");
    book.execute("INSERT INTO lot_concession (id, lot_id, deviation, until, by_whom, at, who) "
                 "VALUES ($1, $2, $3, $4, $5, $6, $7)",
                 {id, lot, concession ? concession->deviation : std::string(),
                  concession ? Value(concession->until) : Value(),
                  concession ? concession->by : std::string(), line.at, line.who});
    if (concession)
        for (const auto product : concession->products)
            book.execute("INSERT INTO lot_concession_product (concession_id, product_id) VALUES ($1, $2)",
                         {id, product});
    change.touches(record_of(lot));
}

} // namespace mellowbin
