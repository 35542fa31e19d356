#include "app/acts/state.h"
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

/// The day as typed, or today; a day to come is refused.
Day read_past_day(DraftReader& reader, std::string_view field, const std::string& text, Day today) {
    const Day day = reader.day(field, text).value_or(today);
    if (day > today)
        reader.refuse(field, fmt::format("{} was read, which is after today, {}", iso(day), iso(today)),
                      "Enter the day of the bake");
    return day;
}

Result<Bake> read_bake(const App::State& state, const Lot& lot, const BakeDraft& draft) {
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
    if (!reader.refusals.empty())
        return reader.refusals;
    return bake;
}

Result<KeepingRecord> read_record(const App::State& state, const KeepingDraft& draft) {
    DraftReader reader;
    KeepingRecord record;
    record.product = reader.known<Product>("Product", draft.product, state.book.products);
    const auto kind = keeping_kind_from_key(trimmed(draft.kind));
    if (!kind)
        reader.refuse("Record", fmt::format("\"{}\" was read", excerpt(draft.kind)),
                      "Choose one of: mould, firmness");
    record.kind = kind.value_or(KeepingKind::mould);
    record.baked_on = read_past_day(reader, "Baked on", draft.baked_on, state.today());
    record.days = static_cast<int>(
        std::lround(reader.required_number("Days", draft.days, {0, 400, "days after the bake"})));
    if (reader.refusals.empty() && record.baked_on + Days{record.days} > state.today())
        reader.refuse("Days",
                      fmt::format("{} days after {} is still to come", record.days, iso(record.baked_on)),
                      "Log what was seen, not what is expected");
    if (record.kind == KeepingKind::firmness) {
        record.firmness_g = reader.required_number("Firmness", draft.firmness, {1, 20'000, "g"});
    } else if (draft.finding == "mould" || draft.finding == "none") {
        record.mould_seen = draft.finding == "mould";
    } else {
        reader.refuse("Finding", fmt::format("\"{}\" was read", excerpt(draft.finding)),
                      "Choose one of: none, mould");
    }
    record.ph = reader.number("pH", draft.ph, {3, 8, ""});
    record.note = trimmed(draft.note);
    if (!reader.refusals.empty())
        return reader.refusals;
    return record;
}

Refusal no_reason() { return {"Reason", "is empty", "Say why, in a few words"}; }

std::string words_of(const KeepingRecord& record) {
    if (record.kind == KeepingKind::firmness)
        return fmt::format("firmness {:g} g on day {}", record.firmness_g, record.days);
    return fmt::format("{} on day {}", record.mould_seen ? "mould" : "no mould", record.days);
}

} // namespace

Result<Told> run(App::State& state, const LogBake& intent) {
    const Lot* lot = state.book.lot(intent.lot);
    if (!lot)
        return Refusal{"Lot", "is not in the book", "Choose a lot from the list"};
    const auto bake = read_bake(state, *lot, intent.bake);
    if (!bake)
        return bake.refusals();
    const auto words = fmt::format("Lot {}: loaf with {:g} mg/kg {}, {:g} {}", lot->code, bake->dose.value(),
                                   name_of(bake->substance), bake->size, unit_of(bake->measure));
    Change change(*state.connection, state.line("log_bake", "lot " + lot->code, words));
    const auto id = BakeStore(*state.connection).log(change, *bake);
    if (!id)
        return change.refuse(id.refusals());
    change.commit();
    ++state.bakes_logged;
    return Told{words, Touched::bakes, "Undo: withdraw the loaf", {WithdrawBake{*id, "taken back"}}};
}

Result<Told> run(App::State& state, const WithdrawBake& intent) {
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
    Change change(*state.connection, state.line("withdraw_bake", "lot " + lot->code, words));
    const auto done = BakeStore(*state.connection).withdraw(change, intent.bake, reason);
    if (!done)
        return done.refusals();
    change.commit();
    ++state.bakes_logged;
    return Told{words, Touched::bakes};
}

Result<Told> run(App::State& state, const LogKeeping& intent) {
    const auto record = read_record(state, intent.record);
    if (!record)
        return record.refusals();
    const Product* product = state.book.product(record->product);
    const auto words =
        fmt::format("{} baked {}: {}", product->name, short_day(record->baked_on), words_of(*record));
    Change change(*state.connection, state.line("log_keeping", "product " + product->name, words));
    const auto id = BakeStore(*state.connection).log(change, *record);
    if (!id)
        return change.refuse(id.refusals());
    change.commit();
    ++state.batches_logged;
    return Told{words, Touched::bakes, "Undo: withdraw the record", {WithdrawKeeping{*id, "taken back"}}};
}

Result<Told> run(App::State& state, const WithdrawKeeping& intent) {
    const auto at = std::find_if(state.book.keeping.begin(), state.book.keeping.end(),
                                 [&](const KeepingRecord& record) { return record.id == intent.record; });
    const Product* product = at == state.book.keeping.end() ? nullptr : state.book.product(at->product);
    if (!product)
        return Refusal{"Record", "is not in the book", "Choose one from the list"};
    const std::string reason(trimmed(intent.reason));
    if (reason.empty())
        return no_reason();
    const auto words = fmt::format("{} baked {}: {} withdrawn: {}", product->name, short_day(at->baked_on),
                                   words_of(*at), reason);
    Change change(*state.connection, state.line("withdraw_keeping", "product " + product->name, words));
    const auto done = BakeStore(*state.connection).withdraw(change, intent.record, reason);
    if (!done)
        return done.refusals();
    change.commit();
    ++state.batches_logged;
    return Told{words, Touched::bakes};
}

} // namespace mellowbin::app
