#include "app/book/book.h"
#include "db/bake_store.h"
#include "db/batch_store.h"
#include "db/climate_store.h"
#include "db/limit_store.h"
#include "db/lot_store.h"
#include "db/mill_word_store.h"
#include "db/movement_store.h"
#include "db/plant_store.h"
#include "db/propionate_store.h"
#include "db/retest_store.h"
#include "db/run_store.h"
#include "db/scan_store.h"
#include "db/silo_store.h"
#include "db/supply_store.h"
#include "db/test_precision_store.h"

#include <tuple>

namespace mellowbin::app {
namespace {

constexpr Days last_days{14};         // that screens look back on by themselves
constexpr Days last_logs{92};         // loggers' files that may still have to be taken back
constexpr int examples_of_a_mill = 6; // of a flour: some may lack the figure that is asked for

} // namespace

Book Book::read(Connection& connection, Day today) {
    const Reading reading(connection);
    Book book;
    book.day = today;
    book.since = today - last_days;
    book.version = JournalStore(connection).version();
    book.read_plant(connection);
    book.read_supply(connection);
    book.read_solutions(connection);
    book.bakes = BakeStore(connection).bakes();
    book.keeping = BakeStore(connection).records();
    book.learning = LearningStore(connection).holding();
    book.read_runs(connection);
    book.read_lots(connection);
    book.read_examples(connection);
    book.order();
    book.read_logs(connection);
    book.readings_from_ = book.oldest_live();
    book.read_climates(connection);
    for (const auto id : book.called_up_)
        book.read_old_readings(connection, id);
    return book;
}

void Book::read_plant(Connection& connection) {
    const PlantStore plant(connection);
    mills = plant.mills();
    flours = plant.flours();
    places = plant.places();
    silos.clear();
    for (const auto& [id, zone] : SiloStore(connection).zones())
        silos[id].zone = zone;
    for (const auto& [id, capacity] : SiloStore(connection).capacities())
        silos[id].capacity = capacity;
    lines = plant.lines();
    products = plant.products();
    limits = LimitStore(connection).rows();
    markets = LimitStore(connection).markets();
    propionates = PropionateStore(connection).rows();
    settings = SettingsStore(connection).all();
    precision = TestPrecisionStore(connection).rows();
    mill_words = MillWordStore(connection).holding();
}

void Book::read_supply(Connection& connection) {
    const SupplyStore supply(connection);
    expected = supply.expected_since(since);
    reservations = supply.reservations();
}

void Book::read_solutions(Connection& connection) {
    solutions = BatchStore(connection).solutions_since(Instant{since});
}

/// Those of the last days and to come; of a product that had none lately also its last one, which the next is
/// told by.
void Book::read_runs(Connection& connection) {
    const RunStore plan(connection);
    runs = plan.since(since);
    assignments = plan.assignments_since(since);
    promises = plan.promises_since(since);
    batches = BatchStore(connection).of_runs_since(since);
    scans = ScanStore(connection).of_runs_since(since);
    draws = DrawStore(connection).of_runs_since(since);
    for (const auto& product : products) {
        const bool had_one = std::any_of(runs.begin(), runs.end(), [&](const Run& run) {
            return run.product == product.id && run.day < day;
        });
        if (had_one)
            continue;
        if (const auto last = plan.last_before(product.id, since))
            add_run(connection, *last);
    }
}

void Book::read_lots(Connection& connection) {
    for (auto& lot : LotStore(connection).live(Instant{since}))
        add_lot(connection, std::move(lot));
    // Of a product's last run, long ago, they are no part of what is here to be used.
    const auto of_runs = add_lots_of(connection, runs);
    called_up_.insert(of_runs.begin(), of_runs.end());
    for (const auto& reservation : reservations)
        if (!lot(reservation.lot))
            if (auto reserved = LotStore(connection).find(reservation.lot))
                add_lot(connection, *std::move(reserved));
}

/// What the next lot of a mill may be like, and those that taught the learning.
void Book::read_examples(Connection& connection) {
    std::vector<LotId> examples;
    for (const auto& mill : mills)
        for (const auto& flour : flours)
            for (const auto id : LotStore(connection).newest_of(mill.id, flour.id, examples_of_a_mill))
                examples.push_back(id);
    if (learning)
        for (const auto& site : learning->sites)
            examples.push_back(site.lot);
    name_lots(connection, examples);
}

void Book::name_lots(Connection& connection, const std::vector<LotId>& ids) {
    for (const auto id : ids) {
        if (lot(id))
            continue;
        auto found = LotStore(connection).find(id);
        if (!found)
            continue;
        aside_.insert(id);
        lots.insert(std::upper_bound(lots.begin(), lots.end(), id,
                                     [](LotId wanted, const Lot& one) { return wanted < one.id; }),
                    *std::move(found));
    }
}

/// The lot, in place of the one that stands here, with what belongs to it. index() is still to come.
void Book::add_lot(Connection& connection, Lot lot) {
    const LotId id = lot.id;
    const auto at = std::lower_bound(lots.begin(), lots.end(), id,
                                     [](const Lot& one, LotId wanted) { return one.id < wanted; });
    if (at != lots.end() && at->id == id)
        *at = std::move(lot);
    else
        lots.insert(at, std::move(lot));
    const bool is_new =
        aside_.erase(id) > 0 || movements_by_lot_.find(id.number()) == movements_by_lot_.end();
    MovementId last;
    if (!is_new)
        last = movements[movements_by_lot_[id.number()].back()].id;
    for (auto& movement : MovementStore(connection).of(id, last))
        movements.push_back(std::move(movement));
    std::erase_if(retests, [&](const Retest& retest) { return retest.lot == id; });
    for (auto& retest : RetestStore(connection).of(id))
        retests.push_back(std::move(retest));
}

/// A run that stands outside the last days, with what belongs to it but its lots.
void Book::add_run(Connection& connection, const Run& run) {
    const RunStore plan(connection);
    forget_run(run.id);
    runs.push_back(run);
    for (auto& assignment : plan.assignments_of(run.id))
        assignments.push_back(std::move(assignment));
    for (auto& promise : plan.promises_of(run.id))
        promises.push_back(std::move(promise));
    for (auto& batch : BatchStore(connection).of(run.id))
        batches.push_back(std::move(batch));
    for (auto& scan : ScanStore(connection).of(run.id))
        scans.push_back(std::move(scan));
    for (const auto& draw : DrawStore(connection).of(run.id))
        draws.push_back(draw);
}

void Book::forget_run(RunId id) {
    std::erase_if(runs, [&](const Run& run) { return run.id == id; });
    const auto is_of_it = [&](const auto& one) { return one.run == id; };
    std::erase_if(assignments, is_of_it);
    std::erase_if(promises, is_of_it);
    std::erase_if(batches, is_of_it);
    std::erase_if(scans, is_of_it);
    std::erase_if(draws, is_of_it);
}

/// The lots that went into the runs or are meant to, where they are not here yet; which they were.
std::vector<LotId> Book::add_lots_of(Connection& connection, const std::vector<Run>& wanted) {
    std::set<RunId> ids;
    for (const auto& run : wanted)
        ids.insert(run.id);
    std::set<LotId> named;
    for (const auto& assignment : assignments)
        if (ids.contains(assignment.run))
            named.insert(assignment.lot);
    for (const auto& batch : batches)
        if (ids.contains(batch.run))
            for (const auto& part : batch.flour)
                named.insert(part.lot);
    std::vector<LotId> added;
    for (const auto id : named) {
        if (lot(id) && !is_aside(id))
            continue;
        if (auto found = LotStore(connection).find(id)) {
            add_lot(connection, *std::move(found));
            added.push_back(id);
        }
    }
    return added;
}

void Book::read_logs(Connection& connection) {
    climate_logs = ClimateStore(connection).logs_since(Instant{day - last_logs});
}

/// Every list in its order, and the ways through them.
void Book::order() {
    const auto by_number = [](const auto& a, const auto& b) { return a.id < b.id; };
    std::sort(movements.begin(), movements.end(), by_number);
    std::sort(retests.begin(), retests.end(), by_number);
    std::sort(batches.begin(), batches.end(), by_number);
    std::sort(scans.begin(), scans.end(), by_number);
    std::sort(runs.begin(), runs.end(), [](const Run& a, const Run& b) {
        return std::tuple(a.day, a.line, a.sequence, a.id) < std::tuple(b.day, b.line, b.sequence, b.id);
    });
    std::sort(assignments.begin(), assignments.end(), [](const Assignment& a, const Assignment& b) {
        return std::tuple(a.run, b.mass, a.lot) < std::tuple(b.run, a.mass, b.lot);
    });
    std::sort(promises.begin(), promises.end(), [](const Promise& a, const Promise& b) {
        return std::tuple(a.run, b.mass, a.delivery) < std::tuple(b.run, a.mass, b.delivery);
    });
    index();
}

} // namespace mellowbin::app
