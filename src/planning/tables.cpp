#include "planning/tables.h"

#include "planning/evaluate.h"

#include <algorithm>
#include <limits>

namespace mellowbin::planning {

namespace {

/// What a hinge says of one tonne of a lot, and what a unit of it weighs.
struct Hinge {
    double weight;
    std::vector<double> per_t; ///< per lot of the problem
};

std::vector<Hinge> window_hinges(const Problem& p, int run) {
    std::vector<Hinge> hinges;
    const Product& product = p.product_of(run);
    for (std::size_t k = 0; k < product.windows.size(); ++k) {
        const Window& window = product.windows[k];
        const double weight = p.weights.window_per_t_half_width / window.scale;
        Hinge below{weight, {}};
        Hinge above{weight, {}};
        for (const Lot& lot : p.lots) {
            if (window.low)
                below.per_t.push_back(*window.low - lot.values[k]);
            if (window.high)
                above.per_t.push_back(lot.values[k] - *window.high);
        }
        if (window.low)
            hinges.push_back(std::move(below));
        if (window.high)
            hinges.push_back(std::move(above));
    }
    return hinges;
}

/// Missing maturity costs what oxidant costs, and beyond the room under the cap what missing maturity itself
/// costs. Where oxidant is the dearer of the two the sum of hinges is a little below the true cost; it stays
/// a lower bound.
std::vector<Hinge> maturity_hinges(const Problem& p, int run) {
    const Product& product = p.product_of(run);
    const double per_ppm = p.oxidant_points_per_ppm;
    const double missing = p.weights.maturity_per_t_10_points / 10;
    const bool may_dose = product.oxidant == OxidantPolicy::allowed && per_ppm > 0;
    const double dosed =
        may_dose ? std::min(missing, p.weights.oxidant_per_t_100_ppm / 100 / per_ppm) : missing;
    Hinge gap{dosed, {}};
    Hinge beyond{missing - dosed, {}};
    for (int l = 0; l < p.lot_count(); ++l) {
        const double points = product.maturity_target_points - p.at(l, run).maturity_points;
        gap.per_t.push_back(points);
        beyond.per_t.push_back(points - per_ppm * (product.oxidant_cap_ppm - p.lots[l].mill_oxidant_ppm));
    }
    return {std::move(gap), std::move(beyond)};
}

void add_linear(const Problem& p, RunTable& table) {
    const double day = p.runs[table.run].day;
    double oldest = std::numeric_limits<double>::infinity();
    double cheapest = oldest;
    const auto square_left = [&](int l) {
        return (p.lots[l].use_by_day - day) * (p.lots[l].use_by_day - day);
    };
    for (int l = 0; l < p.lot_count(); ++l) {
        if (!p.usable(l, table.run))
            continue;
        oldest = std::min(oldest, square_left(l));
        cheapest = std::min(cheapest, p.lots[l].cost_per_t);
    }
    for (const int l : table.lot) {
        const Lot& lot = p.lots[l];
        double per_t = p.weights.age_quadratic * (square_left(l) - oldest) +
                       p.weights.cost_scale * (lot.cost_per_t - cheapest);
        if (day > lot.best_before_day)
            per_t += p.weights.past_best_per_t;
        if (lot.use_by_day < p.horizon_days)
            per_t -= p.weights.waste_per_t;
        table.linear.push_back(per_t * table.fill_t);
    }
}

void add_hinges(const Problem& p, RunTable& table, const std::vector<Lock>& locks) {
    std::vector<Hinge> all = window_hinges(p, table.run);
    for (Hinge& hinge : maturity_hinges(p, table.run))
        all.push_back(std::move(hinge));
    std::vector<Hinge> used;
    for (Hinge& hinge : all) {
        double base = 0;
        for (const Lock& lock : locks)
            base += hinge.weight * hinge.per_t[lock.lot] * lock.tonnes;
        bool turns = base > 0;
        for (const int l : table.lot)
            turns = turns || base + hinge.weight * hinge.per_t[l] * table.fill_t > 0;
        if (!turns || hinge.weight <= 0)
            continue;
        table.base.push_back(base);
        table.hinge_weight.push_back(hinge.weight);
        used.push_back(std::move(hinge));
    }
    table.hinges = static_cast<int>(used.size());
    for (const int l : table.lot) {
        double cost = 0;
        std::uint64_t over = 0;
        for (int k = 0; k < table.hinges; ++k) {
            const double value = table.base[k] + used[k].weight * used[k].per_t[l] * table.fill_t;
            table.pure.push_back(value);
            cost += std::max(0.0, value);
            if (value > 0)
                over |= std::uint64_t{1} << k;
        }
        table.pure_cost.push_back(cost);
        table.over.push_back(over);
    }
}

/// A batch of one lot keeps windows and maturity by itself: the hinges of the lot alone become a linear cost.
void fold_hinges(RunTable& table) {
    for (std::size_t c = 0; c < table.linear.size(); ++c)
        table.linear[c] += table.pure_cost[c];
    std::fill(table.pure_cost.begin(), table.pure_cost.end(), 0.0);
    std::fill(table.over.begin(), table.over.end(), std::uint64_t{0});
    table.hinges = 0;
    table.pure.clear();
    table.base.clear();
    table.hinge_weight.clear();
}

void add_law(const Problem& p, RunTable& table, const std::vector<Lock>& locks) {
    const double cap = p.product_of(table.run).oxidant_cap_ppm;
    for (const Lock& lock : locks)
        table.law_base += lock.tonnes * (p.lots[lock.lot].mill_oxidant_ppm - cap);
    bool reached = table.law_base > 0;
    for (const int l : table.lot) {
        table.law.push_back(table.fill_t * (p.lots[l].mill_oxidant_ppm - cap));
        reached = reached || table.law_base + table.law.back() > 0;
    }
    if (!reached)
        table.law.clear();
}

RunTable make_run_table(const Problem& p, int r, const std::vector<Lock>& locks) {
    const Run& run = p.runs[r];
    const Product& product = p.product_of(r);
    RunTable table;
    table.run = r;
    std::vector<bool> is_locked(p.lots.size(), false);
    int locked_lots = 0;
    for (const Lock& lock : locks) {
        table.locked_t += lock.tonnes;
        locked_lots += lock.tonnes > 0 ? 1 : 0;
        is_locked[lock.lot] = true;
    }
    const double fill = run.demand_t - table.locked_t;
    if (run.state == RunState::frozen || fill <= 1e-9)
        return table;
    table.fill_t = fill;
    table.short_cost = p.weights.short_per_t * run.urgency * fill;
    table.tonne_share = product.min_share;
    table.share = product.min_share * run.demand_t / fill;
    table.locked_share = product.min_share * table.locked_t / fill;
    table.max_free_lots = std::max(0, product.max_lots - locked_lots);
    for (int l = 0; l < p.lot_count(); ++l) {
        const bool keeps_cap =
            !product.one_lot_a_batch || p.lots[l].mill_oxidant_ppm <= product.oxidant_cap_ppm;
        if (p.usable(l, r) && !is_locked[l] && keeps_cap)
            table.lot.push_back(l);
    }
    add_linear(p, table);
    if (!table.linear.empty())
        table.least_linear = *std::min_element(table.linear.begin(), table.linear.end());
    if (product.one_lot_a_batch) {
        table.batch_share = run.batch_t / fill;
        add_hinges(p, table, {});
        fold_hinges(table);
        return table;
    }
    add_hinges(p, table, locks);
    add_law(p, table, locks);
    return table;
}

} // namespace

Tables make_tables(const Problem& p) {
    Tables tables;
    tables.locked.resize(p.runs.size());
    tables.next.resize(p.runs.size());
    for (const Lot& lot : p.lots)
        tables.free_t.push_back(lot.stock_t);
    std::vector<std::vector<Lock>> locks(p.runs.size());
    Plan locked;
    for (const Lock& lock : p.locks) {
        locks[lock.run].push_back(lock);
        tables.free_t[lock.lot] = std::max(0.0, tables.free_t[lock.lot] - lock.tonnes);
        if (lock.tonnes > 0)
            tables.locked[lock.run].push_back(lock.lot);
        locked.assignments.push_back({lock.run, lock.lot, lock.tonnes});
    }
    const Evaluation of_locks = evaluate(p, locked);
    tables.constant = of_locks.parts.waste;
    for (int r = 0; r < p.run_count(); ++r) {
        if (p.runs[r].prev_on_line >= 0)
            tables.next[p.runs[r].prev_on_line].push_back(r);
        tables.runs.push_back(make_run_table(p, r, locks[r]));
        RunTable& table = tables.runs.back();
        const Parts& parts = of_locks.runs[r].parts;
        table.fixed_cost = parts.total() - parts.lot_changes;
        if (table.fill_t > 0) // windows, maturity and oxidant follow from the whole blend
            table.fixed_cost = table.batch_share > 0 ? table.fixed_cost - parts.shortage
                                                     : parts.past_best + parts.age + parts.cost;
        tables.constant += table.fixed_cost;
    }
    return tables;
}

} // namespace mellowbin::planning
