#include "db/movement_store.h"

#include "core/decimal.h"
#include "core/lot.h"
#include "db/concession_store.h"
#include "db/numbering.h"
#include "db/silo_store.h"
#include "db/stock_store.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin {
namespace {

std::vector<Movement> movements_where(Connection& connection, std::string_view clause,
                                      Parameters parameters) {
    std::vector<Movement> movements;
    connection.query(
        fmt::format("SELECT m.id, m.lot_id, m.kind, m.from_place_id, m.to_place_id, m.mass_g, m.at, m.who, "
                    "m.run_id, m.counters_id, m.note, r.id FROM movement m LEFT JOIN mill_return r "
                    "ON m.kind = 'waste' AND r.movement_id = COALESCE(m.counters_id, m.id) {} ORDER BY m.id",
                    clause),
        parameters, [&](const Row& row) {
            const auto kind = row.is_null(11) ? row.key(2, movement_kind_from_key) : MovementKind::to_mill;
            movements.push_back({row.id<MovementId>(0), row.id<LotId>(1), kind, row.maybe_id<PlaceId>(3),
                                 row.maybe_id<PlaceId>(4), Grams{row.integer(5)}, row.instant(6),
                                 row.words(7), row.maybe_id<RunId>(8), row.maybe_id<MovementId>(9),
                                 row.words(10)});
        });
    return movements;
}

/// Why `counter` cannot take back what it names.
std::optional<Refusal> why_not_countering(Connection& connection, const Movement& counter) {
    bool is_of_the_lot = false;
    bool was_countered = false;
    connection.query("SELECT EXISTS (SELECT 1 FROM movement WHERE id = $1 AND lot_id = $2), "
                     "EXISTS (SELECT 1 FROM movement WHERE counters_id = $1)",
                     {counter.counters, counter.lot}, [&](const Row& row) {
                         is_of_the_lot = row.integer(0) != 0;
                         was_countered = row.integer(1) != 0;
                     });
    if (!is_of_the_lot)
        return Refusal{"Movement", "is not one of this lot", "Choose one from the lot's list"};
    if (was_countered)
        return Refusal{"Movement", "was taken back before", "Look at the lot's list"};
    return {};
}

/// What came of the lot into dough for a run, or for any, and did not come back.
Grams used(Connection& connection, LotId lot, std::optional<RunId> run) {
    Grams used;
    connection.query("SELECT COALESCE(SUM(CASE WHEN from_place_id IS NULL THEN -mass_g ELSE mass_g END), 0) "
                     "FROM movement WHERE lot_id = $1 AND kind IN ('use', 'return') "
                     "AND ($2 IS NULL OR run_id = $2)",
                     {lot, run}, [&](const Row& row) { used = Grams{row.integer(0)}; });
    return used;
}

/// Flour comes back from dough once: by a return, or by a use that is taken back.
std::optional<Refusal> why_not_brought_back(Connection& connection, const Movement& back) {
    const Grams of_all = used(connection, back.lot, {});
    const Grams most = back.run ? std::min(of_all, used(connection, back.lot, back.run)) : of_all;
    if (back.mass <= most)
        return {};
    const auto kg = [](Grams mass) { return fixed(to_kilograms(mass).value(), 3); };
    return Refusal{"Weight",
                   fmt::format("{} kg was read, but only {} kg of the lot is out{}", kg(back.mass), kg(most),
                               back.run ? " for the run" : ""),
                   back.counters ? "Take back first what was returned of it" : "Return no more than that"};
}

bool brings_back(const Movement& m) {
    return m.to && (m.kind == MovementKind::use || m.kind == MovementKind::give_back);
}

/// Flour that is drawn for dough is of a released lot, whatever the one who draws it knows.
std::optional<Refusal> why_not_drawn(Connection& connection, LotId id) {
    std::optional<Refusal> why{{"Lot", "is not in the book", "Choose one from the list"}};
    connection.query("SELECT code, state FROM lot WHERE id = $1", {id}, [&](const Row& row) {
        const auto state = row.key(1, lot_state_from_key);
        if (state == LotState::released)
            why.reset();
        else
            why = Refusal{fmt::format("Lot {}", row.text(0)),
                          fmt::format("is {}: nothing of it goes into dough", name_of(state)),
                          "Put it back, and ask quality staff"};
    });
    return why;
}

/// Nor into dough that its concession is not for. The day is the run's and, in whatever zone the plant lies,
/// not more than one before the instant's.
std::optional<Refusal> why_not_conceded(Connection& connection, const Movement& movement) {
    Lot lot;
    lot.concession = ConcessionStore(connection).of(movement.lot);
    if (!lot.concession)
        return {};
    Product product;
    product.name = "dough without a run";
    Day day = date::floor<Days>(movement.at) - Days{1};
    connection.query("SELECT r.day, p.id, p.name FROM run r JOIN product p ON p.id = r.product_id "
                     "WHERE r.id = $1",
                     {movement.run}, [&](const Row& row) {
                         day = std::max(day, row.day(0));
                         product.id = row.id<ProductId>(1);
                         product.name = row.words(2);
                     });
    const auto why = against_by_concession(lot, product, day);
    if (why.empty())
        return {};
    std::string code;
    connection.query("SELECT code FROM lot WHERE id = $1", {movement.lot},
                     [&](const Row& row) { code = row.words(0); });
    return Refusal{fmt::format("Lot {}", code), why + ": nothing of it goes into this dough",
                   "Put it back, and ask quality staff"};
}

/// A silo takes no more than it holds. What was counted lies there, and what is taken back lay there before.
std::optional<Refusal> why_no_room(Connection& connection, const Movement& movement) {
    if (!movement.to || movement.counters || movement.kind == MovementKind::count)
        return {};
    const auto capacity = SiloStore(connection).capacity(*movement.to);
    if (!capacity)
        return {};
    const Grams there = StockStore(connection).lying_in(*movement.to);
    if (there + movement.mass <= *capacity)
        return {};
    std::string silo;
    connection.query("SELECT name FROM place WHERE id = $1", {movement.to},
                     [&](const Row& row) { silo = row.words(0); });
    const auto kg = [](Grams mass) { return fixed(to_kilograms(mass).value(), 0); };
    return Refusal{"Weight",
                   fmt::format("{} kg was read, but {} holds {} kg at most and {} kg lie in it",
                               kg(movement.mass), silo, kg(*capacity), kg(there)),
                   "Put the rest elsewhere, or count the silo"};
}

/// In the table what goes back to the mill is waste with a row of its own that says what it is.
std::string_view kind_in_table(MovementKind kind) {
    return key_of(kind == MovementKind::to_mill ? MovementKind::waste : kind);
}

} // namespace

