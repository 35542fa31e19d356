#include "app/acts/plant_records.h"

#include "app/acts/intent.h"
#include "app/acts/plant_merge.h"
#include "app/acts/state.h"
#include "app/models/plant.h"
#include "app/models/touched_runs.h"
#include "core/typed_text.h"
#include "db/plant_store.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace mellowbin::app {
namespace {

std::string named(PlantRef record, const std::string& name) {
    return fmt::format("{} {}", name_of(record.kind), name);
}
Subject subject_of(PlantRef record, const std::string& name) {
    auto words = named(record, name);
    words.front() = static_cast<char>(words.front() - 'A' + 'a');
    return {words, record_of(record)};
}

// Every kind of record

/// Reads the draft as a record of its kind and hands it to `use`, with the number.
template <class Use> Refusals with_record(const Book& book, PlantRef ref, const PlantDraft& draft, Use use) {
    const auto hand_on = [&](auto accepted) {
        if (!accepted)
            return accepted.refusals();
        accepted->id = decltype(accepted->id){ref.number};
        return use(*accepted);
    };
    switch (ref.kind) {
    case PlantKind::mill:
        return hand_on(accept_mill(draft));
    case PlantKind::flour:
        return hand_on(accept_flour(draft));
    case PlantKind::place:
        return hand_on(accept_place(draft));
    case PlantKind::line:
        return hand_on(accept_line(draft));
    case PlantKind::product:
        break;
    }
    return hand_on(accept_product(draft, book.flours, book.markets));
}

PlantDraft draft_in(const Book& book, const Product& product) { return draft_of(product, book.flours); }
template <class Record> PlantDraft draft_in(const Book&, const Record& record) { return draft_of(record); }

// What becomes of the runs ahead

std::vector<const Run*> runs_ahead(const State& state, const std::function<bool(const Run&)>& is_one) {
    std::vector<const Run*> runs;
    for (const auto& run : state.book.runs)
        if (run.day >= state.today() && state.book.batches_mixed(run) < run.batches && is_one(run))
            runs.push_back(&run);
    return runs;
}

std::string codes_of(const std::vector<const Run*>& runs) {
    std::vector<std::string> codes;
    for (const Run* run : runs)
        codes.push_back(run->code);
    return app::named(codes);
}

/// "; 2 runs …: R1, R2", or empty where there are none.
std::string of_runs(const std::vector<const Run*>& runs, std::string_view what) {
    if (runs.empty())
        return {};
    return fmt::format("; {} {} {}: {}", runs.size(), runs.size() == 1 ? "run" : "runs", what,
                       codes_of(runs));
}

std::string becomes_of_runs(const State& state, const Product& changed) {
    const Product* was = state.book.product(changed.id);
    if (!was)
        return {};
    Ruled then = Ruled::by(state.book);
    std::replace_if(
        then.products.begin(), then.products.end(), [&](const Product& one) { return one.id == changed.id; },
        changed);
    auto words =
        touched_in_words(runs_touched(state, then, [&](const Product& now) { return now.id == changed.id; }));
    const auto ahead = runs_ahead(state, [&](const Run& run) { return run.product == changed.id; });
    const bool is_other_flour = was->flour != changed.flour || was->second_flour != changed.second_flour;
    if (is_other_flour)
        words += of_runs(ahead, "ahead want their flour planned anew");
    if (was->batch_flour != changed.batch_flour)
        words += of_runs(ahead, "ahead keep the flour they were planned with");
    return words;
}
std::string becomes_of_runs(const State& state, const Line& changed) {
    const Line* was = state.book.line(changed.id);
    if (!was || *was == changed)
        return {};
    return of_runs(runs_ahead(state, [&](const Run& run) { return run.line == changed.id; }),
                   "ahead get their water anew");
}
template <class Record> std::string becomes_of_runs(const State&, const Record&) { return {}; }

// Why a record may not be retired

std::string in_kilograms(Grams mass) { return fmt::format("{:g} kg", to_kilograms(mass).value()); }

Refusals needed(PlantRef record, std::string what, std::string remedy) {
    return {{std::string(name_of(record.kind)), std::move(what), std::move(remedy)}};
}

/// A store names the kind; on the form it is the name.
Refusals at_name(Refusals refusals, PlantKind kind) {
    for (auto& refusal : refusals)
        if (refusal.field == name_of(kind))
            refusal.field = "Name";
    return refusals;
}

Refusals not_there(PlantRef record) {
    return {{std::string(name_of(record.kind)), "is not in the book any more", "Look at the list again"}};
}

/// Whoever changed the record last elsewhere, or in a line of this station's own.
std::string changed_by(const State& state, PlantRef record) {
    const auto who = state.changed_elsewhere(record_of(record));
    return who.empty() ? "another window" : who;
}

Told kept(State& state, PlantRef record, std::string words, std::string undo, Intents undoing) {
    state.plant_kept = {state.plant_kept.count + 1, record};
    state.look_at(record_of(record));
    return {std::move(words), Touched::plant_records, std::move(undo), std::move(undoing)};
}

Result<Told> add(State& state, const KeepPlantRecord& act) {
    const auto name = std::string(trimmed(act.draft.text("name")));
    Change change =
        state.change("add_to_plant", subject_of(act.record, name), named(act.record, name) + " added");
    PlantRef record = act.record;
    auto refusals = with_record(state.book, act.record, act.draft, [&](const auto& accepted) {
        const auto saved = PlantStore(change.connection()).save(change, accepted);
        if (!saved)
            return saved.refusals();
        record.number = saved->number();
        return Refusals{};
    });
    if (!refusals.empty())
        return change.refuse(at_name(std::move(refusals), act.record.kind));
    change.journal_line().about = record_of(record);
    const auto words = change.journal_line().words;
    change.commit();
    return kept(state, record, words, "Undo: take it off again", {RemovePlantRecord{record}});
}

Result<Told> overwrite(State& state, PlantRef record, const PlantDraft& now, PlantDraft draft) {
    draft.texts["retired"] = now.text("retired"); // has an act of its own
    std::string becomes;
    auto refusals = with_record(state.book, record, draft, [&](const auto& accepted) {
        becomes = becomes_of_runs(state, accepted);
        draft = draft_in(state.book, accepted); // as it will stand
        return Refusals{};
    });
    if (!refusals.empty())
        return refusals;
    const auto changes = changes_in_words(now, draft);
    if (changes.empty())
        return kept(state, record, named(record, now.text("name")) + ": nothing was changed", {}, {});
    const auto words = fmt::format("{}: {}{}", named(record, now.text("name")), changes, becomes);
    Change change = state.change("change_plant", subject_of(record, draft.text("name")), words);
    refusals = with_record(state.book, record, draft, [&](auto accepted) {
        const auto saved = PlantStore(change.connection()).save(change, accepted);
        return saved ? Refusals{} : saved.refusals();
    });
    if (!refusals.empty())
        return change.refuse(at_name(std::move(refusals), record.kind));
    change.commit();
    return kept(state, record, words, "Undo: as it was", {KeepPlantRecord{record, now, draft}});
}

} // namespace

