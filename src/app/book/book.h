#pragma once

#include "core/bake.h"
#include "core/batch.h"
#include "core/climate.h"
#include "core/lot.h"
#include "core/plant.h"
#include "core/retest.h"
#include "core/stock.h"
#include "db/connection.h"
#include "db/learning_store.h"
#include "db/settings_store.h"

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace mellowbin::app {

/// All that the read-models are made from, read from the book at one instant: plain values, safe to copy to a
/// worker.
struct Book {
    std::vector<Mill> mills;
    std::vector<Flour> flours;
    std::vector<Place> places;
    std::vector<Line> lines;
    std::vector<Product> products;
    std::vector<Lot> lots; ///< in the order they were taken in
    std::vector<Movement> movements;
    std::vector<Retest> retests; ///< in the order they were logged, withdrawn ones too
    std::vector<ClimateLog> climate_logs;
    /// By place, in order of time; shared with the copies, since no reading ever changes.
    std::map<PlaceId, std::shared_ptr<const std::vector<ClimateReading>>> readings;
    std::optional<Learning> learning; ///< what the estimates go by; none: the published figures
    std::vector<Run> runs;
    std::vector<Assignment> assignments;
    std::vector<ExpectedDelivery> expected; ///< those that came or were called off too
    std::vector<Promise> promises;          ///< flour of deliveries to come that the plan has for runs
    std::vector<Reservation> reservations;  ///< those that hold
    std::vector<Batch> batches;             ///< in the order they were logged, countered ones too
    std::vector<StockSolution> solutions;   ///< those poured away too
    std::vector<Bake> bakes;                ///< withdrawn ones too
    std::vector<KeepingRecord> keeping;     ///< withdrawn ones too
    std::vector<LimitRow> limits;
    std::vector<Market> markets;
    std::vector<Setting> settings;
    StockBook stock;

    static Book read(Connection& connection);

    [[nodiscard]] const Lot* lot(LotId id) const;
    [[nodiscard]] const Flour* flour(FlourId id) const { return in(flours, id); }
    [[nodiscard]] const Mill* mill(MillId id) const { return in(mills, id); }
    [[nodiscard]] const Place* place(PlaceId id) const { return in(places, id); }
    [[nodiscard]] const Product* product(ProductId id) const { return in(products, id); }
    [[nodiscard]] const Line* line(LineId id) const { return in(lines, id); }
    [[nodiscard]] const Run* run(RunId id) const;
    [[nodiscard]] const Movement* movement(MovementId id) const { return in(movements, id); }
    /// Movements of a lot, in the order they were written.
    [[nodiscard]] std::vector<const Movement*> movements_of(LotId lot) const;
    [[nodiscard]] std::size_t movement_count(LotId lot) const;
    [[nodiscard]] std::vector<const Retest*> retests_of(LotId lot) const; ///< withdrawn ones too
    [[nodiscard]] std::vector<Assignment> assignments_of(RunId run) const;
    [[nodiscard]] const ExpectedDelivery* delivery(ExpectedId id) const { return in(expected, id); }
    [[nodiscard]] std::vector<Promise> promises_of(RunId run) const;
    /// Flour already in dough for a run: uses less what was given back.
    [[nodiscard]] Grams used_for(RunId run) const;
    [[nodiscard]] Grams used_for(RunId run, LotId lot) const;
    [[nodiscard]] const Batch* batch(BatchId id) const;
    /// In the order they were logged, countered ones too.
    [[nodiscard]] std::vector<const Batch*> batches_of(RunId run) const;
    /// The newest of the substance that was not poured away; null: none.
    [[nodiscard]] const StockSolution* solution_of(Substance substance) const;
    /// Batches of the run that stand.
    [[nodiscard]] int batches_mixed(const Run& run) const;
    /// Name of a mill and the like, or "?" for a number the book does not hold.
    [[nodiscard]] std::string name(PlaceId id) const;

    /// Reads what changed again after a lot was taken in, judged, moved or used.
    void read_lots_again(Connection& connection);
    /// Runs, assignments, promises, deliveries to come and reservations.
    void read_runs_again(Connection& connection);
    /// Only this lot's are read.
    void read_retests_again(Connection& connection, LotId lot);
    void read_climate_again(Connection& connection);
    void read_learning_again(Connection& connection);
    void read_batches_again(Connection& connection); ///< and solutions
    void read_bakes_again(Connection& connection);   ///< and how bread kept

private:
    template <class Record, class IdOf> static const Record* in(const std::vector<Record>& records, IdOf id) {
        // Numbers count from 1 without gaps as long as nothing is removed, so the place is nearly always this
        // one.
        const auto guess = static_cast<std::size_t>(id.number() - 1);
        if (guess < records.size() && records[guess].id == id)
            return &records[guess];
        for (const auto& record : records)
            if (record.id == id)
                return &record;
        return nullptr;
    }
    void index();
    void index_retests();
    void read_climate(Connection& connection);
    void read_plan(Connection& connection);
    /// In `runs` as they were read: by day, so that a number does not tell the place.
    std::unordered_map<std::int64_t, std::size_t> run_places_;
    std::unordered_map<std::int64_t, std::vector<std::size_t>> movements_by_lot_;
    std::unordered_map<std::int64_t, std::vector<std::size_t>> uses_by_run_;
    std::unordered_map<std::int64_t, std::vector<std::size_t>> retests_by_lot_;
};

} // namespace mellowbin::app
