#include "planning/make_plan.h"
#include "planning/tables.h"

#include <algorithm>
#include <numeric>
#include <utility>
#include <vector>

namespace mellowbin::planning {

namespace {

/// First what suits by itself, then the rest; in each the first to expire first.
std::vector<int> in_order_of_use(const Problem& problem, const RunTable& run) {
    std::vector<int> places(run.lot.size());
    std::iota(places.begin(), places.end(), 0);
    const auto key = [&](int c) { return std::pair(run.over[c] != 0, problem.lots[run.lot[c]].use_by_day); };
    std::stable_sort(places.begin(), places.end(), [&](int a, int b) { return key(a) < key(b); });
    std::vector<int> lots;
    for (const int c : places)
        lots.push_back(run.lot[c]);
    return lots;
}

} // namespace

/// Splits what is still needed between lots so that each has at least its least share: a lot that cannot hold
/// one is passed over, and the last one in takes enough from the one before.
Plan first_expiring_plan(const Problem& problem) {
    const Tables tables = make_tables(problem);
    std::vector<double> free_t = tables.free_t;
    Plan plan;
    for (const Lock& lock : problem.locks)
        if (lock.tonnes > 0)
            plan.assignments.push_back({lock.run, lock.lot, lock.tonnes});
    for (const int r : in_date_order(problem)) {
        const RunTable& run = tables.runs[r];
        const std::vector<int> lots = in_order_of_use(problem, run);
        const double least = run.share * run.fill_t;
        double need = run.fill_t;
        int places = run.max_free_lots;
        std::vector<Assignment> parts;
        const double cap = run.fill_t > 0 ? problem.product_of(r).oxidant_cap_ppm : 0.0;
        for (const int l : lots) {
            if (need <= 1e-9 || places == 0)
                break;
            if (problem.lots[l].mill_oxidant_ppm > cap || free_t[l] < std::max(least, 1e-6))
                continue;
            double take = std::min(need, free_t[l]);
            if (take < need && need - take < least)
                take = need - least;
            if (take < least)
                continue;
            parts.push_back({r, l, take});
            free_t[l] -= take;
            need -= take;
            --places;
        }
        plan.assignments.insert(plan.assignments.end(), parts.begin(), parts.end());
    }
    sort_assignments(plan);
    return plan;
}

} // namespace mellowbin::planning
