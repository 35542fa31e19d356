#pragma once

#include "planning/ruin.h"

#include <cstdint>
#include <memory>
#include <vector>

namespace mellowbin::planning {

/// What every run costs at least, about: OpenPlan::least_cost() for each, zero for those that cannot be
/// filled.
std::vector<double> least_costs(const Problem& problem, const Tables& tables);

/// Changes a plan step by step: empties a few related runs, fills them again with the best blends, and keeps
/// the change when it is better, or by chance when it is worse by not much more than the warmth. Remembers
/// the best plan it came by. One thread; the same seed walks the same way.
class Improver {
public:
    /// `open`: the runs that may change, in date order. Everything given must outlive it.
    Improver(const Problem& problem, const Tables& tables, const std::vector<double>& least,
             std::vector<int> open, std::uint64_t seed);

    /// Changes against what runs had before are charged from now on. Must outlive it; before start_from().
    void keep_to(const Habit& habit) { plan_.keep_to(habit); }
    /// Forgets what it had and goes on from this plan.
    void start_from(const Plan& plan);
    /// Goes on from this plan; the best one stays if it is better.
    void go_on_from(const Plan& plan);
    /// Goes on where another of the same problem stands now; its own dice and best plan stay.
    void join(const Improver& other);
    /// `warmth`: currency by which a step may worsen the plan, in the mean.
    void walk(std::int64_t steps, double warmth);
    /// What a tonne of each lot is worth to the plan, for the fillings to come; empty: nothing.
    void set_prices(std::vector<double> per_t);

    [[nodiscard]] double cost_now() const { return now_; }
    [[nodiscard]] double best() const { return best_; }
    [[nodiscard]] Plan plan_now() const { return plan_.plan(); }
    [[nodiscard]] Plan best_plan() const;

private:
    [[nodiscard]] const double* choose_price();
    [[nodiscard]] double cost_touched() const;
    [[nodiscard]] double most_saved_by(int run) const;
    void choose_touched();
    bool refill(double budget);
    bool put_another_first();
    bool keeps_order();
    void step(double warmth);
    void stray(int run);
    void keep_if_best();

    OpenPlan plan_;
    Ruins ruins_;
    Dice dice_;
    const std::vector<double>& least_;
    std::vector<double> prices_; ///< worth of each lot, per t
    std::vector<double> price_;  ///< as this step weighs it
    std::vector<int> ruined_;
    std::vector<int> touched_;
    std::vector<Blend> saved_;
    std::vector<Blend> best_blends_; ///< per run
    std::vector<int> strayed_;       ///< runs that may differ from the best plan
    std::vector<bool> has_strayed_;  ///< per run
    std::size_t filled_ = 0;         ///< of the ruined runs
    double spent_ = 0;               ///< on them
    double now_ = 0;
    double best_ = 0;
    int out_of_order_ = 0; ///< lots held out of their order, where the start had some
};

} // namespace mellowbin::planning
