#include "planning/replan.h"

#include "core/promised.h"
#include "planning/judged_plan.h"
#include "planning/open_plan.h"
#include "planning/search.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <tuple>
#include <utility>

namespace mellowbin::planning {

namespace {

constexpr int most_changed = 3;     ///< runs for each touched one, where changes are charged
constexpr int charge_raises = 3;    ///< each to three times as much, until no more runs than that change
constexpr double met_t = 1e-4;      ///< a need filled up to this is met
constexpr double bearable_t = 1e-5; ///< of a stock

/// The free part of the plan: what no lock says.
Plan without_locks(const Problem& problem, const Plan& plan) {
    std::set<std::pair<int, int>> locked;
    for (const Lock& lock : problem.locks)
        locked.insert({lock.run, lock.lot});
    Plan free;
    for (const Assignment& a : plan.assignments)
        if (!locked.contains({a.run, a.lot}))
            free.assignments.push_back(a);
    return free;
}

/// The locks and the free part.
Plan with_locks(const Problem& problem, const Plan& plan) {
    Plan whole = locked_plan(problem);
    const Plan free = without_locks(problem, plan);
    whole.assignments.insert(whole.assignments.end(), free.assignments.begin(), free.assignments.end());
    sort_assignments(whole);
    return whole;
}

class Mender {
public:
    Mender(const Problem& problem, const Plan& before, LinearSolver& solver, const Mending& mending,
           Progress& progress, std::stop_token stop)
        : problem_(problem), before_(without_locks(problem, before)), before_whole_(before), solver_(solver),
          mending_(mending), progress_(progress), stop_(std::move(stop)), tables_(make_tables(problem)),
          judged_(problem, tables_, solver, progress_, stop_) {
        is_touched_.assign(problem.runs.size(), false);
        for (const int r : mending.touched)
            is_touched_[r] = true;
    }

    Outcome mend() {
        fill_touched();
        if (!stop_.stop_requested() &&
            (mending_.effort.improvement_steps > 0 || mending_.effort.seconds > 0)) {
            progress_.stage = Stage::improving;
            better_touched();
            better_neighbours();
        }
        return judged_.finish();
    }

private:
    /// (a) All others stay as they are.
    void fill_touched() {
        Plan kept;
        for (const Assignment& a : before_.assignments)
            if (!is_touched_[a.run])
                kept.assignments.push_back(a);
        OpenPlan open_plan(problem_, tables_);
        open_plan.take_over(kept);
        for (const int r : mending_.touched)
            if (tables_.runs[r].fill_t > 0)
                open_plan.fill(r, nullptr);
        open_plan.put_in_order();
        judged_.adopt(open_plan.plan());
    }

    void better_touched() {
        std::vector<int> open;
        for (const int r : mending_.touched)
            if (tables_.runs[r].fill_t > 0)
                open.push_back(r);
        adopt_search(open, nullptr);
        judged_.polish(&open);
    }

    /// (b) Runs near the touched ones may change too, where it pays for the charge.
    void better_neighbours() {
        const std::vector<int> open = touched_and_near();
        if (open.size() == mending_.touched.size() || stop_.stop_requested())
            return;
        Habit habit;
        habit.charge = mending_.charge_per_change;
        habit.lots.resize(problem_.runs.size());
        for (const Assignment& a : before_.assignments)
            if (!is_touched_[a.run])
                habit.lots[a.run].push_back(a.lot);
        for (int raises = 0; !adopt_search(open, &habit) && raises < charge_raises; ++raises)
            habit.charge *= 3;
    }

    /// False if it would change too many runs.
    bool adopt_search(const std::vector<int>& open, const Habit* habit) {
        if (open.empty())
            return true;
        SearchTask task;
        task.start = judged_.outcome().plan;
        task.open = open;
        task.effort = mending_.effort;
        task.effort.seconds /= 2; // two searches share them
        task.habit = habit;
        std::tie(task.warm, task.cold) = search_warmth(problem_, task.effort, open.size());
        SearchResult found = search(problem_, tables_, solver_, task, progress_, stop_);
        judged_.outcome().steps += found.steps;
        const double charge = habit ? habit->charge : 0.0;
        const double now = judged_.outcome().evaluation.objective + charge * changes(judged_.outcome().plan);
        const double then = evaluate(problem_, found.plan).objective + charge * changes(found.plan);
        if (then >= now - 1e-6)
            return true;
        const auto touched = std::ssize(mending_.touched);
        if (charge > 0 &&
            std::ssize(changed_runs(problem_, before_whole_, found.plan)) > most_changed * touched)
            return false;
        judged_.adopt(std::move(found.plan));
        return true;
    }

