#pragma once

#include "app/acts/intents.h"
#include "app/models/mixer.h"
#include "core/lot.h"
#include "core/stock.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

/// What the screens and the command line show: values ready to be drawn, made anew from the book after each
/// change. Numbers stay numbers; the view formats them. A missing value is nullopt and is shown as missing.
namespace mellowbin::app {

/// What came of the last intent.
struct Notice {
    enum class Kind { none, done, refused, failed };
    Kind kind = Kind::none;
    std::string words;        ///< one line: "Lot W24-118 taken in"
    Refusals refusals;        ///< of a refused intent; each names its field
    std::string meaning;      ///< of a failure: what it means for what was entered
    std::string details;      ///< of a failure: for the one who mends it
    std::string undo;         ///< the button's words; empty: nothing to undo
    Intents undoing;          ///< what the button does
    std::string screen;       ///< the screen that shows it, where the person should be taken there: "Lots"
    std::uint64_t number = 0; ///< counts up, so that a view sees a new one
};

/// The line on top, and what waits on each screen.
struct Overview {
    Day today;
    std::string clock; ///< "Wed 25 Nov 2026, 04:10"
    std::string plant;
    std::string person;
    std::string book;
    std::string last_copy; ///< when the book was last copied, or that it was not
    std::string running;   ///< what runs in the background; empty: nothing
    int to_judge = 0;
    int short_runs = 0;
    int past_best = 0;          ///< lots in stock that are past their best
    int batches_today = 0;      ///< still to be mixed
    int unconfirmed_limits = 0; ///< of the markets that the products are sold in
};

struct IntakeModel {
    std::vector<std::string> mills, flours, places;
    std::vector<std::string> substances; ///< names of what a mill may have added
    std::vector<Property> figures;       ///< those the form asks for first
    std::vector<std::string> bases;      ///< words of the bases to choose from
    std::vector<std::string> door_checks;
    std::vector<LotDraft> read_drafts;   ///< of the last certificate file read, until taken over by the view
    std::vector<std::string> file_notes; ///< what the file says that was not understood
    Refusals file_refusals;              ///< of lines that were left out, each with its line
    std::uint64_t reading = 0;           ///< counts files read
    std::uint64_t taken_in = 0; ///< counts accepted TakeIn intents: the view empties its form when it changes
};

enum class Readiness { young, usable, ready, use_first, past_best };
std::string_view in_words(Readiness readiness);

/// A day with its spread; nullopt where it does not come within the studied time.
struct DaySpread {
    std::optional<Day> early, likely, late; ///< 10 %, 50 %, 90 %
};

struct LotRow {
    LotId id;
    std::string code, mill, flour;
    LotState state{};
    Day delivered_on;
    std::optional<Day> milled_on;
    double stock_kg = 0;
    std::string places;
    std::optional<double> protein_14, absorption_14, falling_number_s, moisture;
    std::string mill_additions; ///< "Potassium bromate 30 mg/kg"; empty for none
    Readiness readiness{};
    double probability_mature = 0;   ///< on the day looked at
    std::optional<Day> ready_on;     ///< at the confidence set
    std::optional<Day> past_best_on; ///< at the confidence set
};

struct CheckedWindow {
    Judgement judgement;
    std::optional<double> low, high; ///< of the window, at 14 % moisture where it has a basis
};

struct PlaceShare {
    PlaceId place;
    std::string name;
    double kg = 0;
};

struct MovementRow {
    MovementId id;
    std::string at, who, words; ///< "1 200 kg from Bay 2 to Silo 1"
    bool can_counter = false;
};

struct JournalRow {
    std::int64_t id = 0;
    std::string at, who, what, subject, words;
};

struct CurveDay {
    Day day;
    double low = 0, likely = 0, high = 0; ///< maturity: 10 %, 50 %, 90 %
};

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

enum class Advice { wait, use, use_first, hold };
std::string_view in_words(Advice advice);

/// Everything about one lot's aging.
struct AgingStory {
    LotId lot;
    std::string code, flour;
    Day first, last; ///< the days that its curves share
    std::vector<CurveDay> curve;
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

/// One lot opened.
struct LotSheet {
    LotRow row;
    std::string state_words; ///< "Released by Ines on 2026-11-20: inside the specification"
    Certificate certificate;
    std::vector<CheckedWindow> windows; ///< against the flour's specification
    std::vector<std::string> fits;      ///< "Pan bread: inside all windows" / "Bun: protein below"
    std::vector<PlaceShare> places;
    std::vector<MovementRow> movements;
    std::vector<JournalRow> history;
    std::vector<CurveDay> curve;
    std::vector<std::string> reservations; ///< of the estimate, in words
    std::vector<std::string> state_choices;
    DaySpread ready, past_best;
    std::vector<LadderModel> ladders;    ///< one a substance and measure with bakes of this lot
    std::vector<std::string> substances; ///< to bake with
    std::uint64_t bakes_logged = 0;      ///< counts accepted bakes: the view empties its form when it changes
};

struct LotsModel {
    std::vector<LotRow> rows; ///< in the order of taking in, newest first
    std::optional<LotSheet> opened;
    std::vector<std::pair<PlaceId, std::string>> places; ///< to move to
};

/// A lot as a band over days.
struct ReadinessRow {
    LotId id;
    std::string code, flour;
    double stock_kg = 0;
    LotState state{};
    Readiness now{};
    Day delivered_on; ///< where its band begins
    DaySpread usable, ready, past_best;
    std::optional<Day> ready_at_confidence, use_first_on, past_best_at_confidence;
    double probability_mature = 0;
    Advice advice{};
    std::string advice_words; ///< its first reason
    int tests = 0;            ///< results that count as evidence
    bool asks_check = false;  ///< a result lies far from what the others predict
    double measured = 0;      ///< share of its storage so far that a logger measured
    std::string words;        ///< "ready from 28 Nov (80 %), best until 20 Mar"
};

struct RunTick {
    RunId run;
    LotId lot; ///< the lot it draws
    Day day;
    std::string words; ///< "Pan bread, Line 1: 1 200 kg"
};

struct ReadinessModel {
    Day today; ///< the real one
    Day as_of; ///< the one asked about
    double confidence = 0.8;
    std::vector<ReadinessRow> rows;   ///< lots in stock, youngest first
    std::vector<RunTick> ticks;       ///< sorted by lot
    std::optional<AgingStory> opened; ///< of the opened lot
    std::vector<Property> tests;      ///< what a retest can say about maturing, for the form
    std::vector<std::string> places, bases;
    std::uint64_t retests_logged = 0; ///< counts accepted retests: the view empties its form when it changes
};

struct PlannedLot {
    LotId lot;           ///< not known where the flour is still to come
    ExpectedId delivery; ///< known where it is
    std::string code;    ///< of the lot or of the delivery
    double kg = 0;
    bool is_locked = false;
    double maturity = 0; ///< likely, 0..1, on the run's day
    std::string reason;
};

struct PlannedRun {
    RunId id;
    std::string code, product, market;
    int line = 0; ///< index into lines
    Day day;
    int sequence = 0;
    double need_kg = 0, short_kg = 0;
    std::vector<PlannedLot> lots;
    double maturity = 0, maturity_target = 0; ///< of the blend
    double oxidant_ppm = 0;
    std::string oxidant;       ///< its name; empty: the product goes without
    double windows_fill = 0;   ///< 0 at the window's middle, 1 at its edge, above outside: the worst property
    std::string windows_words; ///< "protein 0.2 % below"; empty: inside all
    std::string law_words;     ///< "room 12 mg/kg of 200 (Canada)"
    double law_fill = 0;       ///< share of the room that is used
    std::vector<std::string> reasons;   ///< of what is missing, each with what would cure it
    std::vector<std::string> forbidden; ///< a sentence a rule: which lots it forbids
    int possible_lots = 0;              ///< that no rule forbids; of a proposed plan
    std::string possible_words = {};    ///< their names
    bool is_past = false;
    bool is_frozen = false;  ///< mixed already, or too near to be changed
    bool is_changed = false; ///< the proposed plan has other lots or masses than the book
};

/// What one part of two plans weighs.
struct ComparedPart {
    std::string name; ///< "Flour short"
    double before = 0, after = 0;
    std::string before_words, after_words; ///< the figure people ask for: "3 200 kg", "12 mg/kg in the mean"
};

struct MovedRun {
    RunId run;
    std::string title;         ///< "Fri 27 Nov, Line 1: Pan bread (R261127-1-2)"
    std::string before, after; ///< the lots with their kg
    std::string gain;          ///< in words; empty: neither better nor worse
};

/// Two plans side by side.
struct PlanComparison {
    std::string before_name, after_name; ///< "Plan in the book", "New plan"
    std::vector<ComparedPart> parts;     ///< the whole last
    std::vector<MovedRun> moved;
    std::string verdict; ///< one line: what it gains and what moves
};

/// What to order so that it can mature in time.
struct OrderAdvice {
    std::string flour;
    double kg = 0;
    std::optional<Day> order_by; ///< latest day to arrive naturally matured; none: it is too late for that
    std::string for_runs;        ///< "2 runs from Mon 7 Dec"
    std::string if_later;        ///< what oxidant or fermentation it costs if it comes later
};

struct ExpectedRow {
    ExpectedId id;
    std::string words;    ///< "E-3: 24 000 kg Strong white from Hill Mill, Fri 4 Dec"
    std::string promised; ///< "18 000 kg in 3 runs"
    bool is_late = false;
};
struct ReservedRow {
    ReservationId id;
    LotId lot;
    std::string words;
};

struct PlanModel {
    enum class Standing { adopted, proposed };
    Day from, today;
    int days = 7;
    std::vector<std::string> lines;
    std::vector<PlannedRun> runs;
    Standing standing = Standing::adopted;
    bool is_planning = false;
    std::string progress; ///< "120 steps, 0.4 s, best 5 920, bound 4 050"
    std::vector<std::string>
        bounds;               ///< what is proven, tier by tier: "Flour short: nothing can be short of ..."
    bool is_supposed = false; ///< the proposal rests on suppositions
    std::vector<std::string> suppositions;    ///< in words, in the order they were made
    std::optional<PlanComparison> comparison; ///< of the proposal with the plan in the book
    std::vector<OrderAdvice> orders;
    std::vector<ExpectedRow> expected;
    std::vector<ReservedRow> reserved;
    std::string replan_words; ///< why the plan in the book no longer holds; empty: it holds
    std::vector<std::string> markets, mills, flours; ///< to choose from
    std::string objective;                           ///< in words, by parts
    std::vector<std::string> changes;                ///< of a proposed plan against the adopted one
    std::vector<std::string> shortages;              ///< each with its cure: how much, from when, order by
    std::vector<std::string> products, line_names;   ///< to add a run
    std::optional<LeversModel> levers;               ///< of the run asked about
    bool can_adopt = false;
    std::string adopt_blocked; ///< why a proposed plan cannot be adopted any more
};

struct ConstantRow {
    std::string key, value, unit, range, conditions, source,
        standing; ///< standing: "read", "from memory", "assumption"
};

struct LimitLine {
    std::int64_t id = 0;
    std::string market, substance, food, figure, rule, source, holds, standing;
    bool is_confirmed = false;
    bool matters = false; ///< of a market that a product is sold in
};

struct SettingRow {
    std::string key, label, value, unit, what, who, since;
};

struct ClimateLogRow {
    ClimateLogId id;
    std::string file, words, who;
    bool is_withdrawn = false;
};

/// A place and what is known of its climate.
struct PlaceRow {
    PlaceId id;
    std::string name, assumed; ///< assumed: "18 °C, 60 %", where no logger says
    std::string measured;      ///< "3 Jun to 24 Nov: 4 104 readings, 2 gaps, longest 31 h"; empty: no log
    std::vector<ClimateLogRow> logs; ///< newest first
};

/// A figure that the plant's own retests would replace, or have replaced.
struct LearnedRow {
    std::string what;      ///< "Maturing rate of white flour at 20 °C"
    std::string published; ///< "0.082 per day, 0.041 to 0.164"
    std::string holds;     ///< what the estimates use now
    std::string offered;   ///< what the retests say
    std::string from;      ///< "7 lots: W24-101, W24-103, …"
    std::string meaning; ///< "matures about 1.4 times faster than published"; "does not improve with storage"
};

struct LearningModel {
    std::vector<LearnedRow> rows;
    std::string standing;    ///< "The published figures hold." / "Learned on 3 Nov from 7 lots by Ines."
    std::string blocked;     ///< why there is nothing to adopt; empty: there is
    bool is_learned = false; ///< learned figures hold
    bool is_stale = false;   ///< not worked out since a retest changed: CompareLearned does
};

struct SettingsModel {
    std::vector<PlaceRow> places;
    std::string
        set_aside_words; ///< of the last logger's file read: its lines set aside and its notes, one a line
    LearningModel learning;
    std::vector<ConstantRow> constants;
    std::vector<LimitLine> limits;
    std::vector<SettingRow> settings;
    std::vector<JournalRow> journal; ///< newest first
};

} // namespace mellowbin::app
