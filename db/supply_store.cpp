#include "db/supply_store.h"

#include "db/numbering.h"
#include "db/only.h"

#include <fmt/format.h>

namespace mellowbin {
namespace {

/// Nothing: there is no such row.
std::optional<bool> flag_of(Connection& connection, std::string_view sql, std::int64_t id) {
    std::optional<bool> flag;
    connection.query(sql, {id}, [&](const Row& row) { flag = row.integer(0) != 0; });
    return flag;
}

std::optional<bool> has_come(Connection& connection, ExpectedId id) {
    return flag_of(connection, "SELECT has_come FROM expected_delivery WHERE id = $1", id.number());
}

std::optional<bool> has_ended(Connection& connection, ReservationId id) {
    return flag_of(connection, "SELECT has_ended FROM reservation WHERE id = $1", id.number());
}

std::vector<ExpectedDelivery> expected_where(Connection& connection, std::string_view clause,
                                             Parameters parameters) {
    std::vector<ExpectedDelivery> expected;
    connection.query(fmt::format("SELECT id, code, mill_id, flour_id, mass_g, arrives, milled, has_come, "
                                 "o.order_number FROM expected_delivery "
                                 "LEFT JOIN expected_order o ON o.expected_id = id {} ORDER BY id",
                                 clause),
                     parameters, [&](const Row& row) {
                         expected.push_back({row.id<ExpectedId>(0), row.words(1), row.id<MillId>(2),
                                             row.id<FlourId>(3), Grams{row.integer(4)}, row.day(5),
                                             row.day(6), row.integer(7) != 0, row.words(8)});
                     });
    return expected;
}

Refusal not_there(std::string_view field) {
    return {std::string(field), "is not in the book", "Choose one from the list"};
}

} // namespace

std::vector<ExpectedDelivery> SupplyStore::expected() const { return expected_where(connection_, "", {}); }

std::vector<ExpectedDelivery> SupplyStore::expected_since(Day first) const {
    return expected_where(connection_, "WHERE has_come = 0 OR arrives >= $1", {first});
}

std::optional<ExpectedDelivery> SupplyStore::find(ExpectedId id) const {
    return only(expected_where(connection_, "WHERE id = $1", {id}));
}

std::vector<Reservation> SupplyStore::reservations() const {
    std::vector<Reservation> reservations;
    connection_.query("SELECT id, lot_id, product_id, kept_back_g, reason FROM reservation "
                      "WHERE has_ended = 0 ORDER BY id",
                      {}, [&](const Row& row) {
                          reservations.push_back({row.id<ReservationId>(0), row.id<LotId>(1),
                                                  row.maybe_id<ProductId>(2), Grams{row.integer(3)},
                                                  row.words(4)});
                      });
    return reservations;
}

Result<ExpectedDelivery> SupplyStore::expect(Change& change, ExpectedDelivery delivery) {
    auto& book = change.connection();
    delivery.id = ExpectedId{next_number(book, "expected_delivery")};
    delivery.code = fmt::format("E-{}", delivery.id.number());
    if (delivery.mass <= Grams{0})
        return change.refuse(
            {"Weight", fmt::format("{} g was read; more than nothing is expected", delivery.mass.count()),
             "Enter how much is to come"});
    if (delivery.milled > delivery.arrives)
        return change.refuse({"Milled on", "is after the day of arrival", "Correct one of the two days"});
    book.execute("INSERT INTO expected_delivery (id, code, mill_id, flour_id, mass_g, arrives, milled, "
                 "has_come) VALUES ($1, $2, $3, $4, $5, $6, $7, $8)",
                 {delivery.id, delivery.code, delivery.mill, delivery.flour, delivery.mass, delivery.arrives,
                  delivery.milled, delivery.has_come ? 1 : 0});
    if (!delivery.order.empty())
        book.execute("INSERT INTO expected_order (expected_id, order_number) VALUES ($1, $2)",
                     {delivery.id, delivery.order});
    change.touches(record_of(delivery.id));
    return delivery;
}

Result<Done> SupplyStore::end(Change& change, ExpectedId id) {
    auto& book = change.connection();
    const auto ended = has_come(book, id);
    if (!ended)
        return change.refuse(not_there("Delivery"));
    if (*ended)
        return change.refuse(
            {"Delivery", "came or was called off before", "Choose one that is still to come"});
    book.execute("UPDATE expected_delivery SET has_come = 1 WHERE id = $1", {id});
    book.query("SELECT run_id FROM promise WHERE delivery_id = $1", {id},
               [&](const Row& row) { change.touches(record_of(row.id<RunId>(0))); });
    book.execute("DELETE FROM promise WHERE delivery_id = $1", {id});
    change.touches(record_of(id));
    return Done{};
}

Result<Done> SupplyStore::expect_again(Change& change, ExpectedId id) {
    auto& book = change.connection();
    const auto ended = has_come(book, id);
    if (!ended)
        return change.refuse(not_there("Delivery"));
    if (!*ended)
        return change.refuse({"Delivery", "is expected already", "Look at the list of deliveries to come"});
    book.execute("UPDATE expected_delivery SET has_come = 0 WHERE id = $1", {id});
    change.touches(record_of(id));
    return Done{};
}

Result<ReservationId> SupplyStore::reserve(Change& change, const Reservation& reservation) {
    auto& book = change.connection();
    const bool fits =
        reservation.product ? reservation.kept_back == Grams{0} : reservation.kept_back > Grams{0};
    if (!fits)
        return change.refuse({"Weight",
                              "a lot is kept for a product as a whole, or so many kg of it for nobody",
                              "Enter a product or a weight, not both"});
    const ReservationId id{next_number(book, "reservation")};
    book.execute("INSERT INTO reservation (id, lot_id, product_id, kept_back_g, reason, has_ended) "
                 "VALUES ($1, $2, $3, $4, $5, 0)",
                 {id, reservation.lot, reservation.product, reservation.kept_back, reservation.reason});
    change.touches(record_of(id));
    return id;
}

Result<Done> SupplyStore::end(Change& change, ReservationId id) {
    auto& book = change.connection();
    const auto ended = has_ended(book, id);
    if (!ended)
        return change.refuse(not_there("Reservation"));
    if (*ended)
        return change.refuse({"Reservation", "ended before", "Choose one that still holds"});
    book.execute("UPDATE reservation SET has_ended = 1 WHERE id = $1", {id});
    change.touches(record_of(id));
    return Done{};
}

} // namespace mellowbin
