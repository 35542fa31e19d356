#include "ui/models/plan.h"

#include "app/models/card.h"
#include "app/models/mixer.h"
#include "app/models/outlook.h"
#include "app/models/plan.h"
#include "app/models/plan_compare.h"
#include "app/models/planned_run.h"
#include "app/models/readiness.h"
#include "support/iso.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::test {
namespace {

using app::Readiness;

Day after(int days) { return plan_today() + Days{days}; }

/// Days from today when the lot is likely usable, ready and past its best, each with its spread.
struct Ripening {
    int delivered, usable, ready, past_best;
};

app::DaySpread around(int day, int before, int behind) {
    return {after(day - before), after(day), after(day + behind)};
}

app::Advice advice_for(Readiness now) {
    switch (now) {
    case Readiness::young:
    case Readiness::usable:
        return app::Advice::wait;
    case Readiness::ready:
        return app::Advice::use;
    case Readiness::use_first:
        return app::Advice::use_first;
    case Readiness::past_best:
        break;
    }
    return app::Advice::hold;
}

app::ReadinessRow lot(int id, const char* code, const char* flour, double kg, Readiness now, Ripening r) {
    app::ReadinessRow row;
    row.id = LotId{id};
    row.code = code;
    row.flour = flour;
    row.stock_kg = kg;
    row.state = LotState::released;
    row.now = now;
    row.delivered_on = after(r.delivered);
    row.usable = around(r.usable, 2, 3);
    row.ready = around(r.ready, 4, 6);
    row.past_best = around(r.past_best, 12, 20);
    row.usable_at_confidence = after(r.usable + 2);
    row.ready_at_confidence = after(r.ready + 4);
    row.use_first_on = after(r.past_best - 24);
    row.past_best_at_confidence = after(r.past_best - 8);
    row.probability_mature = now == Readiness::young ? 0.04 : now == Readiness::usable ? 0.41 : 0.97;
    row.advice = advice_for(now);
    row.advice_words =
        fmt::format("Mature today with a probability of {:.0f} %.", row.probability_mature * 100);
    row.tests = id % 4;
    row.measured = 0.25 * (id % 5);
    row.words = fmt::format("ready from {} (80 %), best until {}", short_day(*row.ready_at_confidence),
                            short_day(*row.past_best_at_confidence));
    return row;
}

app::PlannedLot share(int id, const char* code, double kg, double maturity, const char* reason) {
    app::PlannedLot lot;
    lot.lot = LotId{id};
    lot.code = code;
    lot.kg = kg;
    lot.maturity = maturity;
    lot.lowest = maturity - 0.1;
    lot.highest = std::min(1.0, maturity + 0.08);
    lot.readiness = maturity >= 0.9 ? app::Readiness::ready : app::Readiness::usable;
    lot.reason = reason;
    return lot;
}

app::PlannedRun run(int id, const char* product, int line, int day, double kg) {
    app::PlannedRun r;
    r.id = RunId{id};
    r.code = fmt::format("R-{:03}", id);
    r.product = product;
    r.market = "Canada";
    r.line = line;
    r.day = after(day);
    r.sequence = 1;
    r.need_kg = kg;
    r.maturity = 0.93;
    r.maturity_target = 0.9;
    r.windows_fill = 0.4;
    r.law_words = "nothing added, room 150 mg/kg (Canada)";
    return r;
}

} // namespace

Day plan_today() { return day_from_iso("2026-11-25"); }

app::ReadinessModel six_lots() {
    app::ReadinessModel model;
    model.today = model.as_of = plan_today();
    model.rows = {
        lot(6, "W26-131", "Strong white", 9600, Readiness::young, {-2, 5, 14, 120}),
        lot(5, "W26-127", "Strong white", 4200, Readiness::usable, {-9, -2, 6, 110}),
        lot(4, "B26-044", "Bread white", 12800, Readiness::ready, {-24, -15, -8, 70}),
        lot(3, "H26-019", "Hearth", 2150, Readiness::ready, {-30, -20, -12, 60}),
        lot(2, "B26-031", "Bread white", 1175.5, Readiness::use_first, {-80, -70, -60, 14}),
        lot(1, "M26-007", "Wholemeal", 640, Readiness::past_best, {-90, -84, -78, -6}),
    };
    model.rows[3].state = LotState::held;
    model.rows[3].advice = app::Advice::hold;
    model.rows[3].advice_words = "It is held: awaiting a retest.";
    model.rows[4].advice_words = "Its best days end on Wed 9 Dec.";
    model.rows[1].asks_check = true;
    model.tests = {Property::extensograph_resistance, Property::extensibility, Property::glutathione};
    model.places = {"Bay 1", "Bay 2", "Silo 1"};
    model.bases = {"as is", "14 % moisture", "dry matter"};
    model.ticks = {{RunId{11}, LotId{2}, after(0), "Pan bread, Line 1: 600 kg"},
                   {RunId{12}, LotId{4}, after(1), "Bun, Line 2: 850 kg"},
                   {RunId{13}, LotId{4}, after(3), "Pan bread, Line 1: 1 200 kg"}};
    return model;
}

