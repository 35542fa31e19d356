#include "support/first_expiring.h"

#include "planning/make_plan.h"
#include "planning/tables.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <utility>
#include <vector>

namespace mellowbin::planning {

namespace {

constexpr double slight = 1e-9;
constexpr std::array parts_of_four{0.75, 0.5, 0.25}; ///< splits that are tried by hand

/// A lot and its tonnes.
using Share = std::pair<int, double>;

/// One run as a careful person with a spreadsheet fills it; see first_expiring_plan().
class ByHand {
public:
    ByHand(const Problem& problem, const RunTable& run, const std::vector<double>& free_t)
        : p_(problem), run_(run), product_(problem.product_of(run.run)), free_t_(free_t) {
        unit_t_ = product_.one_lot_a_batch ? p_.runs[run.run].batch_t : 0.0;
        least_t_ = run.share * run.fill_t;
        for (const Lock& lock : p_.locks)
            if (lock.run == run.run)
                locked_.emplace_back(lock.lot, lock.tonnes);
        for (const int l : run.lot)
            if (free_t[l] > slight && p_.lots[l].mill_oxidant_ppm <= product_.oxidant_cap_ppm)
                lots_.push_back(l);
        const auto expires = [&](int l) { return p_.lots[l].use_by_day; };
        std::stable_sort(lots_.begin(), lots_.end(), [&](int a, int b) { return expires(a) < expires(b); });
    }

    std::vector<Share> fill() {
        const auto others = std::stable_partition(lots_.begin(), lots_.end(), [&](int l) {
            return off_windows({{l, run_.fill_t}}) <= slight;
        });
        std::vector<Share> best = in_turn({lots_.begin(), others});
        if (is_full(best))
            return best;
        if (std::vector<Share> nearest = nearest_blend(); !nearest.empty())
            return nearest;
        best = in_turn(lots_);
        if (is_full(best))
            return best;
        std::vector<int> fullest = lots_;
        std::stable_sort(fullest.begin(), fullest.end(),
                         [&](int a, int b) { return free_t_[a] > free_t_[b]; });
        std::vector<Share> full = in_turn(fullest);
        return tonnes(full) > tonnes(best) + slight ? full : best;
    }

private:
    static double tonnes(const std::vector<Share>& shares) {
        double t = 0;
        for (const Share& share : shares)
            t += share.second;
        return t;
    }

    [[nodiscard]] bool is_full(const std::vector<Share>& shares) const {
        return tonnes(shares) > run_.fill_t - std::max(unit_t_, slight) + slight;
    }

    /// How far the blend is outside its specifications, in steps of their scales, the locked flour with it.
    [[nodiscard]] double off_windows(const std::vector<Share>& shares) const {
        const double total = tonnes(shares) + run_.locked_t;
        double off = 0;
        for (std::size_t k = 0; k < p_.properties.size(); ++k) {
            const Window& window = product_.windows[k];
            double value = 0;
            for (const auto& [l, t] : shares)
                value += p_.lots[l].values[k] * t / total;
            for (const auto& [l, t] : locked_)
                value += p_.lots[l].values[k] * t / total;
            off += std::max(0.0, window.low ? (*window.low - value) / window.scale : 0.0);
            off += std::max(0.0, window.high ? (value - *window.high) / window.scale : 0.0);
        }
        return off;
    }

    /// From the first on, the next only as far as the ones before do not reach. Each has its least share: a
    /// lot that cannot hold one is passed over, and one that would leave the next less gives way.
    [[nodiscard]] std::vector<Share> in_turn(const std::vector<int>& lots) const {
        std::vector<Share> shares;
        double need = run_.fill_t;
        for (const int l : lots) {
            if (need <= slight || std::ssize(shares) == run_.max_free_lots)
                break;
            double take = std::min(need, free_t_[l]);
            if (unit_t_ > 0)
                take = std::floor(take / unit_t_ + slight) * unit_t_;
            else if (take < need && need - take < least_t_)
                take = need - least_t_;
            if (take < std::max(least_t_, slight))
                continue;
            shares.emplace_back(l, take);
            need -= take;
        }
        return shares;
    }

    /// The lot or pair nearest the windows that fills the run; of equal ones the first to expire, with as
    /// much of it as can be. Nothing if no two lots can.
    [[nodiscard]] std::vector<Share> nearest_blend() const {
        std::vector<Share> best;
        if (unit_t_ > 0) // lots of a batch are not blended
            return best;
        double least_off = std::numeric_limits<double>::infinity();
        const auto look = [&](const std::vector<Share>& shares) {
            for (const auto& [l, t] : shares)
                if (t > free_t_[l] || t < least_t_ - slight)
                    return;
            const double off = off_windows(shares);
            if (off < least_off - 1e-6) {
                least_off = off;
                best = shares;
            }
        };
        std::vector<int> by_date = lots_;
        std::stable_sort(by_date.begin(), by_date.end(),
                         [&](int a, int b) { return p_.lots[a].use_by_day < p_.lots[b].use_by_day; });
        const double fill = run_.fill_t;
        for (std::size_t i = 0; i < by_date.size() && run_.max_free_lots >= 1; ++i) {
            const int first = by_date[i];
            look({{first, fill}});
            for (std::size_t j = i + 1; j < by_date.size() && run_.max_free_lots >= 2; ++j) {
                if (least_off <= slight)
                    return best;
                const int second = by_date[j];
                look({{first, free_t_[first]}, {second, fill - free_t_[first]}});
                for (const double part : parts_of_four)
                    look({{first, part * fill}, {second, (1 - part) * fill}});
            }
        }
        return best;
    }

    const Problem& p_;
    const RunTable& run_;
    const Product& product_;
    const std::vector<double>& free_t_;
    std::vector<Share> locked_;
    std::vector<int> lots_; ///< those that keep the windows by themselves first; in each the first to expire
    double unit_t_ = 0;     ///< of a batch; above 0: whole batches
    double least_t_ = 0;
};

} // namespace

/// What a careful person does run by run, never looking back. Of the lots that keep the windows by
/// themselves the one that expires first, the next as far as it does not reach. Where these do not fill the
/// run, the pair that keeps the windows or comes nearest, by halves and quarters or with all that is left of
/// the first. Where no two lots fill it, the first to expire in turn, or else the fullest.
Plan first_expiring_plan(const Problem& problem) {
    const Tables tables = make_tables(problem);
    std::vector<double> free_t = tables.free_t;
    Plan plan;
    for (const Lock& lock : problem.locks)
        if (lock.tonnes > 0)
            plan.assignments.push_back({lock.run, lock.lot, lock.tonnes});
    for (const int r : in_date_order(problem)) {
        const RunTable& run = tables.runs[r];
        if (run.fill_t <= 0)
            continue;
        for (const auto& [l, t] : ByHand(problem, run, free_t).fill()) {
            plan.assignments.push_back({r, l, t});
            free_t[l] = std::max(0.0, free_t[l] - t);
        }
    }
    sort_assignments(plan);
    return plan;
}

} // namespace mellowbin::planning
