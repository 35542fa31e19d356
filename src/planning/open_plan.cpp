#include "planning/open_plan.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace mellowbin::planning {

OpenPlan::OpenPlan(const Problem& problem, const Tables& tables)
    : problem_(problem), tables_(tables), blends_(problem.runs.size()), free_t_(tables.free_t),
      charge_(problem.lots.size(), 0.0), holders_(problem.lots.size()) {
    for (int r = 0; r < problem.run_count(); ++r)
        blends_[r].cost = cost_of(tables.runs[r], blends_[r]);
    if (problem.chains.empty())
        return;
    place_.resize(problem.runs.size());
    int place = 0;
    for (const int r : in_date_order(problem))
        place_[r] = place++;
}

bool OpenPlan::holds(int run, int lot) const {
    const std::vector<int>& locked = tables_.locked[run];
    if (std::find(locked.begin(), locked.end(), lot) != locked.end())
        return true;
    const Blend& blend = blends_[run];
    for (int i = 0; i < blend.count; ++i)
        if (tables_.runs[run].lot[blend.parts[i].candidate] == lot)
            return true;
    return false;
}

/// Calls `visit(lot)` for every lot a run holds, locked or not.
template <class Visit>
void each_lot(const RunTable& table, const std::vector<int>& locked, const Blend& blend, Visit visit) {
    for (const int l : locked)
        visit(l);
    for (int i = 0; i < blend.count; ++i)
        visit(table.lot[blend.parts[i].candidate]);
}

/// A lot costs a change where the run before does not have it, and saves one where a run after does.
void OpenPlan::set_charges(int run) {
    const double change = problem_.weights.lot_change;
    const int prev = problem_.runs[run].prev_on_line;
    std::fill(charge_.begin(), charge_.end(), prev >= 0 ? change : 0.0);
    if (prev >= 0)
        each_lot(tables_.runs[prev], tables_.locked[prev], blends_[prev], [&](int l) { charge_[l] = 0; });
    for (const int next : tables_.next[run])
        each_lot(tables_.runs[next], tables_.locked[next], blends_[next],
                 [&](int l) { charge_[l] -= change; });
    if (!habit_ || habit_->lots[run].empty())
        return;
    for (double& charge : charge_)
        charge += habit_->charge;
    for (const int l : habit_->lots[run])
        charge_[l] -= 2 * habit_->charge; // a lot that stays is not lost
}

double OpenPlan::habit_worth(int run) const {
    return habit_ ? habit_->charge * static_cast<double>(habit_->lots[run].size()) : 0.0;
}

double OpenPlan::charge_for_change(int run) const {
    if (!habit_ || habit_->lots[run].empty())
        return 0;
    const std::vector<int>& before = habit_->lots[run];
    int kept = 0;
    for (const int l : before)
        kept += holds(run, l) ? 1 : 0;
    return habit_->charge * (static_cast<int>(before.size()) + blends_[run].count - 2 * kept);
}

double OpenPlan::fill(int run, const double* price, const Interest& interest) {
    set_charges(run);
    const RunTable& table = tables_.runs[run];
    Blend blend = kernel_.best(table, {stock_for(run), price, charge_.data()}, interest);
    for (const auto& chain : problem_.chains) {
        const Blend through = drawn_through(run, chain);
        if (through.count > 1 && asked_for(run, through, price) < asked_for(run, blend, price))
            blend = through;
    }
    put(run, blend);
    return asked_for(run, blend, nullptr);
}

/// The blend's cost with its charges and, where there are some, prices.
double OpenPlan::asked_for(int run, const Blend& blend, const double* price) const {
    const RunTable& table = tables_.runs[run];
    double cost = blend.cost;
    for (int i = 0; i < blend.count; ++i) {
        const int l = table.lot[blend.parts[i].candidate];
        cost += charge_[l] + (price ? price[l] * blend.parts[i].share * table.fill_t : 0.0);
    }
    return cost;
}

double OpenPlan::least_cost(int run) {
    std::fill(charge_.begin(), charge_.end(), 0.0);
    return kernel_.best(tables_.runs[run], {tables_.free_t.data(), nullptr, charge_.data()}).cost;
}

void OpenPlan::take_over(const OpenPlan& other) {
    blends_ = other.blends_;
    free_t_ = other.free_t_;
    holders_ = other.holders_;
}

void OpenPlan::put(int run, const Blend& blend) {
    const RunTable& table = tables_.runs[run];
    blends_[run] = blend;
    for (int i = 0; i < blend.count; ++i) {
        const int l = table.lot[blend.parts[i].candidate];
        free_t_[l] = std::max(0.0, free_t_[l] - blend.parts[i].share * table.fill_t);
        holders_[l].push_back(run);
    }
}

void OpenPlan::empty(int run) {
    const RunTable& table = tables_.runs[run];
    Blend& blend = blends_[run];
    for (int i = 0; i < blend.count; ++i) {
        const int l = table.lot[blend.parts[i].candidate];
        free_t_[l] += blend.parts[i].share * table.fill_t;
        std::erase(holders_[l], run);
    }
    blend.count = 0;
    blend.cost = cost_of(table, blend);
}

void OpenPlan::take_over(const Plan& plan) {
    free_t_ = tables_.free_t;
    for (auto& holders : holders_)
        holders.clear();
    std::vector<Blend> blends(blends_.size());
    for (const Assignment& a : plan.assignments) {
        const RunTable& table = tables_.runs[a.run];
        const auto found = std::find(table.lot.begin(), table.lot.end(), a.lot);
        Blend& blend = blends[a.run];
        if (found == table.lot.end() || blend.count == most_blended)
            continue;
        blend.parts[blend.count++] = {static_cast<int>(found - table.lot.begin()), a.tonnes / table.fill_t};
    }
    for (int r = 0; r < problem_.run_count(); ++r) {
        blends[r].cost = cost_of(tables_.runs[r], blends[r]);
        put(r, blends[r]);
    }
}

double OpenPlan::cost_of_run(int run) const {
    const int prev = problem_.runs[run].prev_on_line;
    int changes = 0;
    if (prev >= 0)
        each_lot(tables_.runs[run], tables_.locked[run], blends_[run],
                 [&](int l) { changes += holds(prev, l) ? 0 : 1; });
    return blends_[run].cost + problem_.weights.lot_change * changes + charge_for_change(run);
}

double OpenPlan::objective() const {
    double total = tables_.constant;
    for (int r = 0; r < problem_.run_count(); ++r)
        total += cost_of_run(r);
    return total;
}

Plan OpenPlan::plan() const {
    Plan plan;
    for (const Lock& lock : problem_.locks)
        if (lock.tonnes > 0)
            plan.assignments.push_back({lock.run, lock.lot, lock.tonnes});
    for (int r = 0; r < problem_.run_count(); ++r) {
        const RunTable& table = tables_.runs[r];
        for (int i = 0; i < blends_[r].count; ++i) {
            const Blend::Part& part = blends_[r].parts[i];
            plan.assignments.push_back({r, table.lot[part.candidate], part.share * table.fill_t});
        }
    }
    sort_assignments(plan);
    return plan;
}

void fill_in_order(OpenPlan& open_plan, const std::vector<int>& order, const double* price,
                   const std::stop_token& stop) {
    for (const int run : order) {
        if (stop.stop_requested())
            return;
        open_plan.fill(run, price);
    }
}

} // namespace mellowbin::planning
