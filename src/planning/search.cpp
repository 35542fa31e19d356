#include "planning/search.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace mellowbin::planning {

Draft::Draft(const Problem& problem, const Tables& tables)
    : problem_(problem), tables_(tables), blends_(problem.runs.size()), free_t_(tables.free_t),
      charge_(problem.lots.size(), 0.0), holders_(problem.lots.size()) {
    for (int r = 0; r < problem.run_count(); ++r)
        blends_[r].cost = cost_of(tables.runs[r], blends_[r]);
}

bool Draft::holds(int run, int lot) const {
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
static void each_lot(const RunTable& table, const std::vector<int>& locked, const Blend& blend, Visit visit) {
    for (const int l : locked)
        visit(l);
    for (int i = 0; i < blend.count; ++i)
        visit(table.lot[blend.parts[i].candidate]);
}

/// A lot costs a change where the run before does not have it, and saves one where a run after does.
void Draft::set_charges(int run) {
    const double change = problem_.weights.lot_change;
    const int prev = problem_.runs[run].prev_on_line;
    std::fill(charge_.begin(), charge_.end(), prev >= 0 ? change : 0.0);
    if (prev >= 0)
        each_lot(tables_.runs[prev], tables_.locked[prev], blends_[prev], [&](int l) { charge_[l] = 0; });
    for (const int next : tables_.next[run])
        each_lot(tables_.runs[next], tables_.locked[next], blends_[next],
                 [&](int l) { charge_[l] -= change; });
}

void Draft::fill(int run, const double* price) {
    set_charges(run);
    put(run, kernel_.best(tables_.runs[run], {free_t_.data(), price, charge_.data()}));
}

Blend Draft::best_without(int run, int lot) {
    set_charges(run);
    const double free = std::exchange(free_t_[lot], 0.0);
    const Blend blend = kernel_.best(tables_.runs[run], {free_t_.data(), nullptr, charge_.data()});
    free_t_[lot] = free;
    return blend;
}

void Draft::put(int run, const Blend& blend) {
    const RunTable& table = tables_.runs[run];
    blends_[run] = blend;
    for (int i = 0; i < blend.count; ++i) {
        const int l = table.lot[blend.parts[i].candidate];
        free_t_[l] = std::max(0.0, free_t_[l] - blend.parts[i].share * table.fill_t);
        holders_[l].push_back(run);
    }
}

void Draft::empty(int run) {
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

void Draft::take_over(const Plan& plan) {
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

double Draft::cost_of_run(int run) const {
    const int prev = problem_.runs[run].prev_on_line;
    int changes = 0;
    if (prev >= 0)
        each_lot(tables_.runs[run], tables_.locked[run], blends_[run],
                 [&](int l) { changes += holds(prev, l) ? 0 : 1; });
    return blends_[run].cost + problem_.weights.lot_change * changes;
}

double Draft::objective() const {
    double total = tables_.constant;
    for (int r = 0; r < problem_.run_count(); ++r)
        total += cost_of_run(r);
    return total;
}

Plan Draft::plan() const {
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

void fill_in_order(Draft& draft, const std::vector<int>& order, const double* price,
                   const std::stop_token& stop) {
    for (const int run : order) {
        if (stop.stop_requested())
            return;
        draft.fill(run, price);
    }
}

namespace {

class Improver {
public:
    Improver(Draft& draft, const Anneal& anneal) : draft_(draft), anneal_(anneal), random_(anneal.seed) {
        for (const int r : in_date_order(draft.problem()))
            if (draft.tables().runs[r].fill_t > 0)
                open_.push_back(r);
    }

    std::int64_t run(const std::stop_token& stop, const std::function<void(std::int64_t, double)>& watch) {
        if (open_.empty())
            return 0;
        now_ = best_ = draft_.objective();
        keep_best();
        std::int64_t step = 0;
        for (; step < anneal_.steps; ++step) {
            if (step % 64 == 0) {
                if (stop.stop_requested())
                    break;
                watch(step, best_);
                const double done = static_cast<double>(step) / static_cast<double>(anneal_.steps);
                warmth_ = anneal_.warm * std::pow(anneal_.cold / anneal_.warm, done);
            }
            try_step();
        }
        for (const int r : open_)
            draft_.empty(r);
        for (const int r : open_)
            draft_.put(r, best_blends_[r]);
        return step;
    }

private:
    [[nodiscard]] int pick(std::ptrdiff_t count) {
        return static_cast<int>(random_() % static_cast<std::uint64_t>(count));
    }
    [[nodiscard]] double chance() { return static_cast<double>(random_() >> 11) * 0x1.0p-53; }

    void add(int run) {
        if (draft_.tables().runs[run].fill_t > 0 &&
            std::find(ruined_.begin(), ruined_.end(), run) == ruined_.end())
            ruined_.push_back(run);
    }

    void add_holder(int lot) {
        const std::vector<int>& holders = draft_.holders(lot);
        if (!holders.empty())
            add(holders[pick(std::ssize(holders))]);
    }

    /// Half the time any run, else the dearest of a few: that is where there is something to gain.
    [[nodiscard]] int choose_place() {
        constexpr int drawn = 6;
        int place = pick(std::ssize(open_));
        if (pick(2) == 0)
            return place;
        for (int i = 0; i < drawn; ++i) {
            const int other = pick(std::ssize(open_));
            if (draft_.blend(open_[other]).cost > draft_.blend(open_[place]).cost)
                place = other;
        }
        return place;
    }

    void choose_ruin() {
        ruined_.clear();
        const int place = choose_place();
        const int r = open_[place];
        const RunTable& table = draft_.tables().runs[r];
        const Blend& blend = draft_.blend(r);
        add(r);
        const int kind = pick(8);
        if (kind < 2) { // on the line
            const int prev = draft_.problem().runs[r].prev_on_line;
            const auto& next = draft_.tables().next[r];
            if (prev >= 0 && (kind == 0 || next.empty()))
                add(prev);
            if (!next.empty() && (kind == 1 || pick(2) == 0))
                add(next.front());
        } else if (kind < 5 && table.count() > 0) { // holders of a wanted lot
            const int lot = table.lot[pick(table.count())];
            add_holder(lot);
            if (pick(2) == 0)
                add_holder(lot);
        } else if (kind < 7 && blend.count > 0) { // sharers
            add_holder(table.lot[blend.parts[pick(blend.count)].candidate]);
            if (pick(2) == 0)
                add_holder(table.lot[blend.parts[pick(blend.count)].candidate]);
        } else { // near in time
            const int reach = 6;
            const int other =
                std::clamp(place - reach + pick(2 * reach + 1), 0, static_cast<int>(open_.size()) - 1);
            add(open_[other]);
        }
        for (std::ptrdiff_t i = std::ssize(ruined_) - 1; i > 0; --i)
            std::swap(ruined_[i], ruined_[pick(i + 1)]);
    }

    /// What changes when the ruined runs change: theirs, and the lot changes of those that follow them.
    [[nodiscard]] double cost_touched() const {
        double cost = 0;
        for (const int r : touched_)
            cost += draft_.cost_of_run(r);
        return cost;
    }

    void try_step() {
        choose_ruin();
        touched_ = ruined_;
        for (const int r : ruined_)
            for (const int next : draft_.tables().next[r])
                if (std::find(touched_.begin(), touched_.end(), next) == touched_.end())
                    touched_.push_back(next);
        const double before = cost_touched();
        saved_.clear();
        for (const int r : ruined_)
            saved_.push_back(draft_.blend(r));
        for (const int r : ruined_)
            draft_.empty(r);
        for (const int r : ruined_)
            draft_.fill(r, nullptr);
        const double change = cost_touched() - before;
        if (change <= 0 || chance() < std::exp(-change / warmth_)) {
            now_ += change;
            if (now_ < best_ - 1e-6) {
                best_ = now_;
                keep_best();
            }
            return;
        }
        for (const int r : ruined_)
            draft_.empty(r);
        for (std::size_t i = 0; i < ruined_.size(); ++i)
            draft_.put(ruined_[i], saved_[i]);
    }

    void keep_best() {
        best_blends_.resize(draft_.problem().runs.size());
        for (const int r : open_)
            best_blends_[r] = draft_.blend(r);
    }

    Draft& draft_;
    const Anneal& anneal_;
    std::mt19937_64 random_;
    std::vector<int> open_;
    std::vector<int> ruined_;
    std::vector<int> touched_;
    std::vector<Blend> saved_;
    std::vector<Blend> best_blends_;
    double now_ = 0;
    double best_ = 0;
    double warmth_ = 0;
};

} // namespace

std::int64_t improve(Draft& draft, const Anneal& anneal, const std::stop_token& stop,
                     const std::function<void(std::int64_t, double)>& watch) {
    return Improver(draft, anneal).run(stop, watch);
}

} // namespace mellowbin::planning
