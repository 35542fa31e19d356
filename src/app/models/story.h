#pragma once

#include "app/models/outlook.h"
#include "core/plant.h"
#include "core/retest.h"

#include <optional>
#include <string>
#include <vector>

namespace mellowbin::app {

/// One result of a lot: of its certificate or of a retest.
struct TestRow {
    std::optional<RetestId> retest; ///< none: the certificate
    Property property{};
    Day taken_on;
    double value = 0; ///< as reported
    std::string basis, method, place, who;
    bool counts = false; ///< as evidence on the lot's maturing
    std::string
        standing; ///< "counts", "set aside: another method than the retest of 3 Nov", "the first of its kind"
    bool asks_check = false; ///< over three standard errors from what the others predict
};

/// A measured property's course by the estimate, in the property's unit.
struct PropertyCourse {
    struct Mark {
        Day day;
        double value = 0;
        std::string words; ///< "24 Nov: 322 EU, Bay 2"
        bool asks_check = false;
    };
    Property property{};
    std::vector<CurveDay> band; ///< 10, 50 and 90 %; empty with fewer than two comparable results
    std::vector<Mark> marks;
};

/// One day of the air where the lot lay or will lie.
struct StorageDay {
    Day day;
    double low = 0, mean = 0, high = 0;   ///< °C
    std::optional<double> humidity;       ///< %, mean of the day
    std::optional<double> flour_moisture; ///< %, by the drift towards equilibrium
    double measured = 0;                  ///< share of the day that a logger measured, 0 to 1
};

struct RunChance {
    RunId run;
    std::string words; ///< "Pan bread, Line 1: 1 200 kg"
    Day day;
    double probability_mature = 0;
    double probability_past_best = 0;
};

/// What a retest now would be worth.
struct RetestWorth {
    Property property{};
    double days_now = 0;      ///< width of the 80 % interval of the ready date
    double days_expected = 0; ///< the same after the retest, on average
    std::string words;        ///< "narrows the ready date from 41 to about 29 days"
};

/// What another place would change, from today on.
struct ElsewhereRow {
    PlaceId place;
    std::string name;
    std::optional<Day> ready_on, past_best_on; ///< at the confidence set
    std::string words; ///< "20.1 °C: ready 9 days sooner, past its best 40 days sooner"
};

struct Alarm {
    bool is_stop = false; ///< else: mind
    std::string words;
};

/// Where a number of the estimate comes from.
struct Origin {
    std::string what, value, from; ///< from: "published", "learned from 12 lots", "measured", "assumed"
};

/// Everything about one lot's aging.
struct AgingStory {
    LotId lot;
    std::string code, flour;
    std::string changed; ///< "04:12, Ines": by another station, and not looked at here since
    Day first, last;     ///< the days that its curves share
    std::vector<CurveDay> curve;
    std::string maturity_words; ///< on the day: "84 %, about 19 days at 20 °C (70 to 91 % in 80 of 100)"
    std::vector<PropertyCourse> courses; ///< of the properties that were measured
    std::vector<StorageDay> storage;
    std::string storage_words; ///< "A logger measured 83 % of its storage; 2 gaps are bridged"
    std::vector<TestRow> tests;
    DaySpread ready, past_best;
    std::optional<Day> ready_at_confidence, use_first_on, past_best_at_confidence;
    Advice advice{};
    std::vector<std::string> reasons; ///< of the advice
    std::vector<RunChance> runs;
    std::vector<RetestWorth> retests; ///< the most telling first
    std::vector<ElsewhereRow> elsewhere;
    std::vector<Alarm> alarms; ///< of moisture, water activity, condensation, fat acidity
    std::optional<double> moisture_now, water_activity_now; ///< %, 0 to 1
    DaySpread fat_acidity_limit_on;
    std::string fat_acidity_words;
    std::vector<Origin> origins;
    std::vector<std::string> reservations;
};

struct Station;

/// As of a day, or today; nothing where the book does not hold the lot.
std::optional<AgingStory> make_story(const Station& station, LotId lot, std::optional<Day> as_of);

} // namespace mellowbin::app
