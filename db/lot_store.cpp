#include "db/lot_store.h"

#include "db/certificate_rows.h"
#include "db/concession_store.h"
#include "db/like.h"
#include "db/movement_store.h"
#include "db/numbering.h"
#include "db/only.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin {
namespace {

constexpr std::string_view lot_columns =
    "id, code, mill_id, flour_id, milled_on, delivered_on, best_before, delivery_note, received_g, bag_g, "
    "price_per_tonne_minor, state, state_reason, state_by, state_at, received_into_id";

Lot lot_from(const Row& row) {
    Lot lot;
    lot.id = row.id<LotId>(0);
    lot.code = row.words(1);
    lot.mill = row.id<MillId>(2);
    lot.flour = row.id<FlourId>(3);
    lot.milled_on = row.maybe_day(4);
    lot.delivered_on = row.day(5);
    lot.best_before = row.maybe_day(6);
    lot.delivery_note = row.words(7);
    lot.received = Grams{row.integer(8)};
    lot.bag = Grams{row.integer(9)};
    lot.price_per_tonne_minor = row.integer(10);
    lot.state = row.key(11, lot_state_from_key);
    lot.state_reason = row.words(12);
    lot.state_by = row.words(13);
    lot.state_at = row.instant(14);
    lot.received_into = row.id<PlaceId>(15);
    return lot;
}

/// Finds the lot that a row's first column names, when the rows come in the order of the lots.
class OwnerInOrder {
public:
    explicit OwnerInOrder(std::vector<Lot>& lots) : at_(lots.begin()), end_(lots.end()) {}
    Lot* of(const Row& row) {
        while (at_ != end_ && at_->id < row.id<LotId>(0))
            ++at_;
        return at_ != end_ && at_->id == row.id<LotId>(0) ? &*at_ : nullptr;
    }

private:
    std::vector<Lot>::iterator at_;
    std::vector<Lot>::iterator end_;
};

void read_certificates(Connection& connection, std::string_view of_these, Parameters parameters,
                       std::vector<Lot>& lots) {
    OwnerInOrder owner(lots);
    BasisReader bases;
    Lot* lot = nullptr;
    Certificate certificate;
    // Copied when it is whole: the copy takes just the memory it needs, which is most of what a big book
    // takes.
    const auto give = [&] {
        if (lot)
            lot->certificate = certificate;
    };
    connection.query(fmt::format("SELECT lot_id, {} FROM lot_value {} ORDER BY lot_id, property",
                                 certificate_columns, of_these),
                     parameters, [&](const Row& row) {
                         if (Lot* const of = owner.of(row); of != lot) {
                             give();
                             lot = of;
                             certificate = {};
                         }
                         certificate.set(certificate_value_from(row, bases));
                     });
    give();
}

void read_mill_additions(Connection& connection, std::string_view of_these, Parameters parameters,
                         std::vector<Lot>& lots) {
    OwnerInOrder owner(lots);
    connection.query(
        fmt::format("SELECT lot_id, substance, dose_ppm FROM lot_mill_addition {} "
                    "ORDER BY lot_id, position",
                    of_these),
        parameters, [&](const Row& row) {
            if (Lot* const of = owner.of(row))
                of->mill_additions.push_back({row.key(1, substance_from_key), OxidantPpm{row.real(2)}});
        });
}

void read_door_checks(Connection& connection, std::string_view of_these, Parameters parameters,
                      std::vector<Lot>& lots) {
    OwnerInOrder owner(lots);
    connection.query(fmt::format("SELECT lot_id, question, answer, note, bags FROM lot_door_check {} "
                                 "ORDER BY lot_id, position",
                                 of_these),
                     parameters, [&](const Row& row) {
                         if (Lot* const of = owner.of(row))
                             of->door.push_back({row.words(1), row.key(2, door_answer_from_key), row.words(3),
                                                 static_cast<int>(row.integer(4))});
                     });
}

void read_what_else(Connection& connection, std::string_view of_these, Parameters parameters,
                    std::vector<Lot>& lots) {
    OwnerInOrder seen(lots);
    connection.query(
        fmt::format("SELECT lot_id, certified_on, delivered_c FROM lot_at_door {} ORDER BY lot_id", of_these),
        parameters, [&](const Row& row) {
            Lot* const of = seen.of(row);
            if (!of)
                return;
            of->certified_on = row.maybe_day(1);
            if (const auto degrees = row.maybe_real(2))
                of->delivered_at = Celsius{*degrees};
        });
    OwnerInOrder extended(lots);
    connection.query(
        fmt::format("SELECT lot_id, until, reason, by_whom FROM lot_extension {} ORDER BY lot_id", of_these),
        parameters, [&](const Row& row) {
            if (Lot* const of = extended.of(row))
                of->extension = BestBeforeExtension{row.day(1), row.words(2), row.words(3)};
        });
}

/// The lots that the clause names, each with all that belongs to it: a few queries, however many lots.
std::vector<Lot> lots_where(Connection& connection, std::string_view clause, Parameters parameters) {
    std::vector<Lot> lots;
    connection.query(fmt::format("SELECT {} FROM lot {} ORDER BY id", lot_columns, clause), parameters,
                     [&](const Row& row) { lots.push_back(lot_from(row)); });
    const std::string of_these =
        clause.empty() ? "" : fmt::format("WHERE lot_id IN (SELECT id FROM lot {})", clause);
    read_certificates(connection, of_these, parameters, lots);
    read_mill_additions(connection, of_these, parameters, lots);
    read_door_checks(connection, of_these, parameters, lots);
    read_what_else(connection, of_these, parameters, lots);
    read_concessions(connection, of_these, parameters, lots);
    return lots;
}

// What makes a lot a live one; $1 is the instant.
constexpr std::string_view is_in_use = "state IN ('awaiting_judgement', 'held', 'released')";
constexpr std::string_view is_recent = "state_at >= $1";
constexpr std::string_view is_left_lying =
    "(state = 'rejected' AND (SELECT SUM(CASE WHEN to_place_id IS NULL THEN 0 ELSE mass_g END - "
    "CASE WHEN from_place_id IS NULL THEN 0 ELSE mass_g END) FROM movement WHERE lot_id = lot.id) > 0)";

std::vector<LotId> ids_where(Connection& connection, std::string_view clause, Parameters parameters) {
    std::vector<LotId> ids;
    connection.query(fmt::format("SELECT id FROM lot {}", clause), parameters,
                     [&](const Row& row) { ids.push_back(row.id<LotId>(0)); });
    return ids;
}

bool is_in_the_book(Connection& connection, MillId mill, std::string_view code) {
    bool found = false;
    connection.query("SELECT id FROM lot WHERE mill_id = $1 AND code = $2", {mill, code},
                     [&](const Row&) { found = true; });
    return found;
}

void write_parts(Connection& connection, LotId id, const Lot& lot) {
    write_certificate(connection, "lot", id.number(), lot.certificate);
    int position = 0;
    for (const auto& addition : lot.mill_additions) {
        connection.execute(
            "INSERT INTO lot_mill_addition (lot_id, position, substance, dose_ppm) VALUES ($1, $2, $3, $4)",
            {id, position++, key_of(addition.substance), addition.dose});
    }
    if (lot.certified_on || lot.delivered_at)
        connection.execute("INSERT INTO lot_at_door (lot_id, certified_on, delivered_c) VALUES ($1, $2, $3)",
                           {id, lot.certified_on, lot.delivered_at});
    position = 0;
    for (const auto& check : lot.door) {
        connection.execute("INSERT INTO lot_door_check (lot_id, position, question, answer, note, bags) "
                           "VALUES ($1, $2, $3, $4, $5, $6)",
                           {id, position++, check.question, key_of(check.answer), check.note, check.bags});
    }
}

void write_extension(Connection& connection, LotId id, const std::optional<BestBeforeExtension>& extension) {
    connection.execute("DELETE FROM lot_extension WHERE lot_id = $1", {id});
    if (extension)
        connection.execute(
            "INSERT INTO lot_extension (lot_id, until, reason, by_whom) VALUES ($1, $2, $3, $4)",
            {id, extension->until, extension->reason, extension->by});
}

} // namespace

