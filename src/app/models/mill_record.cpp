#include "app/models/mill_record.h"

#include "app/book/clock_words.h"
#include "app/book/fields.h"
#include "app/book/station.h"
#include "app/models/mill_complaints.h"
#include "app/models/own_tests.h"
#include "db/lot_store.h"
#include "db/retest_store.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

template <class Fact> std::map<LotId, Fact> by_lot(std::vector<Fact> facts) {
    std::map<LotId, Fact> all;
    for (auto& fact : facts)
        all.emplace(fact.lot, std::move(fact));
    return all;
}

MillLots read_lots(const Station& s, const MillRecordQuery& query) {
    const MillSpan span{query.mill, query.from, query.until};
    const MillStore mills(*s.connection);
    MillLots all;
    all.fates = by_lot(mills.fates(span));
    all.expected = by_lot(mills.expected_lots(span));
    all.lots = LotStore(*s.connection).of_mill(query.mill, query.from, query.until);
    std::erase_if(all.lots, [&](const Lot& lot) {
        const auto fate = all.fates.find(lot.id);
        return lot.state == LotState::rejected && fate != all.fates.end() && fate->second.is_withdrawn;
    });
    std::stable_sort(all.lots.begin(), all.lots.end(),
                     [](const Lot& a, const Lot& b) { return a.delivered_on < b.delivered_on; });
    for (auto& test : RetestStore(*s.connection).of_mill(query.mill, query.from, query.until))
        if (!test.is_withdrawn)
            all.tests[test.lot].push_back(std::move(test));
    for (auto& [lot, tests] : all.tests)
        std::stable_sort(tests.begin(), tests.end(),
                         [](const Retest& a, const Retest& b) { return a.taken_on < b.taken_on; });
    return all;
}

std::vector<MillDifference> differences_of(const MillLots& lots, const Book& book) {
    std::vector<TestedTwice> twice;
    for (const auto& lot : lots.lots) {
        const auto tests = lots.tests.find(lot.id);
        if (tests == lots.tests.end())
            continue;
        auto& both = twice.emplace_back();
        both.lot = &lot;
        for (const auto& test : tests->second)
            both.own.push_back(&test);
    }
    std::vector<MillDifference> differences;
    for (const auto& row : own_beside_certificates(twice, before_published(book.precision)))
        differences.push_back({row, in_words(row)});
    return differences;
}

MillPunctuality punctuality_of(const Station& s, const MillRecordQuery& query, const MillLots& lots) {
    MillPunctuality days;
    std::map<std::int64_t, int> late_by; // deliveries, whatever number of lots they had
    for (const auto& lot : lots.lots)
        if (const auto at = lots.expected.find(lot.id); at != lots.expected.end())
            late_by[at->second.delivery] = static_cast<int>((at->second.came - at->second.arrives).count());
    for (const auto& [delivery, late] : late_by) {
        ++(late > 0 ? days.late : days.on_time);
        days.most_days_late = std::max(days.most_days_late, late);
    }
    for (const auto& one : MillStore(*s.connection).overdue(query.mill, s.today())) {
        const Flour* flour = s.book.flour(one.flour);
        days.overdue.push_back(fmt::format("{}: {} {}, expected on {}", one.expected, kg_words(one.mass),
                                           flour ? flour->name : "?", iso(one.arrives)));
    }
    return days;
}

void tell_returns(const Station& s, const MillLots& lots, MillRecordModel& model) {
    const auto& query = model.query;
    for (const auto& one : MillStore(*s.connection).returns({query.mill, query.from, query.until})) {
        const auto lot =
            std::find_if(lots.lots.begin(), lots.lots.end(), [&](const Lot& l) { return l.id == one.lot; });
        const double kg = to_kilograms(one.mass).value();
        model.returns.push_back({lot == lots.lots.end() ? "?" : lot->code, kg, one.reason, one.document,
                                 iso(plant_day(s.setup.clock, one.at)), one.who});
        model.returned_kg += kg;
    }
}

void tell_complaints(const Station& s, MillRecordModel& model) {
    model.complaints = complaints_of(s, model.query.mill, model.query.from, model.query.until);
    for (const auto& row : model.complaints) {
        model.open += row.is_open ? 1 : 0;
        model.answered += !row.is_withdrawn && row.answered_on ? 1 : 0;
    }
}

void tell_lots(const Station& s, const MillLots& lots, MillRecordModel& model) {
    model.lots = static_cast<int>(lots.lots.size());
    for (const auto& lot : lots.lots) {
        model.kg += to_kilograms(lot.received).value();
        model.tested += lots.tests.contains(lot.id) ? 1 : 0;
        model.rejected += lot.state == LotState::rejected ? 1 : 0;
        const auto fate = lots.fates.find(lot.id);
        model.held +=
            lot.state == LotState::held || (fate != lots.fates.end() && fate->second.was_held) ? 1 : 0;
    }
    model.flours = flours_of(lots, s.book);
    for (auto& flour : model.flours)
        flour.testing = testing_of_flour(s, model.query.mill, flour.flour);
    model.page = lots_page(lots, s.book, model.query.page);
}

std::vector<std::string> rules() {
    return {
        "Against the specification as the plant has it today.",
        fmt::format("Against the specification own tests count that were taken within {} days of the "
                    "delivery: what comes later is the flour's aging.",
                    tested_as_it_came.count()),
        fmt::format("Own test minus certificate: of each lot the first own test of flour up to {} days after "
                    "its milling, by the same method, on 14 % moisture where a figure has a basis. Spread "
                    "is the standard deviation; a difference is told from {} lots on, where the mean lies "
                    "further from 0 than twice its standard error.",
                    young_enough.count(), least_lots_to_differ),
        "On time is a delivery that came on the day it was expected, or before; others were not expected, "
        "or came before deliveries were kept."};
}

} // namespace

MillRecordModel make_mill_record(const Station& s, const MillRecordQuery& query) {
    MillRecordModel model;
    model.query = query;
    const Mill* mill = s.book.mill(query.mill);
    model.mill = mill ? mill->name : "?";
    const auto lots = read_lots(s, query);
    tell_lots(s, lots, model);
    const auto testing = own_testing(s.book.settings);
    model.plan = name_of(testing.plan);
    model.plan_source = source_of(testing.plan);
    model.differences = differences_of(lots, s.book);
    model.days = punctuality_of(s, query, lots);
    tell_returns(s, lots, model);
    tell_complaints(s, model);
    model.rules = rules();
    model.query.page = model.page.page;
    return model;
}

} // namespace mellowbin::app
