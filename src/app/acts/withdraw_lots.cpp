#include "app/acts/intake.h"
#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "db/delivery_store.h"
#include "db/lot_store.h"
#include "db/movement_store.h"
#include "db/supply_store.h"

#include <fmt/format.h>

#include <set>

namespace mellowbin::app {
namespace {

constexpr const char* by_mistake = "taken in by mistake";

/// The lot's receipts are taken back, it is rejected, and it leaves its delivery, whose number is noted.
void withdraw(State& state, Change& change, const Lot& lot, std::set<DeliveryId>& deliveries,
              Refusals& refusals) {
    for (const Movement* m : state.book.movements_of(lot.id)) {
        if (m->kind != MovementKind::receipt || m->counters)
            continue;
        const auto counter = countering(*m, state.setup.person, state.setup.clock.now(), by_mistake);
        if (const auto written = MovementStore(*state.connection).append(change, counter); !written)
            append(refusals, written.refusals());
    }
    const auto now = LotStore(*state.connection).set_state(change, lot.id, LotState::rejected, by_mistake);
    if (!now)
        append(refusals, now.refusals());
    if (const auto delivery = DeliveryStore(*state.connection).withdraw(change, lot.id))
        deliveries.insert(*delivery);
    change.also(
        state.journal_line("withdraw_lots", subject_of(lot), fmt::format("Lot {} withdrawn", lot.code)));
}

/// What these deliveries answered is to come again; in words.
std::string expect_again(State& state, Change& change, const std::set<DeliveryId>& deliveries) {
    std::string words;
    SupplyStore supply(*state.connection);
    for (const auto id : deliveries) {
        const auto record = DeliveryStore(*state.connection).find(id);
        const auto expected = record && record->expected ? supply.find(*record->expected) : std::nullopt;
        if (expected && expected->has_come && supply.expect_again(change, expected->id))
            words += fmt::format("; delivery {} is expected again", expected->code);
    }
    return words;
}

} // namespace

Result<Told> carry_out(State& state, const WithdrawLots& intent) {
    Change change = state.change("withdraw_lots", "delivery", "");
    std::string codes;
    Refusals refusals;
    std::set<DeliveryId> deliveries;
    for (const LotId id : intent.lots) {
        const Lot* lot = state.book.lot(id);
        if (!lot)
            continue;
        codes += (codes.empty() ? "" : ", ") + lot->code;
        withdraw(state, change, *lot, deliveries, refusals);
    }
    if (codes.empty())
        return change.refuse(Refusal{"Lot", "is not in the book", ""});
    if (!refusals.empty())
        return change.refuse(refusals);
    const auto again = expect_again(state, change, deliveries);
    change.journal_line().words = fmt::format("{} withdrawn: {}{}", codes, by_mistake, again);
    change.commit();
    return Told{change.journal_line().words};
}

} // namespace mellowbin::app