app::ReadinessModel many_lots(std::size_t count) {
    app::ReadinessModel model;
    model.today = model.as_of = plan_today();
    for (std::size_t i = 0; i < count; ++i) {
        const int n = static_cast<int>(i);
        const auto code = fmt::format("W26-{:05}", count - i);
        const auto now = n % 5 == 0 ? Readiness::young : n % 5 == 4 ? Readiness::use_first : Readiness::ready;
        model.rows.push_back(lot(n + 1, code.c_str(), n % 3 == 0 ? "Strong white" : "Bread white",
                                 400.0 + n % 997, now, {-n % 60, 5 - n % 60, 14 - n % 60, 90 - n % 60}));
        if (n % 7 == 0)
            model.ticks.push_back({RunId{n + 1}, LotId{n + 1}, after(n % 28), "Pan bread, Line 1: 600 kg"});
    }
    return model;
}

app::PlanModel a_week() {
    app::PlanModel plan;
    plan.from = plan.today = plan_today();
    plan.days = 7;
    plan.lines = plan.line_names = {"Line 1", "Line 2"};
    plan.products = {"Pan bread", "Bun", "Hearth loaf", "Wholemeal loaf"};
    plan.markets = {"CA", "US"};
    plan.mills = {"Harrow Mill", "Kestrel Mill"};
    plan.flours = {"Strong white", "Bread white", "Hearth", "Wholemeal"};

    auto pan = run(11, "Pan bread", 0, 0, 1800);
    pan.lots = {share(2, "B26-031", 1175.5, 0.99, "Its best days end on 9 Dec: it goes first."),
                share(4, "B26-044", 624.5, 0.95, "Brings protein into the specification.")};
    pan.lots[0].is_locked = true;

    auto bun = run(12, "Bun", 1, 1, 2400);
    bun.lots = {share(5, "W26-127", 2400, 0.71, "The only lot strong enough that is released.")};
    bun.maturity = 0.71;
    bun.oxidant = "Ascorbic acid";
    bun.oxidant_ppm = 42;
    bun.oxidant_words = "Ascorbic acid 42.00 mg/kg flour";
    bun.law_fill = 0.28;
    bun.law_words = "42 of 150 mg/kg used (Canada)";

    auto hearth = run(13, "Hearth loaf", 1, 3, 900);
    hearth.lots = {share(4, "B26-044", 900, 0.95, "Ready, and the other hearth lot is on hold.")};
    hearth.windows_fill = 1.2;
    hearth.windows_words = "protein 0.2 % below";
    hearth.reasons = {"H26-019 is on hold and was not taken."};

    auto whole = run(14, "Wholemeal loaf", 0, 5, 1200);
    whole.short_kg = 560;
    whole.lots = {share(1, "M26-007", 640, 0.99, "All that is left of it.")};
    whole.reasons = {"Only 640 kg of Wholemeal are in stock."};

    plan.runs = {pan, bun, hearth, whole};
    plan.objective = "1 shortage of 560 kg, 1 run outside specification, oxidant in 1 run";
    plan.shortages = {"Wholemeal loaf, Line 1 on Mon 30 Nov: 560 kg of Wholemeal are short. "
                      "Order 560 kg by Thu 26 Nov: it must arrive by Fri 27 Nov to be ready in time."};
    return plan;
}

app::PlanModel a_proposed_week() {
    auto plan = a_week();
    plan.standing = app::PlanModel::Standing::proposed;
    plan.can_adopt = true;
    plan.changes = {"Bun on Thu 26 Nov takes W26-127 instead of B26-044",
                    "Hearth loaf on Sat 28 Nov takes 900 kg more of B26-044"};
    return plan;
}

