#include "planning/improve.h"

#include <algorithm>
#include <cmath>

namespace mellowbin::planning {

namespace {

/// On a small problem there is time to try again to fill what was emptied, in another order each.
constexpr std::size_t small_runs = 50;
constexpr int attempts_when_small = 4;

} // namespace

std::vector<double> least_costs(const Problem& problem, const Tables& tables) {
    OpenPlan open_plan(problem, tables);
    std::vector<double> least(problem.runs.size(), 0.0);
    for (int r = 0; r < problem.run_count(); ++r)
        if (tables.runs[r].fill_t > 0)
            least[r] = open_plan.least_cost(r);
    return least;
}

Improver::Improver(const Problem& problem, const Tables& tables, const std::vector<double>& least,
                   std::vector<int> open, std::uint64_t seed)
    : plan_(problem, tables), ruins_(plan_, std::move(open)), dice_(seed), least_(least),
      price_(problem.lots.size(), 0.0), best_blends_(problem.runs.size()), has_strayed_(problem.runs.size()) {
}

void Improver::start_from(const Plan& plan) {
    best_ = std::numeric_limits<double>::infinity();
    go_on_from(plan);
}

void Improver::go_on_from(const Plan& plan) {
    plan_.take_over(plan);
    out_of_order_ = plan_.out_of_order();
    now_ = plan_.objective();
    for (int r = 0; r < plan_.problem().run_count(); ++r)
        stray(r);
    keep_if_best();
}

void Improver::join(const Improver& other) {
    plan_.take_over(other.plan_);
    out_of_order_ = other.out_of_order_;
    now_ = other.now_;
    for (int r = 0; r < plan_.problem().run_count(); ++r)
        stray(r);
    keep_if_best();
}

void Improver::set_prices(std::vector<double> per_t) { prices_ = std::move(per_t); }

void Improver::walk(std::int64_t steps, double warmth) {
    if (ruins_.open().empty())
        return;
    for (; steps > 0; --steps)
        step(warmth);
}

/// Mostly what the lots are worth to the plan, more or less of it, so that runs filled early leave some to
/// those filled later. Now and then two lots are made dear by anything from 1 to 1000 a tonne: on small
/// scarce problems this finds what filling one after another cannot.
const double* Improver::choose_price() {
    constexpr double priced = 0.8;
    constexpr double most_weight = 1.5;
    constexpr int one_in = 4;
    constexpr int dear_lots = 2;
    if (!prices_.empty() && dice_.chance() < priced) {
        const double weight = most_weight * dice_.chance();
        for (std::size_t l = 0; l < price_.size(); ++l)
            price_[l] = weight * prices_[l];
        return price_.data();
    }
    if (dice_.pick(one_in) != 0)
        return nullptr;
    std::fill(price_.begin(), price_.end(), 0.0);
    for (int i = 0; i < dear_lots; ++i) {
        const RunTable& table = plan_.tables().runs[ruined_[dice_.pick(std::ssize(ruined_))]];
        if (table.count() > 0)
            price_[table.lot[dice_.pick(table.count())]] = std::pow(10.0, 3 * dice_.chance());
    }
    return price_.data();
}

/// What changes when the ruined runs change: theirs, and the lot changes of those that follow them.
double Improver::cost_touched() const {
    double cost = 0;
    for (const int r : touched_)
        cost += plan_.cost_of_run(r);
    return cost;
}

void Improver::choose_touched() {
    touched_ = ruined_;
    for (const int r : ruined_)
        for (const int next : plan_.tables().next[r])
            if (std::find(touched_.begin(), touched_.end(), next) == touched_.end())
                touched_.push_back(next);
}

/// Lot changes that the runs after this one could save by it, and charges for changing it, at most.
double Improver::most_saved_by(int run) const {
    int lots = 0;
    for (const int next : plan_.tables().next[run]) {
        const bool ruined = std::find(ruined_.begin(), ruined_.end(), next) != ruined_.end();
        lots += static_cast<int>(plan_.tables().locked[next].size()) +
                (ruined ? plan_.tables().runs[next].max_free_lots : plan_.blend(next).count);
    }
    return plan_.problem().weights.lot_change * lots + plan_.habit_worth(run);
}

/// Fills the ruined runs one after another for less than the budget; gives up as soon as that cannot be.
bool Improver::refill(double budget) {
    const double* price = choose_price();
    // On a small problem what the last one leaves is often wanted by none.
    const bool free_end = ruins_.open().size() <= small_runs && dice_.pick(2) == 0;
    double rest = 0;
    for (const int r : ruined_)
        rest += least_[r] - most_saved_by(r);
    spent_ = 0;
    for (filled_ = 0; filled_ < ruined_.size();) {
        const int r = ruined_[filled_];
        const RunTable& table = plan_.tables().runs[r];
        const double saved = most_saved_by(r);
        rest -= least_[r] - saved;
        const double limit = budget - spent_ - rest;
        const double cheapest = std::min(0.0, table.least_linear) - saved;
        const double missing = table.short_cost > 0 ? (limit - cheapest) / table.short_cost : 1.0;
        const bool is_last = filled_ + 1 == ruined_.size();
        spent_ +=
            plan_.fill(r, is_last && free_end ? nullptr : price, {limit, std::clamp(missing, 0.0, 1.0)});
        ++filled_;
        if (spent_ + rest > budget)
            return false;
    }
    return true;
}

/// In another order the same runs may come out better. False where there is no other.
bool Improver::put_another_first() {
    if (ruined_.size() < 2)
        return false;
    const auto i = 1 + static_cast<std::size_t>(dice_.pick(std::ssize(ruined_) - 1));
    std::swap(ruined_[0], ruined_[i]);
    std::swap(saved_[0], saved_[i]);
    return true;
}

/// No more lots are held out of order than before the step; without chains it costs nothing to ask.
bool Improver::keeps_order() {
    const int now = plan_.out_of_order();
    if (now > out_of_order_)
        return false;
    out_of_order_ = now;
    return true;
}

void Improver::step(double warmth) {
    ruined_ = ruins_.choose(dice_);
    choose_touched();
    const double before = cost_touched();
    saved_.clear();
    for (const int r : ruined_)
        saved_.push_back(plan_.blend(r));
    for (const int r : ruined_)
        plan_.empty(r);
    double bare = cost_touched();
    for (const int r : ruined_)
        bare -= plan_.blend(r).cost;
    const double worse = -warmth * std::log(1.0 - dice_.chance());
    const int attempts = ruins_.open().size() <= small_runs ? attempts_when_small : 1;
    for (int attempt = 0; attempt < attempts; ++attempt) {
        if (attempt > 0 && !put_another_first())
            break;
        if (refill(before + worse - bare) && keeps_order()) {
            now_ += bare + spent_ - before;
            for (const int r : ruined_)
                stray(r);
            keep_if_best();
            return;
        }
        for (std::size_t i = 0; i < filled_; ++i)
            plan_.empty(ruined_[i]);
    }
    for (std::size_t i = 0; i < ruined_.size(); ++i)
        plan_.put(ruined_[i], saved_[i]);
}

void Improver::stray(int run) {
    if (has_strayed_[run])
        return;
    has_strayed_[run] = true;
    strayed_.push_back(run);
}

void Improver::keep_if_best() {
    if (now_ >= best_ - 1e-6)
        return;
    best_ = now_;
    for (const int r : strayed_) {
        best_blends_[r] = plan_.blend(r);
        has_strayed_[r] = false;
    }
    strayed_.clear();
}

Plan Improver::best_plan() const {
    OpenPlan best(plan_.problem(), plan_.tables());
    best.take_over(plan_);
    for (const int r : strayed_)
        best.empty(r);
    for (const int r : strayed_)
        best.put(r, best_blends_[r]);
    return best.plan();
}

} // namespace mellowbin::planning
