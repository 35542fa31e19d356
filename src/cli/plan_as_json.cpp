#include "app/models/plan.h"
#include "app/models/plan_compare.h"
#include "app/models/planned_run.h"
#include "app/plan/freeze.h"
#include "app/plan/order_advice.h"
#include "cli/as_json.h"
#include "cli/json_parts.h"

namespace mellowbin::cli {
namespace {

using namespace app;

ordered_json of(const PlannedLot& lot) {
    return {{"lot", lot.code},         {"to_come", lot.delivery.is_known()}, {"kg", lot.kg},
            {"locked", lot.is_locked}, {"maturity", lot.maturity},           {"reason", lot.reason}};
}

ordered_json of(const PlannedRun& run, const PlanModel& plan) {
    return {{"run", run.code},
            {"product", run.product},
            {"market", run.market},
            {"line", plan.lines[static_cast<std::size_t>(run.line)]},
            {"day", iso(run.day)},
            {"need_kg", run.need_kg},
            {"short_kg", run.short_kg},
            {"lots", list_of(run.lots, [](const PlannedLot& lot) { return of(lot); })},
            {"maturity", run.maturity},
            {"maturity_target", run.maturity_target},
            {"longer_fermentation_minutes", run.longer_fermentation_minutes},
            {"fermentation", run.fermentation_words},
            {"oxidant", run.oxidant},
            {"oxidant_mg_per_kg", run.oxidant_ppm},
            {"oxidant_words", run.oxidant_words},
            {"windows", run.windows_words},
            {"law", run.law_words},
            {"oxidant_withheld", run.dose_withheld},
            {"keeping", run.keeping_words},
            {"keeping_withheld", run.keeping_withheld},
            {"verdict", run.verdict ? json_of(*run.verdict) : ordered_json()},
            {"reasons", run.reasons},
            {"possible_lots", run.possible_lots},
            {"possible", run.possible_words},
            {"forbidden", run.forbidden},
            {"frozen", run.is_frozen},
            {"changed", run.is_changed}};
}

ordered_json of(const OrderAdvice& order) {
    return {{"flour", order.flour},
            {"kg", order.kg},
            {"arrive_by", json_of(order.order_by)},
            {"for", order.for_runs},
            {"if_later", order.if_later}};
}

ordered_json of(const PlanComparison& comparison) {
    auto parts = list_of(comparison.parts, [](const ComparedPart& part) {
        return ordered_json{{"part", part.name},
                            {"before", part.before},
                            {"after", part.after},
                            {"before_words", part.before_words},
                            {"after_words", part.after_words}};
    });
    auto moved = list_of(comparison.moved, [](const MovedRun& run) {
        return ordered_json{
            {"run", run.title}, {"before", run.before}, {"after", run.after}, {"gain", run.gain}};
    });
    return {{"before", comparison.before_name},
            {"after", comparison.after_name},
            {"verdict", comparison.verdict},
            {"parts", std::move(parts)},
            {"moved", std::move(moved)}};
}

ordered_json orders_of(const PlanModel& plan) {
    return list_of(plan.orders, [](const OrderAdvice& order) { return of(order); });
}

} // namespace

std::string orders_as_json(const PlanModel& plan) {
    return as_document({{"from", iso(plan.from)}, {"days", plan.days}, {"orders", orders_of(plan)}});
}

std::string plan_as_json(const PlanModel& plan) {
    const bool proposed = plan.standing == PlanModel::Standing::proposed;
    return as_document({{"from", iso(plan.from)},
                        {"days", plan.days},
                        {"standing", proposed ? "proposed" : "adopted"},
                        {"supposed", plan.suppositions},
                        {"objective", plan.objective},
                        {"bounds", plan.bounds},
                        {"holds_no_longer", plan.replan_words},
                        {"withheld", plan.withheld},
                        {"runs", list_of(plan.runs, [&](const PlannedRun& run) { return of(run, plan); })},
                        {"shortages", plan.shortages},
                        {"changes", plan.changes},
                        {"orders", orders_of(plan)},
                        {"comparison", plan.comparison ? of(*plan.comparison) : ordered_json(nullptr)}});
}

} // namespace mellowbin::cli
