#include "db/trace_store.h"

#include "db/only.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

namespace mellowbin {
namespace {

/// Of batches b those that stand. The plus keeps an engine from walking the index of counter-entries.
constexpr std::string_view batch_stands =
    "+b.counters_id IS NULL AND NOT EXISTS (SELECT 1 FROM batch c WHERE c.counters_id = b.id)";
/// Of rework w that which stands, and went into a batch that does.
constexpr std::string_view rework_stands =
    "+w.counters_id IS NULL AND NOT EXISTS (SELECT 1 FROM rework c WHERE c.counters_id = w.id) "
    "AND NOT EXISTS (SELECT 1 FROM batch n WHERE n.counters_id = w.into_batch_id) "
    "AND NOT EXISTS (SELECT 1 FROM batch n WHERE n.counters_id = w.from_batch_id)";

/// Batches b as the rest of the question names them, each with all its flour f.
std::vector<TracedBatch> batches_where(Connection& connection, std::string_view from, Parameters parameters) {
    std::vector<TracedBatch> batches;
    connection.query(fmt::format("SELECT b.id, b.run_id, r.code, p.id, p.name, r.day, b.number, b.at, b.who, "
                                 "f.lot_id, f.mass_g FROM {} AND {} ORDER BY b.id, f.position",
                                 from, batch_stands),
                     parameters, [&](const Row& row) {
                         const auto id = row.id<BatchId>(0);
                         if (batches.empty() || batches.back().id != id)
                             batches.push_back({id,
                                                row.id<RunId>(1),
                                                row.words(2),
                                                row.id<ProductId>(3),
                                                row.words(4),
                                                row.day(5),
                                                static_cast<int>(row.integer(6)),
                                                row.instant(7),
                                                row.words(8),
                                                {}});
                         batches.back().flour.push_back({row.id<LotId>(9), Grams{row.integer(10)}});
                     });
    return batches;
}

constexpr std::string_view with_run_and_flour =
    "JOIN run r ON r.id = b.run_id JOIN product p ON p.id = r.product_id "
    "JOIN batch_flour f ON f.batch_id = b.id";

std::vector<Rework> rework_where(Connection& connection, std::string_view from, Parameters parameters) {
    std::vector<Rework> all;
    connection.query(
        fmt::format("SELECT w.id, w.from_batch_id, w.into_batch_id, w.kind, w.mass_g, w.note, w.at, "
                    "w.who FROM {} AND {} ORDER BY w.id",
                    from, rework_stands),
        parameters, [&](const Row& row) {
            all.push_back({row.id<ReworkId>(0), row.id<BatchId>(1), row.id<BatchId>(2),
                           row.key(3, rework_kind_from_key), Grams{row.integer(4)}, row.words(5),
                           row.instant(6), row.words(7), false});
        });
    return all;
}

} // namespace

std::vector<TracedBatch> TraceStore::batches_with(LotId lot) const {
    return batches_where(
        connection_,
        fmt::format("batch b {} WHERE b.id IN (SELECT batch_id FROM batch_flour WHERE lot_id = $1)",
                    with_run_and_flour),
        {lot});
}

std::vector<TracedBatch> TraceStore::batches_of(RunId run) const {
    return batches_where(connection_, fmt::format("batch b {} WHERE b.run_id = $1", with_run_and_flour),
                         {run});
}

std::optional<TracedBatch> TraceStore::batch(BatchId id) const {
    return only(
        batches_where(connection_, fmt::format("batch b {} WHERE b.id = $1", with_run_and_flour), {id}));
}

std::vector<std::pair<MovementId, BatchId>> TraceStore::uses_of(LotId lot) const {
    std::vector<std::pair<MovementId, BatchId>> uses;
    connection_.query(
        fmt::format("SELECT u.movement_id, b.id FROM batch b JOIN batch_use u ON u.batch_id = b.id "
                    "JOIN movement m ON m.id = u.movement_id AND +m.lot_id = $1 "
                    "WHERE b.id IN (SELECT batch_id FROM batch_flour WHERE lot_id = $1) AND {} "
                    "ORDER BY u.movement_id",
                    batch_stands),
        {lot}, [&](const Row& row) { uses.emplace_back(row.id<MovementId>(0), row.id<BatchId>(1)); });
    return uses;
}

std::vector<Rework> TraceStore::rework_of_batches_with(LotId lot) const {
    return rework_where(
        connection_, "rework w WHERE w.from_batch_id IN (SELECT batch_id FROM batch_flour WHERE lot_id = $1)",
        {lot});
}

std::vector<Rework> TraceStore::rework_of(BatchId batch) const {
    return rework_where(connection_, "rework w WHERE w.from_batch_id = $1", {batch});
}

std::vector<Rework> TraceStore::rework_into(BatchId batch) const {
    return rework_where(connection_, "rework w WHERE w.into_batch_id = $1", {batch});
}

std::vector<RunId> TraceStore::runs_of(ProductId product, Day day) const {
    std::vector<RunId> runs;
    connection_.query("SELECT id FROM run WHERE product_id = $1 AND day = $2 ORDER BY id", {product, day},
                      [&](const Row& row) { runs.push_back(row.id<RunId>(0)); });
    return runs;
}

std::optional<TracedLot> TraceStore::lot(LotId id) const {
    std::optional<TracedLot> lot;
    connection_.query("SELECT l.id, l.code, m.name, f.name, l.delivered_on, l.delivery_note, l.state, "
                      "d.order_number, d.who FROM lot l JOIN mill m ON m.id = l.mill_id "
                      "JOIN flour f ON f.id = l.flour_id "
                      "LEFT JOIN delivery_lot dl ON dl.lot_id = l.id AND dl.is_withdrawn = 0 "
                      "LEFT JOIN delivery d ON d.id = dl.delivery_id WHERE l.id = $1",
                      {id}, [&](const Row& row) {
                          lot = TracedLot{
                              row.id<LotId>(0), row.words(1), row.words(2), row.words(3),
                              row.day(4),       row.words(5), row.words(7), row.key(6, lot_state_from_key),
                              row.words(8)};
                      });
    return lot;
}

bool TraceStore::was_in_a_silo(LotId lot) const {
    bool is_so = false;
    connection_.query("SELECT 1 FROM movement m JOIN place p ON p.id = m.to_place_id AND p.kind = 'silo' "
                      "WHERE m.lot_id = $1 LIMIT 1",
                      {lot}, [&](const Row&) { is_so = true; });
    return is_so;
}

std::vector<SiloSpan> TraceStore::spans_of(PlaceId silo) const {
    std::vector<SiloSpan> spans;
    std::vector<std::size_t> not_used_up;
    connection_.query(
        "SELECT m.lot_id, MIN(m.id), (SELECT MAX(o.id) FROM movement o WHERE o.lot_id = m.lot_id), "
        "(SELECT l.state FROM lot l WHERE l.id = m.lot_id) FROM movement m "
        "WHERE m.to_place_id = $1 GROUP BY m.lot_id",
        {silo}, [&](const Row& row) {
            if (row.key(3, lot_state_from_key) != LotState::used_up)
                not_used_up.push_back(spans.size());
            spans.push_back({silo, row.id<LotId>(0), row.integer(1), row.integer(2)});
        });
    for (const auto i : not_used_up) {
        auto& span = spans[i];
        connection_.query(
            "SELECT SUM(CASE WHEN to_place_id = $2 THEN mass_g ELSE 0 END - "
            "CASE WHEN from_place_id = $2 THEN mass_g ELSE 0 END) FROM movement WHERE lot_id = $1",
            {span.lot, silo}, [&](const Row& row) {
                if (row.integer(0) != 0)
                    span.last = std::numeric_limits<std::int64_t>::max();
            });
    }
    return spans;
}

std::vector<std::pair<PlaceId, std::string>> TraceStore::places() const {
    std::vector<std::pair<PlaceId, std::string>> places;
    connection_.query("SELECT id, name FROM place ORDER BY id", {},
                      [&](const Row& row) { places.emplace_back(row.id<PlaceId>(0), row.words(1)); });
    return places;
}

} // namespace mellowbin
