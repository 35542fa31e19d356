#include "db/batch_store.h"

#include "db/belief_store.h"
#include "db/numbering.h"
#include "db/only.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin {
namespace {

template <class T> std::optional<T> maybe(const Row& row, int column) {
    return row.is_null(column) ? std::nullopt : std::optional(T{row.real(column)});
}

/// Of batches b those that are no counter-entry. The plus keeps an engine from walking the index of
/// counter-entries, nearly all of which are null, where the rest of the clause is the quicker way.
constexpr std::string_view mixed_clause = "WHERE +b.counters_id IS NULL";

Batch batch_from(const Row& row) {
    Batch batch;
    batch.id = row.id<BatchId>(0);
    batch.run = row.id<RunId>(1);
    batch.number = static_cast<int>(row.integer(2));
    batch.at = row.instant(3);
    batch.who = row.words(4);
    batch.checked_by = row.words(5);
    batch.water = Kilograms{row.real(6)};
    batch.ice = Kilograms{row.real(7)};
    batch.water_temperature = maybe<Celsius>(row, 8);
    batch.oxidant = row.maybe_key(9, substance_from_key);
    batch.dose = OxidantPpm{row.real(10)};
    batch.poured_ml = row.real(11);
    batch.solution = row.maybe_id<SolutionId>(12);
    batch.farinograph = maybe<Absorption14>(row, 13);
    batch.absorption = maybe<Absorption14>(row, 14);
    batch.flour_temperature = maybe<Celsius>(row, 15);
    batch.room_temperature = maybe<Celsius>(row, 16);
    batch.is_countered = !row.is_null(17);
    return batch;
}

/// The batch of this number among those read, which stand in the order of their numbers.
Batch* in(std::vector<Batch>& batches, BatchId id) {
    const auto at = std::lower_bound(batches.begin(), batches.end(), id,
                                     [](const Batch& batch, BatchId wanted) { return batch.id < wanted; });
    return at != batches.end() && at->id == id ? &*at : nullptr;
}

void read_parts(Connection& connection, std::string_view clause, Parameters parameters,
                std::vector<Batch>& batches) {
    const auto chosen = fmt::format("(SELECT b.id FROM batch b {})", clause);
    connection.query(fmt::format("SELECT batch_id, lot_id, mass_g FROM batch_flour WHERE batch_id IN {} "
                                 "ORDER BY batch_id, position",
                                 chosen),
                     parameters, [&](const Row& row) {
                         if (Batch* batch = in(batches, row.id<BatchId>(0)))
                             batch->flour.push_back({row.id<LotId>(1), Grams{row.integer(2)}});
                     });
    connection.query(fmt::format("SELECT batch_id, answer FROM batch_answer WHERE batch_id IN {}", chosen),
                     parameters, [&](const Row& row) {
                         if (Batch* batch = in(batches, row.id<BatchId>(0)))
                             batch->answer = row.words(1);
                     });
    connection.query(
        fmt::format("SELECT batch_id, dough_c, ph, feel, mixing_minutes, fermentation_minutes, note "
                    "FROM batch_result WHERE batch_id IN {} ORDER BY id",
                    chosen),
        parameters, [&](const Row& row) {
            Batch* batch = in(batches, row.id<BatchId>(0));
            if (!batch)
                return;
            batch->result = {maybe<Celsius>(row, 1),
                             row.maybe_real(2),
                             row.maybe_key(3, feel_from_key),
                             row.maybe_real(4),
                             row.is_null(5) ? std::nullopt : std::optional(static_cast<int>(row.integer(5))),
                             row.words(6)};
        });
}

std::vector<Batch> batches_where(Connection& connection, std::string_view clause, Parameters parameters) {
    std::vector<Batch> batches;
    connection.query(
        fmt::format(
            "SELECT b.id, b.run_id, b.number, b.at, b.who, b.checked_by, b.water_kg, b.ice_kg, b.water_c, "
            "b.oxidant, b.dose_ppm, b.poured_ml, b.solution_id, b.farinograph_pct, b.absorption_pct, "
            "b.flour_c, b.room_c, c.id FROM batch b LEFT JOIN batch c ON c.counters_id = b.id {} "
            "ORDER BY b.id",
            clause),
        parameters, [&](const Row& row) { batches.push_back(batch_from(row)); });
    read_parts(connection, clause, parameters, batches);
    return batches;
}

std::vector<StockSolution> solutions_where(Connection& connection, std::string_view clause,
                                           Parameters parameters) {
    std::vector<StockSolution> solutions;
    connection.query(
        fmt::format(
            "SELECT id, substance, g_per_l, made_at, keeps_until, who, has_ended FROM stock_solution {} "
            "ORDER BY id",
            clause),
        parameters, [&](const Row& row) {
            solutions.push_back({row.id<SolutionId>(0), row.key(1, substance_from_key), row.real(2),
                                 row.instant(3), row.instant(4), row.words(5), row.integer(6) != 0});
        });
    return solutions;
}

void write_row(Change& change, BatchId id, const Batch& batch, std::string_view note,
               std::optional<BatchId> counters) {
    change.connection().execute(
        "INSERT INTO batch (id, run_id, number, at, who, checked_by, water_kg, ice_kg, water_c, oxidant, "
        "dose_ppm, poured_ml, solution_id, farinograph_pct, absorption_pct, flour_c, room_c, note, "
        "counters_id) "
        "VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16, $17, $18, $19)",
        {id, batch.run, batch.number, change.journal_line().at, change.journal_line().who, batch.checked_by,
         batch.water, batch.ice, batch.water_temperature,
         batch.oxidant ? std::optional(key_of(*batch.oxidant)) : std::nullopt, batch.dose, batch.poured_ml,
         batch.solution, batch.farinograph, batch.absorption, batch.flour_temperature, batch.room_temperature,
         note, counters});
    change.touches(record_of(counters.value_or(id)));
    change.touches(record_of(batch.run));
}

Refusal not_there(const char* what) { return {what, "is not in the book", "Choose one from the list"}; }

std::optional<bool> has_ended(Connection& connection, SolutionId id) {
    std::optional<bool> ended;
    connection.query("SELECT has_ended FROM stock_solution WHERE id = $1", {id},
                     [&](const Row& row) { ended = row.integer(0) != 0; });
    return ended;
}

Result<Done> set_ended(Change& change, SolutionId id, bool ends) {
    auto& book = change.connection();
    const auto ended = has_ended(book, id);
    if (!ended)
        return change.refuse(not_there("Stock solution"));
    if (*ended == ends)
        return change.refuse({"Stock solution", ends ? "was poured away before" : "is still there",
                              "Look at the solutions of today"});
    book.execute("UPDATE stock_solution SET has_ended = $1 WHERE id = $2", {ends ? 1 : 0, id});
    change.touches(record_of(id));
    return Done{};
}

} // namespace

