#include "app/acts/intent.h"
#include "app/acts/lots.h"
#include "app/acts/state.h"
#include "core/lot_words.h"
#include "core/typed_text.h"
#include "db/concession_store.h"
#include "db/lot_store.h"

#include <fmt/format.h>

namespace mellowbin::app {
namespace {

Refusal unknown_lot() { return {"Lot", "is not in the book", "Choose a lot from the list"}; }

std::string undo_words(const Lot& lot) {
    return lot.concession ? fmt::format("Undo: the concession of lot {} as it was", lot.code)
                          : fmt::format("Undo: lot {} without a concession", lot.code);
}

/// Writes what holds of the lot from now on.
Result<Told> write(State& state, const Lot& lot, const char* intent, std::string words,
                   const std::optional<Concession>& concession, Intents undoing) {
    Change change = state.change(intent, subject_of(lot), words);
    ConcessionStore(*state.connection).set(change, lot.id, concession);
    change.commit();
    return Told{std::move(words), Touched::nothing, undoing.empty() ? "" : undo_words(lot),
                std::move(undoing)};
}

std::optional<Refusal> not_released(const Lot& lot) {
    if (lot.state == LotState::released)
        return {};
    return Refusal{"Lot " + lot.code, fmt::format("is {}", in_words(lot.state)),
                   "Release it, with the concession"};
}

} // namespace

Result<Told> carry_out(State& state, const ConcedeLot& intent) {
    const Lot* lot = state.book.lot(intent.lot);
    if (!lot)
        return unknown_lot();
    if (auto why = not_released(*lot))
        return *why;
    const auto concession =
        accept(intent.concession, {state.today(), state.book.products, state.setup.person});
    if (!concession)
        return concession.refusals();
    if (lot->concession == *concession)
        return Refusal{"Lot " + lot->code, "has this concession already",
                       "Change what is to change, or leave it"};
    return write(state, *lot, "concede_lot",
                 fmt::format("Lot {}: concession by {} {}", lot->code, concession->by,
                             in_words(*concession, state.book.products)),
                 *concession, {RestoreConcession{lot->id, lot->concession}});
}

Result<Told> carry_out(State& state, const EndConcession& intent) {
    const Lot* lot = state.book.lot(intent.lot);
    if (!lot)
        return unknown_lot();
    Refusals refusals;
    if (auto why = not_released(*lot))
        refusals.push_back(*std::move(why));
    else if (!lot->concession)
        refusals.push_back({"Lot " + lot->code, "has no concession", "It goes into all dough already"});
    if (trimmed(intent.reason).empty())
        refusals.push_back({"Reason", "is empty", "Say why it goes into all dough from now on"});
    if (!refusals.empty())
        return refusals;
    return write(state, *lot, "end_concession",
                 fmt::format("Lot {}: released for all dough, its concession until {} ends: {}", lot->code,
                             iso(lot->concession->until), trimmed(intent.reason)),
                 {}, {RestoreConcession{lot->id, lot->concession}});
}

Result<Told> carry_out(State& state, const RestoreConcession& intent) {
    const Lot* lot = state.book.lot(intent.lot);
    if (!lot)
        return unknown_lot();
    if (auto why = not_released(*lot))
        return *why;
    if (lot->concession == intent.before)
        return Refusal{"Lot " + lot->code, "has no other concession to take back", ""};
    return write(state, *lot, "restore_concession",
                 intent.before
                     ? fmt::format("Lot {}: concession as it was, {}", lot->code,
                                   in_words(*intent.before, state.book.products))
                     : fmt::format("Lot {}: concession taken back, released for all dough", lot->code),
                 intent.before, {});
}

Result<Told> carry_out(State& state, const TakeBackHold& intent) {
    const Lot* lot = state.book.lot(intent.lot);
    if (!lot)
        return unknown_lot();
    const auto words = fmt::format("Lot {} released again, hold taken back; its concession holds again, {}",
                                   lot->code, in_words(intent.before, state.book.products));
    Change change = state.change("take_back_hold", subject_of(*lot), words);
    const auto now =
        LotStore(*state.connection).set_state(change, lot->id, LotState::released, "hold taken back");
    if (!now)
        return change.refuse(now.refusals());
    ConcessionStore(*state.connection).set(change, lot->id, intent.before);
    change.commit();
    return Told{words};
}

} // namespace mellowbin::app
