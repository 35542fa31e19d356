#include "planning/evaluate.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace mellowbin::planning {

namespace {

constexpr double nothing_t = 1e-9;
constexpr double bearable_t = 1e-5;
constexpr double bearable_oxidant = 1e-6; // t x ppm

/// One run's figures from its tonnes alone.
class RunJudge {
public:
    RunJudge(const Problem& problem, int run, const Use& use) : p_(problem), r_(run), use_(use) {}

    RunResult judge(const Use* before) {
        for (const auto& [l, t] : use_)
            result_.planned_t += t;
        result_.short_t = std::max(0.0, p_.runs[r_].demand_t - result_.planned_t);
        result_.parts.shortage = p_.weights.short_per_t * p_.runs[r_].urgency * result_.short_t;
        result_.off_window.assign(p_.properties.size(), 0.0);
        if (p_.product_of(r_).one_lot_a_batch) { // nothing evens out: every lot by itself
            for (const auto& [l, t] : use_)
                judge_dough({{l, t}});
        } else {
            judge_dough(use_);
        }
        judge_blend();
        judge_age_and_cost();
        if (before)
            for (const auto& [l, t] : use_)
                result_.lot_changes += before->contains(l) ? 0 : 1;
        result_.parts.lot_changes = p_.weights.lot_change * result_.lot_changes;
        return std::move(result_);
    }

private:
    /// Flour that is mixed together.
    void judge_dough(const Use& use) {
        judge_windows(use);
        judge_maturity(use);
    }

    void judge_windows(const Use& use) {
        for (std::size_t k = 0; k < p_.properties.size(); ++k) {
            const Window& window = p_.product_of(r_).windows[k];
            double below = 0;
            double above = 0;
            for (const auto& [l, t] : use) {
                const double value = p_.lots[l].values[k];
                if (window.low)
                    below += (*window.low - value) * t;
                if (window.high)
                    above += (value - *window.high) * t;
            }
            below = std::max(0.0, below);
            above = std::max(0.0, above);
            result_.parts.windows += p_.weights.window_per_t_half_width * (below + above) / window.scale;
            if (result_.planned_t > nothing_t)
                result_.off_window[k] += (above - below) / result_.planned_t;
        }
    }

    /// The bakery's oxidant fills what maturity is missing, as far as the cap leaves room beside the mill's.
    void judge_maturity(const Use& use) {
        const Product& product = p_.product_of(r_);
        const double per_ppm = p_.oxidant_points_per_ppm;
        double gap = 0;
        double mill = 0;
        double mixed = 0;
        for (const auto& [l, t] : use) {
            mixed += t;
            gap += (product.maturity_target_points - p_.at(l, r_).maturity_points) * t;
            mill += p_.lots[l].mill_oxidant_ppm * t;
        }
        const bool may_dose = product.oxidant == OxidantPolicy::allowed && per_ppm > 0;
        const double room = may_dose ? std::max(0.0, product.oxidant_cap_ppm * mixed - mill) : 0.0;
        const double added = room > 0 && gap > 0 ? std::min(gap / per_ppm, room) : 0.0;
        const double missing = std::max(0.0, gap - per_ppm * added);
        result_.parts.oxidant += p_.weights.oxidant_per_t_100_ppm * added / 100;
        result_.parts.maturity += p_.weights.maturity_per_t_10_points * missing / 10;
        if (result_.planned_t <= nothing_t)
            return;
        result_.maturity_gap_points += missing / result_.planned_t;
        result_.added_oxidant_ppm += added / result_.planned_t;
    }

    void judge_blend() {
        if (result_.planned_t <= nothing_t)
            return;
        result_.blend.assign(p_.properties.size(), 0.0);
        for (const auto& [l, t] : use_) {
            const double share = t / result_.planned_t;
            for (std::size_t k = 0; k < p_.properties.size(); ++k)
                result_.blend[k] += share * p_.lots[l].values[k];
            result_.maturity_points += share * p_.at(l, r_).maturity_points;
            result_.mill_oxidant_ppm += share * p_.lots[l].mill_oxidant_ppm;
        }
    }

    /// Age and price count from the run's oldest and cheapest usable lot, else a constant would hide what was
    /// chosen.
    void judge_age_and_cost() {
        const double day = p_.runs[r_].day;
        double oldest = std::numeric_limits<double>::infinity();
        double cheapest = oldest;
        for (int l = 0; l < p_.lot_count(); ++l) {
            if (!p_.usable(l, r_))
                continue;
            oldest = std::min(oldest, (p_.lots[l].use_by_day - day) * (p_.lots[l].use_by_day - day));
            cheapest = std::min(cheapest, p_.lots[l].cost_per_t);
        }
        if (!std::isfinite(oldest))
            oldest = cheapest = 0;
        Parts& parts = result_.parts;
        for (const auto& [l, t] : use_) {
            const double left = p_.lots[l].use_by_day - day;
            if (day > p_.lots[l].best_before_day)
                parts.past_best += p_.weights.past_best_per_t * t;
            parts.age += p_.weights.age_quadratic * (left * left - oldest) * t;
            parts.cost += p_.weights.cost_scale * (p_.lots[l].cost_per_t - cheapest) * t;
        }
    }

