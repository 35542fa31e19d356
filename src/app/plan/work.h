#pragma once

#include "app/book/book.h"
#include "app/book/job.h"
#include "app/plan/given.h"
#include "app/plan/problem.h"
#include "app/plan/task.h"
#include "planning/compare.h"
#include "planning/reasons.h"

#include <chrono>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace mellowbin::app {

/// A plan that nobody has adopted yet, with all it was made from.
struct ProposedPlan {
    PlanTask task;
    planning::Outcome outcome;
    planning::Reasons reasons;
    /// With what holds of the book's plan; none where the book has nothing planned for these runs.
    std::optional<planning::Comparison> comparison;
    std::string fault; ///< a rule that the planner broke, in words: the plan must not be adopted; empty: none

    [[nodiscard]] const PlanProblem& input() const { return task.input; }
};

/// The proposal in whole grams and records, each with its reason; frozen runs are left out.
struct PlanRecords {
    std::vector<Assignment> assignments; ///< locked ones are marked
    std::vector<Promise> promises;
};
PlanRecords records_of(const ProposedPlan& plan);

/// The proposal in the place of what the book has for its runs, frozen ones aside.
GivenByRun given_by(const Book& book, const ProposedPlan& plan);

/// The reason of one of its assignments (by place in the plan).
std::string reason_for(const ProposedPlan& plan, std::size_t assignment);
/// What a run does not get, why, and what would cure it.
std::vector<std::string> troubles_of(const ProposedPlan& plan, int run);

/// Judges a plan by its problem alone, whoever made it: evaluation and fault are set. What the locks break by
/// themselves is no fault of the planner.
void judge(ProposedPlan& plan);
/// Does the task: plans, judges, explains, compares. A stop is obeyed within 0.1 s and keeps the best plan
/// found.
ProposedPlan carry_out(PlanTask task, planning::Progress& progress, std::stop_token stop);

/// Planning on a worker: takes a copy of all it needs, can be stopped and then keeps the best plan found.
class PlanWork {
public:
    void start(PlanTask task);
    void stop();
    void discard() { proposal_.reset(); }
    [[nodiscard]] bool is_running() const { return job_.is_running(); }
    [[nodiscard]] bool is_done() const { return job_.is_done(); }
    void wait() const { job_.wait(); }
    /// Takes the finished plan over; its exception flies here.
    void take();
    [[nodiscard]] const std::optional<ProposedPlan>& proposal() const { return proposal_; }
    [[nodiscard]] std::string progress_in_words() const;

private:
    std::shared_ptr<planning::Progress> progress_;
    std::chrono::steady_clock::time_point started_;
    std::optional<ProposedPlan> proposal_;
    Job<ProposedPlan> job_;
};

} // namespace mellowbin::app