    /// (run, lot) pairs of further runs that came or went.
    [[nodiscard]] int changes(const Plan& plan) const {
        std::set<std::pair<int, int>> had;
        std::set<std::pair<int, int>> has;
        for (const Assignment& a : before_.assignments)
            if (!is_touched_[a.run])
                had.insert({a.run, a.lot});
        for (const Assignment& a : without_locks(problem_, plan).assignments)
            if (!is_touched_[a.run])
                has.insert({a.run, a.lot});
        std::vector<std::pair<int, int>> differ;
        std::set_symmetric_difference(had.begin(), had.end(), has.begin(), has.end(),
                                      std::back_inserter(differ));
        return static_cast<int>(differ.size());
    }

    /// How near a run is to what has to change: it shares a lot, stands beside it on the line, is near in
    /// time.
    [[nodiscard]] std::vector<int> touched_and_near() const {
        std::vector<double> distance(problem_.runs.size(), std::numeric_limits<double>::infinity());
        std::set<int> lots;
        for (const Assignment& a : judged_.plan().assignments)
            if (is_touched_[a.run])
                lots.insert(a.lot);
        for (const int touched : mending_.touched)
            for (int r = 0; r < problem_.run_count(); ++r) {
                const bool same_line = problem_.runs[r].line == problem_.runs[touched].line;
                const double days = std::abs(problem_.runs[r].day - problem_.runs[touched].day);
                distance[r] = std::min(distance[r], days * (same_line ? 0.5 : 1.0));
            }
        for (const Assignment& a : judged_.plan().assignments)
            if (lots.contains(a.lot))
                distance[a.run] = std::min(distance[a.run] * 0.25, distance[a.run] - 1.0);
        std::vector<int> near;
        for (const int r : in_date_order(problem_))
            if (!is_touched_[r] && tables_.runs[r].fill_t > 0)
                near.push_back(r);
        std::stable_sort(near.begin(), near.end(), [&](int a, int b) { return distance[a] < distance[b]; });
        near.resize(std::min(near.size(), static_cast<std::size_t>(std::max(0, mending_.neighbours))));
        std::vector<bool> open(problem_.runs.size(), false);
        for (const int r : near)
            open[r] = true;
        std::vector<int> all;
        for (const int r : in_date_order(problem_))
            if ((open[r] || is_touched_[r]) && tables_.runs[r].fill_t > 0)
                all.push_back(r);
        return all;
    }

    const Problem& problem_;
    Plan before_; ///< without locks
    Plan before_whole_;
    LinearSolver& solver_;
    const Mending& mending_;
    Progress& progress_;
    std::stop_token stop_;
    Tables tables_;
    JudgedPlan judged_;
    std::vector<bool> is_touched_;
};

} // namespace

std::vector<int> touched_runs(const Problem& problem, const Plan& before) {
    const Plan plan = with_locks(problem, before);
    const Evaluation evaluation = evaluate(problem, plan);
    std::vector<bool> touched(problem.runs.size(), false);
    for (int r = 0; r < problem.run_count(); ++r)
        touched[r] = evaluation.runs[r].short_t > met_t;
    for (const Broken& broken : evaluation.broken)
        if (broken.cause == Cause::plan && broken.run >= 0)
            touched[broken.run] = true;
    // Where a lot has less than is planned of it, the later runs give way.
    std::vector<double> left_t;
    for (const Lot& lot : problem.lots)
        left_t.push_back(lot.stock_t);
    for (const Lock& lock : problem.locks)
        left_t[lock.lot] -= lock.tonnes;
    const std::vector<Use> uses = uses_of(problem, without_locks(problem, plan));
    for (const int r : in_date_order(problem))
        for (const auto& [lot, tonnes] : uses[r]) {
            left_t[lot] -= tonnes;
            touched[r] = touched[r] || left_t[lot] < -bearable_t;
        }
    std::vector<int> runs;
    for (const int r : in_date_order(problem))
        if (touched[r] && problem.runs[r].state == RunState::open)
            runs.push_back(r);
    return runs;
}

Outcome mend_plan(const Problem& problem, const Plan& before, LinearSolver& solver, const Mending& mending,
                  Progress* progress, std::stop_token stop) {
    promised(check(problem).empty());
    Progress unwatched;
    return Mender(problem, before, solver, mending, progress ? *progress : unwatched, std::move(stop)).mend();
}

std::vector<int> changed_runs(const Problem& problem, const Plan& before, const Plan& after,
                              double slight_t) {
    const std::vector<Use> had = uses_of(problem, before);
    const std::vector<Use> has = uses_of(problem, after);
    const auto missing = [slight_t](const Use& from, const Use& in) {
        return std::any_of(from.begin(), from.end(), [&](const auto& item) {
            const auto other = in.find(item.first);
            return std::abs(item.second - (other == in.end() ? 0.0 : other->second)) > slight_t;
        });
    };
    std::vector<int> changed;
    for (int r = 0; r < problem.run_count(); ++r)
        if (missing(had[r], has[r]) || missing(has[r], had[r]))
            changed.push_back(r);
    return changed;
}

} // namespace mellowbin::planning