    const Problem& p_;
    int r_;
    const Use& use_;
    RunResult result_;
};

class Judge {
public:
    Judge(const Problem& problem, const Plan& plan)
        : p_(problem), uses_(uses_of(problem, plan)), locks_(problem.runs.size()) {
        for (const Lock& lock : p_.locks)
            locks_[lock.run][lock.lot] += lock.tonnes;
        above_.assign(p_.lots.size(), -1);
        for (const auto& chain : p_.chains)
            for (std::size_t k = 1; k < chain.size(); ++k)
                above_[chain[k - 1]] = chain[k];
    }

    Evaluation judge() {
        for (const Lot& lot : p_.lots)
            e_.left_t.push_back(lot.stock_t);
        for (int r = 0; r < p_.run_count(); ++r) {
            const int prev = p_.runs[r].prev_on_line;
            e_.runs.push_back(evaluate_run(p_, r, uses_[r], prev >= 0 ? &uses_[prev] : nullptr));
            for (const auto& [l, t] : uses_[r])
                e_.left_t[l] -= t;
            if (p_.runs[r].state == RunState::open)
                rules_of_run(r);
            locks_of_run(r);
            e_.parts += e_.runs[r].parts;
            e_.short_t += e_.runs[r].short_t;
            e_.lot_changes += e_.runs[r].lot_changes;
        }
        judge_lots();
        for (const auto& chain : p_.chains)
            judge_order(chain);
        e_.objective = e_.parts.total();
        return std::move(e_);
    }

private:
    void rules_of_run(int r) {
        const Product& product = p_.product_of(r);
        const double total = e_.runs[r].planned_t;
        double locked_t = 0;
        double locked_mill = 0;
        for (const auto& [l, t] : locks_[r]) {
            locked_t += t;
            locked_mill += t * p_.lots[l].mill_oxidant_ppm;
        }
        for (const auto& [l, t] : uses_[r]) {
            const Cause cause = locks_[r].contains(l) ? Cause::lock : Cause::plan;
            if (!p_.usable(l, r))
                broken(Rule::usable, r, l, cause, fmt::format("{} may not be used in {}", lot(l), run(r)));
            if (t < product.min_share * total - bearable_t && !is_drawn_through(r, l))
                broken(Rule::least_share, r, l, cause,
                       fmt::format("{} is below its least share in {}", lot(l), run(r)));
        }
        if (product.one_lot_a_batch) {
            whole_batches(r);
        } else {
            double mill = 0;
            for (const auto& [l, t] : uses_[r])
                mill += t * p_.lots[l].mill_oxidant_ppm;
            if (mill > product.oxidant_cap_ppm * total + bearable_oxidant)
                broken(Rule::oxidant_cap, r, -1,
                       locked_mill > product.oxidant_cap_ppm * locked_t + bearable_oxidant ? Cause::lock
                                                                                           : Cause::plan,
                       fmt::format("the mill's oxidant is over the cap in {}", run(r)));
        }
        const int count = static_cast<int>(uses_[r].size());
        if (count > product.max_lots)
            broken(Rule::most_lots, r, -1,
                   count == static_cast<int>(locks_[r].size()) ? Cause::lock : Cause::plan,
                   fmt::format("{} has {} lots, at most {} are allowed", run(r), count, product.max_lots));
        if (total > p_.runs[r].demand_t + bearable_t)
            broken(Rule::demand, r, -1,
                   locked_t > p_.runs[r].demand_t + bearable_t ? Cause::lock : Cause::plan,
                   fmt::format("{} gets more than its need", run(r)));
    }

    /// The run comes to the end of what lies below, and goes on with what lies above it: how much it gets of
    /// either is not its choice.
    [[nodiscard]] bool is_drawn_through(int r, int l) const {
        const auto below = std::find(above_.begin(), above_.end(), l);
        return (above_[l] >= 0 && uses_[r].contains(above_[l])) ||
               (below != above_.end() && uses_[r].contains(static_cast<int>(below - above_.begin())));
    }

    /// Each lot fills batches of its own and keeps the cap by itself.
    void whole_batches(int r) {
        for (const auto& [l, t] : uses_[r]) {
            const Cause cause = locks_[r].contains(l) ? Cause::lock : Cause::plan;
            const double batches = t / p_.runs[r].batch_t;
            if (std::abs(batches - std::round(batches)) * p_.runs[r].batch_t > bearable_t)
                broken(Rule::whole_batches, r, l, cause,
                       fmt::format("{} gives {:.3f} batches in {}, whole ones are expected", lot(l), batches,
                                   run(r)));
            if (p_.lots[l].mill_oxidant_ppm > p_.product_of(r).oxidant_cap_ppm + bearable_oxidant)
                broken(Rule::oxidant_cap, r, l, cause,
                       fmt::format("the mill's oxidant in {} is over the cap in {}", lot(l), run(r)));
        }
    }

