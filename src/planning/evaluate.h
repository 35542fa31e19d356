#pragma once

#include "planning/problem.h"

#include <map>
#include <string>
#include <vector>

namespace mellowbin::planning {

struct Assignment {
    int run = 0;
    int lot = 0;
    double tonnes = 0;

    friend bool operator==(const Assignment&, const Assignment&) = default;
};

/// Which lot goes to which run; everything else about a plan follows from these tonnes.
struct Plan {
    std::vector<Assignment>
        assignments; ///< by run, then lot, as the planner makes them; any order is evaluated
};

/// By run, then lot.
void sort_assignments(Plan& plan);

/// The objective by parts, in currency.
struct Parts {
    double shortage = 0;
    double windows = 0;
    double maturity = 0;
    double oxidant = 0;
    double past_best = 0;
    double waste = 0;
    double lot_changes = 0;
    double age = 0;
    double cost = 0;

    [[nodiscard]] double total() const {
        return shortage + windows + maturity + oxidant + past_best + waste + lot_changes + age + cost;
    }
    Parts& operator+=(const Parts& more);
};

/// What one run gets.
struct RunResult {
    double planned_t = 0;
    double short_t = 0;
    std::vector<double> blend; ///< the blend's value per property; empty without flour
    std::vector<double>
        off_window;             ///< per property, in its own unit: below the window negative, above positive
    double maturity_points = 0; ///< of the blend, with the mill's oxidant, without the bakery's
    double maturity_gap_points = 0; ///< still missing after the added oxidant
    double mill_oxidant_ppm = 0;
    double added_oxidant_ppm = 0;
    int lot_changes = 0;
    Parts parts; ///< waste belongs to lots, not runs, and is zero here
};

enum class Rule {
    usable,
    least_share,
    most_lots,
    demand,
    stock,
    oxidant_cap,
    lock_kept,
    frozen,
    whole_batches, ///< of a product that takes one lot a batch
    drawing_order  ///< of lots that lie one on another
};
/// Whose doing a broken rule is: a lock that breaks it by itself is not the plan's.
enum class Cause { plan, lock };

struct Broken {
    Rule rule = Rule::usable;
    int run = -1;
    int lot = -1;
    Cause cause = Cause::plan;
    std::string words;
};

struct Evaluation {
    double objective = 0;
    Parts parts;
    double short_t = 0;
    int lot_changes = 0;
    std::vector<RunResult> runs; ///< as Problem::runs
    std::vector<double> left_t;  ///< as Problem::lots; what no run takes
    std::vector<Broken> broken;

    /// No rule broken that the locks do not already break by themselves.
    [[nodiscard]] bool keeps_the_rules() const;
};

/// The tonnes of each lot in one run.
using Use = std::map<int, double>;

/// Each run's tonnes by lot; what is up to 1e-9 t is left out.
std::vector<Use> uses_of(const Problem& problem, const Plan& plan);

/// What a run gets from these lots; `before` is the use of the run before on its line, null without one.
RunResult evaluate_run(const Problem& problem, int run, const Use& use, const Use* before);

/// The one judge of plans: recomputes everything from the tonnes alone, independent of how the plan was made.
/// Tonnes of the same lot and run add up; up to 1e-9 t is nothing. Rules bear 1e-5 t.
Evaluation evaluate(const Problem& problem, const Plan& plan);

} // namespace mellowbin::planning
