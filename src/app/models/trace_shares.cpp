#include "app/models/trace_shares.h"

#include "db/dough_made.h"

#include <algorithm>

namespace mellowbin::app {

void add_share(std::vector<TraceShare>& shares, const TraceShare& more) {
    const auto known = std::ranges::find(shares, more.lot, &TraceShare::lot);
    if (known == shares.end()) {
        shares.push_back(more);
        return;
    }
    known->booked += more.booked;
    known->likely_g += more.likely_g;
    known->certainty = std::min(known->certainty, more.certainty); // contains is the surer one
    known->by_silo = known->by_silo || more.by_silo;
    known->by_rework = known->by_rework || more.by_rework;
}

const TraceShare* share_of(std::span<const TraceShare> shares, LotId lot) {
    const auto known = std::ranges::find(shares, lot, &TraceShare::lot);
    return known == shares.end() ? nullptr : &*known;
}

TraceShares::TraceShares(Connection& connection, const std::vector<LotId>& traced)
    : connection_(connection), course_(connection, traced) {}

void TraceShares::read_uses(LotId lot) {
    if (uses_.contains(lot) || !course_.lots().contains(lot))
        return;
    auto& uses = uses_[lot];
    for (const auto& [movement, batch] : TraceStore(connection_).uses_of(lot))
        uses[batch].push_back(movement);
}

std::vector<BatchId> TraceShares::reached_by_silo(LotId lot) {
    std::set<BatchId> reached;
    for (const auto named : course_.lots()) {
        read_uses(named);
        for (const auto& [batch, movements] : uses_[named])
            for (const auto movement : movements)
                if (std::ranges::any_of(course_.moved_by(movement),
                                        [&](const DrawnPart& part) { return part.lot == lot; }))
                    reached.insert(batch);
    }
    return {reached.begin(), reached.end()};
}

void TraceShares::add_drawn(const TracedBatch& batch, const BatchFlour& part,
                            std::vector<TraceShare>& shares) {
    if (!course_.lots().contains(part.lot)) {
        add_share(shares, {part.lot, part.mass, static_cast<double>(part.mass.count()), Certainty::contains,
                           false, false});
        return;
    }
    read_uses(part.lot);
    // By the book it is in; how surely, what was drawn says.
    std::vector<TraceShare> drawn{{part.lot, part.mass, 0, Certainty::may_contain, true, false}};
    for (const auto movement : uses_[part.lot][batch.id])
        for (const auto& moved : course_.moved_by(movement))
            add_share(drawn, {moved.lot, Grams{}, static_cast<double>(moved.mass.count()), moved.certainty,
                              moved.certainty == Certainty::may_contain || moved.lot != part.lot, false});
    if (drawn.front().certainty == Certainty::contains)
        drawn.front().by_silo = false;
    for (const auto& share : drawn)
        add_share(shares, share);
}

/// Of what was put back the same share is of a lot as of the batch it came from. That it is in there is never
/// more than likely: a part of a dough need not hold all that the dough does.
void TraceShares::add_rework(const Rework& rework, std::vector<TraceShare>& shares) const {
    const auto made = dough_made(connection_, rework.from);
    const Grams whole = rework.kind == ReworkKind::flour ? made.flour : made.dough;
    const double part =
        whole > Grams{} ? static_cast<double>(rework.mass.count()) / static_cast<double>(whole.count()) : 0;
    for (const auto& share : of(rework.from)) {
        add_share(shares,
                  {share.lot, Grams{}, part * share.likely_g, Certainty::may_contain, share.by_silo, true});
    }
}

void TraceShares::work_out(const TracedBatch& batch, std::span<const Rework> into) {
    std::vector<TraceShare> shares;
    std::vector<BatchFlour> flour; // a lot may stand there more than once
    for (const auto& part : batch.flour) {
        const auto known = std::ranges::find(flour, part.lot, &BatchFlour::lot);
        if (known == flour.end())
            flour.push_back(part);
        else
            known->mass += part.mass;
    }
    for (const auto& part : flour)
        add_drawn(batch, part, shares);
    for (const auto& rework : into)
        add_rework(rework, shares);
    shares_[batch.id] = std::move(shares);
}

const std::vector<TraceShare>& TraceShares::of(BatchId batch) const {
    static const std::vector<TraceShare> nothing;
    const auto found = shares_.find(batch);
    return found == shares_.end() ? nothing : found->second;
}

} // namespace mellowbin::app
