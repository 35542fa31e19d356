#include "app/models/plan_compare.h"

#include "app/book/book.h"
#include "app/plan/problem.h"
#include "app/plan/task.h"
#include "app/plan/units.h"
#include "app/plan/work.h"
#include "core/decimal.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin::app {
namespace {

using planning::Comparison;
using planning::Parts;

std::string kg(double tonnes) { return fixed(std::round(tonnes * 1000), 0) + " kg"; }

std::string count(int number, const char* what) {
    return fmt::format("{} {}{}", number, what, number == 1 ? "" : "s");
}

/// One part of both plans, its money and the figure people ask for.
class PartRows {
public:
    explicit PartRows(const Comparison& c) : c_(c) {}

    template <class Words> void add(const char* name, double Parts::*part, Words words) {
        rows_.push_back({name, c_.before.parts.*part, c_.after.parts.*part, words(c_.figures_before),
                         words(c_.figures_after)});
    }
    std::vector<ComparedPart> done() {
        rows_.push_back({"The whole", c_.before.objective, c_.after.objective, "", ""});
        return std::move(rows_);
    }

private:
    const Comparison& c_;
    std::vector<ComparedPart> rows_;
};

std::vector<ComparedPart> parts_of(const Comparison& c) {
    using Figures = planning::PlanFigures;
    const auto nothing = [](const Figures&) { return std::string(); };
    PartRows rows(c);
    rows.add("Flour short", &Parts::shortage, [](const Figures& f) { return kg(f.short_t); });
    rows.add("Outside specification", &Parts::windows,
             [](const Figures& f) { return count(f.out_of_window_runs, "run"); });
    rows.add("Strength missing", &Parts::maturity,
             [](const Figures& f) { return count(f.immature_runs, "run"); });
    rows.add("Oxidant", &Parts::oxidant, [](const Figures& f) {
        return fmt::format("{} mg/kg in the mean, by maturity, counted as ascorbic acid",
                           fixed(f.mean_oxidant_ppm, 1));
    });
    rows.add("Past its best", &Parts::past_best, [](const Figures& f) { return kg(f.past_best_t); });
    rows.add("Expires unused", &Parts::waste, [](const Figures& f) { return kg(f.wasted_t); });
    rows.add("Lot changes", &Parts::lot_changes,
             [](const Figures& f) { return std::to_string(f.lot_changes); });
    rows.add("Younger flour before older", &Parts::age, nothing);
    rows.add("Dearer flour", &Parts::cost, nothing);
    return rows.done();
}

/// "400 kg A + 200 kg B" of one run of a problem.
std::string lots_in_words(const planning::Problem& problem, const planning::Use& use) {
    std::string words;
    for (const auto& [l, t] : use)
        words += fmt::format("{}{} {}", words.empty() ? "" : " + ", kg(t),
                             problem.lots[static_cast<std::size_t>(l)].id);
    return words.empty() ? "nothing" : words;
}

std::string title_of(const Book& book, const PlanProblem& p, int index) {
    const auto r = static_cast<std::size_t>(index);
    const Run& run = *book.run(p.runs[r]);
    const Line* line = book.line(run.line);
    const auto& product = p.problem.products[static_cast<std::size_t>(p.problem.runs[r].product)];
    return fmt::format("{}, {}: {} ({})", short_day(run.day), line ? line->name : "?", product.name,
                       run.code);
}

} // namespace

PlanComparison comparison_shown(const Book& book, const ProposedPlan& plan) {
    const Comparison& c = *plan.comparison;
    const PlanTask& task = plan.task;
    const PlanProblem& before = task.supposed ? task.supposed->unsupposed : task.input;
    const auto was =
        planning::uses_of(before.problem, task.supposed ? task.supposed->standing : task.standing);
    const auto is = planning::uses_of(task.input.problem, plan.outcome.plan);
    PlanComparison shown;
    shown.before_name = task.broken_runs.empty() || task.supposed ? "Plan in the book"
                                                                  : "Plan in the book, as far as it holds";
    shown.after_name = task.supposed ? "With what is supposed" : "New plan";
    shown.parts = parts_of(c);
    shown.verdict = c.verdict;
    for (const auto& move : c.moved)
        shown.moved.push_back(
            {task.input.runs[static_cast<std::size_t>(move.after)], title_of(book, task.input, move.after),
             lots_in_words(before.problem, was[static_cast<std::size_t>(move.before)]),
             lots_in_words(task.input.problem, is[static_cast<std::size_t>(move.after)]), move.words});
    return shown;
}

} // namespace mellowbin::app
