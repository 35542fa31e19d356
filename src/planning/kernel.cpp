#include "planning/kernel.h"

#include <algorithm>
#include <bit>
#include <cmath>

namespace mellowbin::planning {

namespace {

constexpr double much_missing = 0.25; ///< share of the fill

} // namespace

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

void Kernel::gather(const RunTable& run, const Market& market, const Interest& interest) {
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
    most_missing_ = interest.missing;
    for (int k = 0; k < run.hinges; ++k) {
        if (run.base[k] <= 0)
            continue;
        base_over_ |= std::uint64_t{1} << k;
        best_.cost += run.base[k];
    }
    if (!market.price) // a price makes a blend dearer than it is
        best_.cost = std::min(best_.cost, interest.cost);
}

void Kernel::try_singles() {
    for (int i = 0; i < static_cast<int>(candidates_.size()); ++i) {
        Support support;
        support.count = 1;
        support.of[0] = i;
        const Candidate& c = candidates_[i];
        if (c.most < 1) // too little alone: looked at by try_short(), if the run stays short
            continue;
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
    const double missing = 1 - most_of(candidates_[i], candidates_[j]);
    if (run_->max_free_lots == 2 && (missing > most_missing_ || run_->short_cost * missing >= best_.cost))
        return;
    Support support;
    if (take_all_of(i, j, support))
        rests_.push_back(support);
}

void Kernel::settle_rests() {
    const auto cheaper = [](const Support& a, const Support& b) { return a.cost < b.cost; };
    const auto kept = std::min<std::ptrdiff_t>(seeds_kept(), std::ssize(rests_));
    std::partial_sort(rests_.begin(), rests_.begin() + kept, rests_.end(), cheaper);
    std::ptrdiff_t seeds = run_->max_free_lots > 2 ? kept : 0;
    for (Support& support : rests_) {
        const double missing = 1 - support.share[0] - support.share[1];
        const bool is_seed = seeds-- > 0;
        if (missing <= most_missing_ && least_rest(support) < best_.cost && settled(support))
            keep(support);
        if (is_seed)
            grown_.push_back(support);
    }
    rests_.clear();
}

/// What a pair that cannot fill the run costs at least.
double Kernel::least_rest(const Support& support) const {
    const Candidate& a = candidates_[support.of[0]];
    const Candidate& b = candidates_[support.of[1]];
    return a.charge + b.charge + run_->short_cost * (1 - support.share[0] - support.share[1]) +
           std::min(0.0, a.most * a.linear) + std::min(0.0, b.most * b.linear);
}

/// Blends that leave some of the run short: one lot alone as far as it goes, and lots of which less than a
/// least share of the full run is left.
void Kernel::try_short() {
    const auto first = std::ssize(candidates_);
    candidates_.insert(candidates_.end(), small_.begin(), small_.end());
    for (int j = 0; j < std::ssize(candidates_); ++j) {
        const Candidate& c = candidates_[j];
        const double least = c.charge + run_->short_cost * (1 - c.most) + std::min(0.0, c.most * c.linear);
        Support alone;
        alone.count = 1;
        alone.of[0] = j;
        const bool is_full = c.most >= 1 && (run_->law.empty() || run_->law_base + run_->law[c.index] <= 0);
        if (!is_full && 1 - c.most <= most_missing_ && least < best_.cost && settled(alone))
            keep(alone);
        for (int i = 0; j >= first && i < j && run_->max_free_lots > 1; ++i)
            if (1 - most_of(candidates_[i], c) <= most_missing_)
                try_rest(i, j);
    }
    settle_rests();
}

/// As much of two lots as goes, where that is too little for the run: all that is left of both, or all of the
/// one that then is at its least share.
bool Kernel::take_all_of(int i, int j, Support& support) const {
    const Candidate& a = candidates_[i];
    const Candidate& b = candidates_[j];
    const double filled = most_of(a, b);
    double share_a = std::min(a.most, filled);
    double share_b = filled - share_a;
    if (b.most < a.most) {
        share_b = std::min(b.most, filled);
        share_a = filled - share_b;
    }
    const double floor = run_->locked_share + run_->tonne_share * filled;
    if (filled >= 1 || filled <= slight_share || std::min(share_a, share_b) < floor - slight_share)
        return false;
    support.count = 2;
    support.of = {i, j};
    support.share = {share_a, share_b};
    if (!run_->law.empty() &&
        run_->law_base + share_a * run_->law[a.index] + share_b * run_->law[b.index] > 0)
        return settled(support); // only so far as the mill's oxidant allows
    support.cost =
        a.charge + b.charge + share_a * a.linear + share_b * b.linear + run_->short_cost * (1 - filled);
    for (std::uint64_t over = a.over | b.over | base_over_; over != 0; over &= over - 1) {
        const int k = std::countr_zero(over);
        support.cost +=
            std::max(0.0, share_a * a.pure[k] + share_b * b.pure[k] + (1 - filled) * run_->base[k]);
    }
    return true;
}

/// How far two lots fill the run: no further than their stock goes, nor than the smaller one is its least
/// share.
double Kernel::most_of(const Candidate& a, const Candidate& b) const {
    double filled = a.most + b.most;
    if (run_->tonne_share > 0)
        filled = std::min(filled, (std::min(a.most, b.most) - run_->locked_share) / run_->tonne_share);
    return std::min(1.0, filled);
}

Blend Kernel::best(const RunTable& run, const Market& market, const Interest& interest) {
    Blend blend;
    blend.cost = 0;
    if (run.fill_t <= 0)
        return blend;
    if (run.batch_share > 0) {
        run_ = &run;
        return best_batches(market);
    }
    gather(run, market, interest);
    grown_.clear();
    rests_.clear();
    if (run.max_free_lots >= 1)
        try_singles();
    if (run.max_free_lots >= 2)
        try_pairs();
    settle_rests();
    // Where much may stay short, blends of three and four also grow from what does not fill the run.
    const bool may_be_short = run.max_free_lots >= 1 && most_missing_ > slight_share;
    const bool grow_short = may_be_short && most_missing_ > much_missing;
    if (grow_short)
        try_short();
    for (int count = 3; count <= std::min(run_->max_free_lots, most_blended); ++count)
        grow(count);
    if (may_be_short && !grow_short)
        try_short();
    for (int i = 0; i < best_.count; ++i) {
        if (best_.share[i] <= 1e-7)
            continue;
        blend.parts[blend.count++] = {candidates_[best_.of[i]].index, best_.share[i]};
    }
    blend.cost = cost_of(run, blend);
    return blend;
}

} // namespace mellowbin::planning
