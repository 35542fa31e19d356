// What an open plan knows of lots that lie one on another.

#include "planning/open_plan.h"

#include <algorithm>

namespace mellowbin::planning {

/// Tonnes of the lot that the runs up to this place, locked ones too, leave.
double OpenPlan::left_after(int lot, int place) const {
    double left = problem_.lots[lot].stock_t;
    for (const Lock& lock : problem_.locks)
        if (lock.lot == lot && place_[lock.run] <= place)
            left -= lock.tonnes;
    for (const int run : holders_[lot]) {
        if (place_[run] > place)
            continue;
        const RunTable& table = tables_.runs[run];
        for (int i = 0; i < blends_[run].count; ++i)
            if (table.lot[blends_[run].parts[i].candidate] == lot)
                left -= blends_[run].parts[i].share * table.fill_t;
    }
    return left;
}

/// What an empty run may take of every lot: of a chain only its lowest that runs before have not drawn up.
const double* OpenPlan::stock_for(int run) {
    if (problem_.chains.empty())
        return free_t_.data();
    allowed_t_ = free_t_;
    for (const auto& chain : problem_.chains) {
        bool is_next = true;
        for (const int lot : chain) {
            if (!is_next) {
                allowed_t_[lot] = 0;
                continue;
            }
            const double left = left_after(lot, place_[run]);
            allowed_t_[lot] = std::clamp(left, 0.0, free_t_[lot]);
            is_next = left <= slight_rest_t;
        }
    }
    return allowed_t_.data();
}

/// An empty run filled from the chain alone, as it would come: what is left of the lowest, then what lies on
/// it. Fewer than two parts where it cannot go on to a second one.
Blend OpenPlan::drawn_through(int run, const std::vector<int>& chain) const {
    const RunTable& table = tables_.runs[run];
    Blend blend;
    if (table.fill_t <= 0 || table.batch_share > 0)
        return blend;
    double open = 1;
    double law = table.law_base;
    for (const int lot : chain) {
        const double left = left_after(lot, place_[run]);
        if (left <= slight_rest_t)
            continue;
        const auto candidate = std::find(table.lot.begin(), table.lot.end(), lot);
        if (candidate == table.lot.end() || blend.count == std::min(table.max_free_lots, most_blended))
            break;
        const double there = std::min(left, free_t_[lot]);
        const double share = std::min(open, there / table.fill_t);
        if (share <= 1e-7)
            break;
        const auto index = static_cast<int>(candidate - table.lot.begin());
        blend.parts[blend.count++] = {index, share};
        open -= share;
        if (!table.law.empty())
            law += share * table.law[index];
        if (open <= 1e-9 ||
            there < left - slight_rest_t) // later runs have the rest: what lies above is out of reach
            break;
    }
    if (!table.law.empty() && law > 1e-7)
        return {};
    blend.cost = cost_of(table, blend);
    return blend;
}

bool OpenPlan::is_out_of_order(int run) const {
    const RunTable& table = tables_.runs[run];
    const auto holds_free = [&](int lot) {
        for (int i = 0; i < blends_[run].count; ++i)
            if (table.lot[blends_[run].parts[i].candidate] == lot)
                return true;
        return false;
    };
    for (const auto& chain : problem_.chains)
        for (std::size_t k = 1; k < chain.size(); ++k) {
            if (!holds_free(chain[k]))
                continue;
            for (std::size_t below = 0; below < k; ++below)
                if (left_after(chain[below], place_[run]) > slight_rest_t)
                    return true;
        }
    return false;
}

int OpenPlan::out_of_order() const {
    int count = 0;
    for (const auto& chain : problem_.chains)
        for (std::size_t k = 1; k < chain.size(); ++k)
            for (const int run : holders_[chain[k]])
                for (std::size_t below = 0; below < k; ++below)
                    if (left_after(chain[below], place_[run]) > slight_rest_t) {
                        ++count;
                        break;
                    }
    return count;
}

void OpenPlan::put_in_order() {
    if (problem_.chains.empty())
        return;
    for (const int run : in_date_order(problem_)) {
        if (!is_out_of_order(run))
            continue;
        empty(run);
        fill(run, nullptr);
    }
}

} // namespace mellowbin::planning
