#pragma once

#include "core/bake.h"
#include "core/batch.h"
#include "core/climate.h"
#include "core/lot.h"
#include "core/mill_word.h"
#include "core/plant.h"
#include "core/retest.h"
#include "core/silo.h"
#include "core/stock.h"
#include "core/test_precision.h"
#include "db/climate_day_store.h"
#include "db/connection.h"
#include "db/draw_store.h"
#include "db/journal_store.h"
#include "db/learning_store.h"
#include "db/settings_store.h"

#include <algorithm>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace mellowbin::aging {
struct ClimateDay;
}

namespace mellowbin::app {

/// What a logger measured in one place, in order of time; shared, since no reading ever changes.
using Readings = std::shared_ptr<const std::vector<ClimateReading>>;
/// What the days of one place came to, day after day.
using ClimateDays = std::shared_ptr<const std::vector<aging::ClimateDay>>;

/// What the plant said of a silo.
struct SiloFacts {
    MixingZone zone;
    std::optional<Grams> capacity;
};

/// The live part of the book, read at one instant: lots that are in stock, to be judged or were used up
/// lately, and what belongs to them; runs of the last days and to come, with their batches; what of the plant
/// holds. Of the past only what somebody called up, and the newest lots of each mill, which tell what the
/// next may be like. Plain values, safe to copy to a worker.
struct Book {
    std::int64_t version = 0; ///< the greatest line of the journal when it was read
    Day day;                  ///< on which it was read
    Day since;                ///< runs of this day and later are here, and lots that were used up since
    std::vector<Mill> mills;
    std::vector<Flour> flours;
    std::vector<Place> places;
    std::map<PlaceId, SiloFacts> silos;
    std::vector<Line> lines;
    std::vector<Product> products;
    std::vector<Lot> lots;                ///< in the order they were taken in; see is_aside()
    std::vector<Movement> movements;      ///< of the lots, in the order they were written
    std::vector<Retest> retests;          ///< of the lots, in the order they were logged, withdrawn ones too
    std::vector<ClimateLog> climate_logs; ///< read in the last months
    /// From when the oldest live lot came up to some days ago; of places that loggers measured meanwhile.
    std::map<PlaceId, ClimateDays> climate_days;
    std::map<PlaceId, Readings> readings; ///< from there on, with those that join the two
    /// Of a lot that was called up and came before those: where it lay, while it lay there.
    std::map<std::pair<LotId, PlaceId>, Readings> old_readings;
    std::optional<Learning> learning; ///< what the estimates go by; none: the published figures
    std::vector<Run> runs;            ///< by day, line, sequence
    std::vector<Assignment> assignments;
    std::vector<ExpectedDelivery> expected; ///< to come, and those that lately came or were called off
    std::vector<Promise> promises;          ///< flour of deliveries to come that the plan has for runs
    std::vector<Reservation> reservations;  ///< those that hold
    std::vector<Batch> batches;   ///< of the runs, in the order they were logged, countered ones too
    std::vector<BagScan> scans;   ///< of the runs, in the order they were read
    std::vector<DrawPlace> draws; ///< of the runs: from where each lot is drawn, where somebody said
    std::vector<PropionateRow> propionates;
    std::vector<StockSolution> solutions; ///< of the last days, those poured away too, and the newest of each
    std::vector<Bake> bakes;              ///< of all lots: they teach the response; withdrawn ones too
    std::vector<KeepingRecord> keeping;   ///< withdrawn ones too
    std::vector<LimitRow> limits;
    std::vector<Market> markets;
    std::vector<MillWord> mill_words; ///< what those on mills' certificates mean, in the order it was learned
    std::vector<Setting> settings;
    std::vector<TestPrecision> precision; ///< of results, the plant's own rows
    StockBook stock;

    static Book read(Connection& connection, Day today);
    /// Reads again what was written since: just those records, not their tables. What it was.
    Changes follow(Connection& connection);
    /// Days of climates that reading or following had to make from readings are kept for the next time,
    /// unless others wrote meanwhile. Writes to the book, in a transaction of its own, only where there are
    /// some.
    void keep_climate_days(Connection& connection);

    // The past, by name: it stays here until it is put away. False: the book has no such record.
    bool call_up(Connection& connection, LotId lot);
    bool call_up(Connection& connection, RunId run);
    void call_up_runs(Connection& connection, Day from, Day until); ///< both days included
    /// Names of lots that are only to be named.
    void name_lots(Connection& connection, const std::vector<LotId>& lots);
    [[nodiscard]] std::size_t called_up() const { return called_up_.size(); } ///< lots
    /// Puts away what was called up, but for this lot and this run.
    void put_past_away(Connection& connection, LotId keep, RunId keep_run);

