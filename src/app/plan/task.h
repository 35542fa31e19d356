#pragma once

#include "app/book/book.h"
#include "app/book/estimates.h"
#include "app/plan/problem.h"
#include "planning/make_plan.h"
#include "planning/replan.h"

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace mellowbin::app {

/// A copy of the book in which something is supposed, with its problem beside that of the book itself.
struct Supposed {
    std::shared_ptr<const Book> book;
    std::vector<std::string> words; ///< what is supposed, in words
    PlanProblem unsupposed;         ///< the book's own problem
    planning::Plan standing;        ///< what holds of the book's plan there
};

/// All that a worker needs to make a plan: copies, nothing of the book.
struct PlanTask {
    PlanProblem input;
    planning::Plan standing;                  ///< what holds of the book's plan, in the input's numbers
    bool is_planned = false;                  ///< the book has a plan for some of these runs
    std::vector<int> broken_runs;             ///< of the input: those that the mending starts from
    std::optional<planning::Mending> mending; ///< none: a plan from the start
    planning::Effort effort;
    /// Copies of what the input was made from, for the reasons in words.
    std::shared_ptr<const Book> book;
    std::shared_ptr<const Estimates> estimates;
    std::optional<Supposed> supposed;
    std::uint64_t book_changes = 0; ///< how often the book had changed when the copy was taken
};

/// Why the problem cannot be planned: it has no runs, or planning::check() says so. Empty: it can.
Refusals refusals_of(const Book& book, const PlanProblem& problem);

/// The book's assignments and promises as a plan of the problem. What the problem does not know (a lot that
/// is gone, a delivery that came) is left out.
planning::Plan book_plan(const Book& book, const PlanProblem& problem);

/// How long to plan for so many runs. `seconds` 0: as Settings say; few runs take less than the time allowed.
planning::Effort effort_for(const Book& book, int runs, double seconds);

/// By steps and not by the clock, the same on any machine.
planning::Effort effort_of_steps(std::int64_t steps);

/// A plan from the start.
PlanTask task_to_plan(const Book& book, const Estimates& estimates, PlanProblem problem, double seconds);
/// The book's plan mended. Nothing to mend: broken_runs is empty. Where more than half would have to change,
/// the plan is made from the start.
PlanTask task_to_mend(const Book& book, const Estimates& estimates, PlanProblem problem);
/// The same on a copy of the book in which something is supposed (the problem is the copy's); runs that would
/// fare worse than in the book's own problem, and those that what is supposed could help, are planned anew.
PlanTask task_to_suppose(const Book& book, const Estimates& estimates, PlanProblem problem, Supposed supposed,
                         const std::vector<RunId>& moved);

} // namespace mellowbin::app
