#include "app/acts/batches.h"

#include "app/acts/batch_draft.h"
#include "app/acts/follow_stock.h"
#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "app/book/settings.h"
#include "app/models/card.h"
#include "app/models/run_card.h"
#include "core/decimal.h"
#include "core/typed_text.h"
#include "db/batch_store.h"
#include "db/movement_store.h"
#include "exchange/bag_scan.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

std::string kg(Grams g) { return fixed(to_kilograms(g).value(), 1) + " kg"; }

/// Takes grams of a lot from its places, the fullest first.
std::vector<Movement> taken_from_places(const State& state, LotId lot, Grams needed, const Movement& like) {
    std::vector<Movement> uses;
    auto places = state.book.stock.places_of(lot);
    while (needed > Grams{0} && !places.empty()) {
        auto fullest = places.begin();
        for (auto it = places.begin(); it != places.end(); ++it)
            if (it->second > fullest->second)
                fullest = it;
        Movement use = like;
        use.lot = lot;
        use.from = fullest->first;
        use.mass = std::min(needed, fullest->second);
        needed = needed - use.mass;
        places.erase(fullest);
        if (use.mass > Grams{0})
            uses.push_back(use);
    }
    return uses;
}

/// Writes that the batch's flour left the stock; the movements, or why it cannot have.
Result<std::vector<MovementId>> take_flour(State& state, Change& change, const Batch& batch,
                                           const std::string& run_code) {
    Movement like;
    like.kind = MovementKind::use;
    like.at = state.setup.clock.now();
    like.who = state.setup.person;
    like.run = batch.run;
    like.note = fmt::format("batch {}", batch.number);
    Refusals refusals;
    std::vector<MovementId> uses;
    for (const auto& part : batch.flour) {
        const Lot* lot = state.book.lot(part.lot);
        Grams taken;
        for (const auto& use : taken_from_places(state, part.lot, part.mass, like)) {
            const auto id = MovementStore(*state.connection).append(change, use);
            if (!id) {
                append(refusals, id.refusals());
                continue;
            }
            taken += use.mass;
            uses.push_back(*id);
        }
        if (taken < part.mass - few_grams) {
            refusals.push_back({"Lot " + lot->code,
                                fmt::format("{} is needed, {} is in stock", kg(part.mass), kg(taken)),
                                "Count the lot, or plan the run anew"});
            continue;
        }
        change.also(state.journal_line("use_lot", subject_of(*lot),
                                       fmt::format("{} of lot {} used for run {}, batch {}", kg(part.mass),
                                                   lot->code, run_code, batch.number)));
        append(refusals, follow_the_stock(state, change, *lot, state.book.stock.total(part.lot) - taken));
    }
    if (!refusals.empty())
        return refusals;
    return uses;
}

std::string told_words(const RunCard& made, const HouseUnits& house) {
    const auto told = told_figures(made, *made.card);
    const auto words = [&](const Figure& figure) {
        const auto [value, unit] = shown(figure, house);
        return fmt::format("{} {}", value, unit);
    };
    return fmt::format("told: water {} at {}, ice {}, {} {}", words(told.water),
                       words(told.water_temperature), words(told.ice), told.oxidant.label,
                       told.oxidant.label.empty() ? "" : words(told.oxidant));
}

/// The run's card, or why there is none.
Result<std::unique_ptr<RunCard>> card_of(const State& state, RunId id) {
    const Run* run = state.book.run(id);
    const Product* product = run ? state.book.product(run->product) : nullptr;
    const Line* line = run ? state.book.line(run->line) : nullptr;
    if (!product || !line)
        return Refusal{"Run", "is not in the book", "Choose a run from the list"};
    auto made = run_card(state, *run, *product, *line);
    if (!made->is_finished && !made->card)
        return made->card.refusals();
    return made;
}

Refusal unknown_batch() { return {"Batch", "is not in the book", "Choose one from the run's list"}; }

Grams flour_of(const Batch& batch) {
    Grams flour;
    for (const auto& part : batch.flour)
        flour += part.mass;
    return flour;
}

} // namespace

