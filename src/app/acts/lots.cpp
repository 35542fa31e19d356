#include "app/acts/lots.h"

#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "db/lot_store.h"

#include <fmt/format.h>

namespace mellowbin::app {
namespace {

Result<Told> judge(State& state, LotId id, LotState to, const std::string& reason, const char* intent,
                   Intents undoing, const char* undo) {
    const Lot* lot = state.book.lot(id);
    if (!lot)
        return Refusal{"Lot", "is not in the book", "Choose a lot from the list"};
    Change change = state.change(intent, subject_of(*lot),
                                 fmt::format("Lot {}: {} -> {}{}", lot->code, name_of(lot->state),
                                             name_of(to), reason.empty() ? "" : ": " + reason));
    auto now = LotStore(*state.connection).set_state(change, id, to, reason);
    if (!now)
        return change.refuse(now.refusals());
    change.commit();
    return Told{fmt::format("Lot {}: {}", lot->code, name_of(to)), Touched::nothing,
                undoing.empty() ? "" : fmt::format("Undo: {} lot {}", undo, lot->code), std::move(undoing)};
}

} // namespace

Result<Told> carry_out(State& state, const ReleaseLot& intent) {
    return judge(state, intent.lot, LotState::released, intent.reason, "release_lot",
                 {HoldLot{intent.lot, "release taken back"}}, "hold");
}

Result<Told> carry_out(State& state, const HoldLot& intent) {
    const Lot* lot = state.book.lot(intent.lot);
    const bool was_released = lot && lot->state == LotState::released;
    return judge(state, intent.lot, LotState::held, intent.reason, "hold_lot",
                 was_released ? Intents{ReleaseLot{intent.lot, "hold taken back"}} : Intents{}, "release");
}

Result<Told> carry_out(State& state, const RejectLot& intent) {
    return judge(state, intent.lot, LotState::rejected, intent.reason, "reject_lot",
                 {HoldLot{intent.lot, "rejection taken back"}}, "hold");
}

} // namespace mellowbin::app