app::PlanModel a_compared_week() {
    auto plan = a_proposed_week();
    plan.runs[1].is_changed = plan.runs[2].is_changed = true;
    plan.bounds = {"Flour short: nothing can be short of less than 560 kg."};
    app::PlanComparison compared;
    compared.before_name = "Plan in the book";
    compared.after_name = "New plan";
    compared.parts = {{"Flour short", 980, 560, "980 kg", "560 kg"},
                      {"Oxidant", 12, 42, "12 mg/kg in 1 run", "42 mg/kg in 1 run"},
                      {"The whole", 4100, 2900, "4 100", "2 900"}};
    compared.moved = {{RunId{12}, "Thu 26 Nov, Line 2: Bun (R-012)", "B26-044 2 400 kg", "W26-127 2 400 kg",
                       "420 kg less short"},
                      {RunId{13}, "Sat 28 Nov, Line 2: Hearth loaf (R-013)", "", "B26-044 900 kg", ""}};
    compared.verdict = "420 kg less short, and 30 mg/kg more oxidant in 1 run; 2 runs change.";
    plan.comparison = compared;
    return plan;
}

app::PlanModel a_full_week() {
    auto plan = a_week();
    plan.runs[0].is_frozen = true;
    plan.runs[1].possible_lots = 3;
    plan.runs[1].forbidden = {"On hold: H26-019.",
                              "Outside specification by itself: M26-007 (ash 0.4 % above)."};
    plan.runs[1].lots[0].reason =
        "The only lot strong enough that is released. Next best: B26-044 is weaker, "
        "12 mg/kg more ascorbic acid.";
    auto& whole = plan.runs[3];
    auto to_come = share(0, "E-3", 300, 0.62, "It comes in time for this run.");
    to_come.lot = {};
    to_come.delivery = ExpectedId{3};
    to_come.readiness.reset();
    whole.lots.push_back(to_come);
    whole.short_kg = 260;
    whole.reasons = {"260 kg of Wholemeal are short. Order 260 kg by Thu 26 Nov."};
    plan.shortages = {"Wholemeal loaf, Line 1 on Mon 30 Nov: 260 kg of Wholemeal are short. "
                      "Order 260 kg by Thu 26 Nov: it must arrive by Fri 27 Nov to be ready in time."};
    plan.orders = {{"Wholemeal", 260, after(2), "1 run on Mon 30 Nov", "Later: 20 mg/kg more ascorbic acid."},
                   {"Strong white", 12000, {}, "2 runs from Sat 28 Nov", "Ferment 40 min longer."}};
    plan.expected = {
        {ExpectedId{3}, "E-3: 24 000 kg Wholemeal from Harrow Mill, Fri 27 Nov", "300 kg in 1 run", false},
        {ExpectedId{2}, "E-2: 8 000 kg Hearth from Kestrel Mill, Mon 23 Nov", "", true}};
    plan.reserved = {{ReservationId{5}, LotId{4}, "B26-044: 500 kg kept back (trial bake)"}};
    plan.replan_words = "Lot H26-019 was put on hold: Hearth loaf on Sat 28 Nov draws 900 kg of it.";
    return plan;
}

app::RunCures some_cures() {
    using Kind = app::RunCure::Kind;
    app::RunCures cures;
    cures.run = RunId{14};
    cures.ahead = {
        {after(4), 0.83, false}, {after(5), 0.84, false}, {after(6), 0.85, true}, {after(7), 0.86, true}};
    cures.cures = {
        {Kind::move, "Move the run to Tue 1 Dec", "Maturity 85 of 85 %. No run stands on Line 1 that day."},
        {Kind::take, "Take 560 kg of M26-012", "Nothing is short then. 800 kg of it are free."},
        {Kind::fewer, "Mix 6 of 12 batches", "600 kg less flour; nothing is short then."},
        {Kind::judge, "Judge M26-019", "It is on hold. Released: Nothing is short then."},
        {Kind::order, "Order 560 kg Wholemeal", "Here by Fri 27 Nov it matures in time."}};
    cures.cures[0].day = after(6);
    cures.cures[1].lot = LotId{12};
    cures.cures[1].kg = 560;
    cures.cures[2].batches = 6;
    cures.cures[3].lot = LotId{19};
    cures.cures[3].lot_code = "M26-019";
    cures.cures[4].flour = "Wholemeal";
    cures.cures[4].kg = 560;
    cures.cures[4].day = after(2);
    return cures;
}