std::vector<Batch> BatchStore::all() const { return batches_where(connection_, mixed_clause, {}); }

std::vector<Batch> BatchStore::of(RunId run) const {
    return batches_where(connection_, fmt::format("{} AND b.run_id = $1", mixed_clause), {run});
}

std::vector<Batch> BatchStore::of_runs_since(Day first) const {
    return batches_where(connection_,
                         fmt::format("{} AND b.run_id IN (SELECT id FROM run WHERE day >= $1)", mixed_clause),
                         {first});
}

std::optional<Batch> BatchStore::find(BatchId id) const {
    return only(batches_where(connection_, fmt::format("{} AND b.id = $1", mixed_clause), {id}));
}

std::vector<MovementId> BatchStore::uses_of(BatchId id) const {
    std::vector<MovementId> uses;
    connection_.query("SELECT movement_id FROM batch_use WHERE batch_id = $1 ORDER BY movement_id", {id},
                      [&](const Row& row) { uses.push_back(row.id<MovementId>(0)); });
    return uses;
}

Result<BatchId> BatchStore::log(Change& change, const Batch& batch, std::span<const MovementId> uses) {
    auto& book = change.connection();
    if (batch.flour.empty())
        return change.refuse({"Flour", "no flour was read; of one lot at least is expected",
                              "Enter what went in of each lot"});
    for (const auto& other : of(batch.run))
        if (other.number == batch.number && !other.is_countered)
            return change.refuse({"Batch", fmt::format("batch {} of the run is logged already", batch.number),
                                  "Look at the batches of the run"});
    const BatchId id{next_number(book, "batch")};
    write_row(change, id, batch, "", {});
    if (!batch.answer.empty())
        book.execute("INSERT INTO batch_answer (batch_id, answer) VALUES ($1, $2)", {id, batch.answer});
    int position = 0;
    for (const auto& part : batch.flour)
        book.execute("INSERT INTO batch_flour (batch_id, position, lot_id, mass_g) VALUES ($1, $2, $3, $4)",
                     {id, position++, part.lot, part.mass});
    for (const auto use : uses)
        book.execute("INSERT INTO batch_use (batch_id, movement_id) VALUES ($1, $2)", {id, use});
    if (batch.result != BatchResult{}) {
        if (auto written = set_result(change, id, batch.result); !written)
            return written.refusals();
    }
    return id;
}

