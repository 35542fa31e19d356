#include "app/models/plan_sheet.h"

#include "app/models/planned_run.h"
#include "app/plan/freeze.h"
#include "core/decimal.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <tuple>
#include <vector>

namespace mellowbin::app {
namespace {

using print::Cell;

std::string kg(double mass) { return fixed(mass, std::abs(mass - std::round(mass)) < 0.05 ? 0 : 1) + " kg"; }

std::string percent(double share) { return fixed(100 * share, 0) + " %"; }

bool is_short(const PlannedRun& run) { return run.short_kg >= 0.5; }

void tell_list(std::string_view title, const std::vector<std::string>& lines, print::Sheet& sheet) {
    if (lines.empty())
        return;
    sheet.blocks.emplace_back(print::Heading{std::string(title)});
    sheet.blocks.emplace_back(print::Bullets{lines});
}

void tell_standing(const PlanModel& model, print::Sheet& sheet) {
    if (model.is_supposed)
        sheet.blocks.emplace_back(print::Loud{"WHAT IF: rests on what is supposed, not adopted"});
    else if (model.standing == PlanModel::Standing::proposed)
        sheet.blocks.emplace_back(print::Loud{"PROPOSED: NOT ADOPTED"});
    else
        sheet.blocks.emplace_back(print::Paragraph{"Adopted plan, as it stands in the book."});
    if (model.standing == PlanModel::Standing::adopted && !model.replan_words.empty())
        sheet.blocks.emplace_back(print::Loud{"The plan in the book no longer holds. " + model.replan_words});
}

print::Sheet begun(const PlanModel& model, const PaperHead& head) {
    const Day last = model.from + Days{model.days - 1};
    print::Sheet sheet;
    sheet.title = fmt::format("{}{}Plan, {} to {}", head.plant, head.plant.empty() ? "" : ": ",
                              short_day(model.from), short_day(last));
    sheet.made = head.made;
    sheet.made_at = head.at;
    sheet.is_across = true;
    sheet.points = 9;
    sheet.blocks.emplace_back(
        print::Paragraph{fmt::format("{} to {}, made {}", iso(model.from), iso(last), head.made)});
    return sheet;
}

Cell lots_of(const PlannedRun& run) {
    Cell out;
    for (const auto& lot : run.lots)
        out.push_back(
            {fmt::format("{} {}{}{}", kg(lot.kg), lot.code, lot.delivery.is_known() ? " (still to come)" : "",
                         lot.is_locked ? " (locked)" : ""),
             lot.delivery.is_known()});
    return out.empty() ? Cell{{"none"}} : out;
}

std::string strength_of(const PlannedRun& run) {
    if (run.lots.empty())
        return "no flour";
    const auto fermented = run.fermentation_words.empty() ? "" : "; fermented " + run.fermentation_words;
    if (run.maturity_target <= 0)
        return "maturity " + percent(run.maturity) + fermented;
    return fmt::format("maturity {} of {} asked for{}", percent(run.maturity), percent(run.maturity_target),
                       fermented);
}

std::string windows_of(const PlannedRun& run) {
    if (!run.windows_words.empty())
        return run.windows_words;
    return run.lots.empty() ? "no flour" : run.windows_fill > 1 ? "outside" : "inside";
}

std::string oxidant_of(const PlannedRun& run) {
    if (run.oxidant.empty())
        return "none";
    const bool is_told = run.oxidant_ppm > 0 && !run.law_words.empty();
    return run.oxidant_words + (is_told ? "; " + run.law_words : "");
}

/// The verdict of the run's card, as long as the card has one.
Cell verdict_of(const PlannedRun& run) {
    if (!run.verdict)
        return {};
    const bool is_stopped = run.verdict->ruling == CardVerdict::Ruling::do_not_mix;
    Cell out{{run.verdict->words, is_stopped}};
    for (const auto& reason : run.verdict->reasons)
        out.push_back({reason.words, is_stopped});
    return out;
}

/// What goes into its dough by law.
Cell additions_of(const PlannedRun& run) {
    Cell out{run.dose_withheld.empty() ? print::CellLine{oxidant_of(run)}
                                       : print::CellLine{run.dose_withheld, true}};
    if (!run.keeping_words.empty())
        out.push_back({run.keeping_words, run.keeping_withheld});
    return out;
}

std::vector<Cell> row(const PlannedRun& run, const PlanModel& model) {
    const auto line = static_cast<std::size_t>(run.line);
    return {{{line < model.lines.size() ? model.lines[line] : "?"}},
            {{std::to_string(run.sequence)}},
            {{run.product},
             {fmt::format("{}{}{}", run.code, run.is_frozen ? ", fixed" : "",
                          run.is_changed ? ", changed" : "")}},
            {{kg(run.need_kg)}},
            lots_of(run),
            {{strength_of(run)}},
            {{windows_of(run)}},
            additions_of(run),
            {is_short(run) ? print::CellLine{"SHORT " + kg(run.short_kg), true} : print::CellLine{"no"}},
            verdict_of(run)};
}

/// The runs in the order they are mixed: by day, line and place.
std::vector<const PlannedRun*> in_order(const PlanModel& model) {
    std::vector<const PlannedRun*> runs;
    for (const auto& run : model.runs)
        runs.push_back(&run);
    std::stable_sort(runs.begin(), runs.end(), [](const PlannedRun* a, const PlannedRun* b) {
        return std::tie(a->day, a->line, a->sequence) < std::tie(b->day, b->line, b->sequence);
    });
    return runs;
}

print::Table a_day() {
    print::Table table;
    table.columns = {{"Line"},          {"Sequence", print::Side::right},
                     {"Product"},       {"Need", print::Side::right},
                     {"Lots"},          {"Strength"},
                     {"Specification"}, {"Oxidant, preservative"},
                     {"Short"},         {"Card"}};
    return table;
}

void tell_days(const PlanModel& model, print::Sheet& sheet) {
    const auto runs = in_order(model);
    if (runs.empty())
        sheet.blocks.emplace_back(print::Paragraph{"No runs in these days."});
    for (std::size_t i = 0; i < runs.size();) {
        const Day day = runs[i]->day;
        auto table = a_day();
        for (; i < runs.size() && runs[i]->day == day; ++i)
            table.rows.push_back(row(*runs[i], model));
        sheet.blocks.emplace_back(print::Heading{short_day(day)});
        sheet.blocks.emplace_back(std::move(table));
    }
}

void tell_orders(const PlanModel& model, print::Sheet& sheet) {
    std::vector<std::string> lines;
    for (const auto& order : model.orders)
        lines.push_back(fmt::format(
            "{} {} for {}; {}. {}", kg(order.kg), order.flour, order.for_runs,
            order.order_by ? fmt::format("here by {} to mature in time", short_day(*order.order_by))
                           : "too late to mature in time",
            order.if_later));
    tell_list("To order", lines, sheet);
}

void tell_cautions(const PlanModel& model, print::Sheet& sheet) {
    sheet.blocks.emplace_back(print::Paragraph{"Maturity and the days of orders are estimates."});
    const bool is_dosed = std::any_of(model.runs.begin(), model.runs.end(),
                                      [](const PlannedRun& run) { return run.oxidant_ppm > 0; });
    if (is_dosed)
        sheet.blocks.emplace_back(print::Loud{
            "Oxidants: local law and qualified staff come before this plan; limits differ by place and "
            "change. Dose by the run's card, not by this page: weighed by trained staff with the supplier's "
            "safety data sheet at hand; a second person checks the scale."});
}

} // namespace

print::Sheet plan_sheet(const PlanModel& model, const PaperHead& head) {
    auto sheet = begun(model, head);
    tell_standing(model, sheet);
    tell_list("Withheld by law, which no plan mends", model.withheld, sheet);
    tell_list("Supposed", model.suppositions, sheet);
    tell_days(model, sheet);
    tell_list("Short, and what would cure it", model.shortages, sheet);
    tell_orders(model, sheet);
    tell_cautions(model, sheet);
    return sheet;
}

} // namespace mellowbin::app
