#include "db/rework_store.h"

#include "db/dough_made.h"
#include "db/numbering.h"
#include "db/only.h"

#include <fmt/format.h>

namespace mellowbin {
namespace {

/// The rework w that the clause names.
std::vector<Rework> rework_where(Connection& connection, std::string_view clause, Parameters parameters) {
    std::vector<Rework> all;
    connection.query(
        fmt::format("SELECT w.id, w.from_batch_id, w.into_batch_id, w.kind, w.mass_g, w.note, w.at, "
                    "w.who, c.id FROM rework w LEFT JOIN rework c ON c.counters_id = w.id "
                    "WHERE +w.counters_id IS NULL AND {} ORDER BY w.id",
                    clause),
        parameters, [&](const Row& row) {
            all.push_back({row.id<ReworkId>(0), row.id<BatchId>(1), row.id<BatchId>(2),
                           row.key(3, rework_kind_from_key), Grams{row.integer(4)}, row.words(5),
                           row.instant(6), row.words(7), !row.is_null(8)});
        });
    return all;
}

void write_row(Change& change, ReworkId id, const Rework& rework, std::optional<ReworkId> counters) {
    change.connection().execute(
        "INSERT INTO rework (id, from_batch_id, into_batch_id, kind, mass_g, note, at, who, counters_id) "
        "VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9)",
        {id, rework.from, rework.into, key_of(rework.kind), rework.mass, rework.note,
         change.journal_line().at, change.journal_line().who, counters});
    change.touches(record_of(rework.from));
    change.touches(record_of(rework.into));
}

} // namespace

std::optional<Rework> ReworkStore::find(ReworkId id) const {
    return only(rework_where(connection_, "w.id = $1", {id}));
}

std::vector<Rework> ReworkStore::into(BatchId batch) const {
    return rework_where(connection_, "w.into_batch_id = $1", {batch});
}

std::vector<Rework> ReworkStore::of(BatchId batch) const {
    return rework_where(connection_, "w.from_batch_id = $1", {batch});
}

Result<ReworkId> ReworkStore::log(Change& change, const Rework& rework) {
    const auto source = dough_made(connection_, rework.from);
    if (source.batches == 0)
        return change.refuse({"Put back", "is of a batch that is not in the book, or was taken back",
                              "Choose one that stands"});
    if (dough_made(connection_, rework.into).batches == 0)
        return change.refuse({"Batch", "is not in the book, or was taken back", "Choose one that stands"});
    const Grams made = rework.kind == ReworkKind::flour ? source.flour : source.dough;
    if (auto refusals = what_stands_against(rework, made, source.put_back); !refusals.empty())
        return change.refuse(std::move(refusals));
    const ReworkId id{next_number(change.connection(), "rework")};
    write_row(change, id, rework, {});
    return id;
}

Result<Done> ReworkStore::counter(Change& change, ReworkId id, std::string_view reason) {
    auto rework = find(id);
    if (!rework)
        return change.refuse({"Rework", "is not in the book", "Choose one from the list"});
    if (rework->is_countered)
        return change.refuse({"Rework", "was taken back before", "Look at the trace of the batch"});
    rework->note = reason;
    write_row(change, ReworkId{next_number(change.connection(), "rework")}, *rework, id);
    return Done{};
}

} // namespace mellowbin
