#include "app/acts/lots.h"

#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "core/lot_words.h"
#include "db/lot_store.h"

#include <fmt/format.h>

namespace mellowbin::app {
namespace {

Refusal unknown_lot() { return {"Lot", "is not in the book", "Choose a lot from the list"}; }

std::string became(LotState to) { return to == LotState::held ? "put on hold" : std::string(in_words(to)); }

Result<Told> judge(State& state, LotId id, LotState to, const std::string& reason, const char* intent,
                   Intents undoing, const char* undo) {
    const Lot* lot = state.book.lot(id);
    if (!lot)
        return unknown_lot();
    const auto words = fmt::format("Lot {} {}", lot->code, became(to));
    Change change =
        state.change(intent, subject_of(*lot), words + (reason.empty() ? std::string() : ": " + reason));
    auto now = LotStore(*state.connection).set_state(change, id, to, reason);
    if (!now)
        return change.refuse(now.refusals());
    change.commit();
    return Told{words, Touched::nothing,
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

Result<Told> carry_out(State& state, const ExtendBestBefore& intent) {
    const Lot* lot = state.book.lot(intent.lot);
    if (!lot)
        return unknown_lot();
    Change change = state.change("extend_best_before", subject_of(*lot), "");
    const auto extended =
        LotStore(*state.connection).extend(change, lot->id, intent.until, intent.reason, state.today());
    if (!extended)
        return change.refuse(extended.refusals());
    const std::string words = fmt::format("Lot {}: may be used until {}, best before {}: {}", lot->code,
                                          iso(extended->extension->until), iso(*extended->best_before),
                                          extended->extension->reason);
    change.journal_line().words = words;
    change.commit();
    return Told{words,
                Touched::nothing,
                fmt::format("Undo: take the extension of lot {} back", lot->code),
                {TakeBackExtension{lot->id, lot->extension}}};
}

Result<Told> carry_out(State& state, const TakeBackExtension& intent) {
    const Lot* lot = state.book.lot(intent.lot);
    if (!lot)
        return unknown_lot();
    if (lot->extension == intent.before)
        return Refusal{"Lot " + lot->code, "has no other last day to take back", ""};
    const std::string words = fmt::format("Lot {}: extension taken back, may be used until {}", lot->code,
                                          intent.before      ? iso(intent.before->until)
                                          : lot->best_before ? iso(*lot->best_before)
                                                             : "?");
    Change change = state.change("take_back_extension", subject_of(*lot), words);
    LotStore(*state.connection).set_extension(change, lot->id, intent.before);
    change.commit();
    return Told{words};
}

} // namespace mellowbin::app
