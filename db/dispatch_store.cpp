#include "db/dispatch_store.h"

#include "db/dough_made.h"
#include "db/numbering.h"
#include "db/only.h"

#include <fmt/format.h>

namespace mellowbin {
namespace {

/// The dispatches d that the clause names.
std::vector<Dispatch> dispatches_where(Connection& connection, std::string_view clause,
                                       Parameters parameters) {
    std::vector<Dispatch> dispatches;
    connection.query(
        fmt::format("SELECT d.id, d.product_id, d.run_id, d.customer, d.pieces, d.mass_g, d.day, "
                    "d.note, d.reason, d.at, d.who, c.id FROM dispatch d "
                    "LEFT JOIN dispatch c ON c.counters_id = d.id "
                    "WHERE +d.counters_id IS NULL AND {}",
                    clause),
        parameters, [&](const Row& row) {
            auto& d = dispatches.emplace_back();
            d.id = row.id<DispatchId>(0);
            d.product = row.id<ProductId>(1);
            d.run = row.id<RunId>(2);
            d.customer = row.words(3);
            if (!row.is_null(4))
                d.pieces = static_cast<int>(row.integer(4));
            if (!row.is_null(5))
                d.mass = Grams{row.integer(5)};
            d.day = row.day(6);
            d.note = row.words(7);
            d.reason = row.words(8);
            d.at = row.instant(9);
            d.who = row.words(10);
            d.is_countered = !row.is_null(11);
        });
    return dispatches;
}

void write_row(Change& change, DispatchId id, const Dispatch& d, std::optional<DispatchId> counters) {
    change.connection().execute(
        "INSERT INTO dispatch (id, product_id, run_id, customer, pieces, mass_g, day, note, reason, at, who, "
        "counters_id) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12)",
        {id, d.product, d.run, d.customer, d.pieces, d.mass, d.day, d.note, d.reason,
         change.journal_line().at, change.journal_line().who, counters});
    change.touches(record_of(d.run));
}

} // namespace

std::optional<Dispatch> DispatchStore::find(DispatchId id) const {
    return only(dispatches_where(connection_, "d.id = $1", {id}));
}

std::vector<Dispatch> DispatchStore::of_run(RunId run) const {
    return dispatches_where(connection_, "d.run_id = $1 ORDER BY d.id", {run});
}

std::vector<Dispatch> DispatchStore::of(const DispatchQuery& query) const {
    return dispatches_where(connection_,
                            "d.day BETWEEN $1 AND $2 AND ($3 IS NULL OR d.product_id = $3) "
                            "AND ($4 = '' OR lower(d.customer) = lower($4)) ORDER BY d.day, d.id",
                            {query.from, query.until, query.product, query.customer});
}

std::optional<Instant> DispatchStore::countered_at(DispatchId id) const {
    std::optional<Instant> at;
    connection_.query("SELECT at FROM dispatch WHERE counters_id = $1", {id},
                      [&](const Row& row) { at = row.instant(0); });
    return at;
}

Baked DispatchStore::baked(RunId run) const {
    const auto made = dough_made(connection_, run);
    Baked baked;
    baked.batches = made.batches;
    baked.flour = made.flour;
    baked.dough = made.dough > made.put_back ? made.dough - made.put_back : Grams{};
    baked.bread_yield = made.bread_yield;
    for (const auto& one : of_run(run))
        if (!one.is_countered)
            baked.dispatched += one.mass.value_or(Grams{});
    return baked;
}

Result<DispatchId> DispatchStore::log(Change& change, const Dispatch& dispatch) {
    if (auto refusals = what_stands_against(dispatch, baked(dispatch.run)); !refusals.empty())
        return change.refuse(std::move(refusals));
    const DispatchId id{next_number(change.connection(), "dispatch")};
    write_row(change, id, dispatch, {});
    return id;
}

Result<Done> DispatchStore::counter(Change& change, DispatchId id, std::string_view reason) {
    auto dispatch = find(id);
    if (!dispatch)
        return change.refuse({"Dispatch", "is not in the book", "Choose one from the list"});
    if (dispatch->is_countered)
        return change.refuse({"Dispatch", "was taken back before", "Look at the dispatches"});
    dispatch->reason = reason;
    write_row(change, DispatchId{next_number(change.connection(), "dispatch")}, *dispatch, id);
    return Done{};
}

} // namespace mellowbin