std::vector<Lot> LotStore::all() const { return lots_where(connection_, "", {}); }

std::vector<Lot> LotStore::live(Instant since) const {
    // Each by its own index; asked in one, an engine may walk all lots there ever were.
    return lots_where(
        connection_,
        fmt::format("WHERE id IN (SELECT id FROM lot WHERE {} UNION SELECT id FROM lot WHERE {} "
                    "UNION SELECT id FROM lot WHERE {})",
                    is_in_use, is_recent, is_left_lying),
        {since});
}

bool LotStore::is_live(LotId id, Instant since) const {
    return !ids_where(connection_,
                      fmt::format("WHERE id = $2 AND ({} OR {} OR {})", is_in_use, is_recent, is_left_lying),
                      {since, id})
                .empty();
}

std::vector<LotId> LotStore::newest_of(MillId mill, FlourId flour, int count) const {
    return ids_where(connection_,
                     "WHERE mill_id = $1 AND flour_id = $2 ORDER BY delivered_on DESC, id DESC LIMIT $3",
                     {mill, flour, count});
}

std::vector<Lot> LotStore::of_mill(MillId mill, Day from, Day until) const {
    return lots_where(connection_, "WHERE mill_id = $1 AND delivered_on BETWEEN $2 AND $3",
                      {mill, from, until});
}

