#pragma once

#include "app/job.h"
#include "app/plan_problem.h"
#include "planning/make_plan.h"
#include "planning/reasons.h"

#include <chrono>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace mellowbin::app {

/// A plan that nobody has adopted yet, with all it was made from.
struct ProposedPlan {
    PlanProblem input;
    planning::Outcome outcome;
    planning::Reasons reasons;
    std::uint64_t book_changes = 0; ///< how often the book had changed when the copy was taken
};

/// The proposal in whole grams and records, each with its reason; locked ones are marked.
std::vector<Assignment> assignments_of(const Book& book, const ProposedPlan& plan);
/// The reason of one of its assignments (by place in the plan); what a run does not get, why, and what would
/// cure it.
std::string reason_for(const ProposedPlan& plan, std::size_t assignment);
std::vector<std::string> run_reasons(const ProposedPlan& plan, int run);

/// Planning on a worker: takes a copy of all it needs, can be stopped and then keeps the best plan found.
class PlanWork {
public:
    void start(PlanProblem problem, std::uint64_t book_changes);
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
