#include "db/taught_store.h"

#include "core/plant.h"
#include "db/change.h"
#include "db/numbering.h"

#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

namespace mellowbin {
namespace {

template <class T> std::optional<T> maybe(const Row& row, int column) {
    return row.is_null(column) ? std::nullopt : std::optional(T{row.real(column)});
}

/// What was said of each record, in order: the number of the batch after which it holds, and what.
template <class T> using Said = std::map<std::int64_t, std::vector<std::pair<std::int64_t, T>>>;

Said<Beside> said_of_products(Connection& connection) {
    Said<Beside> all;
    connection.query("SELECT product_id, after_batch_id, beside_flour_pct, beside_water_pct, tempered_pct, "
                     "tempered_water_pct, tempered_c FROM expected_offset ORDER BY id",
                     {}, [&](const Row& row) {
                         all[row.integer(0)].emplace_back(row.integer(1),
                                                          Beside{row.real(2), row.real(3), row.real(4),
                                                                 row.real(5), Celsius{row.real(6)}});
                     });
    return all;
}

Said<Celsius> said_of_lines(Connection& connection) {
    Said<Celsius> all;
    connection.query(
        "SELECT line_id, after_batch_id, ice_c FROM expected_ice ORDER BY id", {},
        [&](const Row& row) { all[row.integer(0)].emplace_back(row.integer(1), Celsius{row.real(2)}); });
    return all;
}

/// What held for the batch; nothing of anything where nothing was said by then.
template <class T> T held(const Said<T>& all, std::int64_t record, BatchId batch) {
    const auto found = all.find(record);
    if (found == all.end())
        return T{};
    const auto& figures = found->second;
    const auto newest = std::find_if(figures.rbegin(), figures.rend(),
                                     [&](const auto& one) { return one.first < batch.number(); });
    return newest == figures.rend() ? T{} : newest->second;
}

TaughtBatch batch_from(const Row& row) {
    TaughtBatch batch;
    batch.id = row.id<BatchId>(0);
    batch.product = row.id<ProductId>(1);
    batch.line = row.id<LineId>(2);
    batch.day = row.day(3);
    batch.water = Kilograms{row.real(4)};
    batch.ice = Kilograms{row.real(5)};
    batch.poured_ml = row.real(6);
    batch.water_temperature = maybe<Celsius>(row, 7);
    batch.flour_temperature = maybe<Celsius>(row, 8);
    batch.room_temperature = maybe<Celsius>(row, 9);
    batch.farinograph = maybe<Absorption14>(row, 10);
    batch.absorption = maybe<Absorption14>(row, 11);
    batch.dough_temperature = maybe<Celsius>(row, 12);
    batch.feel = row.maybe_key(13, feel_from_key);
    batch.is_countered = !row.is_null(14);
    return batch;
}

// A row for each part of the flour of each batch; the batches are chosen before anything is joined to them.
constexpr std::string_view batches_after =
    "SELECT b.id, r.product_id, r.line_id, r.day, b.water_kg, b.ice_kg, b.poured_ml, b.water_c, b.flour_c, "
    "b.room_c, b.farinograph_pct, b.absorption_pct, s.dough_c, s.feel, c.id, f.lot_id, f.mass_g, v.value "
    "FROM (SELECT * FROM batch WHERE id > $1 AND counters_id IS NULL ORDER BY id LIMIT $2) b "
    "JOIN run r ON r.id = b.run_id "
    "LEFT JOIN batch c ON c.counters_id = b.id "
    "LEFT JOIN batch_result s ON s.id = (SELECT MAX(id) FROM batch_result WHERE batch_id = b.id) "
    "LEFT JOIN batch_flour f ON f.batch_id = b.id "
    "LEFT JOIN lot_value v ON v.lot_id = f.lot_id AND v.property = 'moisture' "
    "ORDER BY b.id, f.position";

BatchId newest_batch(Connection& connection) { return BatchId{next_number(connection, "batch") - 1}; }

} // namespace

std::vector<TaughtBatch> TaughtStore::after(BatchId batch, int most) const {
    const auto beside = said_of_products(connection_);
    const auto ice = said_of_lines(connection_);
    std::vector<TaughtBatch> batches;
    connection_.query(batches_after, {batch.number(), most}, [&](const Row& row) {
        if (batches.empty() || batches.back().id.number() != row.integer(0)) {
            auto& next = batches.emplace_back(batch_from(row));
            next.beside = held(beside, next.product.number(), next.id);
            next.ice_temperature = held(ice, next.line.number(), next.id);
        }
        if (!row.is_null(15))
            batches.back().flour.push_back(
                {row.id<LotId>(15), Grams{row.integer(16)}, maybe<Moisture>(row, 17)});
    });
    return batches;
}

BatchRows TaughtStore::newest() const {
    return {next_number(connection_, "batch") - 1, next_number(connection_, "batch_result") - 1};
}

std::optional<BatchId> TaughtStore::first_changed_since(const BatchRows& rows) const {
    std::optional<BatchId> first;
    const RowReader earlier = [&](const Row& row) {
        if (const auto id = row.maybe_id<BatchId>(0))
            first = first ? std::min(*first, *id) : *id;
    };
    // Not by MIN(): for it an engine may walk an index over all the years.
    connection_.query("SELECT counters_id FROM batch WHERE id > $1", {rows.batch}, earlier);
    connection_.query("SELECT batch_id FROM batch_result WHERE id > $1", {rows.result}, earlier);
    return first;
}

std::optional<Instant> TaughtStore::newest_at() const {
    std::optional<Instant> at;
    connection_.query("SELECT at FROM batch WHERE counters_id IS NULL ORDER BY id DESC LIMIT 1", {},
                      [&](const Row& row) { at = row.instant(0); });
    return at;
}

std::vector<ExpectedOffset> TaughtStore::expected() const {
    std::vector<ExpectedOffset> all;
    connection_.query("SELECT product_id, after_batch_id, offset_points, is_assumed FROM expected_offset "
                      "ORDER BY after_batch_id, id",
                      {}, [&](const Row& row) {
                          all.push_back({row.id<ProductId>(0), row.id<BatchId>(1),
                                         AbsorptionPoints{row.real(2)}, row.integer(3) != 0});
                      });
    return all;
}

std::optional<BatchId> TaughtStore::last_that_taught(LotId lot, BatchId up_to) const {
    std::optional<BatchId> last;
    connection_.query("SELECT f.batch_id FROM batch_flour f JOIN batch b ON b.id = f.batch_id "
                      "LEFT JOIN batch c ON c.counters_id = b.id WHERE f.lot_id = $1 AND f.batch_id <= $2 "
                      "AND b.farinograph_pct IS NOT NULL AND b.absorption_pct IS NOT NULL AND c.id IS NULL "
                      "ORDER BY f.batch_id DESC LIMIT 1",
                      {lot, up_to.number()}, [&](const Row& row) { last = row.id<BatchId>(0); });
    return last;
}

std::optional<LotInDoughs> TaughtStore::lot(LotId lot) const {
    std::optional<LotInDoughs> found;
    connection_.query(
        "SELECT l.state, b.id, b.at FROM lot l LEFT JOIN batch b "
        "ON b.id = (SELECT MAX(batch_id) FROM batch_flour WHERE lot_id = l.id) WHERE l.id = $1",
        {lot}, [&](const Row& row) {
            found = {row.key(0, lot_state_from_key), row.maybe_id<BatchId>(1).value_or(BatchId{}), {}};
            if (!row.is_null(2))
                found->last_at = row.instant(2);
        });
    return found;
}

void write_expected(Change& change, ProductId id, const Product& product) {
    auto& book = change.connection();
    const Beside beside = beside_flour(product.ingredients);
    const std::tuple says{product.water_offset.value(), product.is_offset_assumed, beside};
    std::optional<std::tuple<double, bool, Beside>> said_before;
    book.query("SELECT offset_points, is_assumed, beside_flour_pct, beside_water_pct, tempered_pct, "
               "tempered_water_pct, tempered_c FROM expected_offset "
               "WHERE product_id = $1 ORDER BY id DESC LIMIT 1",
               {id}, [&](const Row& row) {
                   said_before = {
                       row.real(0), row.integer(1) != 0,
                       Beside{row.real(2), row.real(3), row.real(4), row.real(5), Celsius{row.real(6)}}};
               });
    if (said_before == says)
        return;
    book.execute("INSERT INTO expected_offset (id, product_id, after_batch_id, offset_points, is_assumed, "
                 "beside_flour_pct, beside_water_pct, tempered_pct, tempered_water_pct, tempered_c) "
                 "VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)",
                 {next_number(book, "expected_offset"), id, newest_batch(book).number(), product.water_offset,
                  product.is_offset_assumed ? 1 : 0, beside.percent, beside.water_percent,
                  beside.tempered_percent, beside.tempered_water_percent, beside.tempered});
}

void write_expected(Change& change, LineId id, const Line& line) {
    auto& book = change.connection();
    std::optional<double> said_before;
    book.query("SELECT ice_c FROM expected_ice WHERE line_id = $1 ORDER BY id DESC LIMIT 1", {id},
               [&](const Row& row) { said_before = row.real(0); });
    if (said_before == line.ice_temperature.value())
        return;
    book.execute("INSERT INTO expected_ice (id, line_id, after_batch_id, ice_c) VALUES ($1, $2, $3, $4)",
                 {next_number(book, "expected_ice"), id, newest_batch(book).number(), line.ice_temperature});
}

} // namespace mellowbin