Refusals why_needed(const State& state, PlantRef record, const std::set<std::string>& retired_too) {
    Refusals refusals;
    const auto to_come = [&](auto is_one) {
        for (const auto& delivery : state.book.expected)
            if (!delivery.has_come && is_one(delivery))
                append(refusals, needed(record, fmt::format("delivery {} is still to come", delivery.code),
                                        "Take it in or call it off first"));
    };
    switch (record.kind) {
    case PlantKind::mill:
        to_come([&](const ExpectedDelivery& d) { return d.mill.number() == record.number; });
        break;
    case PlantKind::flour:
        to_come([&](const ExpectedDelivery& d) { return d.flour.number() == record.number; });
        for (const auto& product : state.book.products)
            if (!product.is_retired && !retired_too.contains(product.name) &&
                part_of(product, FlourId{record.number}))
                append(refusals, needed(record, fmt::format("{} is made of it", product.name),
                                        "Give the product another flour, or retire it first"));
        break;
    case PlantKind::place:
        for (const auto& lot : state.book.lots)
            if (const auto lies = state.book.stock.at(lot.id, PlaceId{record.number}); lies > Grams{0})
                append(refusals,
                       needed(record, fmt::format("{} of lot {} lie there", in_kilograms(lies), lot.code),
                              "Move it, or count it away, first"));
        break;
    case PlantKind::line:
    case PlantKind::product:
        const auto ahead = runs_ahead(state, [&](const Run& run) {
            return (record.kind == PlantKind::line ? run.line.number() : run.product.number()) ==
                   record.number;
        });
        if (!ahead.empty())
            append(refusals, needed(record, fmt::format("runs are planned: {}", codes_of(ahead)),
                                    "Move or drop them first"));
        break;
    }
    return refusals;
}

