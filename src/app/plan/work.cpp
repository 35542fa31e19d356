#include "app/plan/work.h"

#include "app/plan/runs.h"
#include "app/plan/units.h"
#include "app/plan/view.h"
#include "core/decimal.h"
#include "solver/clp_solver.h"
#include "solver/plan_and_bound.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>

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
        return "writing the reasons";
    }
    return "";
}

std::string lower_first(std::string_view words) {
    std::string lower(words);
    if (!lower.empty())
        lower[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(lower[0])));
    return lower;
}

const Product& product_of(const PlanTask& task, int run) {
    return *task.book->product(task.book->run(task.input.runs[static_cast<std::size_t>(run)])->product);
}

/// The task must outlive it.
planning::DoseNamer doses_of(const PlanTask& task) {
    return [&task](int run, double ppm) {
        const auto& oxidant = product_of(task, run).oxidant;
        return planning::Dose{ppm, oxidant ? lower_first(name_of(*oxidant)) : "oxidant"};
    };
}

/// Of new flour for a need, from its arrival on.
std::optional<double> days_to_ready(PlanView& view, const PlanTask& task, int run) {
    const auto r = static_cast<std::size_t>(run);
    const Run& of_book = *view.book.run(task.input.runs[r]);
    const Product product = as_baked(product_of(task, run), of_book);
    const FlourPart part = task.input.parts[r];
    const Maturity target = has_target(view.book, product, part) ? product.maturity_target : Maturity{0};
    const auto latest = view.latest_arrival(flour_of(product, part), target, of_book.day);
    if (!latest)
        return {};
    return static_cast<double>((of_book.day - *latest).count());
}

/// The task and the view must outlive it.
planning::Background background_of(const PlanTask& task, PlanView& view) {
    planning::Background background;
    background.day_in_words = [from = task.input.span.from](double day) {
        return short_day(from + Days{static_cast<int>(std::floor(day))});
    };
    background.dose = doses_of(task);
    background.days_to_ready = [&](int run) { return days_to_ready(view, task, run); };
    background.today = static_cast<double>((task.input.span.today - task.input.span.from).count());
    return background;
}

void compare_with_book(ProposedPlan& plan) {
    const PlanTask& task = plan.task;
    const PlanProblem& before = task.supposed ? task.supposed->unsupposed : task.input;
    const planning::Plan& standing = task.supposed ? task.supposed->standing : task.standing;
    if (!task.is_planned)
        return;
    plan.comparison =
        planning::compare(before.problem, standing, task.input.problem, plan.outcome.plan, doses_of(task));
}

/// Grams that are still to be given out: of the flours and for the needs.
struct OpenGrams {
    std::vector<Grams> free, wanted;

    explicit OpenGrams(const PlanProblem& p) : wanted(p.needs) {
        for (const auto& lot : p.problem.lots)
            free.emplace_back(std::llround(lot.stock_t * 1e6));
    }
    Grams take(const planning::Assignment& a, Grams most) {
        const auto run = static_cast<std::size_t>(a.run);
        const auto lot = static_cast<std::size_t>(a.lot);
        const Grams mass = std::min({most, free[lot], wanted[run]});
        if (mass <= Grams{0})
            return {};
        free[lot] = free[lot] - mass;
        wanted[run] = wanted[run] - mass;
        return mass;
    }
};

bool is_locked(const planning::Problem& problem, const planning::Assignment& a) {
    return std::any_of(problem.locks.begin(), problem.locks.end(),
                       [&](const auto& lock) { return lock.run == a.run && lock.lot == a.lot; });
}

/// Rounded to whole grams, never above what the lot has or the run wants; a gram or two lost to rounding goes
/// to a lot of the run that still has it.
std::vector<Grams> in_whole_grams(const PlanProblem& p, const planning::Plan& plan) {
    OpenGrams open(p);
    std::vector<Grams> masses;
    for (const auto& a : plan.assignments)
        masses.push_back(open.take(a, Grams{std::llround(a.tonnes * 1e6)}));
    for (std::size_t i = 0; i < masses.size(); ++i) {
        const auto& a = plan.assignments[i];
        const Grams lost = open.wanted[static_cast<std::size_t>(a.run)];
        if (masses[i] > Grams{0} && lost > Grams{0} && lost <= few_grams && !is_locked(p.problem, a))
            masses[i] += open.take(a, lost);
    }
    return masses;
}

} // namespace

void judge(ProposedPlan& plan) {
    plan.outcome.evaluation = planning::evaluate(plan.input().problem, plan.outcome.plan);
    plan.fault.clear();
    for (const auto& broken : plan.outcome.evaluation.broken)
        if (broken.cause == planning::Cause::plan)
            plan.fault += (plan.fault.empty() ? "" : "; ") + broken.words;
    if (!plan.fault.empty())
        plan.fault =
            fmt::format("The planner broke a rule, which is a fault of the program: {}. The plan is not "
                        "to be used; please report it with a copy of the book.",
                        plan.fault);
}