app::PlanModel a_supposed_week() {
    auto plan = a_full_week();
    plan.standing = app::PlanModel::Standing::proposed;
    plan.is_supposed = true;
    plan.adopt_blocked = "It rests on what is supposed: change the book, then plan";
    plan.suppositions = {"Bun (R-012) on Fri 27 Nov, Line 1, 2nd",
                         "12 000 kg Strong white arrive on Thu 26 Nov", "No oxidant in CA"};
    plan.changes = {"Bun on Fri 27 Nov takes W26-127"};
    plan.comparison = a_compared_week().comparison;
    return plan;
}

app::PlanModel a_large_plan() {
    auto plan = many_runs(1200);
    plan.standing = app::PlanModel::Standing::proposed;
    plan.can_adopt = true;
    auto compared = *a_compared_week().comparison;
    compared.moved.clear();
    for (std::size_t i = 0; i < plan.runs.size(); ++i) {
        auto& run = plan.runs[i];
        const auto number = static_cast<int>(i % 400) + 1;
        for (std::size_t l = 0; l < run.lots.size(); ++l) {
            run.lots[l].lot = LotId{number + static_cast<int>(l) * 400};
            run.lots[l].code = fmt::format("W26-{:03}", number);
        }
        run.is_changed = i % 4 == 0;
        if (!run.is_changed)
            continue;
        const auto title = fmt::format("{}, {}: {} ({})", short_day(run.day),
                                       plan.lines[static_cast<std::size_t>(run.line)], run.product, run.code);
        compared.moved.push_back({run.id, title, fmt::format("W26-{:03} 1 800 kg", number),
                                  fmt::format("W26-{:03} 1 800 kg", number + 1), "4 mg/kg less oxidant"});
        plan.changes.push_back(title);
    }
    plan.comparison = compared;
    return plan;
}

app::PlanModel many_runs(std::size_t count) {
    auto plan = a_week();
    plan.days = 28;
    plan.lines = plan.line_names = {"Line 1", "Line 2", "Line 3", "Line 4"};
    const auto patterns = plan.runs;
    plan.runs.clear();
    for (std::size_t i = 0; i < count; ++i) {
        auto made = patterns[i % patterns.size()];
        made.id = RunId{static_cast<std::int64_t>(i) + 1};
        made.code = fmt::format("R-{:03}", i + 1);
        made.line = static_cast<int>(i % 4);
        made.day = after(static_cast<int>(i / 4 % 28));
        made.sequence = static_cast<int>(i / 112) + 1;
        plan.runs.push_back(made);
    }
    return plan;
}

namespace {

/// The second batch was entered wrongly first.
std::vector<app::BatchRow> logged_batches() {
    app::BatchRow second{.id = BatchId{23},
                         .number = 2,
                         .at = "04:52",
                         .who = "Ines",
                         .words = "98 kg B26-031, 52 kg B26-044, 93.5 kg water at 6.5 °C, 11.0 kg ice",
                         .result_words = {},
                         .result = {},
                         .is_countered = false};
    auto wrong = second;
    wrong.id = BatchId{22};
    wrong.words = "98 kg B26-031, 520 kg B26-044, 93.5 kg water at 6.5 °C, 11.0 kg ice";
    wrong.is_countered = true;
    auto first = second;
    first.id = BatchId{21};
    first.number = 1;
    first.at = "04:31";
    first.result_words = "26.4 °C, pH 5.4, right, 8 min";
    first.result = {.dough_temperature = "26.4",
                    .ph = "5.4",
                    .feel = "right",
                    .mixing_minutes = "8",
                    .fermentation_minutes = {},
                    .note = {}};
    return {second, wrong, first};
}

} // namespace