Result<Told> carry_out(State& state, const KeepPlantRecord& act) {
    if (act.record.number == 0)
        return add(state, act);
    const auto now = plant_draft_in(state.book, act.record);
    if (!now)
        return not_there(act.record);
    if (!act.before || *act.before == *now)
        return overwrite(state, act.record, *now, act.draft);
    auto merged = merged_with(*now, *act.before, act.draft, changed_by(state, act.record));
    if (!merged)
        return merged.refusals();
    return overwrite(state, act.record, *now, std::move(*merged));
}

Result<Told> carry_out(State& state, const RetirePlantRecord& act) {
    auto draft = plant_draft_in(state.book, act.record);
    if (!draft)
        return not_there(act.record);
    const auto name = draft->text("name");
    if ((draft->text("retired") == "yes") == act.is_retired)
        return Refusal{std::string(name_of(act.record.kind)),
                       act.is_retired ? "is retired already" : "is not retired", "Look at the list again"};
    if (act.is_retired)
        if (auto refusals = why_needed(state, act.record); !refusals.empty())
            return refusals;
    draft->texts["retired"] = act.is_retired ? "yes" : "no";
    const auto words = fmt::format("{} {}", named(act.record, name),
                                   act.is_retired ? "retired: nothing new may name it" : "is in use again");
    Change change = state.change(act.is_retired ? "retire_plant_record" : "bring_plant_record_back",
                                 subject_of(act.record, name), words);
    const auto refusals = with_record(state.book, act.record, *draft, [&](const auto& accepted) {
        const auto saved = PlantStore(change.connection()).save(change, accepted);
        return saved ? Refusals{} : saved.refusals();
    });
    if (!refusals.empty())
        return change.refuse(refusals);
    change.commit();
    return kept(state, act.record, words, act.is_retired ? "Undo: in use again" : "Undo: retire it again",
                {RetirePlantRecord{act.record, !act.is_retired}});
}

Result<Told> carry_out(State& state, const RemovePlantRecord& act) {
    const auto draft = plant_draft_in(state.book, act.record);
    if (!draft)
        return not_there(act.record);
    const auto name = draft->text("name");
    const auto words = fmt::format("{} taken off: nothing ever named it", named(act.record, name));
    Change change = state.change("remove_from_plant", subject_of(act.record, name), words);
    if (const auto removed = PlantStore(change.connection()).remove(change, act.record); !removed)
        return removed.refusals();
    change.commit();
    return Told{
        words, Touched::nothing, "Undo: add it again", {KeepPlantRecord{{act.record.kind, 0}, *draft}}};
}

Result<Told> carry_out(State& state, const LookAtPlantRecord& act) {
    state.look_at(record_of(act.record));
    return Told{"", Touched::plant_records};
}

} // namespace mellowbin::app
