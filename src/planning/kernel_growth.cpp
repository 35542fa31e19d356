// The kernel's three and four lots: grown from the best blends of one lot fewer.

#include "planning/kernel.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::planning {

/// What one more share of a lot costs beside `seed`: hinges that are over weigh one, those under nothing,
/// those at their turn what makes the seed's own lots cost the same. Any weights from 0 to 1 give a true
/// lower bound.
void Kernel::weigh_hinges(const Support& seed) {
    std::array<double, most_blended> cost{}; // per lot of the seed
    std::array<int, most_hinges> at_turn;
    int turns = 0;
    for (int i = 0; i < seed.count; ++i)
        cost[i] = candidates_[seed.of[i]].linear;
    weight_.fill(0);
    for (int k = 0; k < run_->hinges; ++k) {
        double filled = 0;
        double value = 0;
        for (int i = 0; i < seed.count; ++i) {
            filled += seed.share[i];
            value += seed.share[i] * candidates_[seed.of[i]].pure[k];
        }
        value += (1 - filled) * run_->base[k];
        if (std::abs(value) <= 1e-6)
            at_turn[turns++] = k;
        if (value <= 1e-6)
            continue;
        weight_[k] = 1;
        for (int i = 0; i < seed.count; ++i)
            cost[i] += candidates_[seed.of[i]].pure[k];
    }
    const int sweeps = turns == 1 ? 1 : 4;
    for (int sweep = 0; sweep < sweeps; ++sweep)
        for (int t = 0; t < turns; ++t)
            level(seed, at_turn[t], cost);
}

/// Sets one hinge's weight so that the costs of the seed's lots lie as close together as it can make them.
void Kernel::level(const Support& seed, int k, std::array<double, most_blended>& cost) {
    double mean_cost = 0;
    double mean_pure = 0;
    const double old = weight_[k];
    for (int i = 0; i < seed.count; ++i) {
        mean_cost += (cost[i] - old * candidates_[seed.of[i]].pure[k]) / seed.count;
        mean_pure += candidates_[seed.of[i]].pure[k] / seed.count;
    }
    double product = 0;
    double square = 0;
    for (int i = 0; i < seed.count; ++i) {
        const double pure = candidates_[seed.of[i]].pure[k];
        product += (pure - mean_pure) * (cost[i] - old * pure - mean_cost);
        square += (pure - mean_pure) * (pure - mean_pure);
    }
    weight_[k] = square > slight_share ? std::clamp(-product / square, 0.0, 1.0) : 0.0;
    for (int i = 0; i < seed.count; ++i)
        cost[i] += (weight_[k] - old) * candidates_[seed.of[i]].pure[k];
}

/// No blend of these lots on the full mass costs less: every lot at its least share, the rest from the
/// cheapest on as far as its stock goes, with hinges as they are weighed now. (A partial blend pays more
/// short than this.)
double Kernel::least_cost(const Support& support) const {
    std::array<double, most_blended> each{};
    std::array<int, most_blended> order{0, 1, 2, 3};
    double cost = 0;
    double rest = 1;
    for (int i = 0; i < support.count; ++i) {
        const Candidate& c = candidates_[support.of[i]];
        each[i] = priced_[support.of[i]];
        cost += c.charge + run_->share * each[i];
        rest -= run_->share;
        for (int j = i; j > 0 && each[order[j]] < each[order[j - 1]]; --j)
            std::swap(order[j], order[j - 1]);
    }
    for (int o = 0; o < support.count && rest > 0; ++o) {
        const double more = std::min(rest, candidates_[support.of[order[o]]].most - run_->share);
        if (more <= 0)
            continue;
        cost += more * each[order[o]];
        rest -= more;
    }
    return cost;
}

void Kernel::grow(int count) {
    const auto cheaper = [](const Support& a, const Support& b) { return a.cost < b.cost; };
    seeds_.swap(grown_);
    grown_.clear();
    const auto kept = std::min<std::ptrdiff_t>(seeds_kept(), std::ssize(seeds_));
    std::partial_sort(seeds_.begin(), seeds_.begin() + kept, seeds_.end(), cheaper);
    seeds_.resize(kept);
    for (const Support& seed : seeds_) {
        weigh_hinges(seed);
        priced_.resize(candidates_.size());
        for (std::size_t c = 0; c < candidates_.size(); ++c) {
            priced_[c] = candidates_[c].linear;
            for (int k = 0; k < run_->hinges; ++k)
                priced_[c] += weight_[k] * candidates_[c].pure[k];
        }
        wanted_.clear();
        for (int c = 0; c < static_cast<int>(candidates_.size()); ++c) {
            if (std::find(seed.of.begin(), seed.of.begin() + seed.count, c) != seed.of.begin() + seed.count)
                continue;
            Support support = seed;
            support.of[support.count++] = c;
            support.cost = least_cost(support);
            if (support.cost < best_.cost - slight_cost)
                wanted_.push_back(support);
        }
        // The most promising first: each one that is better spares the rest.
        std::sort(wanted_.begin(), wanted_.end(), cheaper);
        for (Support& support : wanted_) {
            if (support.cost >= best_.cost - slight_cost)
                break;
            if (!settled(support))
                continue;
            keep(support);
            if (count < std::min(run_->max_free_lots, most_blended))
                grown_.push_back(support);
        }
    }
}

} // namespace mellowbin::planning