app::MixerModel a_batch() {
    app::MixerModel mixer;
    mixer.today = plan_today();
    mixer.runs = {{RunId{11}, "Line 1, 1st: Pan bread, 12 batches", false},
                  {RunId{15}, "Line 1, 2nd: Hearth loaf, 4 batches", true},
                  {RunId{16}, "Line 2, 1st: Bun, 9 batches", false}};
    app::CardModel card;
    card.run = RunId{11};
    card.run_code = "R-011";
    card.product = "Pan bread";
    card.line = "Line 1";
    card.market = "Canada";
    card.day = plan_today();
    card.batch = 3;
    card.batches = 12;
    card.flour_kg = 150;
    card.lots = {{LotId{2}, "B26-031", 98, 3, 23, "Bay 2", "use first"},
                 {LotId{4}, "B26-044", 52, 0, 0, "Silo 1", "ready"}};
    card.water = {"Water", 93.5, 1, "kg"};
    card.water.note =
        "exact 93.42 kg: 62.3 % on flour, from the certificates at 13.9 % moisture, + 0.5 for the product";
    card.water_temperature = {"Water temperature", 6.5, 1, "°C"};
    card.water_temperature.note = "flour 21, room 24, friction 16 °C";
    card.ice = {"Ice", 11.0, 1, "kg"};
    card.ice.note = "of the water, the tap gives 14 °C";
    card.oxidant = {"Ascorbic acid", 3.0, 1, "g"};
    card.oxidant.note = "exact 2.86 g; 20.0 mg/kg flour, limit 150 (Canada)";
    card.dough_temperature = {"Dough temperature", 26.0, 1, "°C"};
    card.mixing = "10 min";
    card.fermentation = "60 min in bulk, then 55 min proof at 36 °C";
    card.ingredients = {{"Salt", 2.7, 1, "kg", "1.8 % on flour"}, {"Yeast", 3.8, 1, "kg", "2.5 % on flour"}};
    card.figures = {{"Protein at 14 % moisture", 12.3, 1, "%", "certificates"}};
    using Beside = app::CardCaution::Beside;
    card.cautions = {
        {"Weigh the oxidant with gloves and a mask; never more than the card says.", Beside::oxidant},
        {"Flour dust can explode and makes airways ill: pour low, keep the lid shut.", Beside::card},
        {"Contains wheat (gluten). Raw flour and dough are not ready to eat.", Beside::card}};
    card.verdict.words = "Mix";
    card.next_words = "Batch 4 is the same";
    card.change = {.batch = 7,
                   .words = "lot B26-052 in place of B26-044",
                   .lines = {{{"Water", 92.0, 1, "kg"}, {"Water", 93.5, 1, "kg"}},
                             {{"Ice", 10.5, 1, "kg"}, {"Ice", 11.0, 1, "kg"}}}};
    card.logged = logged_batches();
    mixer.card = card;
    mixer.oxidants = {"Ascorbic acid", "Potassium bromate"};
    return mixer;
}

app::MixerModel a_poured_batch() {
    auto mixer = a_batch();
    auto& card = *mixer.card;
    card.units = HouseUnits("lb", "°F");
    card.lots[0].is_scanned = true;
    card.water.value = 93.44; // 206.0 lb
    card.water_temperature.value = 6.39;
    card.ice.value = 11.113;
    card.dough_temperature.value = 26.11;
    card.oxidant = {"Ascorbic acid", 380, 0, "mL", card.oxidant.note};
    card.pours = true;
    card.solution = "7.5 g/L, made 04:10 by Ines, until Thu 04:10";
    card.solution_id = SolutionId{5};
    card.needs_check = card.needs_scan = true;
    card.scanned_words = "1 of 2 scanned";
    card.verdict = {app::CardVerdict::Ruling::answer_first,
                    "Answer first",
                    {{"bags_not_scanned", false, "1 of 2 scanned: no bag of lot B26-044 yet",
                      "Scan a bag of each lot, or say why it cannot be scanned (the label is torn)",
                      "the plant's choice in Settings"}}};
    card.change->lines = {{{"Water", 92.08, 1, "kg"}, {"Water", 93.44, 1, "kg"}}};
    return mixer;
}

void let_mix(app::CardModel& card) {
    for (auto& lot : card.lots)
        lot.is_scanned = true;
    card.scanned_words = fmt::format("{0} of {0} scanned", card.lots.size());
    card.verdict = {app::CardVerdict::Ruling::mix, "Mix", {}};
}

app::MixerModel a_past_solution() {
    auto mixer = a_poured_batch();
    mixer.card->solution = "7.5 g/L, made Mon 04:10 by Ines, until Tue 04:10";
    mixer.card->solution_is_past = true;
    return mixer;
}

app::MixerModel a_refused_card() {
    auto mixer = a_batch();
    mixer.card->verdict = {app::CardVerdict::Ruling::do_not_mix,
                           "Do not mix",
                           {{"lot_not_released", true, "B26-031: is held since 04:02: awaiting retest",
                             "Release it on Lots, or plan the run anew", "a rule of this program"}}};
    mixer.card->refusals = {
        {"B26-031", "is held since 04:02: awaiting retest", "Release it on Lots, or plan the run anew"},
        {"Potassium bromate", "no limit for it is confirmed in Canada",
         "Confirm the row on Settings after reading the law"}};
    return mixer;
}

} // namespace mellowbin::test