std::optional<Day> LotStore::first_flour() const {
    std::optional<Day> first;
    connection_.query("SELECT MIN(COALESCE(milled_on, delivered_on)) FROM lot", {},
                      [&](const Row& row) { first = row.maybe_day(0); });
    return first;
}

std::vector<LotId> LotStore::of_code(std::string_view code) const {
    return ids_where(connection_, "WHERE lower(code) = lower($1) ORDER BY id", {code});
}

std::vector<LotId> LotStore::with(std::string_view words, int most) const {
    return ids_where(
        connection_,
        "WHERE lower(code) LIKE lower($1) ESCAPE '\\' OR mill_id IN "
        "(SELECT id FROM mill WHERE lower(name) LIKE lower($1) ESCAPE '\\') "
        "ORDER BY CASE WHEN state IN ('used_up', 'rejected') THEN 1 ELSE 0 END, id DESC LIMIT $2",
        {containing(words), most});
}

std::optional<Lot> LotStore::find(LotId id) const {
    return only(lots_where(connection_, "WHERE id = $1", {id}));
}

std::optional<Lot> LotStore::find(MillId mill, std::string_view code) const {
    return only(lots_where(connection_, "WHERE mill_id = $1 AND code = $2", {mill, code}));
}

Result<LotId> LotStore::add(Change& change, const Lot& lot) {
    auto& book = change.connection();
    if (is_in_the_book(book, lot.mill, lot.code)) {
        return change.refuse({"Lot number",
                              fmt::format("\"{}\" of this mill is already in the book", lot.code),
                              "Look the lot up, or read the number on the label again"});
    }
    const LotId id{next_number(book, "lot")};
    book.execute(
        "INSERT INTO lot (id, code, mill_id, flour_id, milled_on, delivered_on, best_before, delivery_note, "
        "received_g, bag_g, price_per_tonne_minor, state, state_reason, state_by, state_at, "
        "received_into_id) "
        "VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16)",
        {id, lot.code, lot.mill, lot.flour, lot.milled_on, lot.delivered_on, lot.best_before,
         lot.delivery_note, lot.received, lot.bag, lot.price_per_tonne_minor, key_of(lot.state),
         lot.state_reason, lot.state_by, lot.state_at, lot.received_into});
    write_parts(book, id, lot);
    if (lot.extension)
        write_extension(book, id, lot.extension);
    if (lot.concession)
        ConcessionStore(book).set(change, id, lot.concession);
    change.touches(record_of(id));
    return id;
}

Result<LotId> LotStore::take_in(Change& change, const Delivered& delivered) {
    auto id = add(change, delivered.lot);
    if (!id)
        return id;
    Movement receipt = delivered.receipt;
    receipt.lot = *id;
    const auto received = MovementStore(change.connection()).append(change, receipt);
    if (!received)
        return received.refusals();
    return id;
}

Result<std::vector<LotId>> LotStore::take_in(Change& change, std::span<const Delivered> delivery) {
    std::vector<LotId> ids;
    Refusals refusals;
    for (const auto& delivered : delivery) {
        const auto id = take_in(change, delivered);
        if (id)
            ids.push_back(*id);
        else
            append(refusals, id.refusals());
    }
    if (!refusals.empty())
        return refusals;
    return ids;
}

Result<Lot> LotStore::set_state(Change& change, LotId id, LotState to, std::string reason) {
    auto lot = find(id);
    if (!lot)
        return change.refuse({"Lot", "is not in the book", "Choose one from the list"});
    const bool had_concession = lot->concession.has_value();
    auto changed = with_state(*std::move(lot), to, std::move(reason), change.journal_line().who,
                              change.journal_line().at);
    if (!changed)
        return change.refuse(changed.refusals());
    change.connection().execute(
        "UPDATE lot SET state = $2, state_reason = $3, state_by = $4, state_at = $5 WHERE id = $1",
        {id, key_of(changed->state), changed->state_reason, changed->state_by, changed->state_at});
    if (had_concession && !changed->concession)
        ConcessionStore(change.connection()).set(change, id, {});
    change.touches(record_of(id));
    return changed;
}

Result<Lot> LotStore::extend(Change& change, LotId id, std::string_view until, std::string_view reason,
                             Day today) {
    auto lot = find(id);
    if (!lot)
        return change.refuse({"Lot", "is not in the book", "Choose one from the list"});
    auto extended = with_extension(*std::move(lot), until, reason, change.journal_line().who, today);
    if (!extended)
        return change.refuse(extended.refusals());
    set_extension(change, id, extended->extension);
    return extended;
}

void LotStore::set_extension(Change& change, LotId id, const std::optional<BestBeforeExtension>& extension) {
    write_extension(change.connection(), id, extension);
    change.touches(record_of(id));
}

} // namespace mellowbin