std::vector<Movement> MovementStore::all() const { return movements_where(connection_, "", {}); }

std::vector<Movement> MovementStore::of(LotId lot, MovementId after) const {
    return movements_where(connection_, "WHERE m.lot_id = $1 AND m.id > $2", {lot, after.number()});
}

Result<MovementId> MovementStore::append(Change& change, const Movement& movement) {
    auto& book = change.connection();
    if (movement.counters) {
        if (auto why = why_not_countering(book, movement))
            return change.refuse(*std::move(why));
    }
    if (brings_back(movement)) {
        if (auto why = why_not_brought_back(book, movement))
            return change.refuse(*std::move(why));
    }
    if (movement.kind == MovementKind::use && movement.from) {
        if (auto why = why_not_drawn(book, movement.lot))
            return change.refuse(*std::move(why));
        if (auto why = why_not_conceded(book, movement))
            return change.refuse(*std::move(why));
    }
    const Grams lying = movement.from ? StockStore(book).lying(movement.lot, *movement.from) : Grams{};
    if (const auto can = possible(movement, lying); !can)
        return change.refuse(can.refusals());
    if (auto why = why_no_room(book, movement))
        return change.refuse(*std::move(why));

    const MovementId id{next_number(book, "movement")};
    book.execute(
        "INSERT INTO movement (id, lot_id, kind, from_place_id, to_place_id, mass_g, at, who, run_id, "
        "counters_id, note) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)",
        {id, movement.lot, kind_in_table(movement.kind), movement.from, movement.to, movement.mass,
         movement.at, movement.who, movement.run, movement.counters, movement.note});
    change.touches(record_of(movement.lot));
    if (movement.run)
        change.touches(record_of(*movement.run));
    return id;
}

} // namespace mellowbin
