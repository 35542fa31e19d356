#include "app/acts/arrival.h"
#include "app/acts/came.h"
#include "app/acts/state.h"
#include "app/plan/reserved.h"
#include "db/begun_store.h"
#include "db/delivery_store.h"
#include "db/run_store.h"
#include "db/supply_store.h"

#include <fmt/format.h>

namespace mellowbin::app {
namespace {

/// Its lots of the flour that was expected, with what of each no run has.
std::vector<LotThere> lots_for(const State& state, const ExpectedDelivery& expected, const Coming& coming,
                               std::span<const Arrival> arrivals, std::span<const LotId> ids,
                               std::string& codes) {
    std::vector<LotThere> lots;
    std::size_t count = 0;
    const auto add = [&](LotId id, FlourId flour, const std::string& code, Grams free) {
        if (flour != expected.flour)
            return;
        lots.push_back({id, free});
        codes += (codes.empty() ? "" : ", ") + code;
        ++count;
    };
    for (const auto& lot : coming.before)
        add(lot.lot, lot.flour, lot.code, free_of(state.book, lot.lot));
    for (const auto i : coming.lots) {
        const Lot& lot = arrivals[i].delivered.lot;
        add(ids[i], lot.flour, lot.code, lot.received);
    }
    constexpr std::size_t most_named = 5;
    codes = count > most_named ? fmt::format("{} lots", count) : (count == 1 ? "lot " : "lots ") + codes;
    return lots;
}

/// What came of an expected delivery.
struct Matched {
    std::string words;         ///< "Delivery E-3 came as lot W24-118"; empty: none was expected
    RestoreAssignments before; ///< what its runs had; none where it was promised to none
};

/// What was expected has come: its flour goes to the runs that counted on it.
Result<Matched> end_expectation(State& state, Change& change, const Coming& coming,
                                std::span<const Arrival> arrivals, std::span<const LotId> ids) {
    Matched matched;
    const auto* expected = coming.record.expected ? state.book.delivery(*coming.record.expected) : nullptr;
    if (!expected || expected->has_come)
        return matched;
    const auto runs = promised_runs(state.book, expected->id);
    matched.before = as_they_stand(state.book, runs);
    std::string codes;
    const auto lots = lots_for(state, *expected, coming, arrivals, ids, codes);
    const auto after = arrived(state.book, *expected, lots, runs);
    matched.words = came_in_words(*expected, codes, runs.size(), after.missing);
    if (const auto done = SupplyStore(*state.connection).end(change, expected->id); !done)
        return change.refuse(done.refusals());
    if (runs.empty())
        return matched;
    const auto& plan = after.plan;
    const auto done =
        RunStore(*state.connection).set_assignments(change, runs, plan.assignments, plan.promises);
    if (!done)
        return change.refuse(done.refusals());
    return matched;
}

/// Its lots and pallets, which are in the book under these numbers now.
Result<DeliveryId> write_record(State& state, Change& change, const Coming& coming,
                                std::span<const Arrival> arrivals, std::span<const LotId> ids) {
    auto record = coming.record;
    for (const auto i : coming.lots) {
        record.lots.push_back(ids[i]);
        for (auto pallet : arrivals[i].pallets) {
            pallet.lot = ids[i];
            record.pallets.push_back(std::move(pallet));
        }
    }
    DeliveryStore store(*state.connection);
    return coming.joins ? store.join(change, *coming.joins, record) : store.add(change, record);
}

/// The delivery that was begun and taken over comes in with its lots; as long as some stay it is only looked
/// at that no other window has it.
Result<Done> end_begun(State& state, Change& change, const OfDelivery& of) {
    if (!of.begun.is_held())
        return Done{};
    BegunStore begun(*state.connection);
    return of.rest == Rest::follows ? begun.holds(change, of.begun) : begun.came_in(change, of.begun);
}

} // namespace

Result<WrittenDeliveries> write_deliveries(State& state, Change& change, const std::vector<Coming>& coming,
                                           std::span<const Arrival> arrivals, std::span<const LotId> ids,
                                           const OfDelivery& of) {
    WrittenDeliveries written;
    for (const auto& one : coming) {
        const auto id = write_record(state, change, one, arrivals, ids);
        if (!id)
            return id.refusals();
        state.intake.came = *id;
        const auto matched = of.rest == Rest::follows ? Result<Matched>(Matched{})
                                                      : end_expectation(state, change, one, arrivals, ids);
        if (!matched)
            return matched.refusals();
        for (const auto& words : {matched->words, one.doubts})
            written.words += words.empty() ? words : ". " + words;
        if (!matched->before.runs.empty())
            written.putting_back.push_back(matched->before);
    }
    if (const auto done = end_begun(state, change, of); !done)
        return done.refusals();
    return written;
}

} // namespace mellowbin::app
