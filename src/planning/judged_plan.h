#pragma once

#include "planning/make_plan.h"
#include "planning/tables.h"

#include <optional>
#include <stop_token>
#include <utility>
#include <vector>

namespace mellowbin::planning {

/// The best plan so far, judged by the evaluator: nothing that breaks a rule is ever adopted.
class JudgedPlan {
public:
    /// Starts with the locks alone. Everything given must outlive it.
    JudgedPlan(const Problem& problem, const Tables& tables, LinearSolver& solver, Progress& progress,
               std::stop_token stop);

    /// False, and the plan is passed over, if it breaks a rule; that is a fault of the engine and is kept in
    /// Outcome::faults.
    bool adopt_if_better(Plan plan);
    /// Adopts a plan that keeps the rules, even if it is worse.
    bool adopt(Plan plan);
    /// The best tonnes for the lots that the runs have; only `open` runs move, if given.
    void polish(const std::vector<int>* open);
    [[nodiscard]] Outcome& outcome() { return outcome_; }
    [[nodiscard]] const Plan& plan() const { return outcome_.plan; }
    /// The end: the outcome with how it ended.
    Outcome finish();

private:
    bool take(Plan plan, bool only_if_better);

    const Problem& problem_;
    const Tables& tables_;
    LinearSolver& solver_;
    Progress& progress_;
    std::stop_token stop_;
    Outcome outcome_;
};

/// The plan that the locks alone are.
Plan locked_plan(const Problem& problem);

/// As prove_bound(problem, …), with tables that are there.
std::optional<double> prove_bound(const Problem& problem, const Tables& tables, LinearSolver& solver,
                                  Progress& progress, const std::stop_token& stop);

/// Warmth of an annealed search of so many runs at its start and its end, in currency.
std::pair<double, double> search_warmth(const Problem& problem, const Effort& effort, std::size_t open_runs);

} // namespace mellowbin::planning