    void locks_of_run(int r) {
        for (const auto& [l, t] : locks_[r]) {
            const auto used = uses_[r].find(l);
            if (std::abs((used == uses_[r].end() ? 0.0 : used->second) - t) > bearable_t)
                broken(Rule::lock_kept, r, l, Cause::plan,
                       fmt::format("the lock of {} to {} is not kept", lot(l), run(r)));
        }
        if (p_.runs[r].state == RunState::open)
            return;
        for (const auto& [l, t] : uses_[r])
            if (!locks_[r].contains(l))
                broken(Rule::frozen, r, l, Cause::plan,
                       fmt::format("{} is frozen but gets {}", run(r), lot(l)));
    }

    void judge_lots() {
        for (int l = 0; l < p_.lot_count(); ++l) {
            double locked = 0;
            for (const Use& use : locks_)
                if (const auto item = use.find(l); item != use.end())
                    locked += item->second;
            if (e_.left_t[l] < -bearable_t)
                broken(Rule::stock, -1, l,
                       locked > p_.lots[l].stock_t + bearable_t ? Cause::lock : Cause::plan,
                       fmt::format("{:.4f} t more of {} than there are", -e_.left_t[l], lot(l)));
            if (p_.lots[l].use_by_day < p_.horizon_days)
                e_.parts.waste += p_.weights.waste_per_t * std::max(0.0, e_.left_t[l]);
        }
    }

    /// In date order no run gets of a lot while some of what lies below it is left.
    void judge_order(const std::vector<int>& chain) {
        std::vector<double> left;
        for (const int l : chain)
            left.push_back(p_.lots[l].stock_t);
        for (const int r : in_date_order(p_)) {
            for (std::size_t k = 0; k < chain.size(); ++k)
                if (const auto used = uses_[r].find(chain[k]); used != uses_[r].end())
                    left[k] -= used->second;
            if (p_.runs[r].state == RunState::frozen)
                continue;
            for (std::size_t k = 1; k < chain.size(); ++k) {
                const auto below = std::find_if(left.begin(), left.begin() + static_cast<std::ptrdiff_t>(k),
                                                [](double t) { return t > slight_rest_t; });
                if (!uses_[r].contains(chain[k]) || below == left.begin() + static_cast<std::ptrdiff_t>(k))
                    continue;
                broken(Rule::drawing_order, r, chain[k],
                       locks_[r].contains(chain[k]) ? Cause::lock : Cause::plan,
                       fmt::format("{} lies above {}, of which {:.3f} t are left in {}", lot(chain[k]),
                                   lot(chain[below - left.begin()]), *below, run(r)));
            }
        }
    }

    void broken(Rule rule, int r, int l, Cause cause, std::string words) {
        e_.broken.push_back({rule, r, l, cause, std::move(words)});
    }
    [[nodiscard]] const std::string& lot(int l) const { return p_.lots[l].id; }
    [[nodiscard]] const std::string& run(int r) const { return p_.runs[r].id; }

    const Problem& p_;
    std::vector<Use> uses_;
    std::vector<Use> locks_;
    std::vector<int> above_; ///< per lot: the one that lies on it; -1: none
    Evaluation e_;
};

} // namespace

Parts& Parts::operator+=(const Parts& more) {
    shortage += more.shortage;
    windows += more.windows;
    maturity += more.maturity;
    oxidant += more.oxidant;
    past_best += more.past_best;
    waste += more.waste;
    lot_changes += more.lot_changes;
    age += more.age;
    cost += more.cost;
    return *this;
}

void sort_assignments(Plan& plan) {
    std::sort(plan.assignments.begin(), plan.assignments.end(), [](const Assignment& a, const Assignment& b) {
        return std::pair(a.run, a.lot) < std::pair(b.run, b.lot);
    });
}

bool Evaluation::keeps_the_rules() const {
    return std::none_of(broken.begin(), broken.end(), [](const Broken& b) { return b.cause == Cause::plan; });
}

std::vector<Use> uses_of(const Problem& problem, const Plan& plan) {
    std::vector<Use> uses(problem.runs.size());
    for (const Assignment& a : plan.assignments)
        uses[a.run][a.lot] += a.tonnes;
    for (Use& use : uses)
        std::erase_if(use, [](const auto& item) { return item.second <= nothing_t; });
    return uses;
}

RunResult evaluate_run(const Problem& problem, int run, const Use& use, const Use* before) {
    return RunJudge(problem, run, use).judge(before);
}

Evaluation evaluate(const Problem& problem, const Plan& plan) { return Judge(problem, plan).judge(); }

} // namespace mellowbin::planning
