#include "planning/kernel.h"

#include <algorithm>
#include <bit>
#include <cmath>

namespace mellowbin::planning {

namespace {

constexpr double slight = 1e-9; // of a share
constexpr double slight_cost = 1e-7;
constexpr int seeds_kept = 3;
constexpr int most_rounds = 12;

/// A convex piecewise linear cost along a line s: slope·s + sum of (value + s·step) above zero.
class Line {
public:
    Line(double low, double high, double slope) : low_(low), high_(high), slope_(slope) {}

    void add(double value, double step) {
        const double at_low = value + low_ * step;
        if (at_low > 0 || (at_low == 0 && step > 0))
            slope_ += step;
        if (step == 0)
            return;
        const double turn = -value / step;
        if (turn <= low_ || turn >= high_)
            return;
        int i = count_++;
        for (; i > 0 && turns_[i - 1].at > turn; --i)
            turns_[i] = turns_[i - 1];
        turns_[i] = {turn, std::abs(step)};
    }

    /// Where the cost is least: walks up from break point to break point while it still falls.
    [[nodiscard]] double lowest() const {
        double slope = slope_;
        double at = low_;
        for (int i = 0; slope < 0; ++i) {
            if (i == count_)
                return high_;
            at = turns_[i].at;
            slope += turns_[i].more;
        }
        return at;
    }

private:
    struct Turn {
        double at;
        double more;
    };
    double low_;
    double high_;
    double slope_;
    int count_ = 0;
    std::array<Turn, most_hinges> turns_;
};

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

/// Improves the shares of one support by walking lines: the swaps between two lots, the lines along which a
/// hinge stays at its turn, and, where the run cannot be filled, more or less of one lot.
class Kernel::Settling {
public:
    Settling(const Kernel& kernel, Support& support)
        : k_(kernel), run_(*kernel.run_), s_(support), n_(support.count) {
        std::uint64_t over = k_.base_over_;
        for (int i = 0; i < n_; ++i)
            over |= lot(i).over;
        for (; over != 0; over &= over - 1)
            hinges_[hinge_count_++] = std::countr_zero(over);
    }

    bool settle() {
        if (!start())
            return false;
        refresh();
        for (int round = 0; round < most_rounds; ++round) {
            bool moved = false;
            for (int i = 0; i < n_; ++i)
                for (int j = i + 1; j < n_; ++j) {
                    Direction d{};
                    d[i] = 1;
                    d[j] = -1;
                    moved |= walk(d);
                }
            if (filled_ < 1 - slight)
                for (int i = 0; i < n_; ++i) {
                    Direction d{};
                    d[i] = 1;
                    moved |= walk(d);
                }
            if (!moved)
                moved = along_turns();
            if (!moved)
                break;
        }
        s_.cost = cost();
        return true;
    }

private:
    using Direction = std::array<double, most_blended>;
    [[nodiscard]] const Candidate& lot(int i) const { return k_.candidates_[s_.of[i]]; }
    [[nodiscard]] double floor_at(double filled) const {
        return run_.locked_share + run_.tonne_share * filled;
    }

    /// As much of the run as the stocks allow, everyone at the least share, the rest to the cheapest; or,
    /// where the mill's oxidant matters, to the one with the least of it.
    bool start() {
        double stock = 0;
        double filled = 1;
        for (int i = 0; i < n_; ++i) {
            stock += lot(i).most;
            if (run_.tonne_share > 0)
                filled = std::min(filled, (lot(i).most - run_.locked_share) / run_.tonne_share);
        }
        filled = std::min(filled, stock);
        if (filled > 1 - slight)
            filled = 1;
        const double floor = n_ == 1 && run_.locked_t <= 0 ? 0.0 : floor_at(filled);
        double rest = filled - n_ * floor;
        if (filled <= slight || rest < -slight)
            return false;
        std::array<int, most_blended> order{};
        for (int i = 0; i < n_; ++i)
            order[i] = i;
        const auto rank = [&](int i) { return run_.law.empty() ? lot(i).linear : run_.law[lot(i).index]; };
        std::sort(order.begin(), order.begin() + n_, [&](int a, int b) { return rank(a) < rank(b); });
        for (int o = 0; o < n_; ++o) {
            const int i = order[o];
            const double more = std::clamp(rest, 0.0, std::max(0.0, lot(i).most - floor));
            s_.share[i] = floor + more;
            rest -= more;
        }
        return law_value() <= slight;
    }