ProposedPlan carry_out(PlanTask task, planning::Progress& progress, std::stop_token stop) {
    ProposedPlan plan;
    plan.task = std::move(task);
    const PlanTask& given = plan.task;
    if (given.mending) {
        solver::ClpSolver clp;
        plan.outcome =
            planning::mend_plan(given.input.problem, given.standing, clp, *given.mending, &progress, stop);
    } else {
        plan.outcome = solver::plan_and_bound(given.input.problem, given.effort, &progress, stop);
    }
    judge(plan);
    progress.stage = planning::Stage::done;
    PlanView view(*given.book, *given.estimates, given.input.span.today);
    plan.reasons = planning::explain(given.input.problem, plan.outcome.plan, background_of(given, view));
    compare_with_book(plan);
    return plan;
}

void PlanWork::start(PlanTask task) {
    proposal_.reset();
    progress_ = std::make_shared<planning::Progress>();
    started_ = std::chrono::steady_clock::now();
    job_ = Job<ProposedPlan>([task = std::move(task), progress = progress_](std::stop_token stop) mutable {
        return carry_out(std::move(task), *progress, std::move(stop));
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

GivenByRun given_by(const Book& book, const ProposedPlan& plan) {
    auto given = given_by_book(book);
    const PlanProblem& p = plan.input();
    for (std::size_t r = 0; r < p.runs.size(); ++r)
        if (p.problem.runs[r].state == planning::RunState::open)
            given[p.runs[r]].clear();
    const auto records = records_of(plan);
    for (const auto& a : records.assignments)
        given[a.run].push_back({a.lot, {}, a.mass, a.is_locked, a.reason});
    for (const auto& promise : records.promises)
        given[promise.run].push_back({{}, promise.delivery, promise.mass, false, promise.reason});
    return given;
}

std::string reason_for(const ProposedPlan& plan, std::size_t assignment) {
    const auto& reason = plan.reasons.assignments[assignment];
    return reason.why + (reason.next_best.empty() ? "" : " " + reason.next_best);
}

std::vector<std::string> troubles_of(const ProposedPlan& plan, int run) {
    std::vector<std::string> words;
    for (const auto& trouble : plan.reasons.runs[static_cast<std::size_t>(run)].troubles) {
        std::string sentence = trouble.what;
        for (const auto& why : trouble.why)
            sentence += " " + why;
        for (const auto& cure : trouble.cures)
            sentence += " " + cure;
        words.push_back(std::move(sentence));
    }
    return words;
}

namespace {

/// So much of what a silo gives, by the names under which it lies there. What is left of each name is kept
/// over the runs, so that none is given out twice.
std::vector<Layer> by_names(std::vector<Layer>& left, Grams mass) {
    std::vector<double> weights;
    std::vector<Grams> most;
    Grams all;
    for (const auto& name : left) {
        weights.push_back(static_cast<double>(name.mass.count()));
        most.push_back(name.mass);
        all += name.mass;
    }
    const auto masses = shared_out(std::min(mass, all), weights, most);
    std::vector<Layer> given;
    for (std::size_t i = 0; i < masses.size(); ++i) {
        left[i].mass = left[i].mass - masses[i];
        if (masses[i] > Grams{0})
            given.push_back({left[i].lot, masses[i]});
    }
    return given;
}

/// A run may have a lot from a silo and from a bay: one assignment.
void add(std::vector<Assignment>& assignments, Assignment one) {
    for (auto& known : assignments)
        if (known.run == one.run && known.lot == one.lot) {
            known.mass += one.mass;
            known.is_locked = known.is_locked || one.is_locked;
            return;
        }
    assignments.push_back(std::move(one));
}

} // namespace

PlanRecords records_of(const ProposedPlan& plan) {
    const PlanProblem& p = plan.input();
    const auto& assignments = plan.outcome.plan.assignments;
    const auto masses = in_whole_grams(p, plan.outcome.plan);
    auto portions = p.portions;
    PlanRecords records;
    for (std::size_t i = 0; i < masses.size(); ++i) {
        const auto run = static_cast<std::size_t>(assignments[i].run);
        const auto lot = static_cast<std::size_t>(assignments[i].lot);
        if (masses[i] <= Grams{0})
            continue;
        const auto named = portions[lot].empty() ? std::vector<Layer>{{p.lots[lot], masses[i]}}
                                                 : by_names(portions[lot], masses[i]);
        if (p.problem.runs[run].state == planning::RunState::frozen)
            continue;
        if (p.deliveries[lot].is_known()) {
            records.promises.push_back({p.runs[run], p.deliveries[lot], masses[i], reason_for(plan, i)});
            continue;
        }
        const bool locked = is_locked(p.problem, assignments[i]);
        for (const auto& part : named)
            add(records.assignments, {p.runs[run], part.lot, part.mass, locked, reason_for(plan, i)});
    }
    return records;
}

} // namespace mellowbin::app
