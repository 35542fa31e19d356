#include "db/run_store.h"

#include "db/numbering.h"
#include "db/only.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin {
namespace {

std::vector<Run> runs_where(Connection& connection, std::string_view clause, Parameters parameters) {
    std::vector<Run> runs;
    connection.query(
        fmt::format("SELECT id, code, product_id, line_id, day, sequence, batches, flour_g, "
                    "COALESCE(longer_minutes, 0) FROM run LEFT JOIN run_fermentation ON run_id = id {} "
                    "ORDER BY day, line_id, sequence, id",
                    clause),
        parameters, [&](const Row& row) {
            runs.push_back({row.id<RunId>(0), row.words(1), row.id<ProductId>(2), row.id<LineId>(3),
                            row.day(4), static_cast<int>(row.integer(5)), static_cast<int>(row.integer(6)),
                            Grams{row.integer(7)}, static_cast<int>(row.integer(8))});
        });
    return runs;
}

std::vector<Assignment> assignments_where(Connection& connection, std::string_view clause,
                                          Parameters parameters) {
    std::vector<Assignment> assignments;
    connection.query(fmt::format("SELECT run_id, lot_id, mass_g, is_locked, reason FROM assignment {} "
                                 "ORDER BY run_id, mass_g DESC, lot_id",
                                 clause),
                     parameters, [&](const Row& row) {
                         assignments.push_back({row.id<RunId>(0), row.id<LotId>(1), Grams{row.integer(2)},
                                                row.integer(3) != 0, row.words(4)});
                     });
    return assignments;
}

std::vector<Promise> promises_where(Connection& connection, std::string_view clause, Parameters parameters) {
    std::vector<Promise> promises;
    connection.query(fmt::format("SELECT run_id, delivery_id, mass_g, reason FROM promise {} "
                                 "ORDER BY run_id, mass_g DESC, delivery_id",
                                 clause),
                     parameters, [&](const Row& row) {
                         promises.push_back(
                             {row.id<RunId>(0), row.id<ExpectedId>(1), Grams{row.integer(2)}, row.words(3)});
                     });
    return promises;
}

bool is_to_come(Connection& connection, ExpectedId delivery) {
    bool is_to_come = false;
    connection.query("SELECT id FROM expected_delivery WHERE id = $1 AND has_come = 0", {delivery},
                     [&](const Row&) { is_to_come = true; });
    return is_to_come;
}

/// Writes those of the runs named; a reason for each that cannot be.
template <class Given, class Write>
void write_each(std::span<const RunId> runs, std::span<const Given> given, Refusals& refusals, Write write) {
    for (const auto& one : given) {
        if (std::ranges::find(runs, one.run) == runs.end())
            refusals.push_back(
                {"Assignment", "is for a run that is not being planned", "Plan its day as well"});
        else
            write(one);
    }
}

void write(Connection& book, const Assignment& a) {
    book.execute("INSERT INTO assignment (run_id, lot_id, mass_g, is_locked, reason) "
                 "VALUES ($1, $2, $3, $4, $5)",
                 {a.run, a.lot, a.mass, a.is_locked ? 1 : 0, a.reason});
}

void write(Connection& book, const Promise& promise, Refusals& refusals) {
    if (!is_to_come(book, promise.delivery)) {
        refusals.push_back(
            {"Delivery", "came or was called off since the plan was made", "Plan again with what is there"});
        return;
    }
    book.execute("INSERT INTO promise (run_id, delivery_id, mass_g, reason) VALUES ($1, $2, $3, $4)",
                 {promise.run, promise.delivery, promise.mass, promise.reason});
}

void write_fermentation(Connection& book, RunId run, int longer_minutes) {
    book.execute("DELETE FROM run_fermentation WHERE run_id = $1", {run});
    if (longer_minutes > 0)
        book.execute("INSERT INTO run_fermentation (run_id, longer_minutes) VALUES ($1, $2)",
                     {run, longer_minutes});
}

std::optional<Assignment> assignment_in(Connection& connection, RunId run, LotId lot) {
    return only(assignments_where(connection, "WHERE run_id = $1 AND lot_id = $2", {run, lot}));
}

} // namespace

std::vector<Run> RunStore::all() const { return runs_where(connection_, "", {}); }

std::vector<Run> RunStore::between(Day first, Day last) const {
    return runs_where(connection_, "WHERE day BETWEEN $1 AND $2", {first, last});
}

std::vector<Run> RunStore::since(Day first) const {
    return runs_where(connection_, "WHERE day >= $1", {first});
}

std::optional<Run> RunStore::find(RunId id) const {
    return only(runs_where(connection_, "WHERE id = $1", {id}));
}

std::optional<Run> RunStore::find(std::string_view code) const {
    return only(runs_where(connection_, "WHERE code = $1", {code}));
}

std::optional<Run> RunStore::last_before(ProductId product, Day day) const {
    return only(runs_where(connection_,
                           "WHERE id = (SELECT id FROM run WHERE product_id = $1 AND day < $2 "
                           "ORDER BY day DESC, id DESC LIMIT 1)",
                           {product, day}));
}

