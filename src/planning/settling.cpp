#include "planning/blending.h"

#include <algorithm>
#include <bit>
#include <cmath>

namespace mellowbin::planning {

namespace {

constexpr int most_rounds = 12;
constexpr double slight_law = 1e-7; // t x ppm
constexpr double at_turn = 1e-9;    // a hinge so near zero costs on one side only

class Settling {
public:
    Settling(const RunTable& run, std::span<const Candidate> candidates, std::uint64_t base_over,
             Support& support)
        : run_(run), candidates_(candidates), s_(support), n_(support.count) {
        std::uint64_t over = base_over;
        for (int i = 0; i < n_; ++i)
            over |= lot(i).over;
        for (; over != 0; over &= over - 1) {
            const int k = std::countr_zero(over);
            base_[hinge_count_] = run_.base[k];
            for (int i = 0; i < n_; ++i)
                more_[hinge_count_][i] = lot(i).pure[k] - run_.base[k];
            ++hinge_count_;
        }
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
            if (filled_ < 1 - slight_share)
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
    [[nodiscard]] const Candidate& lot(int i) const { return candidates_[s_.of[i]]; }
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
        if (filled > 1 - slight_share)
            filled = 1;
        if (!share_out(filled))
            return false;
        if (law_value() <= slight_law)
            return true;
        // The mill's oxidant forbids so much: less, beside locked flour that has less of it.
        double high = filled;
        double low = least_filled();
        for (int halving = 0; halving < 40; ++halving) {
            const double middle = (low + high) / 2;
            (share_out(middle) && law_value() <= slight_law ? low : high) = middle;
        }
        return low > slight_share && share_out(low) && law_value() <= slight_law;
    }

    /// What the least shares beside locked flour add up to.
    [[nodiscard]] double least_filled() const {
        const double shares = n_ * run_.tonne_share;
        return shares < 1 ? n_ * run_.locked_share / (1 - shares) : 0.0;
    }

    /// False where the least shares do not fit.
    bool share_out(double filled) {
        const double floor = n_ == 1 && run_.locked_t <= 0 ? 0.0 : floor_at(filled);
        double rest = filled - n_ * floor;
        if (filled <= slight_share || rest < -slight_share)
            return false;
        std::array<int, most_blended> order{};
        const auto rank = [&](int i) { return run_.law.empty() ? lot(i).linear : run_.law[lot(i).index]; };
        for (int i = 0; i < n_; ++i) { // four at most: put each in its place as it comes
            int at = i;
            for (; at > 0 && rank(i) < rank(order[at - 1]); --at)
                order[at] = order[at - 1];
            order[at] = i;
        }
        for (int o = 0; o < n_; ++o) {
            const int i = order[o];
            const double more = std::clamp(rest, 0.0, std::max(0.0, lot(i).most - floor));
            s_.share[i] = floor + more;
            rest -= more;
        }
        return true;
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
            double value = base_[h];
            for (int i = 0; i < n_; ++i)
                value += s_.share[i] * more_[h][i];
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
        if (step > slight_share)
            high = std::min(high, -value / step);
        if (step < -slight_share)
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
        if (!(high - low > slight_share) || low > slight_share || high < -slight_share)
            return false;
        return go_lowest(d, slope - run_.short_cost * sum, low, high);
    }

    bool go_lowest(const Direction& d, double slope, double low, double high) {
        double right = slope; // how the cost changes to either side of where it is now
        double left = slope;
        for (int h = 0; h < hinge_count_; ++h) {
            double step = 0;
            for (int i = 0; i < n_; ++i)
                step += d[i] * more_[h][i];
            step_[h] = step;
            if (value_[h] > at_turn) {
                right += step;
                left += step;
            } else if (value_[h] >= -at_turn) {
                right += std::max(0.0, step);
                left += std::min(0.0, step);
            }
        }
        if ((right >= 0 || high <= slight_share) && (left <= 0 || low >= -slight_share))
            return false;
        Line line(low, high, slope);
        for (int h = 0; h < hinge_count_; ++h)
            line.add(value_[h], step_[h]);
        const double at = line.lowest();
        double gain = -slope * at;
        for (int h = 0; h < hinge_count_; ++h)
            gain += std::max(0.0, value_[h]) - std::max(0.0, value_[h] + at * step_[h]);
        if (std::abs(at) <= slight_share || gain <= slight_cost)
            return false;
        for (int i = 0; i < n_; ++i)
            s_.share[i] += at * d[i];
        refresh();
        return true;
    }

    /// Lines of three lots along which the mass and one hinge stay as they are: a swap crosses the hinge's
    /// turn and gains nothing where these still do.
    bool along_turns() {
        bool moved = false;
        for (int h = 0; h < hinge_count_ && n_ >= 3; ++h) {
            if (std::abs(value_[h]) > 1e-6)
                continue;
            const auto& more = more_[h];
            for (int a = 0; a < n_; ++a)
                for (int b = a + 1; b < n_; ++b)
                    for (int c = b + 1; c < n_; ++c) {
                        Direction d{};
                        d[a] = more[c] - more[b];
                        d[b] = more[a] - more[c];
                        d[c] = more[b] - more[a];
                        const double size = std::max({std::abs(d[a]), std::abs(d[b]), std::abs(d[c])});
                        if (size <= slight_share)
                            continue;
                        for (double& step : d)
                            step /= size;
                        moved |= walk(d);
                    }
        }
        return moved;
    }

    const RunTable& run_;
    std::span<const Candidate> candidates_;
    Support& s_;
    int n_;
    std::array<std::array<double, most_blended>, most_hinges>
        more_;                             ///< per hinge and lot: what a full share adds
    std::array<double, most_hinges> base_; ///< of the locked flour
    int hinge_count_ = 0;
    std::array<double, most_hinges> value_;
    std::array<double, most_hinges> step_;
    double filled_ = 0;
};

} // namespace

bool settle(const RunTable& run, std::span<const Candidate> candidates, std::uint64_t base_over,
            Support& support) {
    return Settling(run, candidates, base_over, support).settle();
}

} // namespace mellowbin::planning