    [[nodiscard]] double law_value() const {
        if (run_.law.empty())
            return 0;
        double value = run_.law_base;
        for (int i = 0; i < n_; ++i)
            value += s_.share[i] * run_.law[lot(i).index];
        return value;
    }

    /// Hinge values afresh from the shares, so that walking does not gather errors.
    void refresh() {
        filled_ = 0;
        for (int i = 0; i < n_; ++i)
            filled_ += s_.share[i];
        for (int h = 0; h < hinge_count_; ++h) {
            const int k = hinges_[h];
            double value = run_.base[k];
            for (int i = 0; i < n_; ++i)
                value += s_.share[i] * (lot(i).pure[k] - run_.base[k]);
            value_[h] = value;
        }
    }

    [[nodiscard]] double cost() const {
        double cost = run_.short_cost * std::max(0.0, 1 - filled_);
        for (int i = 0; i < n_; ++i)
            cost += lot(i).charge + s_.share[i] * lot(i).linear;
        for (int h = 0; h < hinge_count_; ++h)
            cost += std::max(0.0, value_[h]);
        return cost;
    }

    /// The stretch of the line on which every rule is kept.
    void limit(double value, double step, double& low, double& high) const {
        // value + s·step <= 0
        if (step > slight)
            high = std::min(high, -value / step);
        if (step < -slight)
            low = std::max(low, -value / step);
    }

    bool walk(const Direction& d) {
        double low = -1e9;
        double high = 1e9;
        double sum = 0;
        double slope = 0;
        for (int i = 0; i < n_; ++i) {
            sum += d[i];
            slope += d[i] * lot(i).linear;
        }
        for (int i = 0; i < n_; ++i) {
            limit(s_.share[i] - lot(i).most, d[i], low, high);
            limit(floor_at(filled_) - s_.share[i], run_.tonne_share * sum - d[i], low, high);
        }
        limit(filled_ - 1, sum, low, high);
        if (!run_.law.empty()) {
            double step = 0;
            for (int i = 0; i < n_; ++i)
                step += d[i] * run_.law[lot(i).index];
            limit(law_value(), step, low, high);
        }
        if (!(high - low > slight) || low > slight || high < -slight)
            return false;
        return go_lowest(d, slope - run_.short_cost * sum, low, high);
    }

    bool go_lowest(const Direction& d, double slope, double low, double high) {
        Line line(low, high, slope);
        for (int h = 0; h < hinge_count_; ++h) {
            const int k = hinges_[h];
            double step = 0;
            for (int i = 0; i < n_; ++i)
                step += d[i] * (lot(i).pure[k] - run_.base[k]);
            line.add(value_[h], step);
        }
        const double at = line.lowest();
        if (std::abs(at) <= slight)
            return false;
        const double before = cost();
        const auto shares = s_.share;
        for (int i = 0; i < n_; ++i)
            s_.share[i] += at * d[i];
        refresh();
        if (cost() < before - slight_cost)
            return true;
        s_.share = shares;
        refresh();
        return false;
    }

    /// Lines of three lots along which the mass and one hinge stay as they are: a swap crosses the hinge's
    /// turn and gains nothing where these still do.
    bool along_turns() {
        bool moved = false;
        for (int h = 0; h < hinge_count_ && n_ >= 3; ++h) {
            if (std::abs(value_[h]) > 1e-6)
                continue;
            const int k = hinges_[h];
            for (int a = 0; a < n_; ++a)
                for (int b = a + 1; b < n_; ++b)
                    for (int c = b + 1; c < n_; ++c) {
                        Direction d{};
                        d[a] = lot(c).pure[k] - lot(b).pure[k];
                        d[b] = lot(a).pure[k] - lot(c).pure[k];
                        d[c] = lot(b).pure[k] - lot(a).pure[k];
                        const double size = std::max({std::abs(d[a]), std::abs(d[b]), std::abs(d[c])});
                        if (size <= slight)
                            continue;
                        for (double& step : d)
                            step /= size;
                        moved |= walk(d);
                    }
        }
        return moved;
    }

