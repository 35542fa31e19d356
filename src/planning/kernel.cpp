#include "planning/kernel.h"

#include <algorithm>
#include <bit>
#include <cmath>

namespace mellowbin::planning {

double cost_of(const RunTable& run, const Blend& blend) {
    double filled = 0;
    double cost = 0;
    for (int i = 0; i < blend.count; ++i) {
        filled += blend.parts[i].share;
        cost += blend.parts[i].share * run.linear[blend.parts[i].candidate];
    }
    for (int k = 0; k < run.hinges; ++k) {
        double value = run.base[k];
        for (int i = 0; i < blend.count; ++i)
            value += blend.parts[i].share * run.step(blend.parts[i].candidate, k);
        cost += std::max(0.0, value);
    }
    return cost + run.short_cost * std::max(0.0, 1.0 - filled);
}

bool Kernel::settled(Support& support) const { return settle(*run_, candidates_, base_over_, support); }

void Kernel::keep(const Support& support) {
    if (support.cost < best_.cost - slight_cost)
        best_ = support;
}

void Kernel::gather(const RunTable& run, const Market& market) {
    run_ = &run;
    candidates_.clear();
    small_.clear();
    seeds_.clear();
    for (int c = 0; c < run.count(); ++c) {
        const int l = run.lot[c];
        const double most = std::min(1.0, market.free_t[l] / run.fill_t);
        if (most <= 1e-6)
            continue;
        const double price = market.price ? market.price[l] * run.fill_t : 0.0;
        const Candidate candidate{c,           most,          run.linear[c] + price, market.charge[l],
                                  run.over[c], run.pure_of(c)};
        (most >= run.share - slight_share ? candidates_ : small_).push_back(candidate);
    }
    std::stable_sort(candidates_.begin(), candidates_.end(), [](const Candidate& a, const Candidate& b) {
        return a.linear + a.charge < b.linear + b.charge;
    });
    base_over_ = 0;
    best_ = {};
    best_.cost = run.short_cost;
    for (int k = 0; k < run.hinges; ++k) {
        if (run.base[k] <= 0)
            continue;
        base_over_ |= std::uint64_t{1} << k;
        best_.cost += run.base[k];
    }
}

void Kernel::try_singles() {
    for (int i = 0; i < static_cast<int>(candidates_.size()); ++i) {
        Support support;
        support.count = 1;
        support.of[0] = i;
        const Candidate& c = candidates_[i];
        if (c.most < 1) {
            if (settled(support))
                keep(support);
            continue;
        }
        if (!run_->law.empty() && run_->law_base + run_->law[c.index] > slight_share)
            continue;
        support.share[0] = 1;
        support.cost = c.linear + c.charge + run_->pure_cost[c.index];
        keep(support);
    }
}

/// Two lots on the full mass: the share of the first decides all.
void Kernel::try_pair(int i, int j) {
    const Candidate& a = candidates_[i];
    const Candidate& b = candidates_[j];
    double low = std::max(run_->share, 1 - b.most);
    double high = std::min(a.most, 1 - run_->share);
    if (!run_->law.empty()) {
        const double law_b = run_->law_base + run_->law[b.index];
        const double step = run_->law[a.index] - run_->law[b.index];
        if (step > 0)
            high = std::min(high, -law_b / step);
        if (step < 0)
            low = std::max(low, -law_b / step);
        if (step == 0 && law_b > slight_share)
            return;
    }
    if (low > high)
        return;
    Line line(low, high, a.linear - b.linear);
    const std::uint64_t over = a.over | b.over;
    for (std::uint64_t left = over; left != 0; left &= left - 1) {
        const int k = std::countr_zero(left);
        line.add(b.pure[k], a.pure[k] - b.pure[k]);
    }
    const double share = line.lowest();
    double cost = a.charge + b.charge + share * a.linear + (1 - share) * b.linear;
    for (std::uint64_t left = over; left != 0; left &= left - 1) {
        const int k = std::countr_zero(left);
        cost += std::max(0.0, share * a.pure[k] + (1 - share) * b.pure[k]);
    }
    Support support;
    support.count = 2;
    support.of = {i, j};
    support.share = {share, 1 - share};
    support.cost = cost;
    keep(support);
    if (run_->max_free_lots > 2)
        grown_.push_back(support);
}

/// Every pair: on the full mass where the stocks suffice, else with whatever is left of both.
void Kernel::try_pairs() {
    const int n = static_cast<int>(candidates_.size());
    for (int j = 1; j < n; ++j)
        for (int i = 0; i < j; ++i) {
            const Candidate& a = candidates_[i];
            const Candidate& b = candidates_[j];
            double least = std::min(a.linear, b.linear) + a.charge + b.charge;
            if (least >= best_.cost)
                continue;
            if (a.most + b.most < 1) {
                try_rest(i, j);
                continue;
            }
            for (std::uint64_t common = a.over & b.over; common != 0; common &= common - 1) {
                const int k = std::countr_zero(common);
                least += std::min(a.pure[k], b.pure[k]);
            }
            if (least < best_.cost)
                try_pair(i, j);
        }
}

/// Two lots that cannot fill the run: looked at with all of both taken; only the best are walked later.
void Kernel::try_rest(int i, int j) {
    const double missing = run_->short_cost * (1 - candidates_[i].most - candidates_[j].most);
    if (run_->max_free_lots == 2 && missing >= best_.cost)
        return;
    Support support;
    if (take_all_of(i, j, support))
        rests_.push_back(support);
}

void Kernel::settle_rests() {
    const auto cheaper = [](const Support& a, const Support& b) { return a.cost < b.cost; };
    const auto kept = std::min<std::ptrdiff_t>(seeds_kept, std::ssize(rests_));
    std::partial_sort(rests_.begin(), rests_.begin() + kept, rests_.end(), cheaper);
    rests_.resize(kept);
    for (Support& support : rests_) {
        if (settled(support))
            keep(support);
        if (run_->max_free_lots > 2)
            grown_.push_back(support);
    }
    rests_.clear();
}

/// The run stays short so far: lots of which less than a least share of the full run is left.
void Kernel::try_small() {
    const int first = static_cast<int>(candidates_.size());
    candidates_.insert(candidates_.end(), small_.begin(), small_.end());
    for (int j = first; j < static_cast<int>(candidates_.size()); ++j) {
        Support one;
        one.count = 1;
        one.of[0] = j;
        if (settled(one))
            keep(one);
        for (int i = 0; i < j && run_->max_free_lots > 1; ++i)
            if (candidates_[i].most + candidates_[j].most < 1)
                try_rest(i, j);
    }
    settle_rests();
}

/// All that is left of two lots, where that is too little for the run and each is at least its least share.
bool Kernel::take_all_of(int i, int j, Support& support) const {
    const Candidate& a = candidates_[i];
    const Candidate& b = candidates_[j];
    const double filled = a.most + b.most;
    const double floor = run_->locked_share + run_->tonne_share * filled;
    if (filled >= 1 || std::min(a.most, b.most) < floor)
        return false;
    if (!run_->law.empty() && run_->law_base + a.most * run_->law[a.index] + b.most * run_->law[b.index] > 0)
        return false;
    support.count = 2;
    support.of = {i, j};
    support.share = {a.most, b.most};
    support.cost =
        a.charge + b.charge + a.most * a.linear + b.most * b.linear + run_->short_cost * (1 - filled);
    for (std::uint64_t over = a.over | b.over | base_over_; over != 0; over &= over - 1) {
        const int k = std::countr_zero(over);
        support.cost += std::max(0.0, a.most * a.pure[k] + b.most * b.pure[k] + (1 - filled) * run_->base[k]);
    }
    return true;
}

Blend Kernel::best(const RunTable& run, const Market& market) {
    Blend blend;
    blend.cost = 0;
    if (run.fill_t <= 0)
        return blend;
    gather(run, market);
    grown_.clear();
    rests_.clear();
    if (run.max_free_lots >= 1)
        try_singles();
    if (run.max_free_lots >= 2)
        try_pairs();
    settle_rests();
    double filled = 0;
    for (int i = 0; i < best_.count; ++i)
        filled += best_.share[i];
    if (filled < 1 - slight_share && run.max_free_lots >= 1)
        try_small();
    for (int count = 3; count <= std::min(run.max_free_lots, most_blended); ++count)
        grow(count);
    for (int i = 0; i < best_.count; ++i) {
        if (best_.share[i] <= 1e-7)
            continue;
        blend.parts[blend.count++] = {candidates_[best_.of[i]].index, best_.share[i]};
    }
    blend.cost = cost_of(run, blend);
    return blend;
}

} // namespace mellowbin::planning
