#include "planning/improve.h"

#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

namespace mellowbin::planning {

namespace {

class Improver {
public:
    Improver(Draft& draft, const Anneal& anneal) : draft_(draft), anneal_(anneal), random_(anneal.seed) {
        for (const int r : in_date_order(draft.problem()))
            if (draft.tables().runs[r].fill_t > 0)
                open_.push_back(r);
    }

    std::int64_t run(const std::stop_token& stop, const std::function<void(std::int64_t, double)>& watch) {
        if (open_.empty())
            return 0;
        now_ = best_ = draft_.objective();
        keep_best();
        std::int64_t step = 0;
        for (; step < anneal_.steps; ++step) {
            if (step % 64 == 0) {
                if (stop.stop_requested())
                    break;
                watch(step, best_);
                const double done = static_cast<double>(step) / static_cast<double>(anneal_.steps);
                warmth_ = anneal_.warm * std::pow(anneal_.cold / anneal_.warm, done);
            }
            try_step();
        }
        for (const int r : open_)
            draft_.empty(r);
        for (const int r : open_)
            draft_.put(r, best_blends_[r]);
        return step;
    }

private:
    [[nodiscard]] int pick(std::ptrdiff_t count) {
        return static_cast<int>(random_() % static_cast<std::uint64_t>(count));
    }
    [[nodiscard]] double chance() { return static_cast<double>(random_() >> 11) * 0x1.0p-53; }

    void add(int run) {
        if (draft_.tables().runs[run].fill_t > 0 &&
            std::find(ruined_.begin(), ruined_.end(), run) == ruined_.end())
            ruined_.push_back(run);
    }

    void add_holder(int lot) {
        const std::vector<int>& holders = draft_.holders(lot);
        if (!holders.empty())
            add(holders[pick(std::ssize(holders))]);
    }

    /// Half the time any run, else the dearest of a few: that is where there is something to gain.
    [[nodiscard]] int choose_place() {
        constexpr int drawn = 6;
        int place = pick(std::ssize(open_));
        if (pick(2) == 0)
            return place;
        for (int i = 0; i < drawn; ++i) {
            const int other = pick(std::ssize(open_));
            if (draft_.blend(open_[other]).cost > draft_.blend(open_[place]).cost)
                place = other;
        }
        return place;
    }

    void choose_ruin() {
        ruined_.clear();
        const int place = choose_place();
        const int r = open_[place];
        const RunTable& table = draft_.tables().runs[r];
        const Blend& blend = draft_.blend(r);
        add(r);
        const int kind = pick(8);
        if (kind < 2) { // on the line
            const int prev = draft_.problem().runs[r].prev_on_line;
            const auto& next = draft_.tables().next[r];
            if (prev >= 0 && (kind == 0 || next.empty()))
                add(prev);
            if (!next.empty() && (kind == 1 || pick(2) == 0))
                add(next.front());
        } else if (kind < 5 && table.count() > 0) { // holders of a wanted lot
            const int lot = table.lot[pick(table.count())];
            add_holder(lot);
            if (pick(2) == 0)
                add_holder(lot);
        } else if (kind < 7 && blend.count > 0) { // sharers
            add_holder(table.lot[blend.parts[pick(blend.count)].candidate]);
            if (pick(2) == 0)
                add_holder(table.lot[blend.parts[pick(blend.count)].candidate]);
        } else { // near in time
            const int reach = 6;
            const int other =
                std::clamp(place - reach + pick(2 * reach + 1), 0, static_cast<int>(open_.size()) - 1);
            add(open_[other]);
        }
        for (std::ptrdiff_t i = std::ssize(ruined_) - 1; i > 0; --i)
            std::swap(ruined_[i], ruined_[pick(i + 1)]);
    }

    /// Now and then two lots are made dear, by anything from 1 to 1000 a tonne, so that runs filled early
    /// leave some of them to those filled later. On small scarce problems this finds what filling one after
    /// another cannot.
    [[nodiscard]] const double* choose_price() {
        constexpr int one_in = 4;
        constexpr int dear_lots = 2;
        if (pick(one_in) != 0)
            return nullptr;
        std::fill(price_.begin(), price_.end(), 0.0);
        for (int i = 0; i < dear_lots; ++i) {
            const RunTable& table = draft_.tables().runs[ruined_[pick(std::ssize(ruined_))]];
            if (table.count() > 0)
                price_[table.lot[pick(table.count())]] = std::pow(10.0, 3 * chance());
        }
        return price_.data();
    }

    /// What changes when the ruined runs change: theirs, and the lot changes of those that follow them.
    [[nodiscard]] double cost_touched() const {
        double cost = 0;
        for (const int r : touched_)
            cost += draft_.cost_of_run(r);
        return cost;
    }

    void try_step() {
        choose_ruin();
        touched_ = ruined_;
        for (const int r : ruined_)
            for (const int next : draft_.tables().next[r])
                if (std::find(touched_.begin(), touched_.end(), next) == touched_.end())
                    touched_.push_back(next);
        const double before = cost_touched();
        saved_.clear();
        for (const int r : ruined_)
            saved_.push_back(draft_.blend(r));
        for (const int r : ruined_)
            draft_.empty(r);
        const double* price = choose_price();
        for (const int r : ruined_)
            draft_.fill(r, price);
        const double change = cost_touched() - before;
        if (change <= 0 || chance() < std::exp(-change / warmth_)) {
            now_ += change;
            if (now_ < best_ - 1e-6) {
                best_ = now_;
                keep_best();
            }
            return;
        }
        for (const int r : ruined_)
            draft_.empty(r);
        for (std::size_t i = 0; i < ruined_.size(); ++i)
            draft_.put(ruined_[i], saved_[i]);
    }

    void keep_best() {
        best_blends_.resize(draft_.problem().runs.size());
        for (const int r : open_)
            best_blends_[r] = draft_.blend(r);
    }

    Draft& draft_;
    const Anneal& anneal_;
    std::mt19937_64 random_;
    std::vector<int> open_;
    std::vector<int> ruined_;
    std::vector<int> touched_;
    std::vector<Blend> saved_;
    std::vector<Blend> best_blends_;
    std::vector<double> price_ = std::vector<double>(draft_.problem().lots.size(), 0.0);
    double now_ = 0;
    double best_ = 0;
    double warmth_ = 0;
};

} // namespace

std::int64_t improve(Draft& draft, const Anneal& anneal, const std::stop_token& stop,
                     const std::function<void(std::int64_t, double)>& watch) {
    return Improver(draft, anneal).run(stop, watch);
}

} // namespace mellowbin::planning