    const Kernel& k_;
    const RunTable& run_;
    Support& s_;
    int n_;
    std::array<int, most_hinges> hinges_;
    int hinge_count_ = 0;
    std::array<double, most_hinges> value_;
    double filled_ = 0;
};

bool Kernel::settle(Support& support) const { return Settling(*this, support).settle(); }

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
        (most >= run.share - slight ? candidates_ : small_).push_back(candidate);
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
            if (settle(support))
                keep(support);
            continue;
        }
        if (!run_->law.empty() && run_->law_base + run_->law[c.index] > slight)
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
        if (step == 0 && law_b > slight)
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

void Kernel::try_pairs() {
    const int n = static_cast<int>(candidates_.size());
    for (int j = 1; j < n; ++j)
        for (int i = 0; i < j; ++i) {
            const Candidate& a = candidates_[i];
            const Candidate& b = candidates_[j];
            double least = std::min(a.linear, b.linear) + a.charge + b.charge;
            if (least >= best_.cost)
                continue;
            for (std::uint64_t common = a.over & b.over; common != 0; common &= common - 1) {
                const int k = std::countr_zero(common);
                least += std::min(a.pure[k], b.pure[k]);
            }
            if (least < best_.cost)
                try_pair(i, j);
        }
}

/// Two lots cannot fill the run: whatever is left of both. Looked at with all of both taken; only the best
/// are walked.
void Kernel::try_partial_pairs() {
    candidates_.insert(candidates_.end(), small_.begin(), small_.end());
    const int n = static_cast<int>(candidates_.size());
    const auto first = std::ssize(grown_);
    for (int j = 0; j < n; ++j) {
        Support support;
        support.count = 1;
        support.of[0] = j;
        if (j >= n - static_cast<int>(small_.size()) && settle(support))
            keep(support);
        for (int i = 0; i < j && run_->max_free_lots > 1; ++i)
            if (take_all_of(i, j, support))
                grown_.push_back(support);
    }
    const auto cheaper = [](const Support& a, const Support& b) { return a.cost < b.cost; };
    const auto kept = std::min<std::ptrdiff_t>(seeds_kept, std::ssize(grown_) - first);
    std::partial_sort(grown_.begin() + first, grown_.begin() + first + kept, grown_.end(), cheaper);
    grown_.resize(first + kept);
    for (auto support = grown_.begin() + first; support != grown_.end(); ++support)
        if (settle(*support))
            keep(*support);
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
    weight_[k] = square > slight ? std::clamp(-product / square, 0.0, 1.0) : 0.0;
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
    const auto kept = std::min<std::ptrdiff_t>(seeds_kept, std::ssize(seeds_));
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
        for (int c = 0; c < static_cast<int>(candidates_.size()); ++c) {
            if (std::find(seed.of.begin(), seed.of.begin() + seed.count, c) != seed.of.begin() + seed.count)
                continue;
            Support support = seed;
            support.of[support.count++] = c;
            if (least_cost(support) >= best_.cost - slight_cost || !settle(support))
                continue;
            keep(support);
            if (count < std::min(run_->max_free_lots, most_blended))
                grown_.push_back(support);
        }
    }
}

Blend Kernel::best(const RunTable& run, const Market& market) {
    Blend blend;
    blend.cost = 0;
    if (run.fill_t <= 0)
        return blend;
    gather(run, market);
    grown_.clear();
    if (run.max_free_lots >= 1)
        try_singles();
    if (run.max_free_lots >= 2)
        try_pairs();
    double filled = 0;
    for (int i = 0; i < best_.count; ++i)
        filled += best_.share[i];
    if (filled < 1 - slight && run.max_free_lots >= 1)
        try_partial_pairs();
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
