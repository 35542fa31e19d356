#include "app/book/book.h"
#include "db/bake_store.h"
#include "db/climate_store.h"
#include "db/lot_store.h"
#include "db/run_store.h"

namespace mellowbin::app {
namespace {

bool has_any(const Changes& changes, std::initializer_list<RecordKind> kinds) {
    return std::any_of(changes.records.begin(), changes.records.end(), [&](const RecordRef& record) {
        return std::find(kinds.begin(), kinds.end(), record.kind) != kinds.end();
    });
}

} // namespace

Changes Book::follow(Connection& connection) {
    {
        const Reading reading(connection);
        auto changes = JournalStore(connection).since(version);
        version = changes.version;
        if (changes.is_known) {
            follow_records(connection, changes);
            return changes;
        }
    }
    // Something was written that does not say what.
    const auto lots_called = called_up_;
    const auto runs_called = called_up_runs_;
    *this = read(connection, day);
    for (const auto id : runs_called)
        call_up(connection, id);
    for (const auto id : lots_called)
        call_up(connection, id);
    return {version, false, {}, {}};
}

void Book::follow_records(Connection& connection, const Changes& changes) {
    using Kind = RecordKind;
    if (has_any(changes, {Kind::mill, Kind::flour, Kind::place, Kind::line, Kind::product, Kind::limit,
                          Kind::propionate_limit, Kind::setting, Kind::test_precision}))
        read_plant(connection);
    if (has_any(changes, {Kind::delivery, Kind::reservation}))
        read_supply(connection);
    if (has_any(changes, {Kind::solution}))
        read_solutions(connection);
    if (has_any(changes, {Kind::bake}))
        bakes = BakeStore(connection).bakes();
    if (has_any(changes, {Kind::keeping}))
        keeping = BakeStore(connection).records();
    if (has_any(changes, {Kind::learning}))
        learning = LearningStore(connection).holding();
    for (const auto& record : changes.records) {
        if (record.kind == Kind::run)
            follow_run(connection, RunId{record.number});
        else if (record.kind == Kind::lot)
            follow_lot(connection, LotId{record.number});
    }
    order();
    const bool is_older = oldest_live() < readings_from_;
    if (is_older)
        readings_from_ = oldest_live();
    if (is_older || has_any(changes, {Kind::climate_log, Kind::place}))
        read_climates(connection);
    if (has_any(changes, {Kind::climate_log})) {
        read_logs(connection);
        for (const auto id : called_up_)
            read_old_readings(connection, id);
    }
}

void Book::follow_lot(Connection& connection, LotId id) {
    auto found = LotStore(connection).find(id);
    if (!found)
        return;
    const bool is_live_now = LotStore(connection).is_live(id, Instant{since});
    const bool is_here = lot(id) && !is_aside(id);
    if (is_live_now)
        called_up_.erase(id);
    if (is_live_now || is_here)
        add_lot(connection, *std::move(found));
}

void Book::follow_run(Connection& connection, RunId id) {
    const auto found = RunStore(connection).find(id);
    const bool is_here = run(id) != nullptr;
    if (found && (is_here || found->day >= since)) {
        add_run(connection, *found);
        add_lots_of(connection, {*found});
    } else {
        forget_run(id);
    }
}

bool Book::call_up(Connection& connection, LotId id) {
    if (lot(id) && !is_aside(id)) {
        name_runs(connection, id);
        return true;
    }
    const Reading reading(connection);
    auto found = LotStore(connection).find(id);
    if (!found)
        return false;
    add_lot(connection, *std::move(found));
    called_up_.insert(id);
    order();
    read_old_readings(connection, id);
    name_runs(connection, id);
    return true;
}

bool Book::call_up(Connection& connection, RunId id) {
    if (run(id))
        return true;
    const Reading reading(connection);
    const auto found = RunStore(connection).find(id);
    if (found)
        call_up_all(connection, {*found});
    return found.has_value();
}

void Book::call_up_runs(Connection& connection, Day from, Day until) {
    if (from >= since)
        return;
    const Reading reading(connection);
    auto found = RunStore(connection).between(from, until);
    std::erase_if(found, [&](const Run& one) { return run(one.id) != nullptr; });
    if (!found.empty())
        call_up_all(connection, found);
}

void Book::call_up_all(Connection& connection, const std::vector<Run>& found) {
    for (const auto& one : found) {
        add_run(connection, one);
        called_up_runs_.insert(one.id);
    }
    const auto added = add_lots_of(connection, found);
    called_up_.insert(added.begin(), added.end());
    order();
    for (const auto id : added) {
        read_old_readings(connection, id);
        name_runs(connection, id);
    }
}

/// The runs that the lot's movements speak of.
void Book::name_runs(Connection& connection, LotId id) {
    for (const Movement* movement : movements_of(id))
        if (movement->run && !run(*movement->run) && !run_codes_.contains(*movement->run))
            if (const auto found = RunStore(connection).find(*movement->run))
                run_codes_[found->id] = found->code;
}

std::string Book::code_of(RunId id) const {
    if (const Run* here = run(id))
        return here->code;
    const auto named = run_codes_.find(id);
    return named == run_codes_.end() ? "?" : named->second;
}

void Book::put_past_away(Connection& connection, LotId keep, RunId keep_run) {
    std::set<LotId> kept{keep};
    const auto stays = [&](RunId id) { return id == keep_run || !called_up_runs_.contains(id); };
    for (const auto& batch : batches)
        for (const auto& part : batch.flour)
            if (stays(batch.run))
                kept.insert(part.lot);
    for (const auto& assignment : assignments)
        if (stays(assignment.run))
            kept.insert(assignment.lot);
    std::set<LotId> gone;
    std::set_difference(called_up_.begin(), called_up_.end(), kept.begin(), kept.end(),
                        std::inserter(gone, gone.end()));
    std::erase_if(lots, [&](const Lot& one) { return gone.contains(one.id); });
    std::erase_if(movements, [&](const Movement& one) { return gone.contains(one.lot); });
    std::erase_if(retests, [&](const Retest& one) { return gone.contains(one.lot); });
    std::erase_if(old_readings, [&](const auto& one) { return gone.contains(one.first.first); });
    for (const auto id : gone)
        called_up_.erase(id);
    for (const auto id : std::exchange(called_up_runs_, {}))
        if (id == keep_run)
            called_up_runs_.insert(id);
        else
            forget_run(id);
    run_codes_.clear();
    read_examples(connection);
    order();
    if (lot(keep) && !is_aside(keep))
        name_runs(connection, keep);
}

} // namespace mellowbin::app
