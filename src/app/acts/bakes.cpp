#include "app/acts/bakes.h"

#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "app/book/fields.h"
#include "core/decimal.h"
#include "core/draft_reader.h"
#include "core/typed_text.h"
#include "db/bake_store.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin::app {
namespace {

std::optional<Substance> substance_named(std::string_view name) {
    for (const auto substance : all_substances())
        if (name_of(substance) == name || key_of(substance) == name)
            return substance;
    return {};
}

/// How far the lot had matured on the day; nothing of one that nothing is estimated of any more.
std::optional<MaturityRange> maturity_of(const State& state, const Lot& lot, Day day) {
    if (state.book.is_aside(lot.id))
        return {};
    const auto& estimate = state.estimates.of(lot.id);
    return MaturityRange{estimate.maturity_at(0.1, day), estimate.maturity_at(0.5, day),
                         estimate.maturity_at(0.9, day)};
}

Result<Bake> read_bake(const State& state, const Lot& lot, const BakeDraft& draft) {
    DraftReader reader;
    Bake bake;
    bake.lot = lot.id;
    if (const auto substance = substance_named(trimmed(draft.substance)))
        bake.substance = *substance;
    else
        reader.refuse("Oxidant",
                      draft.substance.empty() ? std::string("is empty")
                                              : fmt::format("\"{}\" is not known", excerpt(draft.substance)),
                      "Choose the oxidant that was baked with, also for the loaf without any");
    bake.dose = OxidantPpm{reader.required_number("Dose", draft.dose, {0, 1000, "mg/kg"})};
    const auto measure = loaf_measure_from_key(trimmed(draft.measure));
    if (measure)
        bake.measure = *measure;
    else
        reader.refuse("Measure", fmt::format("\"{}\" was read", excerpt(draft.measure)),
                      "Choose one of: volume, height");
    // A loaf of 100 g flour has some 300 ml at least; a tin of 4 kg not 30 litres.
    const bool is_height = measure == LoafMeasure::height;
    bake.size = reader.required_number("Size", draft.size,
                                       is_height ? Bounds{10, 500, "mm"} : Bounds{100, 30'000, "ml"});
    bake.baked_on = read_past_day(reader, "Baked on", draft.baked_on, state.today());
    if (lot.milled_on && bake.baked_on < *lot.milled_on)
        reader.refuse("Baked on",
                      fmt::format("{} was read, which is before the milling of lot {} on {}",
                                  iso(bake.baked_on), lot.code, iso(*lot.milled_on)),
                      "Check the day, and that the flour was of this lot");
    bake.note = trimmed(draft.note);
    bake.maturity = maturity_of(state, lot, bake.baked_on);
    if (!reader.refusals.empty())
        return reader.refusals;
    return bake;
}

} // namespace

Result<Told> carry_out(State& state, const LogBake& intent) {
    const Lot* lot = state.book.lot(intent.lot);
    if (!lot)
        return Refusal{"Lot", "is not in the book", "Choose a lot from the list"};
    const auto bake = read_bake(state, *lot, intent.bake);
    if (!bake)
        return bake.refusals();
    const auto words = fmt::format("Lot {}: loaf with {:g} mg/kg {}, {:g} {}", lot->code, bake->dose.value(),
                                   name_of(bake->substance), bake->size, unit_of(bake->measure));
    Change change = state.change("log_bake", subject_of(*lot), words);
    const auto id = BakeStore(*state.connection).log(change, *bake);
    if (!id)
        return change.refuse(id.refusals());
    change.commit();
    ++state.bakes_logged;
    return Told{words, Touched::nothing, "Undo: withdraw the loaf", {WithdrawBake{*id, "taken back"}}};
}

Result<Told> carry_out(State& state, const WithdrawBake& intent) {
    const auto at = std::find_if(state.book.bakes.begin(), state.book.bakes.end(),
                                 [&](const Bake& bake) { return bake.id == intent.bake; });
    const Lot* lot = at == state.book.bakes.end() ? nullptr : state.book.lot(at->lot);
    if (!lot)
        return Refusal{"Loaf", "is not in the book", "Choose one from the lot's list"};
    const std::string reason(trimmed(intent.reason));
    if (reason.empty())
        return no_reason();
    const auto words =
        fmt::format("Lot {}: loaf with {:g} mg/kg withdrawn: {}", lot->code, at->dose.value(), reason);
    Change change = state.change("withdraw_bake", subject_of(*lot), words);
    const auto done = BakeStore(*state.connection).withdraw(change, intent.bake, reason);
    if (!done)
        return done.refusals();
    change.commit();
    ++state.bakes_logged;
    return Told{words};
}

} // namespace mellowbin::app
