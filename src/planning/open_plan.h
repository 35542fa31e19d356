#pragma once

#include "planning/evaluate.h"
#include "planning/kernel.h"

#include <stop_token>
#include <vector>

namespace mellowbin::planning {

/// What runs had before, and what each lot that one of them gains or loses is charged.
struct Habit {
    double charge = 0;                  ///< currency
    std::vector<std::vector<int>> lots; ///< per run; empty: the run is not charged
};

/// A plan while it is being made: the blend of every run, what is left of every lot, and the objective, kept
/// up to date as runs are emptied and filled. The problem and its tables must outlive it.
class OpenPlan {
public:
    OpenPlan(const Problem& problem, const Tables& tables);

    void keep_to(const Habit& habit) { habit_ = &habit; }
    /// Gives the run the best blend of what is free now; it must be empty. `price` per lot, or null. Gives
    /// back what that costs, lot changes included.
    double fill(int run, const double* price, const Interest& interest = {});
    void empty(int run);
    /// Takes the blend as it is; its stock must be free.
    void put(int run, const Blend& blend);
    /// Empties everything and takes over the free part of the plan,.
    void take_over(const Plan& plan);
    /// Takes over another one of the same problem.
    void take_over(const OpenPlan& other);
    /// How many lots a run holds while some of what lies below them is left; 0 without chains.
    [[nodiscard]] int out_of_order() const;
    /// Fills runs that hold lots out of order anew, the earliest first, until none does.
    void put_in_order();
    /// Cost of the best blend if all stock were this run's and no lot change cost anything: about the least
    /// that the run can cost.
    double least_cost(int run);

    [[nodiscard]] const Blend& blend(int run) const { return blends_[run]; }
    [[nodiscard]] const std::vector<int>& holders(int lot) const { return holders_[lot]; }
    /// The run's own cost, its lot changes and what it changed against its habit.
    [[nodiscard]] double cost_of_run(int run) const;
    [[nodiscard]] double objective() const;
    /// What the charges against the run's habit come to if it keeps nothing; 0 without a habit.
    [[nodiscard]] double habit_worth(int run) const;
    [[nodiscard]] Plan plan() const;
    [[nodiscard]] const Problem& problem() const { return problem_; }
    [[nodiscard]] const Tables& tables() const { return tables_; }

private:
    [[nodiscard]] bool holds(int run, int lot) const;
    void set_charges(int run);
    // Of lots that lie one on another.
    [[nodiscard]] double left_after(int lot, int place) const;
    [[nodiscard]] const double* stock_for(int run);
    [[nodiscard]] Blend drawn_through(int run, const std::vector<int>& chain) const;
    [[nodiscard]] bool is_out_of_order(int run) const;
    [[nodiscard]] double asked_for(int run, const Blend& blend, const double* price) const;
    [[nodiscard]] double charge_for_change(int run) const;

    const Problem& problem_;
    const Tables& tables_;
    const Habit* habit_ = nullptr;
    Kernel kernel_;
    std::vector<Blend> blends_;
    std::vector<double> free_t_;
    std::vector<double> charge_;
    std::vector<std::vector<int>> holders_; ///< per lot: runs whose free part has it
    std::vector<int> place_;                ///< per run, in date order; empty without chains
    std::vector<double> allowed_t_;         ///< free_t_, as far as what lies below is drawn
};

/// Fills the empty runs in the order given; stops between runs when asked.
void fill_in_order(OpenPlan& open_plan, const std::vector<int>& order, const double* price,
                   const std::stop_token& stop);

} // namespace mellowbin::planning
