#pragma once

#include "app/book/book.h"
#include "app/book/station.h"
#include "app/models/figure.h"
#include "dough/card.h"

#include <deque>
#include <memory>
#include <string>

namespace mellowbin::app {

/// The card of a run's next batch: what it is worked out from, and what that came to. One computation for the
/// mixer's screen, for what Confirm writes and for the levers. It stays where it was made, for its parts
/// point to each other.
struct RunCard {
    RunCard() = default;
    RunCard(const RunCard&) = delete;
    RunCard& operator=(const RunCard&) = delete;

    dough::CardInput input;
    std::string moisture_words; ///< of what was predicted; empty: the certificates' holds
    const StockSolution* solution = nullptr;
    Result<dough::Card> card = Refusal{"Card", "is not made yet", ""};
    int batch = 1; ///< the next one; the last where all are mixed
    bool is_finished = false;
    bool needs_check = false; ///< a second person must check the oxidant
    bool needs_scan = false;  ///< a bag of each lot must be scanned first

private:
    friend std::unique_ptr<RunCard> run_card(const Station& station, const Run& run, const Product& product,
                                             const Line& line);
    std::deque<Lot> as_then_; ///< copies with the moisture of the day
};

/// The run's lots as they will lie there on its day, with what batches, bakes and records have taught.
std::unique_ptr<RunCard> run_card(const Station& station, const Run& run, const Product& product,
                                  const Line& line);

/// What the mixer is told to put in, rounded to what can be weighed: shown on the card and kept in the
/// journal.
struct ToldFigures {
    Figure water;             ///< kg
    Figure water_temperature; ///< °C
    Figure ice;               ///< kg
    Figure oxidant;           ///< g, or mL of the stock solution; no label: the product goes without
    Figure substance;         ///< g of the oxidant itself, also where it is poured; no value: none goes in
};
/// Of the next batch, or of another card that was made from the same.
ToldFigures told_figures(const RunCard& made, const dough::Card& card);

/// The newest pH of the product's crumb or dough, with where it is from: "crumb, Tue 24 Nov".
struct MeasuredPh {
    double ph = 0;
    std::string words;
};
std::optional<MeasuredPh> newest_ph(const Book& book, ProductId product);

} // namespace mellowbin::app
