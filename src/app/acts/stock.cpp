#include "app/acts/stock.h"

#include "app/acts/follow_stock.h"
#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "core/decimal.h"
#include "core/typed_text.h"
#include "db/lot_store.h"
#include "db/movement_store.h"

#include <fmt/format.h>

namespace mellowbin::app {
namespace {

std::string kg(Grams g) { return fixed(to_kilograms(g).value(), 1) + " kg"; }

Movement by(const State& state, LotId lot, MovementKind kind, Grams mass) {
    Movement m;
    m.lot = lot;
    m.kind = kind;
    m.mass = mass;
    m.at = state.setup.clock.now();
    m.who = state.setup.person;
    return m;
}

Grams signed_mass(const Movement& m) { return (m.to ? m.mass : Grams{0}) - (m.from ? m.mass : Grams{0}); }

/// Writes one movement of a lot with its journal line; the told words are the line's.
Result<Told> write(State& state, const Lot& lot, const Movement& movement, const char* intent,
                   std::string words, std::string undo) {
    Change change = state.change(intent, subject_of(lot), words);
    const auto id = MovementStore(*state.connection).append(change, movement);
    if (!id)
        return change.refuse(id.refusals());
    const Grams left = state.book.stock.total(lot.id) + signed_mass(movement);
    if (auto refusals = follow_the_stock(state, change, lot, left); !refusals.empty())
        return change.refuse(refusals);
    change.commit();
    Intents undoing;
    if (!undo.empty())
        undoing.push_back(CounterMovement{*id, "taken back"});
    return Told{std::move(words), Touched::nothing, std::move(undo), std::move(undoing)};
}

Result<Grams> read_kg(std::string_view field, const std::string& text) {
    const auto read = read_required_decimal(field, text, {0.001, 1'000'000, "kg"});
    if (!read)
        return read.refusals();
    return to_grams(Kilograms{*read});
}

/// The run that the flour is out for: the one said, or the only one there is.
Result<std::optional<RunId>> run_of(const Book& book, const Lot& lot, std::optional<RunId> said) {
    const auto out = book.out_of(lot.id);
    if (out.empty())
        return Refusal{"Lot " + lot.code, "has no flour out: nothing of it was used",
                       "Look at its movements"};
    if (said || out.size() == 1)
        return said ? said : out.begin()->first;
    std::string codes;
    for (const auto& [run, mass] : out)
        codes += fmt::format("{}{} ({})", codes.empty() ? "" : ", ", run ? book.code_of(*run) : "no run",
                             kg(mass));
    return Refusal{"Run", "is empty, and the lot is out for more than one: " + codes, "Say which it was for"};
}

Refusal unknown_lot() { return {"Lot", "is not in the book", "Choose a lot from the list"}; }

} // namespace

Result<Told> carry_out(State& state, const MoveLot& intent) {
    const Lot* lot = state.book.lot(intent.lot);
    if (!lot)
        return unknown_lot();
    const auto mass = read_kg("Weight", intent.kg);
    Refusals refusals = mass ? Refusals{} : mass.refusals();
    if (const Place* to = state.book.place(intent.to); to && to->is_retired)
        refusals.push_back({"To", fmt::format("\"{}\" is retired", to->name), "Choose another place"});
    if (!refusals.empty())
        return refusals;
    Movement m = by(state, lot->id, MovementKind::move, *mass);
    m.from = intent.from;
    m.to = intent.to;
    return write(state, *lot, m, "move_lot",
                 fmt::format("{} of lot {} moved from {} to {}", kg(*mass), lot->code,
                             state.book.name(intent.from), state.book.name(intent.to)),
                 "Undo: move it back");
}

Result<Told> carry_out(State& state, const CountLot& intent) {
    const Lot* lot = state.book.lot(intent.lot);
    if (!lot)
        return unknown_lot();
    const auto read = read_required_decimal("Counted", intent.kg, {0, 1'000'000, "kg"});
    if (!read)
        return read.refusals();
    const Grams counted = to_grams(Kilograms{*read});
    const Grams booked = state.book.stock.at(lot->id, intent.place);
    auto correction = correction_by_count(lot->id, intent.place, booked, counted);
    if (!correction) {
        return Told{fmt::format("Lot {} in {}: counted {}, as the book says", lot->code,
                                state.book.name(intent.place), kg(counted)),
                    Touched::nothing};
    }
    const std::string reason(trimmed(intent.reason));
    if (reason.empty())
        return Refusal{"Reason",
                       fmt::format("is empty, and {} counted are not the {} booked", kg(counted), kg(booked)),
                       "Say why it differs, in a few words, or count again"};
    correction->at = state.setup.clock.now();
    correction->who = state.setup.person;
    correction->note = fmt::format("counted {}, booked {}: {}", kg(counted), kg(booked), reason);
    return write(state, *lot, *correction, "count_lot",
                 fmt::format("Lot {} in {}: counted {}, {} {} than booked: {}", lot->code,
                             state.book.name(intent.place), kg(counted), kg(correction->mass),
                             counted > booked ? "more" : "less", reason),
                 "Undo: take the count back");
}

Result<Told> carry_out(State& state, const WasteLot& intent) {
    const Lot* lot = state.book.lot(intent.lot);
    if (!lot)
        return unknown_lot();
    const auto mass = read_kg("Weight", intent.kg);
    Refusals refusals;
    if (!mass)
        append(refusals, mass.refusals());
    if (trimmed(intent.reason).empty())
        refusals.push_back({"Reason", "is empty", "Say why, in a few words"});
    if (!refusals.empty())
        return refusals;
    Movement m = by(state, lot->id, MovementKind::waste, *mass);
    m.from = intent.place;
    m.note = trimmed(intent.reason);
    return write(state, *lot, m, "waste_lot",
                 fmt::format("{} of lot {} thrown away from {}: {}", kg(*mass), lot->code,
                             state.book.name(intent.place), m.note),
                 "Undo: take the waste back");
}

Result<Told> carry_out(State& state, const GiveBack& intent) {
    const Lot* lot = state.book.lot(intent.lot);
    if (!lot)
        return unknown_lot();
    const auto mass = read_kg("Weight", intent.kg);
    const auto run = run_of(state.book, *lot, intent.run);
    Refusals refusals;
    if (!mass)
        append(refusals, mass.refusals());
    if (!run)
        append(refusals, run.refusals());
    const Place* to = state.book.place(intent.to);
    if (!to)
        refusals.push_back({"To", "is no place of the book", "Choose where it lies now"});
    else if (to->is_retired)
        refusals.push_back({"To", fmt::format("\"{}\" is retired", to->name), "Choose where it lies now"});
    if (trimmed(intent.reason).empty())
        refusals.push_back({"Reason", "is empty", "Say why, in a few words"});
    if (!refusals.empty())
        return refusals;
    Movement m = by(state, lot->id, MovementKind::give_back, *mass);
    m.to = intent.to;
    m.run = *run;
    m.note = trimmed(intent.reason);
    return write(state, *lot, m, "give_back",
                 fmt::format("{} of lot {} back into {}{}: {}", kg(*mass), lot->code,
                             state.book.name(intent.to),
                             *run ? " from run " + state.book.code_of(**run) : std::string(), m.note),
                 "Undo: take the return back");
}

Result<Told> carry_out(State& state, const CounterMovement& intent) {
    const Movement* mistaken = state.book.movement(intent.movement);
    if (!mistaken)
        return Refusal{"Movement", "is not in the book", "Choose one from the lot's sheet"};
    const Lot* lot = state.book.lot(mistaken->lot);
    if (!lot)
        return unknown_lot();
    const Movement counter =
        countering(*mistaken, state.setup.person, state.setup.clock.now(), intent.reason);
    return write(state, *lot, counter, "counter_movement",
                 fmt::format("{} of lot {} ({}) taken back{}", kg(mistaken->mass), lot->code,
                             in_words(mistaken->kind), intent.reason.empty() ? "" : ": " + intent.reason),
                 "");
}

} // namespace mellowbin::app
