#pragma once

#include "app/book/book.h"
#include "app/book/station.h"
#include "app/models/figure.h"
#include "dough/card.h"

#include <deque>
#include <memory>
#include <span>
#include <string>
#include <vector>

namespace mellowbin::app {

class PlanView;
struct Given;

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
    dough::Verdict verdict;
    bool needs_check = false; ///< a second person must check the oxidant

private:
    friend std::unique_ptr<RunCard> run_card(const Station& station, const Run& run, const Product& product,
                                             const Line& line);
    friend std::unique_ptr<RunCard> with_lots(const Station& station, const RunCard& made,
                                              std::span<const struct OtherLot> others);
    std::deque<Lot> as_then_; ///< copies with the moisture of the day
};

/// The run's lots as they will lie there on its day, with what batches, bakes and records have taught. The
/// product is the book's: the card is made of it as the run bakes it.
std::unique_ptr<RunCard> run_card(const Station& station, const Run& run, const Product& product,
                                  const Line& line);

/// The same of the run of this number, or why there is none. A run that is mixed to the end needs no card.
Result<std::unique_ptr<RunCard>> run_card(const Station& station, RunId run);

/// A lot that went in and is not on the run's card.
struct OtherLot {
    const Lot* lot = nullptr;
    Grams mass;
};
/// The card and its verdict as if these lots were the run's, too; what they are judged by is what any lot is.
/// Whoever names a lot has its bag at hand: none is asked for. It lives no longer than `made`.
std::unique_ptr<RunCard> with_lots(const Station& station, const RunCard& made,
                                   std::span<const OtherLot> others);

/// As far as its dose, the card that the run's next batch has when the run gets what a plan gives it, in
/// place of the book's assignments: what is left of that goes in, flour of deliveries to come as the lots
/// they are expected to be. To the digit what run_card() has, by the same functions; of the view's book,
/// which may be a copy in which something is supposed.
Result<dough::Card> planned_dose(const Station& station, PlanView& view, const Run& run,
                                 const Product& product, const Line& line, std::vector<Given> given);

/// What the mixer is told to put in, rounded to what can be weighed: shown on the card and kept in the
/// journal.
struct ToldFigures {
    Figure water;             ///< kg
    Figure water_temperature; ///< °C
    Figure ice;               ///< kg
    Figure oxidant; ///< g, or mL of the stock solution; no label: the product goes without; no value:
                    ///< withheld, or not known
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
