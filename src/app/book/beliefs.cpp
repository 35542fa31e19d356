#include "app/book/beliefs.h"

#include <algorithm>

namespace mellowbin::app {

void Doughs::follow_bakes(const Book& book) {
    if (bakes_ == book.bakes)
        return;
    bakes_ = book.bakes;
    std::map<std::pair<Substance, LoafMeasure>, std::map<LotId, dough::Ladder>> ladders;
    for (const auto& bake : bakes_) {
        if (bake.is_withdrawn)
            continue;
        auto& ladder = ladders[{bake.substance, bake.measure}][bake.lot];
        ladder.lot = bake.lot;
        ladder.loaves.push_back({bake.dose, bake.size});
    }
    responses_.clear();
    best_.clear();
    for (const auto& [kind, by_lot] : ladders) {
        std::vector<dough::Ladder> all;
        for (const auto& [lot, ladder] : by_lot)
            all.push_back(ladder);
        responses_.emplace(kind, dough::DoseResponse(all));
    }
}

const dough::DoseResponse* Doughs::response(Substance substance, LoafMeasure measure) const {
    const auto at = responses_.find({substance, measure});
    return at == responses_.end() ? nullptr : &at->second;
}

std::optional<dough::BestDose> Doughs::best_dose(LotId lot, Substance substance, OxidantPpm permitted) const {
    for (const LoafMeasure measure : {LoafMeasure::volume, LoafMeasure::height}) {
        const bool has_own = std::any_of(bakes_.begin(), bakes_.end(), [&](const Bake& bake) {
            return !bake.is_withdrawn && bake.lot == lot && bake.substance == substance &&
                   bake.measure == measure;
        });
        if (!has_own)
            continue;
        const std::tuple asked{lot, substance, permitted};
        if (const auto known = best_.find(asked); known != best_.end())
            return known->second;
        return best_.emplace(asked, responses_.at({substance, measure}).best_dose(lot, permitted))
            .first->second;
    }
    return {};
}

std::optional<Day> Doughs::baked_on(LotId lot, Substance substance) const {
    std::optional<Day> newest;
    for (const auto& bake : bakes_)
        if (!bake.is_withdrawn && bake.lot == lot && bake.substance == substance)
            newest = newest ? std::max(*newest, bake.baked_on) : bake.baked_on;
    return newest;
}

} // namespace mellowbin::app
