#include "app/models/trace.h"

#include "app/book/station.h"
#include "app/models/trace_shares.h"
#include "app/models/trace_words.h"
#include "db/dispatch_store.h"
#include "db/movement_store.h"

#include <algorithm>
#include <map>
#include <set>

namespace mellowbin::app {
namespace {

using Batches = std::map<BatchId, TracedBatch>; ///< in the order in which they were mixed
using IntoBatch = std::map<BatchId, std::vector<Rework>>;

void add(Batches& batches, std::vector<TracedBatch> more) {
    for (auto& batch : more)
        batches.emplace(batch.id, std::move(batch));
}

bool may_be_held(LotState state) {
    return state == LotState::released || state == LotState::awaiting_judgement;
}

std::optional<TraceLot> trace_lot(const TraceStore& store, const TraceShare& share, Grams in_stock) {
    auto lot = store.lot(share.lot);
    if (!lot)
        return {};
    const bool can = in_stock > Grams{} && may_be_held(lot->state);
    return TraceLot{*std::move(lot), share, in_stock, can};
}

/// What was mixed later of dough that is in these batches; its batches join them.
IntoBatch rework_after(const TraceStore& store, LotId lot, Batches& batches,
                       const std::set<BatchId>& others) {
    IntoBatch into;
    std::vector<Rework> next = store.rework_of_batches_with(lot);
    const auto follow = [&](BatchId batch) {
        for (auto& rework : store.rework_of(batch))
            next.push_back(std::move(rework));
    };
    for (const auto batch : others) // that the question by the lot's name does not find
        follow(batch);
    std::set<ReworkId> seen;
    while (!next.empty()) {
        const Rework rework = std::move(next.back());
        next.pop_back();
        if (!seen.insert(rework.id).second)
            continue;
        if (!batches.contains(rework.into)) {
            auto batch = store.batch(rework.into);
            if (!batch)
                continue;
            batches.emplace(rework.into, *std::move(batch));
            follow(rework.into);
        }
        into[rework.into].push_back(rework);
    }
    return into;
}

/// What was mixed before and put back into these batches, however often; its batches join them.
IntoBatch rework_before(const TraceStore& store, Batches& batches) {
    IntoBatch into;
    std::vector<BatchId> next;
    for (const auto& [id, batch] : batches)
        next.push_back(id);
    while (!next.empty()) {
        const auto id = next.back();
        next.pop_back();
        for (auto& rework : store.rework_into(id)) {
            if (!batches.contains(rework.from)) {
                auto batch = store.batch(rework.from);
                if (!batch)
                    continue;
                batches.emplace(rework.from, *std::move(batch));
                next.push_back(rework.from);
            }
            into[id].push_back(std::move(rework));
        }
    }
    return into;
}

/// Of a run the loaf that left may be of any of its batches: it surely holds the lot where all of them do.
Certainty certainty_of_run(const TraceStore& store, RunId run, const std::vector<TraceBatch>& batches) {
    for (const auto& batch : store.batches_of(run)) {
        const auto at = std::ranges::find_if(
            batches, [&](const TraceBatch& traced) { return traced.batch.id == batch.id; });
        if (at == batches.end() || at->shares.empty() ||
            at->shares.front().certainty == Certainty::may_contain)
            return Certainty::may_contain;
    }
    return Certainty::contains;
}

void add_dispatches(Connection& connection, TraceModel& trace, RunId run, const std::string& code,
                    const std::string& product, Certainty certainty) {
    for (auto& one : DispatchStore(connection).of_run(run))
        if (!one.is_countered)
            trace.dispatches.push_back({std::move(one), code, product, certainty});
}

void sort_dispatches(TraceModel& trace) {
    std::ranges::sort(trace.dispatches, {},
                      [](const TraceDispatch& one) { return std::pair(one.dispatch.day, one.dispatch.id); });
}

/// The lot, and those under whose name some of it lies.
void find_lots_lying(const TraceStore& store, const TraceShares& shares, LotId traced, TraceModel& trace) {
    const auto& course = shares.course();
    for (const auto named : course.lots()) {
        if (named == traced)
            continue;
        for (const auto& part : course.lying(named))
            if (part.lot == traced)
                if (auto lot = trace_lot(store,
                                         {traced, Grams{}, static_cast<double>(part.mass.count()),
                                          part.certainty, true, false},
                                         course.in_stock(named))) {
                    if (auto named_lot = store.lot(named)) {
                        lot->lot = *std::move(named_lot);
                        lot->can_be_held = may_be_held(lot->lot.state);
                        trace.lots.push_back(*std::move(lot));
                    }
                }
    }
}

TraceModel forward(Connection& connection, const TraceQuery& query) {
    const TraceStore store(connection);
    TraceModel trace;
    trace.query = query;
    const auto traced = store.lot(query.lot);
    if (!traced)
        return trace;
    TraceShares shares(connection, {query.lot});
    const auto named = store.batches_with(query.lot);
    Batches batches;
    add(batches, named);
    std::set<BatchId> others;
    for (const auto id : shares.reached_by_silo(query.lot))
        if (!batches.contains(id))
            if (auto batch = store.batch(id)) {
                batches.emplace(id, *std::move(batch));
                others.insert(id);
            }
    auto into = rework_after(store, query.lot, batches, others);

    trace.balances.push_back(mass_balance(connection, *traced, named));
    const Grams in_stock = trace.balances.front().in_stock;
    trace.lots.push_back(
        {*traced,
         {query.lot, in_stock, static_cast<double>(in_stock.count()), Certainty::contains, false, false},
         in_stock,
         in_stock > Grams{} && may_be_held(traced->state)});
    find_lots_lying(store, shares, query.lot, trace);
    std::map<RunId, const TracedBatch*> runs;
    for (auto& [id, batch] : batches) {
        shares.work_out(batch, into[id]);
        const auto* share = share_of(shares.of(id), query.lot);
        if (share)
            trace.batches.push_back({std::move(batch), {*share}});
    }
    for (const auto& one : trace.batches)
        runs.emplace(one.batch.run, &one.batch);
    for (const auto& [run, batch] : runs)
        add_dispatches(connection, trace, run, batch->run_code, batch->product_name, Certainty::contains);
    std::map<RunId, Certainty> sure;
    for (auto& one : trace.dispatches) {
        const auto known = sure.find(one.dispatch.run);
        one.certainty = known != sure.end() ? known->second
                                            : sure[one.dispatch.run] =
                                                  certainty_of_run(store, one.dispatch.run, trace.batches);
    }
    sort_dispatches(trace);
    return trace;
}

/// The batches that a trace back begins with, and the dispatches they are known by.
Batches batches_asked_for(Connection& connection, const TraceQuery& query, TraceModel& trace) {
    const TraceStore store(connection);
    std::set<RunId> runs;
    std::vector<Dispatch> sent;
    if (query.asks == TraceOf::run)
        runs.insert(query.run);
    if (query.asks == TraceOf::product)
        for (const auto run : store.runs_of(query.product, query.day))
            runs.insert(run);
    if (query.asks == TraceOf::customer)
        for (auto& one : DispatchStore(connection).of({query.day, query.day, {}, query.customer}))
            if (!one.is_countered) {
                runs.insert(one.run);
                sent.push_back(std::move(one));
            }
    Batches batches;
    for (const auto run : runs) {
        auto of_run = store.batches_of(run);
        if (!of_run.empty() && query.asks != TraceOf::customer)
            add_dispatches(connection, trace, run, of_run.front().run_code, of_run.front().product_name,
                           Certainty::contains);
        for (auto& one : sent)
            if (one.run == run && !of_run.empty())
                trace.dispatches.push_back(
                    {one, of_run.front().run_code, of_run.front().product_name, Certainty::contains});
        add(batches, std::move(of_run));
    }
    return batches;
}

/// Bread that went to a customer is of any of the run's batches: what not all of them contain may be in it.
void doubt_what_not_all_contain(const TraceQuery& query, const std::set<BatchId>& asked,
                                const TraceShares& shares, std::vector<TraceShare>& found) {
    if (query.asks != TraceOf::customer)
        return;
    for (auto& share : found)
        for (const auto id : asked) {
            const auto* in_batch = share_of(shares.of(id), share.lot);
            if (!in_batch || in_batch->certainty == Certainty::may_contain)
                share.certainty = Certainty::may_contain;
        }
}

TraceModel backward(Connection& connection, const TraceQuery& query) {
    const TraceStore store(connection);
    TraceModel trace;
    trace.query = query;
    auto batches = batches_asked_for(connection, query, trace);
    std::set<BatchId> asked;
    for (const auto& [id, batch] : batches)
        asked.insert(id);
    auto into = rework_before(store, batches);
    std::set<LotId> named;
    for (const auto& [id, batch] : batches)
        for (const auto& part : batch.flour)
            named.insert(part.lot);
    TraceShares shares(connection, {named.begin(), named.end()});
    std::vector<TraceShare> found;
    for (auto& [id, batch] : batches) {
        shares.work_out(batch, into[id]);
        if (asked.contains(id))
            for (const auto& share : shares.of(id))
                add_share(found, share);
        trace.batches.push_back({std::move(batch), shares.of(id)});
    }
    doubt_what_not_all_contain(query, asked, shares, found);
    for (const auto& share : found) {
        const auto lot = store.lot(share.lot);
        if (!lot)
            continue;
        trace.balances.push_back(mass_balance(connection, *lot, store.batches_with(share.lot)));
        trace.lots.push_back({*lot, share, trace.balances.back().in_stock,
                              trace.balances.back().in_stock > Grams{} && may_be_held(lot->state)});
    }
    sort_dispatches(trace);
    return trace;
}

} // namespace

std::vector<LotId> TraceModel::to_hold() const {
    std::vector<LotId> held;
    for (const auto& lot : lots)
        if (lot.can_be_held)
            held.push_back(lot.lot.id);
    return held;
}

MassBalance mass_balance(Connection& connection, const TracedLot& lot,
                         const std::vector<TracedBatch>& batches_with_it) {
    MassBalance balance;
    balance.lot = lot.id;
    balance.code = lot.code;
    for (const auto& m : MovementStore(connection).of(lot.id)) {
        const Grams in = (m.to ? m.mass : Grams{}) - (m.from ? m.mass : Grams{});
        balance.in_stock += in;
        if (m.kind == MovementKind::receipt)
            balance.received += in;
        if (m.kind == MovementKind::count)
            balance.counted += in;
        if (m.kind == MovementKind::waste)
            balance.waste += -in;
        if (m.kind == MovementKind::to_mill)
            balance.to_mill += -in;
        if (m.kind == MovementKind::give_back)
            balance.used += -in;
    }
    for (const auto& batch : batches_with_it)
        for (const auto& part : batch.flour)
            if (part.lot == lot.id)
                balance.used += part.mass;
    balance.unexplained = balance.received + balance.counted - balance.used - balance.waste -
                          balance.to_mill - balance.in_stock;
    if (balance.received > Grams{})
        balance.unexplained_percent = 100.0 * static_cast<double>(balance.unexplained.count()) /
                                      static_cast<double>(balance.received.count());
    return balance;
}

TraceModel find_trace(Connection& connection, const TraceQuery& query) {
    const Reading reading(connection);
    return query.asks == TraceOf::lot ? forward(connection, query) : backward(connection, query);
}

TraceModel make_trace(const Station& s, const TraceQuery& query) {
    auto trace = find_trace(*s.connection, query);
    put_into_words(s, trace);
    return trace;
}

} // namespace mellowbin::app
