#include "cli/aging_as_json.h"

#include "app/app.h"
#include "app/models/aging_words.h"
#include "app/models/learning.h"
#include "app/models/lots.h"
#include "app/models/outlook.h"
#include "app/models/readiness.h"
#include "app/models/storage.h"
#include "app/models/story.h"
#include "cli/json_parts.h"
#include "core/promised.h"

#include <array>

namespace mellowbin::cli {
namespace {

using namespace app;

std::string key_of(Property property) { return std::string(traits(property).key); }

ordered_json of(const CurveDay& day) {
    return {{"day", iso(day.day)}, {"p10", day.low}, {"p50", day.likely}, {"p90", day.high}};
}

ordered_json of(const TestRow& test) {
    return {{"retest", test.retest ? ordered_json(test.retest->number()) : ordered_json(nullptr)},
            {"property", key_of(test.property)},
            {"taken_on", iso(test.taken_on)},
            {"value", test.value},
            {"unit", std::string(traits(test.property).unit)},
            {"basis", test.basis},
            {"method", test.method},
            {"place", test.place},
            {"who", test.who},
            {"counts", test.counts},
            {"standing", test.standing},
            {"check", test.asks_check}};
}

ordered_json of(const PropertyCourse& course) {
    auto marks = list_of(course.marks, [](const PropertyCourse::Mark& mark) {
        return ordered_json{
            {"day", iso(mark.day)}, {"value", mark.value}, {"words", mark.words}, {"check", mark.asks_check}};
    });
    return {{"property", key_of(course.property)},
            {"unit", std::string(traits(course.property).unit)},
            {"measured", std::move(marks)},
            {"days", list_of(course.band, [](const CurveDay& day) { return of(day); })}};
}

ordered_json of(const StorageDay& day) {
    return {{"day", iso(day.day)},
            {"low_c", day.low},
            {"mean_c", day.mean},
            {"high_c", day.high},
            {"humidity_pct", json_of(day.humidity)},
            {"flour_moisture_pct", json_of(day.flour_moisture)},
            {"measured_share", day.measured}};
}

ordered_json of(const RunChance& run) {
    return {{"run", run.words},
            {"day", iso(run.day)},
            {"probability_mature", run.probability_mature},
            {"probability_past_best", run.probability_past_best}};
}

ordered_json of(const RetestWorth& worth) {
    return {{"property", key_of(worth.property)},
            {"interval_days_now", worth.days_now},
            {"interval_days_expected", worth.days_expected},
            {"words", worth.words}};
}

ordered_json of(const ElsewhereRow& place) {
    return {{"place", place.name},
            {"ready_on", json_of(place.ready_on)},
            {"best_until", json_of(place.past_best_on)},
            {"words", place.words}};
}

ordered_json of(const Finding& finding) {
    constexpr std::array weights{"well", "mind", "against"};
    return {{"weight", weights[static_cast<std::size_t>(finding.weight)]}, {"words", finding.words}};
}

ordered_json of(const AgreementRow& row) {
    constexpr std::array verdicts{"agrees", "contradicts", "not_said"};
    return {{"retest", row.retest.number()},
            {"taken_on", iso(row.taken_on)},
            {"property", key_of(row.property)},
            {"verdict", verdicts[static_cast<std::size_t>(row.verdict)]},
            {"difference", json_of(row.difference)},
            {"chance_up_to", json_of(row.allowed)},
            {"words", row.words},
            {"aging", row.aging},
            {"aging_explains", row.aging_explains}};
}

ordered_json of(const std::optional<ConcessionShown>& concession) {
    if (!concession)
        return nullptr;
    return {{"conceded", concession->deviation},
            {"by", concession->by},
            {"until", iso(concession->until)},
            {"products", concession->products},
            {"over", concession->is_over}};
}

/// The lot itself, and what to do with it.
ordered_json head_of(const LotSheet& sheet, const AgingStory& story, const ReadinessModel& readiness) {
    return {
        {"lot", story.code},
        {"mill", sheet.row.mill},
        {"flour", story.flour},
        {"state", std::string(key_of(sheet.row.state))},
        {"state_words", sheet.state_words},
        {"standing", sheet.row.standing.words},
        {"concession", of(sheet.concession)},
        {"delivered_on", iso(sheet.row.delivered_on)},
        {"milled_on", json_of(sheet.row.milled_on)},
        {"best_before", json_of(sheet.best_before)},
        {"last_day", json_of(sheet.last_day)},
        {"best_before_words", sheet.best_before_words},
        {"certificate_source", sheet.certificate_words},
        {"delivery", sheet.came_with ? ordered_json(sheet.came_with->number()) : ordered_json(nullptr)},
        {"came", sheet.came_words},
        {"pallets", list_of(sheet.pallets,
                            [](const Pallet& pallet) {
                                return ordered_json{
                                    {"sscc", pallet.sscc},
                                    {"kg", pallet.mass ? ordered_json(to_kilograms(*pallet.mass).value())
                                                       : ordered_json(nullptr)}};
                            })},
        {"door", list_of(sheet.door, [](const Finding& finding) { return of(finding); })},
        {"against_specification", list_of(sheet.results, [](const Finding& finding) { return of(finding); })},
        {"against_certificate", list_of(sheet.agreements, [](const AgreementRow& row) { return of(row); })},
        {"stock_kg", sheet.row.stock_kg},
        {"places", list_of(sheet.places,
                           [](const PlaceShare& share) {
                               return ordered_json{{"place", share.name}, {"kg", share.kg}};
                           })},
        {"as_of", iso(readiness.as_of)},
        {"confidence", readiness.confidence},
        {"advice", std::string(in_words(story.advice))},
        {"reasons", story.reasons},
        {"ready_on", json_of(story.ready_at_confidence)},
        {"ready", json_of(story.ready)},
        {"use_first_on", json_of(story.use_first_on)},
        {"best_until", json_of(story.past_best_at_confidence)},
        {"past_best", json_of(story.past_best)}};
}

} // namespace

std::string lot_as_json(const App& app) {
    promised(app.readiness().opened && app.lots().opened);
    const AgingStory& story = *app.readiness().opened;
    auto json = head_of(*app.lots().opened, story, app.readiness());
    const auto all = [](const auto& rows) { return list_of(rows, [](const auto& row) { return of(row); }); };
    json["runs"] = all(story.runs);
    json["tests"] = all(story.tests);
    const auto& own = app.lots().opened->own_test;
    json["own_test"] = {{"due", own.is_due}, {"words", own.words}, {"source", own.source}};
    json["retest_worth"] = all(story.retests);
    json["elsewhere"] = all(story.elsewhere);
    json["alarms"] = list_of(story.alarms, [](const Alarm& alarm) {
        return ordered_json{{"stop", alarm.is_stop}, {"words", alarm.words}};
    });
    json["moisture_pct"] = json_of(story.moisture_now);
    json["water_activity"] = json_of(story.water_activity_now);
    json["fat_acidity"] = story.fat_acidity_words;
    json["fat_acidity_limit_on"] = json_of(story.fat_acidity_limit_on);
    json["storage_words"] = story.storage_words;
    json["maturity"] = all(story.curve);
    json["storage"] = all(story.storage);
    json["courses"] = all(story.courses);
    json["origins"] = list_of(story.origins, [](const Origin& origin) {
        return ordered_json{{"what", origin.what}, {"value", origin.value}, {"from", origin.from}};
    });
    json["reservations"] = story.reservations;
    return as_document(json);
}

std::string act_as_json(const std::string& words, const char* key, std::int64_t number,
                        const std::vector<std::string>* set_aside) {
    ordered_json json{{"words", words}, {key, number}};
    if (set_aside)
        json["set_aside"] = *set_aside;
    return as_document(json);
}

std::string places_as_json(const std::vector<PlaceRow>& places) {
    return as_document(list_of(places, [](const PlaceRow& place) {
        auto logs = list_of(place.logs, [](const ClimateLogRow& log) {
            return ordered_json{{"log", log.id.number()},
                                {"file", log.file},
                                {"words", log.words},
                                {"who", log.who},
                                {"withdrawn", log.is_withdrawn}};
        });
        return ordered_json{{"place", place.name},
                            {"assumed", place.assumed},
                            {"measured", place.measured},
                            {"logs", std::move(logs)}};
    }));
}

std::string learned_as_json(const LearningModel& learning) {
    auto rows = list_of(learning.rows, [](const LearnedRow& row) {
        return ordered_json{{"what", row.what},       {"published", row.published}, {"holds", row.holds},
                            {"offered", row.offered}, {"from", row.from},           {"meaning", row.meaning}};
    });
    return as_document({{"standing", learning.standing},
                        {"learned_holds", learning.is_learned},
                        {"blocked", learning.blocked},
                        {"figures", std::move(rows)}});
}

} // namespace mellowbin::cli
