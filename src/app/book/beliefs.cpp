#include "app/book/beliefs.h"

#include <algorithm>

namespace mellowbin::app {
namespace {

std::array<double, 3> figures_of(const std::optional<MaturityRange>& range) {
    if (!range)
        return {-1, -1, -1};
    return {range->low.value(), range->likely.value(), range->high.value()};
}

} // namespace

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
        const auto maturity = bake.maturity ? std::optional{bake.maturity->likely} : std::nullopt;
        ladder.loaves.push_back({bake.dose, bake.size, maturity, bake.baked_on});
    }
    responses_.clear();
    best_.clear();
    for (const auto& [kind, by_lot] : ladders) {
        std::vector<dough::Ladder> all;
        for (const auto& [lot, ladder] : by_lot)
            all.push_back(ladder);
        responses_.emplace(kind, dough::DoseResponse(all, dough::assumed_fall(kind.first)));
    }
}

const dough::DoseResponse* Doughs::response(Substance substance, LoafMeasure measure) const {
    const auto at = responses_.find({substance, measure});
    return at == responses_.end() ? nullptr : &at->second;
}

std::optional<dough::BestDose> Doughs::best_dose(LotId lot, Substance substance, OxidantPpm permitted,
                                                 const std::optional<MaturityRange>& now) const {
    for (const LoafMeasure measure : {LoafMeasure::volume, LoafMeasure::height}) {
        const bool has_own = std::any_of(bakes_.begin(), bakes_.end(), [&](const Bake& bake) {
            return !bake.is_withdrawn && bake.lot == lot && bake.substance == substance &&
                   bake.measure == measure;
        });
        if (!has_own)
            continue;
        const std::tuple asked{lot, substance, permitted, figures_of(now)};
        if (const auto known = best_.find(asked); known != best_.end())
            return known->second;
        return best_.emplace(asked, responses_.at({substance, measure}).best_dose(lot, permitted, now))
            .first->second;
    }
    return {};
}

const Bake* Doughs::newest_loaf(LotId lot, Substance substance) const {
    const Bake* newest = nullptr;
    for (const auto& bake : bakes_)
        if (!bake.is_withdrawn && bake.lot == lot && bake.substance == substance &&
            (!newest || bake.baked_on >= newest->baked_on))
            newest = &bake;
    return newest;
}

} // namespace mellowbin::app
