#include "app/acts/draws.h"

#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "app/book/draw_places.h"
#include "app/book/fields.h"
#include "app/models/run_card.h"
#include "core/typed_text.h"

#include <fmt/format.h>

namespace mellowbin::app {
namespace {

/// Where the lots lie, for who looks for them: "W24-118: Bay 1, Bay 2".
std::string where_they_lie(const Book& book, const std::vector<LotId>& lots) {
    std::string words;
    for (const auto id : lots) {
        const Lot* lot = book.lot(id);
        std::string places;
        for (const auto& [place, mass] : book.stock.places_of(id))
            places += (places.empty() ? "" : ", ") + book.name(place);
        words += fmt::format("{}{}: {}", words.empty() ? "" : "; ", lot ? lot->code : "?",
                             places.empty() ? "nowhere" : places);
    }
    return words;
}

} // namespace

Result<Told> carry_out(State& state, const DrawFrom& act) {
    const auto card = run_card(state, act.run);
    if (!card)
        return card.refusals();
    const RunCard& made = **card;
    if (made.is_finished)
        return Refusal{"Batch", "all batches of this run are mixed", "Choose the next run"};
    Refusals refusals;
    const Place* place = named(state.book.places, "Place", std::string(trimmed(act.place)), refusals);
    if (!place)
        return refusals;
    std::vector<LotId> asked;
    if (act.lot.is_known())
        asked.push_back(act.lot);
    else if (made.card)
        for (const auto& flour : made.card->flour)
            asked.push_back(flour.lot);
    std::vector<LotId> there;
    for (const auto lot : asked)
        if (state.book.stock.at(lot, place->id) > Grams{0})
            there.push_back(lot);
    if (there.empty())
        return Refusal{"Place", fmt::format("nothing of this batch lies in {}", place->name),
                       "Take it from where it lies: " + where_they_lie(state.book, asked)};
    std::string codes;
    for (const auto lot : there)
        codes += (codes.empty() ? "" : ", ") + state.book.lot(lot)->code;
    const Run& run = made.input.run;
    const auto words = fmt::format("Run {} draws {} from {}", run.code, codes, place->name);
    Change change = state.change("draw_from", subject_of(run), words);
    for (const auto lot : there)
        DrawStore(*state.connection).say(change, {run.id, lot, place->id});
    change.commit();
    return Told{words, Touched::opened_run};
}

} // namespace mellowbin::app