Result<Done> BatchStore::set_result(Change& change, BatchId id, const BatchResult& result) {
    auto& book = change.connection();
    const auto batch = find(id);
    if (!batch)
        return change.refuse(not_there("Batch"));
    if (batch->is_countered)
        return change.refuse({"Batch", "was countered: it was not mixed so", "Choose one that stands"});
    book.execute("INSERT INTO batch_result (id, batch_id, dough_c, ph, feel, mixing_minutes, "
                 "fermentation_minutes, note, at, who) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)",
                 {next_number(book, "batch_result"), id, result.dough_temperature, result.ph,
                  result.feel ? std::optional(key_of(*result.feel)) : std::nullopt, result.mixing_minutes,
                  result.fermentation_minutes, result.note, change.journal_line().at,
                  change.journal_line().who});
    change.touches(record_of(id));
    change.touches(record_of(batch->run));
    const auto& before = batch->result;
    if (result.feel != before.feel || result.dough_temperature != before.dough_temperature)
        BeliefStore::forget_from(book, id);
    return Done{};
}

Result<Done> BatchStore::counter(Change& change, BatchId id, std::string_view note) {
    const auto batch = find(id);
    if (!batch)
        return change.refuse(not_there("Batch"));
    if (batch->is_countered)
        return change.refuse({"Batch", "was countered before", "Look at the batches of the run"});
    write_row(change, BatchId{next_number(change.connection(), "batch")}, *batch, note, id);
    BeliefStore::forget_from(change.connection(), id);
    return Done{};
}

std::vector<StockSolution> BatchStore::solutions() const { return solutions_where(connection_, "", {}); }

std::vector<StockSolution> BatchStore::solutions_since(Instant since) const {
    return solutions_where(connection_,
                           "WHERE made_at >= $1 OR keeps_until >= $1 OR id IN "
                           "(SELECT MAX(id) FROM stock_solution WHERE has_ended = 0 GROUP BY substance)",
                           {since});
}

Result<SolutionId> BatchStore::make(Change& change, const StockSolution& solution) {
    auto& book = change.connection();
    const SolutionId id{next_number(book, "stock_solution")};
    book.execute("INSERT INTO stock_solution (id, substance, g_per_l, made_at, keeps_until, who, has_ended) "
                 "VALUES ($1, $2, $3, $4, $5, $6, 0)",
                 {id, key_of(solution.substance), solution.grams_per_litre, solution.made_at,
                  solution.keeps_until, solution.who});
    change.touches(record_of(id));
    return id;
}

Result<Done> BatchStore::end(Change& change, SolutionId id) { return set_ended(change, id, true); }

Result<Done> BatchStore::keep(Change& change, SolutionId id) { return set_ended(change, id, false); }

} // namespace mellowbin
