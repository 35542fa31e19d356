#include "app/models/plan.h"

#include "app/book/book.h"
#include "app/book/fields.h"
#include "app/book/station.h"
#include "app/models/card_words.h"
#include "app/models/looked_at.h"
#include "app/models/run_card.h"
#include "app/models/withheld.h"
#include "app/plan/given.h"
#include "app/plan/holds.h"
#include "app/plan/orders.h"
#include "app/plan/problem.h"
#include "app/plan/view.h"
#include "app/plan/work.h"
#include "core/decimal.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <tuple>

namespace mellowbin::app {
namespace {

std::vector<std::pair<std::string, double>> named(const planning::Parts& parts) {
    return {{"shortage", parts.shortage},
            {"windows", parts.windows},
            {"maturity", parts.maturity},
            {"oxidant", parts.oxidant},
            {"past best", parts.past_best},
            {"waste", parts.waste},
            {"lot changes", parts.lot_changes},
            {"age", parts.age},
            {"cost", parts.cost}};
}

std::string objective_in_words(const ProposedPlan& plan) {
    std::string words = fmt::format("Weighed {:.0f}", plan.outcome.evaluation.objective);
    for (const auto& [name, value] : named(plan.outcome.evaluation.parts))
        if (value >= 0.5)
            words += fmt::format(", {} {:.0f}", name, value);
    if (plan.outcome.bound)
        words += fmt::format("; no plan can be below {:.0f}", *plan.outcome.bound);
    return words;
}

/// One tier held against what is proven of it; nothing where nothing is.
void say_tier(const char* name, double has, std::optional<double> least, std::vector<std::string>& words) {
    if (has < 0.005)
        words.push_back(fmt::format("{}: none, and less there is not.", name));
    else if (least && has <= *least * 1.001 + 0.5)
        words.push_back(fmt::format("{}: weighed {:.0f}, and no plan can have less.", name, has));
    else if (least)
        words.push_back(fmt::format("{}: weighed {:.0f}; no plan can be below {:.0f}.", name, has, *least));
}

/// What is known for certain of how much better a plan could be.
std::vector<std::string> bounds_in_words(const ProposedPlan& plan) {
    std::vector<std::string> words;
    if (plan.outcome.bound) {
        const double gap = plan.outcome.gap().value_or(0);
        words.push_back(
            gap < 0.0005
                ? "This plan is proven to be the best by the weights set."
                : fmt::format("No plan can weigh less than {:.0f}; this one weighs {:.0f}. At most {:.0f} % "
                              "could be gained; how much of it can be had is not known.",
                              *plan.outcome.bound, plan.outcome.evaluation.objective, 100 * gap));
    }
    const auto& parts = plan.outcome.evaluation.parts;
    const auto& least = plan.outcome.tiers;
    say_tier("Flour short", parts.shortage, least.shortage, words);
    say_tier("Outside specification", parts.windows, least.windows, words);
    say_tier("Strength missing", parts.maturity, least.maturity, words);
    say_tier("Expires unused", parts.waste, least.waste, words);
    return words;
}

std::vector<Given> of(const GivenByRun& given, RunId run) {
    const auto at = given.find(run);
    return at == given.end() ? std::vector<Given>{} : at->second;
}

std::string adopt_blocked(const Station& s, const ProposedPlan& plan) {
    if (!plan.fault.empty())
        return plan.fault;
    if (plan.task.supposed)
        return "This plan rests on what is supposed: it can be looked at, not adopted";
    if (plan.task.book_changes != s.book_changes)
        return "The book changed since this plan was made: plan again";
    return {};
}

/// What the reasons say of a run, both needs of it together.
void show_reasons(const ProposedPlan& plan, PlannedRun& run) {
    const PlanProblem& p = plan.input();
    for (std::size_t r = 0; r < p.runs.size(); ++r) {
        if (p.runs[r] != run.id)
            continue;
        const auto& reason = plan.reasons.runs[r];
        for (auto& words : troubles_of(plan, static_cast<int>(r)))
            run.reasons.push_back(std::move(words));
        run.forbidden.insert(run.forbidden.end(), reason.forbidden.begin(), reason.forbidden.end());
        run.possible_lots += reason.possible_lots;
        if (!reason.possible.empty())
            run.possible_words += (run.possible_words.empty() ? "" : "; ") + reason.possible;
    }
}

void show_proposal(const Station& s, const ProposedPlan& plan, const GivenByRun& given, PlanModel& model) {
    const Book& book = plan.task.supposed ? *plan.task.supposed->book : s.book;
    const GivenByRun before = given_by_book(s.book);
    model.standing = PlanModel::Standing::proposed;
    model.is_supposed = plan.task.supposed.has_value();
    model.objective = objective_in_words(plan);
    model.bounds = bounds_in_words(plan);
    if (plan.comparison)
        model.comparison = comparison_shown(book, plan);
    model.adopt_blocked = adopt_blocked(s, plan);
    model.can_adopt = model.adopt_blocked.empty();
    for (auto& run : model.runs) {
        show_reasons(plan, run);
        const auto was = of(before, run.id);
        const auto is = of(given, run.id);
        run.is_changed = !is_same(was, is);
        if (run.is_changed)
            model.changes.push_back(
                fmt::format("Run {}: {}, was {}", run.code, in_words(book, is), in_words(s.book, was)));
    }
}

void show_choices(const Station& s, const LookedAt& l, PlanModel& model) {
    model.from = l.plan_from;
    model.days = l.plan_days;
    model.today = s.today();
    for (const auto& line : s.book.lines)
        model.lines.push_back(line.name);
    model.line_names = names_in_use(s.book.lines);
    model.products = names_in_use(s.book.products);
    for (const auto& supposition : l.suppositions)
        model.suppositions.push_back(supposition.words);
    model.is_planning = l.plan_work.is_running();
    if (model.is_planning)
        model.progress = l.plan_work.progress_in_words();
}

/// What the mixer's card says of the run's next batch.
std::optional<CardVerdict> verdict_of(const Station& s, const Run& run, const PlannedRun& planned) {
    const Product* product = s.book.product(run.product);
    const Line* line = s.book.line(run.line);
    if (!product || !line || planned.is_past || planned.lots.empty() ||
        s.book.batches_mixed(run) >= run.batches)
        return {};
    return shown(run_card(s, run, *product, *line)->verdict);
}

/// A line that is retired stands on the board as long as runs of the days shown do.
void leave_retired_lines_out(const Book& book, PlanModel& model) {
    for (auto i = static_cast<int>(book.lines.size()) - 1; i >= 0; --i) {
        const bool has_runs = std::any_of(model.runs.begin(), model.runs.end(),
                                          [&](const PlannedRun& run) { return run.line == i; });
        if (has_runs || !book.lines[static_cast<std::size_t>(i)].is_retired)
            continue;
        model.lines.erase(model.lines.begin() + i);
        for (auto& run : model.runs)
            run.line -= run.line > i ? 1 : 0;
    }
}

std::string replan_words(PlanView& view, PlanSpan span) {
    constexpr std::size_t most_told = 5;
    const auto reasons = why_no_longer(view, span);
    std::string words;
    for (std::size_t i = 0; i < std::min(most_told, reasons.size()); ++i)
        words += (i > 0 ? ". " : "") + reasons[i];
    if (reasons.size() > most_told)
        words += fmt::format(". And {} more", reasons.size() - most_told);
    return words.empty() ? words : words + ".";
}

} // namespace

std::string plan_in_words(const ProposedPlan& plan) {
    if (!plan.fault.empty())
        return plan.fault;
    const double short_kg = plan.outcome.evaluation.short_t * 1000;
    const auto& needs = plan.input().runs; // a run of two kinds of flour stands there twice
    const auto runs = std::set<RunId>(needs.begin(), needs.end()).size();
    std::string words = fmt::format("Plan of {} {} made", runs, runs == 1 ? "run" : "runs");
    words += short_kg >= 0.5 ? fmt::format(": {} kg of flour are short", fixed(short_kg, 0))
                             : ": nothing is short";
    if (!plan.outcome.faults.empty())
        words += fmt::format(
            "; a plan that broke a rule ({}) was passed over, which is a fault of the program: please "
            "report it",
            plan.outcome.faults.front());
    if (plan.outcome.ending == planning::Ending::stopped)
        words += "; it is the best found before the stop";
    return words + (plan.task.supposed ? "; it rests on what is supposed" : "; adopt it or discard it");
}

PlanModel make_plan(const Station& s, const LookedAt& looked_at) {
    PlanModel model;
    show_choices(s, looked_at, model);
    const auto& proposal = looked_at.plan_work.proposal();
    const bool is_supposed = proposal && proposal->task.supposed;
    const Book& book = is_supposed ? *proposal->task.supposed->book : s.book;
    PlanView view(book, s.estimates, s.today());
    const auto given = proposal ? given_by(book, *proposal) : given_by_book(book);
    std::vector<RunId> short_runs;
    for (const auto& run : book.runs) {
        if (run.day < model.from || run.day >= model.from + Days{model.days})
            continue;
        model.runs.push_back(planned_run(s, view, run, of(given, run.id)));
        if (!proposal)
            model.runs.back().verdict = verdict_of(s, run, model.runs.back());
        model.runs.back().changed = s.changed_elsewhere(record_of(run.id));
        if (model.runs.back().short_kg >= 0.5 && !model.runs.back().is_past)
            short_runs.push_back(run.id);
    }
    leave_retired_lines_out(book, model);
    if (proposal)
        show_proposal(s, *proposal, given, model);
    if (looked_at.cures_of && !proposal)
        model.cures = make_run_cures(s, *looked_at.cures_of);
    model.withheld = withheld_in(book, model.runs);
    model.shortages = shortages_of(view, short_runs, given);
    model.orders = orders_for(view, short_runs, given);
    PlanView of_book(s.book, s.estimates, s.today());
    model.replan_words = replan_words(of_book, {s.today(), model.from, model.days});
    show_supply(s, model);
    return model;
}

} // namespace mellowbin::app
