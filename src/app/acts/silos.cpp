#include "app/acts/silos.h"

#include "app/acts/follow_stock.h"
#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "app/book/fields.h"
#include "core/typed_text.h"
#include "db/movement_store.h"
#include "db/silo_store.h"

#include <fmt/format.h>

namespace mellowbin::app {
namespace {

const Place* silo_named(const State& state, const std::string& name, Refusals& refusals) {
    const Place* silo = named(state.book.places, "Silo", name, refusals);
    if (silo && silo->kind != PlaceKind::silo) {
        refusals.push_back({"Silo", fmt::format("\"{}\" is no silo", silo->name), "Choose a silo"});
        return nullptr;
    }
    return silo;
}

/// Lots that lie in it by the book.
std::vector<std::pair<const Lot*, Grams>> booked_in(const State& state, PlaceId silo) {
    std::vector<std::pair<const Lot*, Grams>> lots;
    for (const auto& lot : state.book.lots)
        if (const Grams mass = state.book.stock.at(lot.id, silo); mass > Grams{0})
            lots.emplace_back(&lot, mass);
    return lots;
}

std::string in_words(const std::vector<std::pair<const Lot*, Grams>>& lots) {
    std::string words;
    for (const auto& [lot, mass] : lots)
        words += fmt::format("{}{} of {}", words.empty() ? "" : ", ", kg_words(mass), lot->code);
    return words;
}

/// Reads what was done; every reason at once.
std::optional<PlaceCare> read_care(const State& state, const NoteCare& act, Refusals& refusals) {
    DraftReader reader;
    PlaceCare care;
    const Place* silo = silo_named(state, act.silo, refusals);
    const auto kind = care_kind_from_key(trimmed(act.what));
    if (!kind)
        refusals.push_back({"What was done", fmt::format("\"{}\" was read", excerpt(act.what)),
                            "Choose one of: emptied, cleaned, sanitised"});
    care.day = read_past_day(reader, "Day", act.day, state.today());
    append(refusals, reader.refusals);
    care.by = trimmed(act.by);
    if (care.by.empty())
        care.by = state.setup.person;
    care.note = trimmed(act.note);
    if (!silo || !kind)
        return {};
    care.place = silo->id;
    care.kind = *kind;
    const auto booked = booked_in(state, silo->id);
    if (booked.empty())
        return care;
    if (*kind != CareKind::emptied)
        refusals.push_back({"Silo",
                            fmt::format("{} holds flour by the book: {}", silo->name, in_words(booked)),
                            "Write down first that it was emptied"});
    else if (care.note.empty())
        refusals.push_back(
            {"Reason",
             fmt::format("is empty, and {} holds flour by the book: {}", silo->name, in_words(booked)),
             "Say why it is not there, or where it went"});
    return care;
}

/// What the book has in a silo that was found empty goes as a count.
Refusals count_out(State& state, Change& change, const PlaceCare& care, const std::string& silo) {
    Refusals refusals;
    for (const auto& [lot, booked] : booked_in(state, care.place)) {
        auto counted = correction_by_count(lot->id, care.place, booked, Grams{});
        counted->at = state.setup.clock.now();
        counted->who = state.setup.person;
        counted->note = fmt::format("{} was emptied: {}", silo, care.note);
        const auto id = MovementStore(*state.connection).append(change, *counted);
        if (!id) {
            append(refusals, id.refusals());
            continue;
        }
        change.also(state.journal_line(
            "count_lot", subject_of(*lot),
            fmt::format("{} of lot {} taken off: {}", kg_words(booked), lot->code, counted->note)));
        append(refusals, follow_the_stock(state, change, *lot, state.book.stock.total(lot->id) - booked));
    }
    return refusals;
}

} // namespace

Result<Told> carry_out(State& state, const SetSiloZone& act) {
    Refusals refusals;
    const Place* silo = silo_named(state, act.silo, refusals);
    const auto zone = read_mixing_zone(act.zone);
    if (!zone)
        append(refusals, zone.refusals());
    if (!refusals.empty())
        return refusals;
    const auto words = fmt::format("{}: {}", silo->name, mellowbin::in_words(*zone));
    Change change = state.change("set_silo_zone", subject_of(*silo), words);
    if (const auto done = SiloStore(*state.connection).set(change, silo->id, *zone); !done)
        return done.refusals();
    change.commit();
    ++state.went_logged;
    return Told{words, Touched::traced};
}

Result<Told> carry_out(State& state, const SetSiloCapacity& act) {
    Refusals refusals;
    const Place* silo = silo_named(state, act.silo, refusals);
    const auto read = read_decimal_within("Holds at most", act.kg, {1, 1'000'000, "kg"});
    if (!read)
        append(refusals, read.refusals());
    if (!refusals.empty())
        return refusals;
    std::optional<Grams> capacity;
    if (*read)
        capacity = to_grams(Kilograms{**read});
    const auto words = capacity ? fmt::format("{} holds at most {}", silo->name, kg_words(*capacity))
                                : fmt::format("{}: how much it holds is not known", silo->name);
    Change change = state.change("set_silo_capacity", subject_of(*silo), words);
    if (const auto done = SiloStore(*state.connection).set_capacity(change, silo->id, capacity); !done)
        return done.refusals();
    change.commit();
    ++state.went_logged;
    return Told{words, Touched::traced};
}

Result<Told> carry_out(State& state, const NoteCare& act) {
    Refusals refusals;
    const auto care = read_care(state, act, refusals);
    if (!refusals.empty() || !care)
        return refusals;
    const Place& silo = *state.book.place(care->place);
    const auto booked = booked_in(state, silo.id);
    auto words = fmt::format("{} {} on {} by {}", silo.name, key_of(care->kind), iso(care->day), care->by);
    if (!booked.empty())
        words += fmt::format("; {} taken off the book", in_words(booked));
    if (!care->note.empty())
        words += ": " + care->note;
    Change change = state.change("note_care", subject_of(silo), words);
    if (const auto done = SiloStore(*state.connection).note(change, *care); !done)
        return done.refusals();
    if (auto failed = count_out(state, change, *care, silo.name); !failed.empty())
        return change.refuse(std::move(failed));
    change.commit();
    ++state.went_logged;
    return Told{words, Touched::traced};
}

} // namespace mellowbin::app
