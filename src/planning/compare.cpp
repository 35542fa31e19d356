#include "planning/compare.h"

#include "planning/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <unordered_map>

namespace mellowbin::planning {

namespace {

constexpr double slight_t = 1e-4; // tonnes: what is less did not move

bool is_out_of_window(const Problem& p, int run, const RunResult& result) {
    for (std::size_t k = 0; k < result.off_window.size(); ++k)
        if (std::abs(result.off_window[k]) > 1e-4 * p.product_of(run).windows[k].scale)
            return true;
    return false;
}

using ById = std::unordered_map<std::string, double>;

/// By the lots' ids: the problems may count their lots differently.
ById tonnes_by_lot(const Problem& p, const Use& use) {
    ById tonnes;
    for (const auto& [l, t] : use)
        tonnes[p.lots[l].id] += t;
    return tonnes;
}

bool is_same(const ById& a, const ById& b) {
    const auto within = [](const ById& some, const ById& all) {
        return std::all_of(some.begin(), some.end(), [&](const auto& item) {
            const auto at = all.find(item.first);
            return std::abs(item.second - (at == all.end() ? 0.0 : at->second)) <= slight_t;
        });
    };
    return within(a, b) && within(b, a);
}

/// "12 mg/kg less oxidant, but 1 more lot change"
std::string move_words(const std::vector<TierChange>& changes) {
    constexpr std::size_t most = 2;
    std::string better;
    std::string worse;
    std::size_t betters = 0;
    std::size_t worses = 0;
    for (const TierChange& change : changes) {
        std::string& words = change.is_worse ? worse : better;
        std::size_t& count = change.is_worse ? worses : betters;
        if (count++ < most)
            words += (words.empty() ? "" : ", ") + change.words;
    }
    if (better.empty() || worse.empty())
        return better + worse;
    return better + ", but " + worse;
}

/// What people would say of two figures: gains first, then what it costs, then how much moves.
class Verdict {
public:
    Verdict(const PlanFigures& before, const PlanFigures& after) : b_(before), a_(after) {
        amount(
            b_.short_t, a_.short_t, slight_t, [](double t) { return tonnes_words(t); }, "of flour short");
        count(b_.out_of_window_runs, a_.out_of_window_runs, "run", "outside specification");
        count(b_.immature_runs, a_.immature_runs, "run", "without full maturity");
        amount(
            b_.mean_oxidant_ppm, a_.mean_oxidant_ppm, 0.05,
            [](double ppm) { return fmt::format("{:.1f} mg/kg", ppm); }, "of oxidant in the mean");
        amount(
            b_.past_best_t, a_.past_best_t, slight_t, [](double t) { return tonnes_words(t); },
            "of flour past its best");
        amount(
            b_.wasted_t, a_.wasted_t, slight_t, [](double t) { return tonnes_words(t); }, "of flour wasted");
    }

    [[nodiscard]] std::string words(std::size_t moved) const {
        std::string all = better_.empty() ? "" : "Better: " + list_words(better_) + ". ";
        if (!worse_.empty())
            all += "Worse: " + list_words(worse_) + ". ";
        if (better_.empty() && worse_.empty())
            all += "In flour, specification, strength and waste both are alike. ";
        if (a_.lot_changes != b_.lot_changes)
            all += fmt::format("Lot changes {} from {} to {}. ",
                               a_.lot_changes > b_.lot_changes ? "rise" : "fall", b_.lot_changes,
                               a_.lot_changes);
        return all + (moved == 0 ? "No run gets other flour."
                                 : fmt::format("{} {} other flour.", count_words(moved, "run"),
                                               moved == 1 ? "gets" : "get"));
    }

private:
    template <class Words>
    void amount(double before, double after, double slight, Words words, const std::string& of) {
        if (std::abs(after - before) <= slight)
            return;
        const bool more = after > before;
        (more ? worse_ : better_)
            .push_back(fmt::format("{} {} {}", words(std::abs(after - before)), more ? "more" : "less", of));
    }

