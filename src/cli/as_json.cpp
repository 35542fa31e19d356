#include "cli/as_json.h"

#include "app/models/card.h"
#include "app/models/journal.h"
#include "app/models/lots.h"
#include "app/models/readiness.h"
#include "app/models/settings.h"
#include "cli/json_parts.h"

namespace mellowbin::cli {
namespace {

using namespace app;

ordered_json of(const Refusals& refusals) {
    ordered_json list = ordered_json::array();
    for (const auto& r : refusals)
        list.push_back({{"field", r.field}, {"what", r.what}, {"remedy", r.remedy}});
    return list;
}

ordered_json of(const LotRow& row) {
    return {{"lot", row.code},
            {"mill", row.mill},
            {"flour", row.flour},
            {"state", std::string(key_of(row.state))},
            {"standing", row.standing.words},
            {"delivered_on", iso(row.delivered_on)},
            {"milled_on", json_of(row.milled_on)},
            {"stock_kg", row.stock_kg},
            {"places", row.places},
            {"moisture_pct", json_of(row.moisture)},
            {"protein_pct_14", json_of(row.protein_14)},
            {"absorption_pct_14", json_of(row.absorption_14)},
            {"falling_number_s", json_of(row.falling_number_s)},
            {"mill_additions", row.mill_additions},
            {"readiness", std::string(in_words(row.readiness))},
            {"probability_mature", row.probability_mature},
            {"ready_on", json_of(row.ready_on)},
            {"best_until", json_of(row.past_best_on)}};
}

ordered_json of(const CardModel& card) {
    ordered_json lots = ordered_json::array();
    for (const auto& lot : card.lots)
        lots.push_back({{"lot", lot.code},
                        {"kg", lot.is_withheld ? ordered_json() : ordered_json(lot.kg)},
                        {"bags", lot.is_withheld ? ordered_json() : ordered_json(lot.bags)},
                        {"loose_kg", lot.is_withheld ? ordered_json() : ordered_json(lot.loose_kg)},
                        {"withheld", lot.is_withheld},
                        {"place", lot.place}});
    ordered_json figures = ordered_json::array();
    for (const auto* lines : {&card.ingredients, &card.figures})
        for (const auto& line : *lines)
            figures.push_back(json_of(line));
    ordered_json cautions = ordered_json::array();
    for (const auto& c : card.cautions)
        cautions.push_back(c.words);
    return {{"run", card.run_code},
            {"product", card.product},
            {"line", card.line},
            {"market", card.market},
            {"day", iso(card.day)},
            {"batch", card.batch},
            {"batches", card.batches},
            {"finished", card.is_finished},
            {"verdict", json_of(card.verdict)},
            {"scanned", card.scanned_words},
            {"flour_kg", card.flour_kg},
            {"lots", std::move(lots)},
            {"water_kg", number_of(card.water)},
            {"water_note", card.water.note},
            {"water_range", card.water_range_words},
            {"water_temperature_c", number_of(card.water_temperature)},
            {"water_temperature_note", card.water_temperature.note},
            {"ice_kg", number_of(card.ice)},
            {"ice_note", card.ice.note},
            {"oxidant", card.oxidant.label},
            {"oxidant_amount", number_of(card.oxidant)},
            {"oxidant_unit", card.oxidant.unit},
            {"oxidant_mg_per_kg", json_of(card.oxidant_ppm)},
            {"oxidant_note", card.oxidant.note},
            {"stock_solution", card.solution},
            {"next", card.next_words},
            {"dough_temperature_c", number_of(card.dough_temperature)},
            {"fermentation", card.fermentation},
            {"fermentation_why", card.fermentation_why},
            {"fermentation_minutes", card.fermentation_minutes},
            {"longer_fermentation_minutes", card.longer_fermentation_minutes},
            {"figures", std::move(figures)},
            {"cautions", std::move(cautions)},
            {"refusals", of(card.refusals)}};
}

} // namespace

std::string lots_as_json(const LotsModel& lots) {
    return as_document(list_of(lots.rows, [](const LotRow& row) { return of(row); }));
}

std::string past_lots_as_json(const PastLotsModel& past) {
    auto rows = list_of(past.page.lots, [](const PastLot& lot) {
        return ordered_json{{"lot", lot.code},
                            {"mill", lot.mill},
                            {"flour", lot.flour},
                            {"state", std::string(key_of(lot.state))},
                            {"reason", lot.state_reason},
                            {"went_back_to_the_mill", lot.went_back},
                            {"delivered_on", iso(lot.delivered_on)},
                            {"received_kg", to_kilograms(lot.received).value()},
                            {"ended_at", iso(lot.ended_at)}};
    });
    return as_document({{"all", past.page.all}, {"from", past.query.from}, {"lots", std::move(rows)}});
}

std::string readiness_as_json(const ReadinessModel& model) {
    auto rows = list_of(model.rows, [](const ReadinessRow& row) {
        return ordered_json{{"lot", row.code},
                            {"flour", row.flour},
                            {"stock_kg", row.stock_kg},
                            {"state", std::string(key_of(row.state))},
                            {"standing", row.standing.words},
                            {"now", std::string(in_words(row.now))},
                            {"advice", std::string(in_words(row.advice))},
                            {"because", row.advice_words},
                            {"probability_mature", row.probability_mature},
                            {"ready_on", json_of(row.ready_at_confidence)},
                            {"usable", json_of(row.usable)},
                            {"ready", json_of(row.ready)},
                            {"use_first_on", json_of(row.use_first_on)},
                            {"best_until", json_of(row.past_best_at_confidence)},
                            {"past_best", json_of(row.past_best)},
                            {"tests_counted", row.tests},
                            {"check", row.asks_check},
                            {"measured_share", row.measured}};
    });
    return as_document(
        {{"as_of", iso(model.as_of)}, {"confidence", model.confidence}, {"lots", std::move(rows)}});
}

std::string cards_as_json(std::span<const CardModel> cards) {
    return as_document(list_of(cards, [](const CardModel& card) { return of(card); }));
}

std::string journal_as_json(std::span<const JournalRow> journal) {
    return as_document(list_of(journal, [](const JournalRow& row) {
        return ordered_json{{"at", row.instant},
                            {"who", row.who},
                            {"act", row.what},
                            {"subject", row.subject},
                            {"words", row.words}};
    }));
}

std::string test_precision_as_json(std::span<const PrecisionLine> rows) {
    return as_document(list_of(rows, [](const PrecisionLine& line) {
        return ordered_json{{"row", line.row == 0 ? ordered_json(nullptr) : ordered_json(line.row)},
                            {"property", line.property},
                            {"methods", line.method},
                            {"limits", line.limits},
                            {"range", line.range},
                            {"source", line.source},
                            {"standing", line.standing}};
    }));
}

std::string limits_as_json(std::span<const LimitLine> limits) {
    return as_document(list_of(limits, [](const LimitLine& l) {
        return ordered_json{{"number", in_words(l.id)}, {"market", l.market},
                            {"substance", l.substance}, {"food", l.food},
                            {"limit", l.figure},        {"status", l.draft.status},
                            {"holds", l.holds},         {"rule", l.rule},
                            {"source", l.source},       {"confirmed", l.is_confirmed},
                            {"standing", l.standing}};
    }));
}

} // namespace mellowbin::cli
