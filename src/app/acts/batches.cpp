#include "app/acts/batches.h"

#include "app/acts/batch_draft.h"
#include "app/acts/follow_stock.h"
#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "app/book/draw_places.h"
#include "app/book/settings.h"
#include "app/models/card.h"
#include "app/models/run_card.h"
#include "app/plan/silos.h"
#include "core/decimal.h"
#include "core/typed_text.h"
#include "db/batch_store.h"
#include "db/movement_store.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

std::string in_house(const State& state, Grams mass) {
    return house_units(state.book.settings).with_unit(to_kilograms(mass));
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
        Movement use = like;
        use.lot = part.lot;
        const auto places = draw_places(state.book, batch.run, part.lot, part.mass);
        for (const auto& from : places) {
            use.from = from.place;
            use.mass = from.mass;
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
                                fmt::format("{} is needed, {} is in stock", in_house(state, part.mass),
                                            in_house(state, taken)),
                                "Count the lot, or plan the run anew"});
            continue;
        }
        change.also(state.journal_line("use_lot", subject_of(*lot),
                                       fmt::format("{} of lot {} used for run {}, batch {}, from {}",
                                                   in_house(state, part.mass), lot->code, run_code,
                                                   batch.number, in_words(state.book, places))));
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

std::string stood_against(const dough::Verdict& verdict) {
    std::string words;
    for (const auto& one : verdict.against)
        words += (words.empty() ? ". Against it stood: " : "; ") + one.words;
    return words;
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
    const auto card = run_card(state, intent.run);
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

    Refusals stopped; // by what really went in, which may be more than the card's
    for (const auto& stop : silo_stops(state.book, run.id, batch->flour, state.today()))
        stopped.push_back({"Do not mix", stop.words, std::string(silo_stop_lifted_by)});
    if (!stopped.empty())
        return stopped;

    Change change = state.change("confirm_batch", subject_of(run),
                                 fmt::format("Run {}: batch {} of {} mixed, {} flour", run.code, made.batch,
                                             run.batches, in_house(state, flour_of(*batch))));
    change.journal_line().detail = told_words(made, house_units(state.book.settings));
    if (!batch->answer.empty()) {
        change.journal_line().words +=
            fmt::format(", all the same: {}{}", batch->answer, stood_against(made.verdict));
    }
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

namespace {

/// Writes a dough that lies far from what was aimed at only with a word on it, which stays in its note.
Result<BatchResult> with_answer(const State& state, const LogResult& intent, const Batch& batch,
                                const Run& run) {
    auto result = accept(state, intent.result);
    const Product* product = state.book.product(run.product);
    const Line* line = state.book.line(run.line);
    if (!result || !product || !line || result->dough_temperature == batch.result.dough_temperature)
        return result;
    const auto made = run_card(state, run, *product, *line);
    dough::Card aims;
    aims.dough_temperature = product->dough_temperature;
    const auto verdict =
        dough::verdict_of(made->input, aims, dough::TypedFigures{{}, {}, result->dough_temperature});
    const std::string answer(trimmed(intent.result.answer));
    if (auto refusals = why_not(verdict, answer); !refusals.empty())
        return refusals;
    if (!verdict.against.empty())
        result->note += (result->note.empty() ? "" : "; ") + answer;
    return result;
}

} // namespace

Result<Told> carry_out(State& state, const LogResult& intent) {
    const Batch* batch = state.book.batch(intent.batch);
    const Run* run = batch ? state.book.run(batch->run) : nullptr;
    if (!run)
        return unknown_batch();
    const auto result = with_answer(state, intent, *batch, *run);
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

} // namespace mellowbin::app
