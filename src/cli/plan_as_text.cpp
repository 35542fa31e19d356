#include "app/models/plan.h"
#include "app/models/plan_compare.h"
#include "app/models/planned_run.h"
#include "app/plan/freeze.h"
#include "cli/as_text.h"
#include "cli/say.h"
#include "cli/text_table.h"
#include "core/decimal.h"

#include <fmt/format.h>

#include <ostream>

namespace mellowbin::cli {

using namespace app;

namespace {

void print_list(std::ostream& out, const char* title, const std::vector<std::string>& lines) {
    if (lines.empty())
        return;
    say(out, "\n{}\n", title);
    for (const auto& line : lines)
        say(out, "  - {}\n", line);
}

void print_run(std::ostream& out, const PlannedRun& run, const PlanModel& plan) {
    say(out, "  {}  {}, {}: {} kg{}{}{}\n", run.code, plan.lines[static_cast<std::size_t>(run.line)],
        run.product, fixed(run.need_kg, 0),
        run.short_kg >= 0.5 ? fmt::format("  ** SHORT {} kg **", fixed(run.short_kg, 0)) : "",
        run.is_frozen ? "  (fixed)" : "", run.is_changed ? "  (changed)" : "");
    for (const auto& lot : run.lots) {
        say(out, "      {:>8} kg  {}{}{}: {}\n", fixed(lot.kg, 1), lot.code,
            lot.delivery.is_known() ? " (to come)" : "", lot.is_locked ? " (locked)" : "",
            lot.reason.empty() ? "no reason on record" : lot.reason);
    }
    if (!run.fermentation_words.empty())
        say(out, "      fermented {}\n", run.fermentation_words);
    if (!run.dose_withheld.empty())
        say(out, "      ** {} **\n", run.dose_withheld);
    else if (!run.oxidant.empty())
        say(out, "      {}{}\n", run.oxidant_words,
            run.oxidant_ppm > 0 && !run.law_words.empty() ? "; " + run.law_words : "");
    if (!run.keeping_words.empty())
        say(out, "      {}{}{}\n", run.keeping_withheld ? "** " : "", run.keeping_words,
            run.keeping_withheld ? " **" : "");
    if (run.verdict && !run.verdict->reasons.empty()) {
        say(out, "      {}\n", run.verdict->words);
        for (const auto& reason : run.verdict->reasons)
            say(out, "      - {}\n", reason.words);
    }
    if (!run.windows_words.empty())
        say(out, "      {}\n", run.windows_words);
    for (const auto& reason : run.reasons)
        say(out, "      - {}\n", reason);
    if (plan.standing == PlanModel::Standing::proposed)
        say(out, "      possible: {}\n", run.possible_words.empty() ? "no lot" : run.possible_words);
    for (const auto& rule : run.forbidden)
        say(out, "      not: {}\n", rule);
}

} // namespace

void print_comparison(std::ostream& out, const PlanComparison& comparison) {
    say(out, "\n{} beside {}\n{}\n", comparison.after_name, comparison.before_name, comparison.verdict);
    TextTable table({{"", Side::left},
                     {"before", Side::right},
                     {"after", Side::right},
                     {"before, in words", Side::left},
                     {"after, in words", Side::left}},
                    2);
    for (const auto& part : comparison.parts)
        table.add(
            {part.name, fixed(part.before, 0), fixed(part.after, 0), part.before_words, part.after_words});
    table.print(out);
    for (const auto& moved : comparison.moved)
        say(out, "  {}\n      was {}\n      now {}{}\n", moved.title, moved.before, moved.after,
            moved.gain.empty() ? "" : "\n      " + moved.gain);
}

void print_orders(std::ostream& out, const PlanModel& plan) {
    if (plan.orders.empty()) {
        say(out, "Nothing to order: no run from {} on for {} days is short.\n", iso(plan.from), plan.days);
        return;
    }
    TextTable table({{"flour", Side::left},
                     {"kg", Side::right},
                     {"arrive by", Side::left},
                     {"for", Side::left},
                     {"if it comes later", Side::left}});
    for (const auto& order : plan.orders)
        table.add({order.flour, fixed(order.kg, 0), order.order_by ? iso(*order.order_by) : "too late",
                   order.for_runs, order.if_later});
    table.print(out);
    out << "Arrive by: the latest day from which it is released and mature in time with the confidence set, "
           "an "
           "estimate.\n";
}

void print_plan(std::ostream& out, const PlanModel& plan) {
    say(out, "Plan from {}, {} days ({})\n", iso(plan.from), plan.days,
        plan.is_supposed                                 ? "what if, not to be adopted"
        : plan.standing == PlanModel::Standing::proposed ? "proposed, not adopted"
                                                         : "as adopted");
    if (!plan.objective.empty())
        out << plan.objective << '\n';
    if (!plan.replan_words.empty())
        say(out, "The plan in the book holds no longer. {}\n", plan.replan_words);
    print_list(out, "Withheld by law, which no plan mends", plan.withheld);
    print_list(out, "Supposed", plan.suppositions);
    if (plan.runs.empty())
        out << "No runs in these days.\n";
    Day last{};
    for (const auto& run : plan.runs) {
        if (run.day != last)
            say(out, "\n{}\n", short_day(run.day));
        last = run.day;
        print_run(out, run, plan);
    }
    print_list(out, "Shortages", plan.shortages);
    print_list(out, "Proven", plan.bounds);
    if (!plan.orders.empty()) {
        out << "\nTo order\n";
        print_orders(out, plan);
    }
    if (plan.comparison)
        print_comparison(out, *plan.comparison);
}

} // namespace mellowbin::cli
