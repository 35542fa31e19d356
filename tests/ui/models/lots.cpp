#include "ui/models/lots.h"

#include "app/acts/notice.h"
#include "app/models/intake.h"
#include "app/models/lot_verdict.h"
#include "app/models/lots.h"
#include "app/models/outlook.h"
#include "app/models/overview.h"
#include "app/models/settings.h"
#include "ui/models/plan.h"
#include "ui/models/story.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace mellowbin::test {
namespace {

using app::Readiness;

Day after(int days) { return plan_today() + Days{days}; }

app::LotRow row(int id, const char* code, const char* flour, LotState state, Readiness readiness, double kg) {
    app::LotRow r;
    r.id = LotId{id};
    r.code = code;
    r.mill = id % 2 == 0 ? "Harrow Mill" : "Kestrel Mill";
    r.flour = flour;
    r.state = state;
    r.delivered_on = after(-9 * (8 - id));
    r.milled_on = after(-9 * (8 - id) - 3);
    r.stock_kg = kg;
    r.places = id % 2 == 0 ? "Bay 2" : "Silo 1";
    r.protein_14 = 11.2 + 0.3 * id;
    r.absorption_14 = 60.4 + 0.4 * id;
    r.falling_number_s = 310 + 11 * id;
    r.moisture = 13.6 + 0.1 * id;
    r.readiness = readiness;
    r.probability_mature = readiness == Readiness::young ? 0.06 : 0.93;
    r.ready_on = after(-9 * (8 - id) + 18);
    r.past_best_on = after(-9 * (8 - id) + 130);
    return r;
}

Judgement judged(Property property, std::optional<double> low, std::optional<double> high, Verdict verdict,
                 std::optional<double> value, const char* words) {
    Judgement judgement;
    judgement.window.property = property;
    judgement.window.low = low;
    judgement.window.high = high;
    judgement.verdict = verdict;
    judgement.value = value;
    judgement.words = words;
    return judgement;
}

app::CheckedWindow checked(const Judgement& judgement) {
    return {judgement, judgement.window.low, judgement.window.high};
}

std::vector<app::CurveDay> a_curve() {
    std::vector<app::CurveDay> curve;
    for (int day = 0; day < 60; ++day) {
        const auto grown = [&](double rate) { return 1 - std::exp(-rate * day); };
        curve.push_back({after(day - 12), grown(0.04), grown(0.08), grown(0.14)});
    }
    return curve;
}

} // namespace

app::Overview a_busy_morning() {
    app::Overview o;
    o.today = plan_today();
    o.clock = "Wed 25 Nov 2026, 04:10";
    o.plant = "Riverside Bakery";
    o.person = "Ines";
    o.book = "riverside.book";
    o.to_judge = 3;
    o.short_runs = 1;
    o.past_best = 2;
    o.batches_today = 4;
    o.unconfirmed_limits = 1;
    return o;
}

app::IntakeModel an_empty_dock() {
    app::IntakeModel m;
    m.mills = {"Harrow Mill", "Kestrel Mill", "Weir Mill"};
    m.flours = {"Strong white", "Bread white", "Hearth", "Wholemeal"};
    m.places = {"Bay 1", "Bay 2", "Bay 3", "Silo 1", "Silo 2"};
    for (const auto& name : m.mills)
        m.records.mills.push_back({MillId{static_cast<std::int64_t>(m.records.mills.size()) + 1}, name});
    for (const auto& name : m.flours)
        m.records.flours.push_back(
            {FlourId{static_cast<std::int64_t>(m.records.flours.size()) + 1}, name, {}, {}});
    m.records.flours.front().specification = {{Property::moisture, {}, 14.5, ""},
                                              {Property::protein, 11.5, 13.0, ""},
                                              {Property::ash, 0.4, 0.6, ""}};
    for (const auto& name : m.places) {
        Place place;
        place.id = PlaceId{static_cast<std::int64_t>(m.records.places.size()) + 1};
        place.name = name;
        m.records.places.push_back(place);
    }
    m.made = 1;
    m.substances = {"Ascorbic acid", "Potassium bromate", "Azodicarbonamide"};
    m.figures = {Property::moisture, Property::protein, Property::ash, Property::falling_number,
                 Property::absorption};
    m.bases = {"as is", "14 % moisture", "dry matter"};
    m.door_questions = {"Seal whole, or bags closed", "Bags dry and not torn",
                        "Free of insects and foreign smell"};
    m.temperature_unit = "°C";
    return m;
}

app::IntakeModel a_dock_with_a_file() {
    auto m = an_empty_dock();
    LotDraft draft;
    draft.mill = "Harrow Mill";
    draft.flour = "Strong white";
    draft.place = "Bay 2";
    draft.delivered_on = "2026-11-25";
    draft.milled_on = "2026-11-20";
    draft.figures = {{Property::moisture, "14,1", "", "", ""},
                     {Property::protein, "12,4", "dry matter", "", ""}};
    for (const char* code : {"W26-140", "W26-141"}) {
        draft.code = code;
        draft.mass_kg = "1000";
        m.read_drafts.push_back(draft);
    }
    m.file_notes = {"Column \"Colour\" is not known and was left out"};
    m.reading = 1;
    return m;
}

