#include "app/models/card.h"

#include "app/book/book.h"
#include "app/book/settings.h"
#include "app/book/station.h"
#include "app/models/card_words.h"
#include "app/models/run_card.h"
#include "core/house_units.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

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
    const auto& house = model.units;
    for (const auto& promise : book.promises_of(run.id)) {
        const auto* delivery = book.delivery(promise.delivery);
        model.cautions.insert(
            model.cautions.begin(),
            {fmt::format("{} of delivery {} are still to come: say which lot it came as, or plan again",
                         house.with_unit(to_kilograms(promise.mass)), delivery ? delivery->code : "?")});
    }
}

/// Lots of which a bag was scanned for the batch at hand.
void mark_scanned(const dough::BagsScanned& bags, CardModel& model) {
    for (auto& lot : model.lots)
        lot.is_scanned = std::find(bags.right.begin(), bags.right.end(), lot.lot) != bags.right.end();
    const auto scanned = std::count_if(model.lots.begin(), model.lots.end(),
                                       [](const CardLot& lot) { return lot.is_scanned; });
    if (bags.is_asked || scanned > 0)
        model.scanned_words = fmt::format("{} of {} scanned", scanned, model.lots.size());
    model.needs_scan = bags.is_asked;
    model.has_wrong_bag = !bags.wrong.empty();
}

} // namespace

CardModel make_card(const Station& s, RunId id) {
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
    model.verdict = shown(made->verdict);
    if (!made->card) {
        model.refusals = made->card.refusals();
        return model;
    }
    show_card(s, *made, *made->card, model);
    mark_scanned(made->input.bags, model);
    show_ahead(*made, *made->card, model);
    warn_of_promises(s.book, *run, model);
    return model;
}

} // namespace mellowbin::app