    [[nodiscard]] const Lot* lot(LotId id) const { return in(lots, id); }
    /// The lot stands here as an example of its mill, or for its name: its movements and retests are not
    /// here.
    [[nodiscard]] bool is_aside(LotId id) const { return aside_.contains(id); }
    /// The lot is neither aside nor called up from the past.
    [[nodiscard]] bool is_live(LotId id) const { return !is_aside(id) && !called_up_.contains(id); }
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
    /// Of a run, or of one that only a movement of a lot called up speaks of; "?" for another.
    [[nodiscard]] std::string code_of(RunId id) const;
    [[nodiscard]] std::vector<const Retest*> retests_of(LotId lot) const; ///< withdrawn ones too
    [[nodiscard]] std::vector<Assignment> assignments_of(RunId run) const;
    [[nodiscard]] const ExpectedDelivery* delivery(ExpectedId id) const { return in(expected, id); }
    [[nodiscard]] std::vector<Promise> promises_of(RunId run) const;
    /// Flour already in dough for a run: uses less what was given back.
    [[nodiscard]] Grams used_for(RunId run) const;
    [[nodiscard]] Grams used_for(RunId run, LotId lot) const;
    /// Flour of the lot that went into dough and did not come back, by the run it was for.
    [[nodiscard]] std::map<std::optional<RunId>, Grams> out_of(LotId lot) const;
    [[nodiscard]] const Batch* batch(BatchId id) const { return in(batches, id); }
    /// In the order they were logged, countered ones too.
    [[nodiscard]] std::vector<const Batch*> batches_of(RunId run) const;
    /// Of the run's batch of this number, in the order they were read.
    [[nodiscard]] std::vector<const BagScan*> scans_of(RunId run, int batch) const;
    /// Where somebody said that the run draws the lot from; nothing where nobody did.
    [[nodiscard]] std::optional<PlaceId> said_place(RunId run, LotId lot) const;
    /// The newest of the substance that was not poured away; null: none.
    [[nodiscard]] const StockSolution* solution_of(Substance substance) const;
    /// Batches of the run that stand.
    [[nodiscard]] int batches_mixed(const Run& run) const;
    /// Name of a mill and the like, or "?" for a number the book does not hold.
    [[nodiscard]] std::string name(PlaceId id) const;

private:
    /// Of records in the order of their numbers.
    template <class Record, class IdOf> static const Record* in(const std::vector<Record>& records, IdOf id) {
        const auto at =
            std::lower_bound(records.begin(), records.end(), id,
                             [](const Record& record, IdOf wanted) { return record.id < wanted; });
        return at != records.end() && at->id == id ? &*at : nullptr;
    }
    void read_plant(Connection& connection);
    void read_runs(Connection& connection);
    void read_supply(Connection& connection);
    void read_solutions(Connection& connection);
    void read_lots(Connection& connection);
    void read_examples(Connection& connection);
    void read_logs(Connection& connection);
    void read_climates(Connection& connection);
    void read_climate(Connection& connection, const Place& place);
    void make_climate_days(Connection& connection, const Place& place, std::vector<aging::ClimateDay>& days,
                           Day until);
    void follow_lot(Connection& connection, LotId lot);
    void follow_run(Connection& connection, RunId run);
    void follow_records(Connection& connection, const Changes& changes);
    void call_up_all(Connection& connection, const std::vector<Run>& runs);
    void read_old_readings(Connection& connection, LotId lot);
    void name_runs(Connection& connection, LotId lot);
    void add_lot(Connection& connection, Lot lot);
    void add_run(Connection& connection, const Run& run);
    std::vector<LotId> add_lots_of(Connection& connection, const std::vector<Run>& runs);
    void forget_run(RunId run);
    void order();
    void index();
    [[nodiscard]] Instant oldest_live() const;

    std::set<LotId> aside_;
    std::set<LotId> called_up_;
    std::set<RunId> called_up_runs_;
    std::map<RunId, std::string> run_codes_;
    Instant readings_from_{};
    std::vector<KeptClimateDay> unkept_days_; ///< made, and not in the book yet
    /// In `runs` as they were read: by day, so that a number does not tell the place.
    std::unordered_map<std::int64_t, std::size_t> run_places_;
    std::unordered_map<std::int64_t, std::vector<std::size_t>> movements_by_lot_;
    std::unordered_map<std::int64_t, std::vector<std::size_t>> uses_by_run_;
    std::unordered_map<std::int64_t, std::vector<std::size_t>> retests_by_lot_;
};

} // namespace mellowbin::app
