#include "ui/models/story.h"

#include "app/models/learning.h"
#include "app/models/outlook.h"
#include "app/models/storage.h"
#include "app/models/story.h"
#include "ui/models/plan.h"

#include <cmath>

namespace mellowbin::test {
namespace {

Day after(int days) { return plan_today() + Days{days}; }

std::vector<app::CurveDay> rising(double from, double by, int first, int last) {
    std::vector<app::CurveDay> days;
    for (int day = first; day <= last; ++day) {
        const auto grown = [&](double rate) { return from + by * (1 - std::exp(-rate * (day - first))); };
        days.push_back({after(day), grown(0.04), grown(0.08), grown(0.14)});
    }
    return days;
}

/// Three weeks that a logger saw, a gap of three days, and what is assumed from today on.
std::vector<app::StorageDay> air() {
    std::vector<app::StorageDay> days;
    for (int day = -22; day <= 60; ++day) {
        const bool is_gap = day >= -9 && day < -6;
        const double swing = 2 * std::sin(day * 0.3);
        app::StorageDay d{after(day), 16 + swing, 18 + swing, 21 + swing, 61 + swing, {}, 1};
        d.flour_moisture = 14.2 - 0.008 * (day + 22);
        if (day >= 0 || is_gap)
            d = {after(day), 16, 18, 20, 60, d.flour_moisture, 0};
        if (day == -3)
            d.humidity.reset();
        days.push_back(d);
    }
    return days;
}

std::vector<app::PropertyCourse> courses() {
    return {{Property::extensograph_resistance,
             rising(310, 90, -22, 60),
             {{after(-20), 318, "5 Nov: 318 EU, certificate", false},
              {after(-6), 352, "19 Nov: 352 EU, Bay 2", false},
              {after(-1), 471, "24 Nov: 471 EU, Bay 2", true}}},
            {Property::glutathione, {}, {{after(-1), 41.5, "24 Nov: 41.5 nmol/g, Bay 2", false}}}};
}

std::vector<app::TestRow> tests() {
    const auto resistance = Property::extensograph_resistance;
    return {{std::nullopt, resistance, after(-20), 318, "", "45 min", "", "", true, "the first of its kind",
             false},
            {RetestId{1}, resistance, after(-6), 352, "", "45 min", "Bay 2", "Ines", true, "counts", false},
            {RetestId{2}, resistance, after(-1), 471, "", "45 min", "Bay 2", "Tomas", true,
             "counts, but check it: 4.2 standard errors above what the others predict", true},
            {RetestId{2}, Property::glutathione, after(-1), 41.5, "14 % moisture", "", "Bay 2", "Tomas",
             false, "set aside: one result of its kind cannot be compared", false}};
}

} // namespace

app::AgingStory a_bare_story() {
    app::AgingStory s;
    s.lot = LotId{6};
    s.code = "W26-131";
    s.flour = "Strong white";
    s.first = after(-22);
    s.last = after(60);
    s.curve = rising(0, 1, -22, 60);
    s.advice = app::Advice::wait;
    s.reasons = {"It is mature today with a probability of 6 %; 80 % are asked for."};
    return s;
}

app::AgingStory a_story() {
    auto s = a_bare_story();
    s.courses = courses();
    s.storage = air();
    s.storage_words = "A logger measured 87 % of its storage so far; 1 gap of 3 days is bridged.";
    s.tests = tests();
    s.ready = {after(6), after(12), after(21)};
    s.past_best = {after(80), after(104), std::nullopt};
    s.ready_at_confidence = after(17);
    s.use_first_on = after(74);
    s.past_best_at_confidence = after(88);
    s.runs = {{RunId{11}, "Pan bread, Line 1: 1 200 kg", after(2), 0.14, 0},
              {RunId{12}, "Bun, Line 2: 850 kg", after(16), 0.78, 0.01}};
    s.retests = {{Property::extensograph_resistance, 15, 9, "narrows the ready date from 15 to about 9 days"},
                 {Property::glutathione, 15, 13, "narrows the ready date from 15 to about 13 days"}};
    s.elsewhere = {{PlaceId{4}, "Silo 1", after(8), after(64), "22.5 °C: ready 9 days sooner"},
                   {PlaceId{5}, "Silo 2", std::nullopt, std::nullopt, "4.0 °C: not ready within 400 days"}};
    s.alarms = {{false, "On 12 Dec the air of Bay 2 may wet cold bags: condensation"},
                {true, "Moisture reaches 15.2 %, above the limit of 15 %, on 3 Jan"}};
    s.maturity_words = "62 %, about 12 days at 20 °C (41 to 83 % in 80 of 100)";
    s.moisture_now = 14.05;
    s.water_activity_now = 0.67;
    s.fat_acidity_limit_on = {after(140), after(200), std::nullopt};
    s.fat_acidity_words = "Fat acidity 24 mg KOH/100 g on dry matter now; its limit is 50.";
    s.origins = {{"Maturing rate at 20 °C", "0.082 per day", "published"},
                 {"Rise of the rate over 10 °C", "2.1", "published"},
                 {"Air of the place", "1.0", "assumed"},
                 {"Milling date", "2026-11-03", "certificate"}};
    s.reservations = {"The plant's own bakes have not yet sharpened this estimate."};
    return s;
}

std::vector<app::PlaceRow> some_places() {
    return {{PlaceId{2},
             "Bay 2",
             "18 °C, 60 %",
             "3 Jun to 24 Nov: 4 104 readings, 2 gaps, longest 31 h",
             {{ClimateLogId{3}, "bay2_autumn.csv", "2 880 readings, 4 set aside: -999 °C", "Ines", false},
              {ClimateLogId{1}, "bay2_wrong_year.csv", "1 224 readings", "Tomas", true}}},
            {PlaceId{4}, "Silo 1", "20 °C, humidity not known", "", {}}};
}

app::LearningModel something_to_learn() {
    app::LearningModel m;
    m.rows = {{"Maturing rate of white flour at 20 °C", "0.082 per day, 0.041 to 0.164",
               "0.082 per day, 0.041 to 0.164", "0.115 per day, 0.090 to 0.147",
               "7 lots: W26-101, W26-103, W26-104, W26-107, W26-110, W26-112, W26-115",
               "matures about 1.4 times faster than published"},
              {"Resistance gained by white flour", "60 EU, 0 to 180 EU", "60 EU, 0 to 180 EU",
               "3 EU, 0 to 21 EU", "7 lots", "does not improve with storage"}};
    m.standing = "The published figures hold.";
    return m;
}

} // namespace mellowbin::test
