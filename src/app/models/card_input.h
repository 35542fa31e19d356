#pragma once

#include "app/book/book.h"
#include "app/book/station.h"
#include "dough/card.h"

#include <deque>
#include <memory>
#include <string>

namespace mellowbin::app {

/// All that a card is worked out from, with what its parts point to: it stays where it was made.
struct RunCard {
    RunCard() = default;
    RunCard(const RunCard&) = delete;
    RunCard& operator=(const RunCard&) = delete;

    dough::CardInput input;
    std::string moisture_words; ///< of what was predicted; empty: the certificates' holds
    const StockSolution* solution = nullptr;

private:
    friend std::unique_ptr<RunCard> card_input(const Station& s, const Run& run, const Product& product,
                                               const Line& line);
    std::deque<Lot> as_then_; ///< copies with the moisture of the day
};

/// The run's lots as they will lie there on its day, with what batches, bakes and records have taught.
std::unique_ptr<RunCard> card_input(const Station& s, const Run& run, const Product& product,
                                    const Line& line);

/// The newest pH of the product's crumb or dough, with where it is from: "crumb, Tue 24 Nov".
struct MeasuredPh {
    double ph = 0;
    std::string words;
};
std::optional<MeasuredPh> newest_ph(const Book& book, ProductId product);

} // namespace mellowbin::app