Result<Told> carry_out(State& state, const ConfirmBatch& intent) {
    const auto card = card_of(state, intent.run);
    if (!card)
        return card.refusals();
    const RunCard& made = **card;
    const Run& run = made.input.run;
    if (made.is_finished)
        return Refusal{"Batch", "all batches of this run are mixed", "Choose the next run"};
    if (intent.batch != 0 && intent.batch != made.batch)
        return Refusal{"Batch",
                       fmt::format("batch {} was on the screen, batch {} is next: it was confirmed meanwhile",
                                   intent.batch, made.batch),
                       "Look at the card again"};
    const auto batch = accept(state, intent.went_in, made);
    if (!batch)
        return batch.refusals();

    Change change = state.change("confirm_batch", subject_of(run),
                                 fmt::format("Run {}: batch {} of {} mixed, {} flour", run.code, made.batch,
                                             run.batches, kg(flour_of(*batch))));
    change.journal_line().detail = told_words(made, house_units(state.book.settings));
    const auto uses = take_flour(state, change, *batch, run.code);
    if (!uses)
        return change.refuse(uses.refusals());
    const auto id = BatchStore(*state.connection).log(change, *batch, *uses);
    if (!id)
        return change.refuse(id.refusals());
    change.commit();
    ++state.batches_logged;
    return Told{change.journal_line().words,
                Touched::nothing,
                fmt::format("Undo: batch {} was not mixed", made.batch),
                {CounterBatch{*id, "not mixed"}}};
}

Result<Told> carry_out(State& state, const CounterBatch& intent) {
    const Batch* batch = state.book.batch(intent.batch);
    const Run* run = batch ? state.book.run(batch->run) : nullptr;
    if (!run)
        return unknown_batch();
    const std::string reason(trimmed(intent.reason));
    if (reason.empty())
        return Refusal{"Reason", "is empty", "Say why, in a few words"};
    Change change =
        state.change("counter_batch", subject_of(*run),
                     fmt::format("Run {}: batch {} taken back: {}", run->code, batch->number, reason));
    BatchStore batches(*state.connection);
    const auto countered = batches.counter(change, batch->id, reason);
    if (!countered)
        return countered.refusals();
    std::map<LotId, Grams> back;
    for (const auto use : batches.uses_of(batch->id)) {
        const Movement* taken = state.book.movement(use);
        if (!taken)
            continue;
        const auto written =
            MovementStore(*state.connection)
                .append(change, countering(*taken, state.setup.person, state.setup.clock.now(), reason));
        if (!written)
            return change.refuse(written.refusals());
        back[taken->lot] += taken->mass;
    }
    for (const auto& [id, mass] : back)
        if (auto refusals =
                follow_the_stock(state, change, *state.book.lot(id), state.book.stock.total(id) + mass);
            !refusals.empty())
            return change.refuse(refusals);
    change.commit();
    ++state.batches_logged;
    return Told{change.journal_line().words};
}

Result<Told> carry_out(State& state, const LogResult& intent) {
    const Batch* batch = state.book.batch(intent.batch);
    const Run* run = batch ? state.book.run(batch->run) : nullptr;
    if (!run)
        return unknown_batch();
    const auto result = accept(state, intent.result);
    if (!result)
        return result.refusals();
    Change change =
        state.change("log_result", subject_of(*run),
                     fmt::format("Run {}, batch {}: what came of it is logged", run->code, batch->number));
    const auto done = BatchStore(*state.connection).set_result(change, batch->id, *result);
    if (!done)
        return done.refusals();
    change.commit();
    ++state.batches_logged;
    return Told{change.journal_line().words};
}

Result<Told> carry_out(State& state, const ScanBag& intent) {
    const auto card = card_of(state, intent.run);
    if (!card)
        return card.refusals();
    const RunCard& made = **card;
    const auto lot_number = lot_number_in(intent.scan);
    if (!lot_number)
        return Refusal{"Bag",
                       fmt::format("\"{}\" was read, in which there is no lot number", excerpt(intent.scan)),
                       "Scan the label with the lot, or type the lot number"};
    const auto wanted = made.card ? made.card->flour : std::vector<dough::CardFlour>{};
    const auto lot = std::find_if(wanted.begin(), wanted.end(),
                                  [&](const dough::CardFlour& one) { return one.code == *lot_number; });
    if (lot == wanted.end()) {
        std::string codes;
        for (const auto& one : wanted)
            codes += (codes.empty() ? "" : ", ") + one.code;
        return Refusal{
            "Bag",
            fmt::format("STOP: lot {} is not on this card; {} is expected", excerpt(*lot_number), codes),
            "Put the bag back. If it was tipped, keep the dough back and tell quality staff"};
    }
    if (state.scanned.run != intent.run || state.scanned.batch != made.batch)
        state.scanned = {intent.run, made.batch, {}};
    state.scanned.lots.push_back(lot->lot);
    return Told{fmt::format("Lot {} is right for batch {}", lot->code, made.batch), Touched::opened_run};
}

} // namespace mellowbin::app
