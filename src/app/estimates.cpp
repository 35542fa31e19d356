#include "app/estimates.h"

#include "app/setting_table.h"

#include <algorithm>

namespace mellowbin::app {
namespace {

/// The moves of the larger part of a lot: a split lot is followed where most of it went.
std::vector<aging::MoveTo> moves_of(const Book& book, const Lot& lot) {
    std::vector<aging::MoveTo> moves;
    for (const Movement* m : book.movements_of(lot.id)) {
        if (m->kind != MovementKind::move || !m->to)
            continue;
        if (m->mass.count() * 2 < lot.received.count())
            continue;
        moves.push_back({date::floor<date::days>(m->at), *m->to});
    }
    std::stable_sort(moves.begin(), moves.end(), [](const auto& a, const auto& b) { return a.day < b.day; });
    return moves;
}

} // namespace

aging::StoredFlour stored_flour(const Book& book, const Lot& lot) {
    const Flour* flour = book.flour(lot.flour);
    return {flour ? flour->flour_class : FlourClass::white, lot.milled_on, lot.delivered_on,
            aging::storage_path(lot.delivered_on, lot.received_into, moves_of(book, lot), book.places),
            lot.certificate.moisture()};
}

void Estimates::follow(const Book& book, Day today) {
    const double confidence = Choices(book.settings).number("confidence");
    const bool all_anew = confidence != confidence_ || today != today_;
    confidence_ = confidence;
    today_ = today;
    for (const auto& lot : book.lots) {
        const auto moves = book.movements_of(lot.id).size();
        const auto at = known_.find(lot.id.number());
        if (!all_anew && at != known_.end() && at->second.moves == moves)
            continue;
        const aging::Estimate estimate(stored_flour(book, lot));
        known_.insert_or_assign(lot.id.number(),
                                Known{moves, estimate, aging::outlook(estimate, today, confidence)});
    }
}

} // namespace mellowbin::app
