#include "db/mill_store.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace mellowbin {
namespace {

/// Undoing a release or a rejection puts a lot on hold: no word on its flour.
bool is_undo(std::string_view words) {
    return words.ends_with(": release taken back") || words.ends_with(": rejection taken back");
}

// Of a lot l.
constexpr std::string_view is_withdrawn =
    "(l.state = 'rejected' AND EXISTS (SELECT 1 FROM journal_record r JOIN journal j ON j.id = r.line_id "
    "WHERE r.kind = 'lot' AND r.number = l.id AND r.is_subject = 1 AND j.intent = 'withdraw_lots'))";
/// $4 names the other, or none.
constexpr std::string_view came_before =
    "($4 IS NULL OR (l.delivered_on, l.id) < (SELECT b.delivered_on, b.id FROM lot b WHERE b.id = $4))";

void note(LotFate& fate, std::string_view intent, std::string_view words) {
    if (intent == "withdraw_lots")
        fate.is_withdrawn = true;
    else if (!is_undo(words))
        fate.was_held = true;
}

} // namespace

std::vector<LotFate> MillStore::fates(const MillSpan& span) const {
    std::map<LotId, LotFate> fates;
    const auto of = [&](LotId lot) -> LotFate& {
        auto& fate = fates[lot];
        fate.lot = lot;
        return fate;
    };
    connection_.query("SELECT r.number, j.intent, j.words FROM lot l "
                      "JOIN journal_record r ON r.kind = 'lot' AND r.number = l.id AND r.is_subject = 1 "
                      "JOIN journal j ON j.id = r.line_id AND j.intent IN ('hold_lot', 'withdraw_lots') "
                      "WHERE l.mill_id = $1 AND l.delivered_on BETWEEN $2 AND $3",
                      {span.mill, span.from, span.until},
                      [&](const Row& row) { note(of(row.id<LotId>(0)), row.text(1), row.text(2)); });
    // A "no" at the door holds a lot as it comes in.
    connection_.query("SELECT DISTINCT l.id FROM lot l "
                      "JOIN lot_door_check c ON c.lot_id = l.id AND c.answer = 'no' "
                      "WHERE l.mill_id = $1 AND l.delivered_on BETWEEN $2 AND $3",
                      {span.mill, span.from, span.until},
                      [&](const Row& row) { of(row.id<LotId>(0)).was_held = true; });
    std::vector<LotFate> all;
    for (const auto& [lot, fate] : fates)
        all.push_back(fate);
    return all;
}

std::vector<ExpectedLot> MillStore::expected_lots(const MillSpan& span) const {
    std::vector<ExpectedLot> lots;
    connection_.query(
        "SELECT dl.lot_id, d.id, e.code, e.arrives, d.delivered_on FROM delivery d "
        "JOIN expected_delivery e ON e.id = d.expected_id "
        "JOIN delivery_lot dl ON dl.delivery_id = d.id AND dl.is_withdrawn = 0 "
        "WHERE d.mill_id = $1 AND d.delivered_on BETWEEN $2 AND $3 ORDER BY dl.lot_id",
        {span.mill, span.from, span.until}, [&](const Row& row) {
            lots.push_back({row.id<LotId>(0), row.integer(1), row.words(2), row.day(3), row.day(4)});
        });
    return lots;
}

std::vector<OverdueDelivery> MillStore::overdue(MillId mill, Day today) const {
    std::vector<OverdueDelivery> overdue;
    connection_.query(
        "SELECT code, flour_id, mass_g, arrives FROM expected_delivery "
        "WHERE has_come = 0 AND mill_id = $1 AND arrives < $2 ORDER BY arrives, id",
        {mill, today}, [&](const Row& row) {
            overdue.push_back({row.words(0), row.id<FlourId>(1), Grams{row.integer(2)}, row.day(3)});
        });
    return overdue;
}

std::vector<ReturnedFlour> MillStore::returns(const MillSpan& span) const {
    std::vector<ReturnedFlour> returns;
    connection_.query("SELECT r.lot_id, m.mass_g, r.reason, r.document, r.at, r.who FROM lot l "
                      "JOIN mill_return r ON r.lot_id = l.id JOIN movement m ON m.id = r.movement_id "
                      "LEFT JOIN movement c ON c.counters_id = m.id "
                      "WHERE l.mill_id = $1 AND l.delivered_on BETWEEN $2 AND $3 AND c.id IS NULL "
                      "ORDER BY r.at, r.id",
                      {span.mill, span.from, span.until}, [&](const Row& row) {
                          returns.push_back({row.id<LotId>(0), Grams{row.integer(1)}, row.words(2),
                                             row.words(3), row.instant(4), row.words(5)});
                      });
    return returns;
}

std::vector<LotInTurn> MillStore::tested_in_turn(MillId mill, FlourId flour, Day since,
                                                 std::optional<LotId> before, int count) const {
    std::vector<LotInTurn> lots;
    connection_.query(
        fmt::format("SELECT l.id, l.code, l.delivered_on FROM lot l "
                    "WHERE l.mill_id = $1 AND l.flour_id = $2 AND l.delivered_on >= $3 AND {} "
                    "AND EXISTS (SELECT 1 FROM retest t LEFT JOIN retest w ON w.withdraws_id = t.id "
                    "WHERE t.lot_id = l.id AND t.withdraws_id IS NULL AND w.id IS NULL) "
                    "AND NOT {} ORDER BY l.delivered_on DESC, l.id DESC LIMIT $5",
                    came_before, is_withdrawn),
        {mill, flour, since, before, count}, [&](const Row& row) {
            lots.push_back({row.id<LotId>(0), row.words(1), row.day(2)});
        });
    std::reverse(lots.begin(), lots.end());
    return lots;
}

int MillStore::came_after(const LotInTurn& lot, MillId mill, FlourId flour,
                          std::optional<LotId> before) const {
    int count = 0;
    connection_.query(fmt::format("SELECT COUNT(*) FROM lot l WHERE l.mill_id = $1 AND l.flour_id = $2 "
                                  "AND l.delivered_on >= $3 AND (l.delivered_on > $3 OR l.id > $5) AND {} "
                                  "AND NOT {}",
                                  came_before, is_withdrawn),
                      {mill, flour, lot.delivered_on, before, lot.id},
                      [&](const Row& row) { count = static_cast<int>(row.integer(0)); });
    return count;
}

} // namespace mellowbin
