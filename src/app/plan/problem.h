#pragma once

#include "app/book/book.h"
#include "app/book/estimates.h"
#include "dough/law.h"
#include "planning/problem.h"

#include <map>
#include <utility>
#include <vector>

namespace mellowbin::app {

/// What a plan is asked for.
struct PlanSpan {
    Day today;
    Day from;
    int days = 7;

    [[nodiscard]] bool holds(Day day) const { return from <= day && day < from + Days{days}; }
};

/// The oxidant of one run as the plan counts it: the engine knows what is dosed by maturity, ascorbic acid.
struct RunOxidant {
    dough::Room room; ///< in mg/kg of the substance itself
};

/// The book's runs and lots as the engine's plain numbers, and which record each of them is. A run whose
/// formula takes two kinds of flour stands there twice, once for each: two needs of one run.
struct PlanProblem {
    planning::Problem problem;
    PlanSpan span;
    std::vector<LotId> lots;            ///< as Problem::lots; known of lots by themselves
    std::vector<ExpectedId> deliveries; ///< as Problem::lots; known where the flour is still to come
    /// As Problem::lots: by which lots the book names what a silo gives in one go; empty for all others.
    std::vector<std::vector<Layer>> portions;
    std::vector<RunId> runs;          ///< as Problem::runs
    std::vector<FlourPart> parts;     ///< as Problem::runs: which of the run's flours the need is of
    std::vector<Grams> needs;         ///< as Problem::runs: in whole grams; less where it is being mixed
    std::vector<RunOxidant> oxidants; ///< as Problem::runs
};

/// Which flour of a problem stands for what the book says. Of a lot that lies in silos and elsewhere the book
/// does not say which a run has: it is taken to be what comes out of silos, as far as that goes.
class FlourIndex {
public:
    explicit FlourIndex(const PlanProblem& problem);
    /// -1: none.
    [[nodiscard]] int of(ExpectedId delivery) const;
    /// So much of the lot, given to a run after those that were asked for before; empty: the problem has
    /// none.
    std::vector<std::pair<int, Grams>> take(LotId lot, Grams mass);

private:
    std::map<LotId, int> lots_;
    std::map<ExpectedId, int> deliveries_;
    std::map<LotId, std::vector<std::pair<int, Grams>>> in_silos_; ///< what is left there
};

/// Runs of the span that are not past; lots with flour left that no other run has a claim on, and deliveries
/// to come. Frozen runs (see is_frozen) keep what is left of their assignments and promises. Maturity is that
/// which is reached with the confidence set, so that a plan that holds, holds with that probability.
PlanProblem plan_problem(const Book& book, const Estimates& estimates, PlanSpan span);

/// Why the lot may not go into the run, in words that end "L3 cannot: "; empty: it may.
std::string why_not_in(const Book& book, const Estimates& estimates, LotId lot, const Run& run, Day today);

/// The maturity that plan and card count with: reached with the confidence set.
Maturity counted_maturity(const Estimates& estimates, LotId lot, Day day);

} // namespace mellowbin::app
