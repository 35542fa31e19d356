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

constexpr std::string_view style = R"(<style>
@page { size: A4 landscape; margin: 12mm; }
body { font: 10pt sans-serif; color: #000; background: #fff; }
h1 { font-size: 16pt; margin: 0; }
h2 { font-size: 12pt; margin: 5mm 0 1mm; break-after: avoid; }
table { border-collapse: collapse; width: 100%; }
th, td { border: 1px solid #000; padding: 1mm 1.5mm; text-align: left; vertical-align: top; }
td.figure { text-align: right; white-space: nowrap; }
tr, li, .loud { break-inside: avoid; }
.loud { border: 3px solid #000; padding: 2mm; margin: 2mm 0; font-size: 13pt; font-weight: bold; }
</style>
)";

/// Safe between tags and within quotes; control characters, which HTML does not allow, become spaces.
std::string escaped(std::string_view text) {
    std::string out;
    for (const char c : text)
        switch (c) {
        case '&':
            out += "&amp;";
            break;
        case '<':
            out += "&lt;";
            break;
        case '>':
            out += "&gt;";
            break;
        case '"':
            out += "&quot;";
            break;
        case '\'':
            out += "&#39;";
            break;
        default:
            out += static_cast<unsigned char>(c) < ' ' || c == '\x7f' ? ' ' : c;
        }
    return out;
}

std::string kg(double mass) { return fixed(mass, std::abs(mass - std::round(mass)) < 0.05 ? 0 : 1) + " kg"; }

std::string percent(double share) { return fixed(100 * share, 0) + " %"; }

bool is_short(const PlannedRun& run) { return run.short_kg >= 0.5; }

std::string loud(std::string_view words) { return fmt::format("<p class=\"loud\">{}</p>\n", escaped(words)); }

std::string standing(const PlanModel& model) {
    if (model.is_supposed)
        return loud("WHAT IF: rests on what is supposed, not adopted");
    if (model.standing == PlanModel::Standing::proposed)
        return loud("PROPOSED: NOT ADOPTED");
    return "<p>Adopted plan, as it stands in the book.</p>\n";
}

std::string list(std::string_view title, const std::vector<std::string>& lines) {
    if (lines.empty())
        return {};
    std::string out = fmt::format("<h2>{}</h2>\n<ul>\n", escaped(title));
    for (const auto& line : lines)
        out += fmt::format("<li>{}</li>\n", escaped(line));
    return out + "</ul>\n";
}

std::string heading(const PlanModel& model, const std::string& plant, const std::string& made_at) {
    const std::string title =
        fmt::format("{}{}Plan, {} to {}", plant, plant.empty() ? "" : ": ", short_day(model.from),
                    short_day(model.from + Days{model.days - 1}));
    std::string out = fmt::format("<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<title>{0}</title>\n"
                                  "{1}</head>\n<body>\n<h1>{0}</h1>\n<p>{2} to {3}, made {4}</p>\n",
                                  escaped(title), style, iso(model.from),
                                  iso(model.from + Days{model.days - 1}), escaped(made_at));
    out += standing(model);
    if (model.standing == PlanModel::Standing::adopted && !model.replan_words.empty())
        out += loud("The plan in the book no longer holds. " + model.replan_words);
    return out + list("Withheld by law, which no plan mends", model.withheld) +
           list("Supposed", model.suppositions);
}

std::string lots_of(const PlannedRun& run) {
    std::string out;
    for (const auto& lot : run.lots)
        out += fmt::format("{}{} {}{}{}", out.empty() ? "" : "<br>", kg(lot.kg), escaped(lot.code),
                           lot.delivery.is_known() ? " <b>(still to come)</b>" : "",
                           lot.is_locked ? " (locked)" : "");
    return out.empty() ? "none" : out;
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
std::string verdict_of(const PlannedRun& run) {
    if (!run.verdict)
        return {};
    std::string out = escaped(run.verdict->words);
    for (const auto& reason : run.verdict->reasons)
        out += "<br>" + escaped(reason.words);
    return run.verdict->ruling == CardVerdict::Ruling::do_not_mix ? "<b>" + out + "</b>" : out;
}

/// What goes into its dough by law, as cells hold it.
std::string additions_of(const PlannedRun& run) {
    std::string out = run.dose_withheld.empty() ? escaped(oxidant_of(run))
                                                : fmt::format("<b>{}</b>", escaped(run.dose_withheld));
    if (!run.keeping_words.empty())
        out += run.keeping_withheld ? fmt::format("<br><b>{}</b>", escaped(run.keeping_words))
                                    : "<br>" + escaped(run.keeping_words);
    return out;
}

std::string row(const PlannedRun& run, const PlanModel& model) {
    const auto line = static_cast<std::size_t>(run.line);
    return fmt::format(
        "<tr><td>{}</td><td class=\"figure\">{}</td><td>{}<br>{}{}{}</td><td class=\"figure\">{}</td>"
        "<td>{}</td><td>{}</td><td>{}</td><td>{}</td><td>{}</td><td>{}</td></tr>\n",
        escaped(line < model.lines.size() ? model.lines[line] : "?"), run.sequence, escaped(run.product),
        escaped(run.code), run.is_frozen ? ", fixed" : "", run.is_changed ? ", changed" : "", kg(run.need_kg),
        lots_of(run), strength_of(run), escaped(windows_of(run)), additions_of(run),
        is_short(run) ? fmt::format("<b>SHORT {}</b>", kg(run.short_kg)) : "no", verdict_of(run));
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

std::string days(const PlanModel& model) {
    const auto runs = in_order(model);
    std::string out = runs.empty() ? "<p>No runs in these days.</p>\n" : "";
    for (std::size_t i = 0; i < runs.size(); ++i) {
        if (i == 0 || runs[i]->day != runs[i - 1]->day)
            out += fmt::format(
                "<h2>{}</h2>\n<table>\n<thead><tr><th>Line</th><th>Sequence</th><th>Product</th>"
                "<th>Need</th><th>Lots</th><th>Strength</th><th>Specification</th>"
                "<th>Oxidant, preservative</th><th>Short</th><th>Card</th></tr></thead>\n<tbody>\n",
                short_day(runs[i]->day));
        out += row(*runs[i], model);
        if (i + 1 == runs.size() || runs[i + 1]->day != runs[i]->day)
            out += "</tbody>\n</table>\n";
    }
    return out;
}

std::string orders(const PlanModel& model) {
    std::vector<std::string> lines;
    for (const auto& order : model.orders)
        lines.push_back(fmt::format(
            "{} {} for {}; {}. {}", kg(order.kg), order.flour, order.for_runs,
            order.order_by ? fmt::format("here by {} to mature in time", short_day(*order.order_by))
                           : "too late to mature in time",
            order.if_later));
    return list("To order", lines);
}

std::string cautions(const PlanModel& model) {
    std::string out = "<p>Maturity and the days of orders are estimates.</p>\n";
    const bool is_dosed = std::any_of(model.runs.begin(), model.runs.end(),
                                      [](const PlannedRun& run) { return run.oxidant_ppm > 0; });
    if (is_dosed)
        out += loud("Oxidants: local law and qualified staff come before this plan; limits differ by place "
                    "and change. Dose by the run's card, not by this page: weighed by trained staff with the "
                    "supplier's safety data sheet at hand; a second person checks the scale.");
    return out;
}

} // namespace

std::string plan_sheet(const PlanModel& model, const std::string& plant, const std::string& made_at) {
    return std::string(plan_sheet_head) + heading(model, plant, made_at) + days(model) +
           list("Short, and what would cure it", model.shortages) + orders(model) + cautions(model) +
           "</body>\n</html>\n";
}

} // namespace mellowbin::app