app::LotSheet a_sheet() {
    app::LotSheet s;
    s.row = row(6, "W26-131", "Strong white", LotState::awaiting_judgement, Readiness::young, 9600);
    s.row.mill_additions = "Ascorbic acid 20 mg/kg";
    s.state_words = "In quarantine: taken in by Ines on 2026-11-23";
    s.state_since = after(-2);
    s.state_by = "Ines";
    s.state_reason = "taken in";
    s.certified_on = after(-3);
    s.bag_kg = 25;
    s.windows = {checked(judged(Property::moisture, {}, 14.5, Verdict::inside, 14.2, "14.2 %, inside")),
                 checked(judged(Property::protein, 11.5, 13.0, Verdict::inside, 12.6, "12.6 %, inside")),
                 checked(judged(Property::falling_number, 280, 350, Verdict::above, 376, "376 s, above")),
                 checked(judged(Property::ash, 0.5, 0.6, Verdict::missing, {}, "not reported"))};
    s.best_before = after(120);
    s.last_day = s.best_before;
    s.best_before_words = "Best before 2027-03-25";
    s.delivered_words = "The flour came at 24.0 °C";
    s.came_words = "Came on Mon 23 Nov from Harrow Mill, note 4711";
    s.pallets = {{"106141411234567897", {}, Grams{500'000}}, {"376104250021234569", {}, {}}};
    s.door = {{app::Finding::Weight::well, "Seal whole, or bags closed: yes"},
              {app::Finding::Weight::against, "Bags dry and not torn: no, 3 bags, wet at one corner"},
              {app::Finding::Weight::mind, "Free of insects and foreign smell: not looked at"}};
    s.retests = {
        {RetestId{4},
         after(-1),
         "Retest of 2026-11-24, Ines",
         {checked(judged(Property::falling_number, 280, 350, Verdict::below, 262, "262 s, below"))}}};
    s.results = {
        {app::Finding::Weight::against,
         "Retest of 2026-11-24, Ines: out of specification: Falling number 262 s, below 280 to 350 s"},
        {app::Finding::Weight::against,
         "Certificate: out of specification: Falling number 376 s, above 280 to 350 s"}};
    s.out = {{RunId{11}, "R261124-1-1", 200}, {RunId{12}, "R261125-1-2", 74.5}};
    s.fits = {"Pan bread: inside its specification by itself", "Bun: Protein 12.6 %, below 13.0 to 14.0 %"};
    s.places = {{PlaceId{2}, "Bay 2", 4600}, {PlaceId{4}, "Silo 1", 5000}};
    s.movements = {{MovementId{1}, "2026-11-23 06:20", "Ines", "receipt: 9 600 kg into Bay 2", false},
                   {MovementId{2}, "2026-11-23 07:05", "Tomas", "move: 5 000 kg from Bay 2 to Silo 1", true}};
    s.history = {
        {1, "23 Nov 06:20", "Ines", "take_in", "lot W26-131", "Lot W26-131 taken in", "Lot taken in"}};
    s.curve = a_curve();
    s.reservations = {"The plant's own bakes have not yet sharpened this estimate."};
    s.ready = {after(6), after(12), after(21)};
    s.past_best = {after(80), after(104), std::nullopt};
    s.verdict = app::lot_verdict(s, plan_today());
    return s;
}

app::LotsModel seven_lots() {
    using enum LotState;
    app::LotsModel m;
    m.rows = {row(7, "W26-140", "Strong white", awaiting_judgement, Readiness::young, 1000),
              row(6, "W26-131", "Strong white", awaiting_judgement, Readiness::young, 9600),
              row(5, "W26-127", "Strong white", released, Readiness::usable, 4200),
              row(4, "B26-044", "Bread white", released, Readiness::ready, 12800),
              row(3, "H26-019", "Hearth", held, Readiness::ready, 2150),
              row(2, "B26-031", "Bread white", released, Readiness::use_first, 1175.5),
              row(1, "M26-007", "Wholemeal", rejected, Readiness::past_best, 640)};
    m.rows[3].protein_14.reset();
    m.places = {{PlaceId{1}, "Bay 1"}, {PlaceId{2}, "Bay 2"}, {PlaceId{4}, "Silo 1"}, {PlaceId{5}, "Silo 2"}};
    return m;
}

app::LotsModel many_rows(std::size_t count) {
    constexpr std::array states{LotState::released, LotState::awaiting_judgement, LotState::held,
                                LotState::used_up};
    auto m = seven_lots();
    m.rows.clear();
    for (std::size_t i = 0; i < count; ++i) {
        const int n = static_cast<int>(i);
        const auto code = fmt::format("W26-{:05}", count - i);
        auto r = row(n % 7 + 1, code.c_str(), n % 3 == 0 ? "Strong white" : "Bread white",
                     states[i % states.size()], static_cast<Readiness>(n % 5), 400.0 + n % 997);
        r.id = LotId{n + 1};
        m.rows.push_back(r);
    }
    m.opened = a_sheet();
    m.opened->row = m.rows.front();
    return m;
}

app::SettingsModel some_settings() {
    app::SettingsModel m;
    m.limits = {{{LimitRef::Of::oxidants, 1},
                 "CA",
                 "Ascorbic acid",
                 "bread",
                 "200 mg/kg",
                 "alone or with others",
                 "Food additive list 3 (2025)",
                 "from 2020-01-01",
                 "confirmed by Ines",
                 true,
                 true},
                {{LimitRef::Of::oxidants, 2},
                 "CA",
                 "Azodicarbonamide",
                 "bread",
                 "45 mg/kg",
                 "",
                 "Food additive list 3 (2025)",
                 "",
                 "unconfirmed: never permits by itself",
                 false,
                 true},
                {{LimitRef::Of::oxidants, 3},
                 "BR",
                 "Potassium bromate",
                 "flour",
                 "not permitted",
                 "",
                 "Law 10.273 (2001)",
                 "",
                 "read in its source",
                 true,
                 false},
                {{LimitRef::Of::propionates, 2},
                 "CA",
                 "Propionate",
                 "bread",
                 "2000 mg/kg",
                 "as propionic acid",
                 "List 11 (2018)",
                 "",
                 "read in its source",
                 true,
                 true,
                 {"2000", "permitted", "List 11", "2018"}}};
    m.constants = {{"aging.rate_at_25", "0.081", "1/d", "0.05 to 0.14", "white flour, stored in bags",
                    "Chen & Schofield 1996, Cereal Chem. 73:1-4", "read"},
                   {"water.friction", "16", "°C", "", "", "", "assumption"},
                   {"oxidant.half_effect", "28", "mg/kg", "15 to 60", "", "", "from memory"}};
    m.settings = {
        {"plant", "Plant", "Riverside Bakery", "", "The name on top of the window.", "Ines", "2026-11-02"},
        {"confidence", "Confidence of a ready date", "0.80", "", "A choice, no published limit.",
         "as shipped", ""},
        {"flour_temperature", "Flour temperature at the mixer", "20", "°C", "Measure it and enter yours.",
         "as shipped", ""},
        {"time_zone", "Time zone", "", "", "IANA name of the plant's zone; empty takes the machine's.",
         "as shipped", ""},
        {"warm_flour", "Flour is delivered warm from", "30", "°C", "Common practice, no source.",
         "as shipped", ""},
        {"test_error_extensibility", "Own error of a test: extensibility", "", "% of the result",
         "By your laboratory's duplicates.", "as shipped", "", "as published"},
        {"test_error_glutathione", "Own error of a test: glutathione, reduced", "4", "% of the result",
         "By your laboratory's duplicates.", "Ines", "2026-11-02", "as published"},
        {"door_checks", "Checks at the door", "", "", "What is asked of every delivery.", "as shipped", "",
         "", true}};
    m.places = some_places();
    m.learning = something_to_learn();
    m.doughs.doughs = {{ProductId{1},
                        "Pan bread",
                        {{"Salt", "2", "", ""}, {"Whole egg", "12", "76.2", "4.0"}},
                        "The ingredients bring 9.1 % of water on the flour; so much less is poured"},
                       {ProductId{2}, "Hearth loaf", {{"Salt", "1.8", "", ""}}, ""}};
    m.doughs.usual = {{"Whole egg", "76.2", "76.2 % water (74 to 77)", "a table of foods; read"},
                      {"Honey", "17.1", "17.1 % water (15 to 20)", "a table of foods; read"}};
    m.journal = {
        {2, "24 Nov 15:02", "Ines", "confirm_limit", "law CA", "Limit confirmed: Ascorbic acid, CA",
         "Limit confirmed"},
        {1, "23 Nov 06:20", "Ines", "take_in", "lot W26-131", "Lot W26-131 taken in", "Lot taken in"}};
    return m;
}

app::Notice done(std::uint64_t number, std::string words) {
    app::Notice n;
    n.kind = app::Notice::Kind::done;
    n.words = std::move(words);
    n.number = number;
    return n;
}

app::Notice refused(std::uint64_t number, Refusals refusals) {
    app::Notice n;
    n.kind = app::Notice::Kind::refused;
    n.words = "Not done: see the fields marked";
    n.refusals = std::move(refusals);
    n.number = number;
    return n;
}

app::Notice failed(std::uint64_t number) {
    app::Notice n;
    n.kind = app::Notice::Kind::failed;
    n.words = "The book could not be written: the disk is full";
    n.meaning = "What was typed is still on the screen; nothing of it is in the book.";
    n.remedy = "Mend the cause, then do it again.";
    n.details = "database or disk is full (13)";
    n.number = number;
    return n;
}

} // namespace mellowbin::test
