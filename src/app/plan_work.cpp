#include "app/plan_work.h"

#include "solver/clp_solver.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <future>

namespace mellowbin::app {
namespace {

std::string_view in_words(planning::Stage stage) {
    switch (stage) {
    case planning::Stage::first_plan:
        return "first plan";
    case planning::Stage::improving:
        return "improving";
    case planning::Stage::polishing:
        return "polishing";
    case planning::Stage::proving_bound:
        return "proving the bound";
    case planning::Stage::done:
        return "done";
    }
    return "";
}

planning::Background background_of(const PlanProblem& input) {
    planning::Background background;
    background.day_in_words = [from = input.span.from](double day) {
        return short_day(from + Days{static_cast<int>(std::floor(day))});
    };
    background.today = static_cast<double>((input.span.today - input.span.from).count());
    return background;
}

/// The bound is proven beside the plan, on a thread and with a solver of its own; a stop ends both.
planning::Outcome plan_and_bound(const planning::Problem& problem, planning::Progress& progress,
                                 std::stop_token stop) {
    auto bound = std::async(std::launch::async, [&problem, &progress, stop] {
        solver::ClpSolver solver;
        const auto proven = planning::prove_bound(problem, solver, stop);
        if (proven)
            progress.bound = *proven;
        return proven;
    });
    solver::ClpSolver solver;
    planning::Effort effort;
    effort.bound = planning::BoundProof::leave_out;
    auto outcome = planning::make_plan(problem, solver, effort, &progress, stop);
    outcome.bound = bound.get();
    return outcome;
}

} // namespace

void PlanWork::start(PlanProblem problem, std::uint64_t book_changes) {
    proposal_.reset();
    progress_ = std::make_shared<planning::Progress>();
    started_ = std::chrono::steady_clock::now();
    job_ = Job<ProposedPlan>([problem = std::move(problem), progress = progress_,
                              book_changes](std::stop_token stop) mutable {
        ProposedPlan plan;
        plan.input = std::move(problem);
        plan.book_changes = book_changes;
        plan.outcome = plan_and_bound(plan.input.problem, *progress, stop);
        plan.reasons = planning::explain(plan.input.problem, plan.outcome.plan, background_of(plan.input));
        return plan;
    });
}

void PlanWork::stop() { job_.stop(); }

void PlanWork::take() { proposal_ = job_.take(); }

std::string PlanWork::progress_in_words() const {
    if (!progress_)
        return "";
    const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - started_).count();
    std::string words = fmt::format("{}, {} steps, {:.1f} s", in_words(progress_->stage.load()),
                                    progress_->steps.load(), seconds);
    if (const double best = progress_->best_objective.load(); std::isfinite(best))
        words += fmt::format(", best {:.0f}", best);
    if (const double bound = progress_->bound.load(); std::isfinite(bound))
        words += fmt::format(", bound {:.0f}", bound);
    return words;
}

std::string reason_for(const ProposedPlan& plan, std::size_t assignment) {
    const auto& reason = plan.reasons.assignments[assignment];
    return reason.why + (reason.next_best.empty() ? "" : " " + reason.next_best);
}

std::vector<std::string> run_reasons(const ProposedPlan& plan, int run) {
    const auto& reason = plan.reasons.runs[static_cast<std::size_t>(run)];
    std::vector<std::string> words;
    for (const auto& trouble : reason.troubles) {
        std::string sentence = trouble.what;
        for (const auto& why : trouble.why)
            sentence += " " + why;
        for (const auto& cure : trouble.cures)
            sentence += " " + cure;
        words.push_back(std::move(sentence));
    }
    words.insert(words.end(), reason.forbidden.begin(), reason.forbidden.end());
    return words;
}

std::vector<Assignment> assignments_of(const Book& book, const ProposedPlan& plan) {
    const auto& input = plan.input;
    std::vector<Grams> free;
    for (const LotId lot : input.lots)
        free.push_back(book.stock.total(lot));
    std::vector<Grams> wanted;
    for (const RunId run : input.runs)
        wanted.push_back(book.run(run) ? book.run(run)->flour : Grams{0});

    std::vector<Assignment> assignments;
    for (std::size_t i = 0; i < plan.outcome.plan.assignments.size(); ++i) {
        const auto& a = plan.outcome.plan.assignments[i];
        const auto run = static_cast<std::size_t>(a.run);
        const auto lot = static_cast<std::size_t>(a.lot);
        // Rounded to whole grams, never above what the lot has or the run wants.
        const Grams mass = std::min({Grams{std::llround(a.tonnes * 1e6)}, free[lot], wanted[run]});
        if (mass <= Grams{0})
            continue;
        free[lot] = free[lot] - mass;
        wanted[run] = wanted[run] - mass;
        const auto& locks = input.problem.locks;
        const bool is_locked = std::any_of(locks.begin(), locks.end(), [&](const auto& lock) {
            return lock.run == a.run && lock.lot == a.lot;
        });
        assignments.push_back({input.runs[run], input.lots[lot], mass, is_locked, reason_for(plan, i)});
    }
    // A gram or two lost to rounding goes to a lot of the run that still has it.
    for (auto& a : assignments) {
        const auto run = static_cast<std::size_t>(std::find(input.runs.begin(), input.runs.end(), a.run) -
                                                  input.runs.begin());
        const auto lot = static_cast<std::size_t>(std::find(input.lots.begin(), input.lots.end(), a.lot) -
                                                  input.lots.begin());
        const Grams more = std::min(wanted[run], free[lot]);
        if (more <= Grams{0} || wanted[run] > Grams{10} || a.is_locked)
            continue;
        a.mass += more;
        wanted[run] = wanted[run] - more;
        free[lot] = free[lot] - more;
    }
    return assignments;
}

} // namespace mellowbin::app
