#include "app/models/card.h"

#include "app/book/book.h"
#include "app/book/settings.h"
#include "app/book/station.h"
#include "app/models/card_words.h"
#include "app/models/looked_at.h"
#include "app/models/run_card.h"
#include "core/decimal.h"
#include "core/house_units.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

std::string kg(Kilograms mass) { return fixed(mass.value(), 1); }

CardModel heading_of(const Station& s, const Run& run) {
    CardModel model;
    const Product* product = s.book.product(run.product);
    const Line* line = s.book.line(run.line);
    model.run = run.id;
    model.run_code = run.code;
    model.product = product ? product->name : "?";
    model.line = line ? line->name : "?";
    model.market = product ? product->market : "";
    model.day = run.day;
    model.batches = run.batches;
    model.units = house_units(s.book.settings);
    const int mixed = s.book.batches_mixed(run);
    model.is_finished = mixed >= run.batches;
    model.batch = std::min(mixed + 1, run.batches);
    return model;
}

/// Flour that the plan has of deliveries to come: it is not there for this card.
void warn_of_promises(const Book& book, const Run& run, CardModel& model) {
    for (const auto& promise : book.promises_of(run.id)) {
        const auto* delivery = book.delivery(promise.delivery);
        model.cautions.insert(
            model.cautions.begin(),
            {true, fmt::format("{} kg of delivery {} are still to come: say which lot it "
                               "came as, or plan again",
                               kg(to_kilograms(promise.mass)), delivery ? delivery->code : "?")});
    }
}

/// A run whose lots do not reach for all its batches: said before the first one, not found out at the last.
void warn_of_shortage(const Book& book, const Run& run, CardModel& model) {
    Grams assigned;
    for (const auto& a : book.assignments_of(run.id))
        assigned += a.mass;
    if (assigned >= run.flour - Grams{run.batches} || run.batches < 1)
        return;
    const auto batch = run.flour.count() / run.batches;
    model.cautions.insert(
        model.cautions.begin(),
        {true, fmt::format("Flour is short by {} kg: the lots reach for {} of {} batches",
                           kg(to_kilograms(run.flour - assigned)), assigned.count() / batch, run.batches)});
}

/// Lots of which a bag was scanned for the batch at hand.
void mark_scanned(const Scanned& scanned, CardModel& model) {
    if (scanned.run != model.run || scanned.batch != model.batch)
        return;
    for (auto& lot : model.lots)
        lot.is_scanned = std::find(scanned.lots.begin(), scanned.lots.end(), lot.lot) != scanned.lots.end();
}

} // namespace

CardModel make_card(const Station& s, const Scanned& scanned, RunId id) {
    const Run* run = s.book.run(id);
    if (!run) {
        CardModel none;
        none.refusals.push_back({"Run", "is not in the book", "Choose a run from the list"});
        return none;
    }
    CardModel model = heading_of(s, *run);
    show_logged(s, *run, model);
    const Product* product = s.book.product(run->product);
    const Line* line = s.book.line(run->line);
    if (model.is_finished || !product || !line)
        return model;
    const auto made = run_card(s, *run, *product, *line);
    if (!made->card) {
        model.refusals = made->card.refusals();
        return model;
    }
    show_card(s, *made, *made->card, model);
    mark_scanned(scanned, model);
    show_ahead(*made, *made->card, model);
    warn_of_shortage(s.book, *run, model);
    warn_of_promises(s.book, *run, model);
    return model;
}

} // namespace mellowbin::app
