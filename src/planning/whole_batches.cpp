// The kernel for products that take one lot a batch: whole batches, and what a lot costs is linear in them.

#include "planning/kernel.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::planning {

namespace {

/// A lot by its batches.
struct Source {
    int candidate = 0;
    int most = 0;      ///< batches that the stock allows
    double each = 0;   ///< cost of a batch, the stock's price included
    double charge = 0; ///< for taking it at all
};

/// Batches of some lots, and what they cost with the rest short.
struct Mix {
    std::array<int, most_blended> source{};
    std::array<int, most_blended> batches{};
    int count = 0;
    double cost = 0;
};

class Batches {
public:
    Batches(const RunTable& run, const Market& market) : run_(run) {
        wanted_ = static_cast<int>(std::floor(1 / run.batch_share + slight_share));
        short_each_ = run.short_cost * run.batch_share;
        for (int c = 0; c < run.count(); ++c) {
            const int l = run.lot[c];
            const double batch_t = run.batch_share * run.fill_t;
            const int most =
                std::min(wanted_, static_cast<int>(std::floor(market.free_t[l] / batch_t + 1e-9)));
            if (most < 1 || run.linear[c] >= run.short_cost) // better short than that
                continue;
            const double price = market.price ? market.price[l] * batch_t : 0.0;
            sources_.push_back({c, most, run.linear[c] * run.batch_share + price, market.charge[l]});
        }
        std::stable_sort(sources_.begin(), sources_.end(),
                         [](const Source& a, const Source& b) { return a.each < b.each; });
        best_.cost = run.short_cost;
    }

    /// Exact for one and two lots; further lots join the best of one fewer.
    Mix best() {
        const int n = static_cast<int>(sources_.size());
        const int lots = std::min(run_.max_free_lots, most_blended);
        if (lots >= 1)
            for (int i = 0; i < n; ++i)
                judge({{i}, {}, 1, 0});
        if (lots >= 2)
            for (int i = 0; i < n; ++i)
                for (int j = i + 1; j < n; ++j)
                    judge({{i, j}, {}, 2, 0});
        for (int count = 3; count <= lots; ++count) {
            const Mix seed = best_;
            if (seed.count != count - 1)
                break;
            for (int i = 0; i < n; ++i) {
                Mix more = seed;
                if (std::find(seed.source.begin(), seed.source.begin() + seed.count, i) !=
                    seed.source.begin() + seed.count)
                    continue;
                more.source[more.count++] = i;
                std::sort(more.source.begin(), more.source.begin() + more.count);
                judge(more);
            }
        }
        return best_;
    }

    [[nodiscard]] const Source& source(int i) const { return sources_[i]; }

private:
    /// Every lot its least share, the rest from the cheapest on; sources stand in order of cost.
    void judge(Mix mix) {
        int able = 0;
        for (int i = 0; i < mix.count; ++i)
            able += sources_[mix.source[i]].most;
        const int total = std::min(wanted_, able);
        const double share = run_.locked_share + run_.tonne_share * total * run_.batch_share;
        const bool alone = mix.count == 1 && run_.locked_t <= 0;
        const int least =
            alone ? 1 : std::max(1, static_cast<int>(std::ceil(share / run_.batch_share - 1e-6)));
        int rest = total - least * mix.count;
        mix.cost = run_.short_cost - short_each_ * total;
        for (int i = 0; i < mix.count; ++i) {
            const Source& source = sources_[mix.source[i]];
            if (source.most < least || rest < 0)
                return;
            const int more = std::min(rest, source.most - least);
            rest -= more;
            mix.batches[i] = least + more;
            mix.cost += source.charge + source.each * mix.batches[i];
        }
        if (mix.cost < best_.cost - slight_cost)
            best_ = mix;
    }

    const RunTable& run_;
    int wanted_ = 0;
    double short_each_ = 0;
    std::vector<Source> sources_;
    Mix best_;
};

} // namespace

Blend Kernel::best_batches(const Market& market) {
    Batches batches(*run_, market);
    const Mix mix = batches.best();
    Blend blend;
    for (int i = 0; i < mix.count; ++i)
        blend.parts[blend.count++] = {batches.source(mix.source[i]).candidate,
                                      mix.batches[i] * run_->batch_share};
    blend.cost = cost_of(*run_, blend);
    return blend;
}

} // namespace mellowbin::planning
