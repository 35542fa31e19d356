#include "db/delivery_store.h"

#include "db/numbering.h"
#include "db/only.h"

#include <fmt/format.h>

namespace mellowbin {
namespace {

constexpr std::string_view columns =
    "id, mill_id, delivery_note, order_number, delivered_on, expected_id, on_note_g, "
    "weighed_g, weight_reason, remark, who, at";

std::optional<Grams> maybe_grams(const Row& row, int column) {
    return row.is_null(column) ? std::nullopt : std::optional(Grams{row.integer(column)});
}

DeliveryRecord record_from(const Row& row) {
    DeliveryRecord record;
    record.id = row.id<DeliveryId>(0);
    record.mill = row.id<MillId>(1);
    record.note = row.words(2);
    record.order = row.words(3);
    record.delivered_on = row.day(4);
    record.expected = row.maybe_id<ExpectedId>(5);
    record.on_note = maybe_grams(row, 6);
    record.weighed = maybe_grams(row, 7);
    record.weight_reason = row.words(8);
    record.remark = row.words(9);
    record.who = row.words(10);
    record.at = row.instant(11);
    return record;
}

std::vector<Pallet> pallets_where(Connection& connection, std::string_view clause, Parameters parameters) {
    std::vector<Pallet> pallets;
    connection.query(
        fmt::format("SELECT sscc, lot_id, mass_g FROM delivery_pallet WHERE is_free = 0 AND {} ORDER BY id",
                    clause),
        parameters, [&](const Row& row) {
            pallets.push_back({row.words(0), row.id<LotId>(1), maybe_grams(row, 2)});
        });
    return pallets;
}

std::vector<DeliveryRecord> records_where(Connection& connection, std::string_view clause,
                                          Parameters parameters) {
    std::vector<DeliveryRecord> records;
    connection.query(fmt::format("SELECT {} FROM delivery {}", columns, clause), parameters,
                     [&](const Row& row) { records.push_back(record_from(row)); });
    for (auto& record : records) {
        connection.query(
            "SELECT lot_id FROM delivery_lot WHERE delivery_id = $1 AND is_withdrawn = 0 ORDER BY lot_id",
            {record.id}, [&](const Row& row) { record.lots.push_back(row.id<LotId>(0)); });
        record.pallets = pallets_where(connection, "delivery_id = $1", {record.id});
    }
    return records;
}

constexpr std::string_view has_a_lot =
    "EXISTS (SELECT 1 FROM delivery_lot dl WHERE dl.delivery_id = delivery.id AND dl.is_withdrawn = 0)";

Refusals write_parts(Change& change, DeliveryId id, const DeliveryRecord& record) {
    auto& book = change.connection();
    Refusals refusals;
    for (const LotId lot : record.lots)
        book.execute("INSERT INTO delivery_lot (lot_id, delivery_id, is_withdrawn) VALUES ($1, $2, 0)",
                     {lot, id});
    for (const auto& pallet : record.pallets) {
        if (const auto known = DeliveryStore(book).pallet(pallet.sscc))
            refusals.push_back({"Pallet", came_before_in_words(pallet.sscc, *known),
                                "Take it off the list, or see which of the two is wrong"});
        else
            book.execute("INSERT INTO delivery_pallet (id, delivery_id, lot_id, sscc, mass_g, is_free) "
                         "VALUES ($1, $2, $3, $4, $5, 0)",
                         {next_number(book, "delivery_pallet"), id, pallet.lot, pallet.sscc, pallet.mass});
    }
    change.touches(record_of(id));
    return refusals;
}

} // namespace

std::string came_before_in_words(std::string_view sscc, const PalletThatCame& known) {
    return fmt::format("{} came before: on {} with lot {} of {}{}", sscc_in_words(sscc),
                       iso(known.delivered_on), known.lot_code, known.mill,
                       known.note.empty() ? "" : ", note " + known.note);
}

std::optional<DeliveryRecord> DeliveryStore::find(DeliveryId id) const {
    return only(records_where(connection_, "WHERE id = $1", {id}));
}

std::optional<DeliveryId> DeliveryStore::of_lot(LotId lot) const {
    std::optional<DeliveryId> id;
    connection_.query("SELECT delivery_id FROM delivery_lot WHERE lot_id = $1 AND is_withdrawn = 0", {lot},
                      [&](const Row& row) { id = row.id<DeliveryId>(0); });
    return id;
}

std::optional<DeliveryId> DeliveryStore::of_note(MillId mill, std::string_view note, Day day) const {
    std::optional<DeliveryId> id;
    if (!note.empty())
        connection_.query(fmt::format("SELECT id FROM delivery WHERE mill_id = $1 AND delivered_on = $2 AND "
                                      "delivery_note = $3 AND {} ORDER BY id DESC LIMIT 1",
                                      has_a_lot),
                          {mill, day, note}, [&](const Row& row) { id = row.id<DeliveryId>(0); });
    return id;
}

std::vector<DeliveryRecord> DeliveryStore::newest(const DeliveryQuery& query) const {
    const auto page = [&](std::string_view of_mill, Parameters parameters) {
        return records_where(connection_,
                             fmt::format("WHERE {} {} ORDER BY delivered_on DESC, id DESC LIMIT $1 OFFSET $2",
                                         of_mill, has_a_lot),
                             parameters);
    };
    return query.mill ? page("mill_id = $3 AND", {query.count, query.from, *query.mill})
                      : page("", {query.count, query.from});
}

std::vector<LotThatCame> DeliveryStore::lots_of(DeliveryId id) const {
    std::vector<LotThatCame> lots;
    connection_.query(
        "SELECT l.id, l.code, l.flour_id, l.received_g FROM delivery_lot d "
        "JOIN lot l ON l.id = d.lot_id WHERE d.delivery_id = $1 AND d.is_withdrawn = 0 ORDER BY l.id",
        {id}, [&](const Row& row) {
            lots.push_back({row.id<LotId>(0), row.words(1), row.id<FlourId>(2), Grams{row.integer(3)}});
        });
    return lots;
}

std::optional<PalletThatCame> DeliveryStore::pallet(std::string_view sscc) const {
    std::optional<PalletThatCame> found;
    connection_.query(
        "SELECT p.delivery_id, p.lot_id, l.code, m.name, d.delivery_note, d.delivered_on, p.mass_g "
        "FROM delivery_pallet p JOIN lot l ON l.id = p.lot_id JOIN delivery d ON d.id = p.delivery_id "
        "JOIN mill m ON m.id = d.mill_id WHERE p.sscc = $1 AND p.is_free = 0",
        {sscc}, [&](const Row& row) {
            found = PalletThatCame{row.id<DeliveryId>(0), row.id<LotId>(1), row.words(2),       row.words(3),
                                   row.words(4),          row.day(5),       maybe_grams(row, 6)};
        });
    return found;
}

std::vector<Pallet> DeliveryStore::pallets_of(LotId lot) const {
    return pallets_where(connection_, "lot_id = $1", {lot});
}

Result<DeliveryId> DeliveryStore::add(Change& change, const DeliveryRecord& record) {
    auto& book = change.connection();
    const DeliveryId id{next_number(book, "delivery")};
    book.execute("INSERT INTO delivery (id, mill_id, delivery_note, order_number, delivered_on, expected_id, "
                 "on_note_g, "
                 "weighed_g, weight_reason, remark, who, at) "
                 "VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12)",
                 {id, record.mill, record.note, record.order, record.delivered_on, record.expected,
                  record.on_note, record.weighed, record.weight_reason, record.remark, record.who,
                  record.at});
    if (auto refusals = write_parts(change, id, record); !refusals.empty())
        return change.refuse(std::move(refusals));
    return id;
}

Result<DeliveryId> DeliveryStore::join(Change& change, DeliveryId id, const DeliveryRecord& more) {
    // Where the record says nothing, what is there stays.
    const auto changed = change.connection().execute(
        "UPDATE delivery SET order_number = CASE WHEN $2 = '' THEN order_number ELSE $2 END, "
        "expected_id = COALESCE($3, expected_id), on_note_g = COALESCE($4, on_note_g), "
        "weighed_g = COALESCE($5, weighed_g), "
        "weight_reason = CASE WHEN $6 = '' THEN weight_reason ELSE $6 END, "
        "remark = CASE WHEN $7 = '' THEN remark ELSE $7 END, "
        "delivery_note = CASE WHEN $8 = '' THEN delivery_note ELSE $8 END WHERE id = $1",
        {id, more.order, more.expected, more.on_note, more.weighed, more.weight_reason, more.remark,
         more.note});
    if (changed == 0)
        return change.refuse(
            {"Delivery", "is not in the book", "Take the lots in as a delivery of their own"});
    if (auto refusals = write_parts(change, id, more); !refusals.empty())
        return change.refuse(std::move(refusals));
    return id;
}

std::optional<DeliveryId> DeliveryStore::withdraw(Change& change, LotId lot) {
    auto& book = change.connection();
    const auto id = DeliveryStore(book).of_lot(lot);
    if (!id)
        return {};
    book.execute("UPDATE delivery_lot SET is_withdrawn = 1 WHERE lot_id = $1", {lot});
    book.execute("UPDATE delivery_pallet SET is_free = 1 WHERE lot_id = $1", {lot});
    change.touches(record_of(*id));
    return id;
}

} // namespace mellowbin
