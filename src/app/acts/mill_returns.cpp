#include "app/acts/mill_returns.h"

#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "core/decimal.h"
#include "core/lot_words.h"
#include "core/typed_text.h"
#include "db/lot_store.h"
#include "db/mill_return_store.h"
#include "db/movement_store.h"

#include <fmt/format.h>

#include <map>

namespace mellowbin::app {
namespace {

std::string kg(Grams g) { return fixed(to_kilograms(g).value(), 1) + " kg"; }

std::string with_document(const std::string& reason, const std::string& document) {
    return document.empty() ? reason : fmt::format("{} ({})", reason, document);
}

/// What leaves which place, as far as it can be told from the act.
std::map<PlaceId, Grams> read_places(const State& state, const Lot& lot, const ReturnToMill& act,
                                     Refusals& refusals) {
    auto lying = state.book.stock.places_of(lot.id);
    if (act.place)
        std::erase_if(lying, [&](const auto& one) { return one.first != *act.place; });
    if (lying.empty())
        refusals.push_back({"From", "nothing of the lot lies there", "Look where it lies"});
    if (trimmed(act.kg).empty())
        return lying;
    const auto read = read_required_decimal("Weight", act.kg, {0.001, 1'000'000, "kg"});
    if (!read)
        append(refusals, read.refusals());
    else if (lying.size() > 1)
        refusals.push_back({"From", fmt::format("is empty, and the lot lies in {} places", lying.size()),
                            "Say from where so much goes back, or leave the weight empty for all of it"});
    else if (!lying.empty())
        lying.begin()->second = to_grams(Kilograms{*read});
    return lying;
}

Movement by(const State& state, LotId lot, PlaceId from, Grams mass, std::string note) {
    Movement m;
    m.lot = lot;
    m.kind = MovementKind::to_mill;
    m.from = from;
    m.mass = mass;
    m.at = state.setup.clock.now();
    m.who = state.setup.person;
    m.note = std::move(note);
    return m;
}

Refusal unknown_lot() { return {"Lot", "is not in the book", "Choose a lot from the list"}; }

Refusals why_not(const Lot& lot) {
    if (lot.state != LotState::released && lot.state != LotState::used_up)
        return {};
    return {{"Lot " + lot.code, fmt::format("is {}", in_words(lot.state)),
             lot.state == LotState::released ? "Put it on hold first, with the reason"
                                             : "Nothing of it is left to go back"}};
}

} // namespace

Result<Told> carry_out(State& state, const ReturnToMill& act) {
    const Lot* lot = state.book.lot(act.lot);
    if (!lot)
        return unknown_lot();
    auto refusals = why_not(*lot);
    const auto leaving = read_places(state, *lot, act, refusals);
    const std::string reason(trimmed(act.reason)), document(trimmed(act.document));
    if (reason.empty())
        refusals.push_back({"Reason", "is empty", "Say why, in a few words"});
    if (!refusals.empty())
        return refusals;
    Grams mass;
    for (const auto& [place, grams] : leaving)
        mass += grams;
    const bool is_all = mass == state.book.stock.total(lot->id);
    const auto words = fmt::format("{} of lot {} back to the mill{}: {}", kg(mass), lot->code,
                                   is_all ? ", nothing is left of it" : "", with_document(reason, document));
    Change change = state.change("return_to_mill", subject_of(*lot), words);
    TakeBackReturn undoing{lot->id, {}, is_all && lot->state != LotState::rejected};
    for (const auto& [place, grams] : leaving) {
        const auto id = MillReturnStore(*state.connection)
                            .log(change, by(state, lot->id, place, grams, with_document(reason, document)),
                                 reason, document);
        if (!id)
            return change.refuse(id.refusals());
        undoing.movements.push_back(*id);
    }
    if (undoing.was_rejected_by_it) {
        const auto now = LotStore(*state.connection)
                             .set_state(change, lot->id, LotState::rejected, "back to the mill: " + reason);
        if (!now)
            return change.refuse(now.refusals());
    }
    change.commit();
    return Told{words, Touched::nothing, "Undo: bring it back", {std::move(undoing)}};
}

Result<Told> carry_out(State& state, const TakeBackReturn& act) {
    const Lot* lot = state.book.lot(act.lot);
    if (!lot)
        return unknown_lot();
    const bool holds = act.was_rejected_by_it && lot->state == LotState::rejected;
    const auto words =
        fmt::format("Lot {}: its return to the mill taken back{}", lot->code, holds ? ", it is on hold" : "");
    Change change = state.change("take_back_return", subject_of(*lot), words);
    for (const auto id : act.movements) {
        const Movement* sent = state.book.movement(id);
        if (!sent)
            return change.refuse({"Movement", "is not in the book", "Choose one from the lot's sheet"});
        const auto back = MovementStore(*state.connection)
                              .append(change, countering(*sent, state.setup.person, state.setup.clock.now(),
                                                         "return taken back"));
        if (!back)
            return change.refuse(back.refusals());
    }
    if (holds) {
        const auto now =
            LotStore(*state.connection).set_state(change, lot->id, LotState::held, "return taken back");
        if (!now)
            return change.refuse(now.refusals());
    }
    change.commit();
    return Told{words};
}

} // namespace mellowbin::app
