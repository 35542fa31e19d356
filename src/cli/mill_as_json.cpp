#include "cli/json_parts.h"
#include "cli/mill_as_text.h"

namespace mellowbin::cli {
namespace {

using namespace app;

std::string key(Property property) { return std::string(traits(property).key); }

ordered_json part_of(const MillSide& side) {
    ordered_json by_property = ordered_json::object();
    for (const auto& one : side.outsides)
        by_property[key(one.property)] = {{"lots", one.lots}, {"outside", one.outside}};
    return {{"inside", side.inside},
            {"outside", side.outside},
            {"unknown", side.unknown},
            {"properties", std::move(by_property)}};
}

ordered_json part_of(const MillFlour& flour) {
    return {{"flour", flour.name},
            {"lots", flour.lots},
            {"kg", flour.kg},
            {"by_certificate", part_of(flour.certificate)},
            {"by_own_tests", part_of(flour.own)},
            {"next_lots", flour.testing}};
}

ordered_json part_of(const MillDifference& difference) {
    const auto& row = difference.row;
    return {{"property", key(row.property)},
            {"unit", traits(row.property).unit},
            {"lots", row.lots},
            {"mean", row.lots > 0 ? ordered_json(row.mean) : ordered_json(nullptr)},
            {"spread", json_of(row.spread)},
            {"standard_error", json_of(row.standard_error)},
            {"differs", row.differs ? ordered_json(*row.differs) : ordered_json(nullptr)},
            {"without_method", row.without_method},
            {"left_out",
             {{"too_old", row.too_old}, {"other_method", row.other_method}, {"no_basis", row.no_basis}}},
            {"words", difference.words}};
}

ordered_json part_of(const MillReturnRow& row) {
    return {{"lot", row.lot},           {"kg", row.kg}, {"reason", row.reason},
            {"document", row.document}, {"at", row.at}, {"who", row.who}};
}

ordered_json part_of(const ComplaintRow& row) {
    return {{"complaint", row.id.number()},
            {"about", row.about},
            {"lot", row.lot.empty() ? ordered_json(nullptr) : ordered_json(row.lot)},
            {"kg", row.kg > 0 ? ordered_json(row.kg) : ordered_json(nullptr)},
            {"noticed_on", iso(row.noticed_on)},
            {"answered_on", json_of(row.answered_on)},
            {"open", row.is_open},
            {"withdrawn", row.is_withdrawn},
            {"words", row.words},
            {"answer", row.answer}};
}

ordered_json part_of(const MillLotRow& row, const std::vector<Property>& properties) {
    ordered_json values = ordered_json::object();
    for (std::size_t i = 0; i < properties.size(); ++i) {
        const auto& value = row.values[i];
        values[key(properties[i])] = {{"certificate", json_of(value.mill)},
                                      {"own", json_of(value.own)},
                                      {"certificate_outside", value.is_mill_out},
                                      {"own_outside", value.is_own_out}};
    }
    return {{"lot", row.code},
            {"flour", row.flour},
            {"state", key_of(row.state)},
            {"was_held", row.was_held},
            {"delivered_on", iso(row.delivered_on)},
            {"days_late", row.days_late ? ordered_json(*row.days_late) : ordered_json(nullptr)},
            {"kg", row.kg},
            {"values_at_14", std::move(values)}};
}

ordered_json part_of(const MillPunctuality& days) {
    return {{"on_time", days.on_time},
            {"late", days.late},
            {"most_days_late", days.most_days_late},
            {"overdue", days.overdue}};
}

} // namespace

std::string mill_record_as_json(const MillRecordModel& record) {
    const auto each = [](const auto& row) { return part_of(row); };
    const auto& page = record.page;
    return as_document(
        {{"mill", record.mill},
         {"from", iso(record.query.from)},
         {"to", iso(record.query.until)},
         {"lots", record.lots},
         {"kg", record.kg},
         {"flours", list_of(record.flours, each)},
         {"tested_by_the_plant", record.tested},
         {"testing_plan", record.plan},
         {"testing_plan_source", record.plan_source},
         {"own_minus_certificate", list_of(record.differences, each)},
         {"deliveries", part_of(record.days)},
         {"held", record.held},
         {"rejected", record.rejected},
         {"returns", list_of(record.returns, each)},
         {"returned_kg", record.returned_kg},
         {"complaints",
          {{"open", record.open}, {"answered", record.answered}, {"all", list_of(record.complaints, each)}}},
         {"page",
          {{"number", page.page + 1},
           {"of", page.pages},
           {"lots",
            list_of(page.rows, [&](const MillLotRow& row) { return part_of(row, page.properties); })}}},
         {"rules", record.rules}});
}

} // namespace mellowbin::cli