    void count(int before, int after, const std::string& what, const std::string& of) {
        if (after == before)
            return;
        const int more = after - before;
        const auto amount = static_cast<std::size_t>(std::abs(more));
        (more > 0 ? worse_ : better_)
            .push_back(fmt::format("{} {} {} {}", amount, more > 0 ? "more" : "fewer",
                                   what + (amount == 1 ? "" : "s"), of));
    }

    const PlanFigures& b_;
    const PlanFigures& a_;
    std::vector<std::string> better_, worse_;
};

} // namespace

Plan still_standing(const Problem& problem, const Plan& plan) {
    Plan kept;
    std::vector<double> left_t;
    for (const Lot& lot : problem.lots)
        left_t.push_back(lot.stock_t);
    std::vector<double> wanted_t;
    for (const Run& run : problem.runs)
        wanted_t.push_back(run.demand_t);
    const auto take = [&](int run, int lot, double tonnes) {
        kept.assignments.push_back({run, lot, tonnes});
        left_t[lot] -= tonnes;
        wanted_t[run] -= tonnes;
    };
    std::vector<Use> open = uses_of(problem, plan);
    for (const Lock& lock : problem.locks) {
        take(lock.run, lock.lot, lock.tonnes);
        open[lock.run].erase(lock.lot);
    }
    for (const int r : in_date_order(problem)) {
        if (problem.runs[r].state == RunState::frozen)
            continue;
        for (const auto& [l, t] : open[r]) {
            const double tonnes = std::min({t, left_t[l], wanted_t[r]});
            if (problem.usable(l, r) && tonnes > 1e-9)
                take(r, l, tonnes);
        }
    }
    sort_assignments(kept);
    return kept;
}

PlanFigures figures_of(const Problem& problem, const Plan& plan, const Evaluation& evaluation) {
    PlanFigures figures;
    const std::vector<Use> uses = uses_of(problem, plan);
    double oxidant = 0;
    for (int r = 0; r < problem.run_count(); ++r) {
        const RunResult& result = evaluation.runs[r];
        figures.planned_t += result.planned_t;
        figures.short_runs += result.short_t > 0.0005 ? 1 : 0;
        figures.out_of_window_runs += is_out_of_window(problem, r, result) ? 1 : 0;
        figures.immature_runs += result.maturity_gap_points > 0.05 ? 1 : 0;
        figures.past_best_t += past_best_t(problem, r, uses[r]);
        oxidant += result.added_oxidant_ppm * result.planned_t;
    }
    figures.mean_oxidant_ppm = figures.planned_t > 0 ? oxidant / figures.planned_t : 0;
    figures.short_t = evaluation.short_t;
    figures.lot_changes = evaluation.lot_changes;
    for (int l = 0; l < problem.lot_count(); ++l)
        if (problem.lots[l].use_by_day < problem.horizon_days)
            figures.wasted_t += std::max(0.0, evaluation.left_t[l]);
    return figures;
}

Comparison compare(const Problem& problem_before, const Plan& before, const Problem& problem_after,
                   const Plan& after, const DoseNamer& dose) {
    Comparison c;
    c.before = evaluate(problem_before, before);
    c.after = evaluate(problem_after, after);
    c.figures_before = figures_of(problem_before, before, c.before);
    c.figures_after = figures_of(problem_after, after, c.after);
    std::unordered_map<std::string, int> index;
    for (int r = 0; r < problem_before.run_count(); ++r)
        index.emplace(problem_before.runs[r].id, r);
    const std::vector<Use> was = uses_of(problem_before, before);
    const std::vector<Use> is = uses_of(problem_after, after);
    for (int r = 0; r < problem_after.run_count(); ++r) {
        const auto at = index.find(problem_after.runs[r].id);
        if (at == index.end() ||
            is_same(tonnes_by_lot(problem_before, was[at->second]), tonnes_by_lot(problem_after, is[r])))
            continue;
        const RunResult& old = c.before.runs[at->second];
        const RunResult& now = c.after.runs[r];
        c.moved.push_back({at->second, r, old.parts.total() - now.parts.total(),
                           move_words(tier_changes(problem_after, r, old, now, dose))});
    }
    c.verdict = Verdict(c.figures_before, c.figures_after).words(c.moved.size());
    return c;
}

} // namespace mellowbin::planning
