#include "planning/problem.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <tuple>

namespace mellowbin::planning {

namespace {

constexpr double slight_t = 1e-6;

/// Lots, runs and locks are looked into only when every index in them points somewhere.
Refusals check_sizes(const Problem& p) {
    Refusals no;
    if (p.properties.size() > most_properties)
        no.push_back(
            {"Properties",
             fmt::format("{} are given, at most {} are expected", p.properties.size(), most_properties), ""});
    for (const Product& product : p.products)
        if (product.windows.size() != p.properties.size())
            no.push_back({product.name, "must have one specification for each property", ""});
    for (const Lot& lot : p.lots)
        if (lot.values.size() != p.properties.size())
            no.push_back({lot.id, "must have one value for each property", ""});
    for (const Run& run : p.runs) {
        if (run.product < 0 || run.product >= static_cast<int>(p.products.size()))
            no.push_back({run.id, "names a product that is not in the list", "Name one of the products"});
        if (run.prev_on_line < -1 || run.prev_on_line >= p.run_count())
            no.push_back({run.id, "names a run before it on the line that is not in the list", ""});
    }
    for (const Lock& lock : p.locks)
        if (lock.run < 0 || lock.run >= p.run_count() || lock.lot < 0 || lock.lot >= p.lot_count())
            no.push_back({"Locks", "a lock names a run or a lot that is not in the list", "Undo the lock"});
    if (p.table.size() != p.runs.size() * p.lots.size())
        no.push_back({"", "the table of lots by runs does not fit the lists", ""});
    std::vector<int> chained(p.lots.size(), 0);
    for (const auto& chain : p.chains)
        for (const int l : chain)
            if (l < 0 || l >= p.lot_count() || ++chained[l] > 1)
                no.push_back({"Chains",
                              "a chain names a lot that is not in the list, or one of another chain",
                              "Correct the order in which the lots lie"});
    return no;
}

void check_products(const Problem& p, Refusals& no) {
    for (const Product& product : p.products) {
        for (std::size_t k = 0; k < product.windows.size(); ++k) {
            const Window& w = product.windows[k];
            const std::string field = product.name + ", " + p.properties[k].name;
            if (w.low && w.high && *w.low > *w.high)
                no.push_back({field,
                              fmt::format("the specification's low {} is above its high {}", *w.low, *w.high),
                              "Exchange them or correct one"});
            if (!(w.scale > 0))
                no.push_back({field, "the specification's scale must be above zero", ""});
        }
        if (product.max_lots < 1)
            no.push_back({product.name,
                          fmt::format("at most {} lots in a blend; at least 1 is expected", product.max_lots),
                          ""});
        if (!(product.min_share >= 0 && product.min_share <= 1))
            no.push_back(
                {product.name, fmt::format("the least share {} must be from 0 to 1", product.min_share), ""});
        if (!(product.oxidant_cap_ppm >= 0))
            no.push_back({product.name, "the oxidant cap must be zero or more", ""});
    }
    const Weights& w = p.weights;
    for (const double weight :
         {w.short_per_t, w.window_per_t_half_width, w.maturity_per_t_10_points, w.past_best_per_t,
          w.waste_per_t, w.oxidant_per_t_100_ppm, w.lot_change, w.age_quadratic, w.cost_scale})
        if (!(weight >= 0)) {
            no.push_back({"Weights", "every weight must be zero or more", ""});
            break;
        }
    if (!(p.oxidant_points_per_ppm >= 0))
        no.push_back({"Oxidant", "points per ppm must be zero or more", ""});
}

void check_lots_and_runs(const Problem& p, Refusals& no) {
    std::map<std::string, int> seen;
    for (const Lot& lot : p.lots) {
        if (++seen[lot.id] == 2)
            no.push_back({lot.id, "stands twice in the list of lots", "Keep one"});
        if (!(lot.stock_t >= 0) || !std::isfinite(lot.stock_t))
            no.push_back({lot.id, fmt::format("has {} t in stock; zero or more is expected", lot.stock_t),
                          "Count the lot"});
        if (!(lot.mill_oxidant_ppm >= 0))
            no.push_back({lot.id, "the mill's oxidant must be zero or more", ""});
    }
    seen.clear();
    for (const Run& run : p.runs) {
        if (++seen[run.id] == 2)
            no.push_back({run.id, "stands twice in the list of runs", "Keep one"});
        if (!(run.demand_t >= 0) || !std::isfinite(run.demand_t))
            no.push_back({run.id, fmt::format("needs {} t; zero or more is expected", run.demand_t), ""});
        if (!(run.urgency > 0) || !std::isfinite(run.urgency))
            no.push_back({run.id, "its urgency must be above zero", ""});
        if (p.products[run.product].one_lot_a_batch && !(run.batch_t > 0))
            no.push_back({run.id, "takes one lot a batch: the flour of a batch must be above zero", ""});
    }
    for (int r = 0; r < p.run_count(); ++r)
        for (int l = 0; l < p.lot_count(); ++l)
            if (p.usable(l, r))
                for (const double value : p.lots[l].values)
                    if (!std::isfinite(value)) {
                        no.push_back(
                            {p.lots[l].id,
                             "has a property that is not known and cannot be used in " + p.runs[r].id,
                             "Enter the figure"});
                        return;
                    }
}

void check_lines(const Problem& p, Refusals& no) {
    std::vector<int> walk_of(p.runs.size(), -1);
    for (int start = 0; start < p.run_count(); ++start) {
        int r = start;
        while (r >= 0 && walk_of[r] < 0) {
            walk_of[r] = start;
            r = p.runs[r].prev_on_line;
        }
        if (r >= 0 && walk_of[r] == start) {
            no.push_back({p.runs[r].id, "comes before itself on its line: the runs before it form a loop",
                          "Correct which run comes before"});
            return;
        }
    }
}

void check_locks(const Problem& p, Refusals& no) {
    std::vector<double> from_lot(p.lots.size(), 0.0);
    std::vector<double> for_run(p.runs.size(), 0.0);
    std::vector<double> ppm_t(p.runs.size(), 0.0);
    std::map<std::pair<int, int>, int> seen;
    for (const Lock& lock : p.locks) {
        const Lot& lot = p.lots[lock.lot];
        const Run& run = p.runs[lock.run];
        if (!(lock.tonnes >= 0) || !std::isfinite(lock.tonnes)) {
            no.push_back(
                {run.id, fmt::format("{} is locked with {} t; zero or more is expected", lot.id, lock.tonnes),
                 "Undo the lock"});
            continue;
        }
        from_lot[lock.lot] += lock.tonnes;
        if (run.state == RunState::frozen)
            continue;
        for_run[lock.run] += lock.tonnes;
        ppm_t[lock.run] += lock.tonnes * lot.mill_oxidant_ppm;
        if (++seen[{lock.run, lock.lot}] == 2)
            no.push_back({run.id, lot.id + " is locked twice", "Undo one of the locks"});
        if (!p.usable(lock.lot, lock.run))
            no.push_back({run.id, lot.id + " is locked to this run but may not be used in it",
                          "Undo the lock, or lift what forbids the lot"});
    }
    for (int l = 0; l < p.lot_count(); ++l)
        if (from_lot[l] > p.lots[l].stock_t + slight_t && from_lot[l] > 0)
            no.push_back(
                {p.lots[l].id,
                 fmt::format("{:.3f} t are locked, {:.3f} t are there", from_lot[l], p.lots[l].stock_t),
                 "Undo a lock or count the lot"});
    for (int r = 0; r < p.run_count(); ++r) {
        if (for_run[r] > p.runs[r].demand_t + slight_t)
            no.push_back(
                {p.runs[r].id,
                 fmt::format("{:.3f} t are locked, {:.3f} t are needed", for_run[r], p.runs[r].demand_t),
                 "Undo a lock"});
        else if (ppm_t[r] > p.product_of(r).oxidant_cap_ppm * p.runs[r].demand_t + slight_t)
            no.push_back({p.runs[r].id,
                          "the locked lots bring more oxidant from the mill than the limit allows",
                          "Undo a lock"});
    }
}

} // namespace

void Problem::ban(int lot, int run, Ban why, const std::string& words) {
    LotForRun& cell = at(lot, run);
    cell.ban = why;
    cell.note = 0;
    if (words.empty())
        return;
    // The same words come in a row (one lot over all its runs): kept once.
    if (notes.back() != words)
        notes.push_back(words);
    cell.note = static_cast<std::int32_t>(notes.size()) - 1;
}

std::vector<int> in_date_order(const Problem& problem) {
    std::vector<int> order(problem.runs.size());
    std::iota(order.begin(), order.end(), 0);
    std::sort(order.begin(), order.end(), [&](int a, int b) {
        const Run& x = problem.runs[a];
        const Run& y = problem.runs[b];
        return std::tuple(x.day, x.shift, x.line, a) < std::tuple(y.day, y.shift, y.line, b);
    });
    return order;
}

Refusals check(const Problem& problem) {
    Refusals no = check_sizes(problem);
    if (!no.empty())
        return no;
    check_products(problem, no);
    check_lots_and_runs(problem, no);
    check_lines(problem, no);
    check_locks(problem, no);
    return no;
}

} // namespace mellowbin::planning
