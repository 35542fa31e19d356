#include "app/acts/lots.h"

#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "app/models/lot_results.h"
#include "core/lot_words.h"
#include "core/typed_text.h"
#include "db/concession_store.h"
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

/// A lot that fails its specification is not released without a word.
std::optional<Refusal> silent_release(const State& state, const Lot& lot, const std::string& reason) {
    const auto failing = failing_results(state.book, lot);
    if (failing.empty() || !trimmed(reason).empty() || lot.state != LotState::awaiting_judgement)
        return {};
    return Refusal{
        "Reason",
        fmt::format("is empty, and lot {} is out of specification: {}", lot.code, failing_as_text(failing)),
        "Say why it is released all the same, or release it with a concession"};
}

/// What was held takes a reason: what is conceded is one.
Result<Told> release(State& state, const Lot& lot, const std::string& reason,
                     const std::optional<Concession>& concession) {
    std::string why(trimmed(reason));
    if (why.empty() && concession)
        why = fmt::format("with a concession by {}", concession->by);
    auto words = fmt::format("Lot {} released", lot.code);
    if (concession)
        words += fmt::format(" with a concession by {} {}", concession->by,
                             in_words(*concession, state.book.products));
    else if (!why.empty())
        words += ": " + why;
    Change change = state.change("release_lot", subject_of(lot), words);
    const auto now = LotStore(*state.connection).set_state(change, lot.id, LotState::released, why);
    if (!now)
        return change.refuse(now.refusals());
    if (concession)
        ConcessionStore(*state.connection).set(change, lot.id, concession);
    change.commit();
    return Told{words,
                Touched::nothing,
                fmt::format("Undo: hold lot {}", lot.code),
                {HoldLot{lot.id, "release taken back"}}};
}

} // namespace

Result<Told> carry_out(State& state, const ReleaseLot& intent) {
    const Lot* lot = state.book.lot(intent.lot);
    if (!lot)
        return unknown_lot();
    std::optional<Concession> concession;
    if (intent.concession) {
        auto accepted = accept(*intent.concession, {state.today(), state.book.products, state.setup.person});
        if (!accepted)
            return accepted.refusals();
        concession = *std::move(accepted);
    } else if (auto why = silent_release(state, *lot, intent.reason)) {
        return *why;
    }
    return release(state, *lot, intent.reason, concession);
}

Result<Told> carry_out(State& state, const HoldLot& intent) {
    const Lot* lot = state.book.lot(intent.lot);
    const bool was_released = lot && lot->state == LotState::released;
    Intents undoing;
    if (was_released && lot->concession)
        undoing.emplace_back(TakeBackHold{intent.lot, *lot->concession});
    else if (was_released)
        undoing.emplace_back(ReleaseLot{intent.lot, "hold taken back"});
    return judge(state, intent.lot, LotState::held, intent.reason, "hold_lot", std::move(undoing), "release");
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