bool RunStore::has_before(Day day) const {
    bool has = false;
    connection_.query("SELECT id FROM run WHERE day < $1 LIMIT 1", {day}, [&](const Row&) { has = true; });
    return has;
}

std::vector<Assignment> RunStore::assignments() const { return assignments_where(connection_, "", {}); }

std::vector<Assignment> RunStore::assignments_since(Day first) const {
    return assignments_where(connection_, "WHERE run_id IN (SELECT id FROM run WHERE day >= $1)", {first});
}

std::vector<Assignment> RunStore::assignments_of(RunId run) const {
    return assignments_where(connection_, "WHERE run_id = $1", {run});
}

std::vector<Promise> RunStore::promises() const { return promises_where(connection_, "", {}); }

std::vector<Promise> RunStore::promises_since(Day first) const {
    return promises_where(connection_, "WHERE run_id IN (SELECT id FROM run WHERE day >= $1)", {first});
}

std::vector<Promise> RunStore::promises_of(RunId run) const {
    return promises_where(connection_, "WHERE run_id = $1", {run});
}

Result<RunId> RunStore::save(Change& change, const Run& run) {
    auto& book = change.connection();
    if (is_taken(book, "run", "code", run.code, run.id.number()))
        return change.refuse(
            {"Run", fmt::format("\"{}\" is already in the book", run.code), "Choose another code"});
    const auto id = number_for(book, "run", run.id);
    book.execute(
        "INSERT INTO run (id, code, product_id, line_id, day, sequence, batches, flour_g) "
        "VALUES ($1, $2, $3, $4, $5, $6, $7, $8) ON CONFLICT (id) DO UPDATE SET code = excluded.code, "
        "product_id = excluded.product_id, line_id = excluded.line_id, day = excluded.day, "
        "sequence = excluded.sequence, batches = excluded.batches, flour_g = excluded.flour_g",
        {id, run.code, run.product, run.line, run.day, run.sequence, run.batches, run.flour});
    write_fermentation(book, id, run.longer_fermentation_minutes);
    change.touches(record_of(id));
    return id;
}

Result<Done> RunStore::remove(Change& change, RunId run) {
    auto& book = change.connection();
    bool is_begun = false;
    book.query("SELECT id FROM movement WHERE run_id = $1", {run}, [&](const Row&) { is_begun = true; });
    if (is_begun)
        return change.refuse(
            {"Run", "has used flour already", "Leave it in the plan; it is part of the trace"});
    book.execute("DELETE FROM assignment WHERE run_id = $1", {run});
    book.execute("DELETE FROM promise WHERE run_id = $1", {run});
    write_fermentation(book, run, 0);
    book.execute("DELETE FROM run WHERE id = $1", {run});
    change.touches(record_of(run));
    return Done{};
}

Result<Done> RunStore::replace_assignments(Change& change, std::span<const RunId> runs,
                                           std::span<const Assignment> assignments,
                                           std::span<const Promise> promises) {
    auto& book = change.connection();
    for (const RunId run : runs) {
        change.touches(record_of(run));
        book.execute("DELETE FROM assignment WHERE run_id = $1 AND is_locked = 0", {run});
        book.execute("DELETE FROM promise WHERE run_id = $1", {run});
    }
    Refusals refusals;
    write_each(runs, assignments, refusals, [&](const Assignment& a) {
        const auto locked = assignment_in(book, a.run, a.lot);
        if (!locked)
            write(book, a);
        else if (locked->mass != a.mass)
            refusals.push_back({"Assignment",
                                fmt::format("{:.1f} kg of the lot were locked for this run, not {:.1f} kg",
                                            to_kilograms(locked->mass).value(), to_kilograms(a.mass).value()),
                                "Plan again with what is locked now, or unlock it"});
    });
    write_each(runs, promises, refusals, [&](const Promise& p) { write(book, p, refusals); });
    if (!refusals.empty())
        return change.refuse(std::move(refusals));
    return Done{};
}

Result<Done> RunStore::set_assignments(Change& change, std::span<const RunId> runs,
                                       std::span<const Assignment> assignments,
                                       std::span<const Promise> promises) {
    auto& book = change.connection();
    for (const RunId run : runs) {
        change.touches(record_of(run));
        book.execute("DELETE FROM assignment WHERE run_id = $1", {run});
        book.execute("DELETE FROM promise WHERE run_id = $1", {run});
    }
    Refusals refusals;
    write_each(runs, assignments, refusals, [&](const Assignment& a) { write(book, a); });
    write_each(runs, promises, refusals, [&](const Promise& p) { write(book, p, refusals); });
    if (!refusals.empty())
        return change.refuse(std::move(refusals));
    return Done{};
}

Result<Done> RunStore::set_lock(Change& change, RunId run, LotId lot, Lock lock) {
    const auto changed =
        change.connection().execute("UPDATE assignment SET is_locked = $3 WHERE run_id = $1 AND lot_id = $2",
                                    {run, lot, lock == Lock::locked ? 1 : 0});
    if (changed == 0)
        return change.refuse({"Assignment", "is not in the plan any more", "Choose one from the plan"});
    change.touches(record_of(run));
    return Done{};
}

} // namespace mellowbin
