#include "app/models/card.h"
#include "app/models/doughs.h"
#include "app/models/keeping.h"
#include "app/models/ladders.h"
#include "app/models/levers.h"
#include "cli/dough_as_text.h"
#include "cli/json_parts.h"

namespace mellowbin::cli {
namespace {

using namespace app;

ordered_json of(const LeverRow& lever) {
    static constexpr const char* standings[] = {"reaches", "helps", "not_needed", "forbidden", "not_known"};
    return {{"remedy", lever.name},     {"standing", standings[static_cast<int>(lever.standing)]},
            {"figures", lever.figures}, {"spread", lever.spread},
            {"time", lever.time},       {"money", lever.money},
            {"label", lever.label},     {"notes", lever.notes}};
}

ordered_json of(const LadderModel& ladder) {
    auto rows = list_of(ladder.rows, [](const LadderRow& row) {
        return ordered_json{{"id", row.id.number()},
                            {"day", iso(row.day)},
                            {"dose_mg_per_kg", row.dose},
                            {"size", row.size},
                            {"note", row.note},
                            {"who", row.who},
                            {"withdrawn", row.is_withdrawn}};
    });
    auto curve = list_of(ladder.curve, [](const LadderModel::Point& point) {
        return ordered_json{
            {"dose_mg_per_kg", point.dose}, {"p10", point.low}, {"p50", point.likely}, {"p90", point.high}};
    });
    auto permits = list_of(ladder.permits, [](const LadderPermit& permit) {
        return ordered_json{{"product", permit.product},
                            {"room_mg_per_kg", permit.room},
                            {"best_within_mg_per_kg", permit.best},
                            {"cut", permit.is_cut},
                            {"words", permit.words}};
    });
    return {{"substance", ladder.substance}, {"unit", ladder.unit},       {"best", ladder.best_words},
            {"fall", ladder.fall_words},     {"gain", ladder.gain_words}, {"next", ladder.next_words},
            {"permits", std::move(permits)}, {"notes", ladder.notes},     {"loaves", std::move(rows)},
            {"curve", std::move(curve)}};
}

} // namespace

std::string levers_as_json(const LeversModel& levers) {
    auto rows = list_of(levers.levers, [](const LeverRow& lever) { return of(lever); });
    auto mixes = list_of(levers.mixes, [](const LeverMix& mix) {
        return ordered_json{{"remedies", mix.words},
                            {"maturity", mix.maturity},
                            {"minutes", mix.minutes},
                            {"money_a_run", mix.money},
                            {"label", mix.label}};
    });
    auto refusals = list_of(levers.refusals, [](const Refusal& r) {
        return ordered_json{{"field", r.field}, {"what", r.what}, {"remedy", r.remedy}};
    });
    return as_document({{"run", levers.title},
                        {"maturity_counted", levers.counted},
                        {"maturity_p10", levers.lowest},
                        {"maturity_p90", levers.highest},
                        {"maturity_asked", levers.target},
                        {"oxidant_mg_per_kg", json_of(levers.oxidant_ppm)},
                        {"gap", levers.gap},
                        {"gap_spread", levers.gap_spread},
                        {"too_far", levers.too_far},
                        {"remedies", std::move(rows)},
                        {"together", std::move(mixes)},
                        {"no_mix", levers.no_mix},
                        {"refusals", std::move(refusals)}});
}

std::string keeping_as_json(const KeepingModel& keeping) {
    static constexpr const char* standings[] = {"permitted", "unconfirmed", "not_known", "forbidden"};
    auto figures = list_of(keeping.figures, [](const Figure& line) { return json_of(line); });
    auto limits = list_of(keeping.limits, [](const KeepingLimit& limit) {
        return ordered_json{{"standing", standings[static_cast<int>(limit.standing)]},
                            {"words", limit.words}};
    });
    auto records = list_of(keeping.records, [](const KeepingRow& row) {
        return ordered_json{{"id", row.id.number()},
                            {"day", iso(row.day)},
                            {"words", row.words},
                            {"who", row.who},
                            {"withdrawn", row.is_withdrawn}};
    });
    auto firmness = list_of(keeping.firmness, [](const KeepingModel::Firmness& day) {
        return ordered_json{{"days", day.days},
                            {"low_g", day.low},
                            {"mean_g", day.mean},
                            {"high_g", day.high},
                            {"loaves", day.loaves}};
    });
    return as_document(
        {{"product", keeping.product_name},
         {"sold_as", keeping.sold_as ? ordered_json(key_of(*keeping.sold_as)) : ordered_json(nullptr)},
         {"withheld", keeping.is_withheld},
         {"warnings", keeping.warnings},
         {"figures", std::move(figures)},
         {"limits", std::move(limits)},
         {"mould_line", keeping.mould_line},
         {"site_record", keeping.site_words},
         {"advice", keeping.advice},
         {"practice", keeping.practice},
         {"firmness", std::move(firmness)},
         {"records", std::move(records)}});
}

std::string ladders_as_json(const std::vector<LadderModel>& ladders) {
    return as_document(list_of(ladders, [](const LadderModel& ladder) { return of(ladder); }));
}

std::string batches_as_json(const CardModel& card) {
    return as_document(list_of(card.logged, [](const BatchRow& row) {
        return ordered_json{{"id", row.id.number()},
                            {"batch", row.number},
                            {"at", row.at},
                            {"who", row.who},
                            {"went_in", row.words},
                            {"came_of_it", row.result_words},
                            {"countered", row.is_countered}};
    }));
}

std::string ingredients_as_json(const DoughRow& dough, const DoughsModel& model) {
    return as_document({{"product", dough.product},
                        {"temperature_unit", model.temperature_unit},
                        {"ingredients", list_of(dough.ingredients,
                                                [](const IngredientDraft& row) {
                                                    return ordered_json{{"name", row.name},
                                                                        {"percent_of_flour", row.percent},
                                                                        {"water_percent", row.water},
                                                                        {"temperature", row.temperature}};
                                                })},
                        {"water", dough.water_words}});
}

std::string usual_as_json(const DoughsModel& model) {
    return as_document(list_of(model.usual, [](const UsualRow& usual) {
        return ordered_json{{"name", usual.name}, {"water_percent", usual.water}, {"source", usual.source}};
    }));
}

} // namespace mellowbin::cli
