#include "db/movement_store.h"

#include "core/decimal.h"
#include "core/lot.h"
#include "db/concession_store.h"
#include "db/numbering.h"

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

/// Why `counter` cannot take back what it names, given all movements of its lot.
std::optional<Refusal> why_not_countering(const Movement& counter, std::span<const Movement> of_the_lot) {
    if (std::ranges::none_of(of_the_lot, [&](const auto& m) { return m.id == counter.counters; }))
        return Refusal{"Movement", "is not one of this lot", "Choose one from the lot's list"};
    if (std::ranges::any_of(of_the_lot, [&](const auto& m) { return m.counters == counter.counters; }))
        return Refusal{"Movement", "was taken back before", "Look at the lot's list"};
    return {};
}

/// What came of a lot into dough for a run, or for any, and did not come back.
Grams used(std::span<const Movement> of_the_lot, std::optional<RunId> run) {
    Grams used;
    for (const auto& m : of_the_lot)
        if ((m.kind == MovementKind::use || m.kind == MovementKind::give_back) && (!run || m.run == run))
            used += m.from ? m.mass : -m.mass;
    return used;
}

/// Flour comes back from dough once: by a return, or by a use that is taken back.
std::optional<Refusal> why_not_brought_back(const Movement& back, std::span<const Movement> of_the_lot) {
    const Grams most =
        back.run ? std::min(used(of_the_lot, {}), used(of_the_lot, back.run)) : used(of_the_lot, {});
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
    std::vector<Movement> before; // what only adds to a place needs no look at what lies there
    if (movement.from || movement.counters || brings_back(movement))
        before = movements_where(book, "WHERE m.lot_id = $1", {movement.lot});
    if (movement.counters) {
        if (auto why = why_not_countering(movement, before))
            return change.refuse(*std::move(why));
    }
    if (brings_back(movement)) {
        if (auto why = why_not_brought_back(movement, before))
            return change.refuse(*std::move(why));
    }
    if (movement.kind == MovementKind::use && movement.from) {
        if (auto why = why_not_drawn(book, movement.lot))
            return change.refuse(*std::move(why));
        if (auto why = why_not_conceded(book, movement))
            return change.refuse(*std::move(why));
    }
    if (const auto possible = StockBook(before).check(movement); !possible)
        return change.refuse(possible.refusals());

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
