#include "app/acts/state.h"
#include "app/models/aging_words.h"
#include "core/decimal.h"
#include "db/journal_store.h"
#include "dough/oxidant.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

std::string additions_in_words(const std::vector<MillAddition>& additions) {
    std::string words;
    for (const auto& a : additions)
        words +=
            fmt::format("{}{} {:g} mg/kg", words.empty() ? "" : ", ", name_of(a.substance), a.dose.value());
    return words;
}

std::string places_in_words(const Book& book, LotId lot) {
    std::string words;
    for (const auto& [place, mass] : book.stock.places_of(lot))
        words += (words.empty() ? "" : ", ") + book.name(place);
    return words;
}

LotRow row_of(const App::State& s, const Lot& lot) {
    const auto& outlook = s.estimates.outlook_today(lot.id);
    const Mill* mill = s.book.mill(lot.mill);
    const Flour* flour = s.book.flour(lot.flour);
    LotRow row;
    row.id = lot.id;
    row.code = lot.code;
    row.mill = mill ? mill->name : "?";
    row.flour = flour ? flour->name : "?";
    row.state = lot.state;
    row.delivered_on = lot.delivered_on;
    row.milled_on = lot.milled_on;
    row.stock_kg = to_kilograms(s.book.stock.total(lot.id)).value();
    row.places = places_in_words(s.book, lot.id);
    row.protein_14 = comparable_at_14(lot.certificate, Property::protein);
    row.absorption_14 = comparable_at_14(lot.certificate, Property::absorption);
    row.falling_number_s = comparable_at_14(lot.certificate, Property::falling_number);
    if (const auto moisture = lot.certificate.moisture())
        row.moisture = moisture->value();
    row.mill_additions = additions_in_words(lot.mill_additions);
    row.readiness = shown(outlook.now);
    row.probability_mature = outlook.probability_mature;
    row.ready_on = outlook.turns.mature_from;
    row.past_best_on = outlook.turns.past_best_from;
    return row;
}

std::string movement_in_words(const Book& book, const Movement& m) {
    std::string words = fmt::format("{}: {} kg", key_of(m.kind), fixed(to_kilograms(m.mass).value(), 1));
    if (m.from)
        words += " from " + book.name(*m.from);
    if (m.to)
        words += (m.from ? " to " : " into ") + book.name(*m.to);
    if (m.run)
        if (const Run* run = book.run(*m.run))
            words += " for run " + run->code;
    if (m.counters)
        words += fmt::format(" (takes back no. {})", m.counters->number());
    if (!m.note.empty())
        words += " — " + m.note;
    return words;
}

std::vector<MovementRow> movement_rows(const Book& book, LotId lot) {
    const auto movements = book.movements_of(lot);
    std::vector<MovementRow> rows;
    for (const Movement* m : movements) {
        const bool is_countered = std::any_of(movements.begin(), movements.end(), [&](const Movement* other) {
            return other->counters == m->id;
        });
        const bool can_counter = !is_countered && !m->counters && m->kind != MovementKind::receipt;
        rows.push_back({m->id, iso(m->at), m->who, movement_in_words(book, *m), can_counter});
    }
    return rows;
}

/// What stands against the lot in a product of its flour; empty: nothing.
std::string misfit(const Certificate& certificate, const Product& product) {
    std::string words;
    for (const auto& judgement : judge(certificate, product.windows)) {
        if (judgement.verdict == Verdict::inside)
            continue;
        words += fmt::format("{}{} {}", words.empty() ? "" : "; ", traits(judgement.window.property).name,
                             judgement.words);
    }
    return words;
}

std::vector<std::string> fits_of(const Book& book, const Lot& lot) {
    std::vector<std::string> fits;
    for (const auto& product : book.products) {
        if (product.flour != lot.flour)
            continue;
        const std::string words = misfit(lot.certificate, product);
        fits.push_back(
            fmt::format("{}: {}", product.name, words.empty() ? "inside all its windows by itself" : words));
    }
    return fits;
}

std::vector<CheckedWindow> windows_of(const Book& book, const Lot& lot) {
    std::vector<CheckedWindow> windows;
    const Flour* flour = book.flour(lot.flour);
    if (!flour)
        return windows;
    for (const auto& judgement : judge(lot.certificate, flour->specification))
        windows.push_back({judgement, judgement.window.low, judgement.window.high});
    return windows;
}

std::string state_in_words(const Lot& lot) {
    return fmt::format("{}{}{} by {} on {}", name_of(lot.state), lot.state_reason.empty() ? "" : ": ",
                       lot.state_reason, lot.state_by, iso(lot.state_at).substr(0, 10));
}

std::vector<CurveDay> curve_of(const aging::Estimate& estimate, const Lot& lot, Day today) {
    const Day first = lot.milled_on.value_or(lot.delivered_on);
    const int days = std::clamp(static_cast<int>((today - first).count()) + 45, 60, 240);
    std::vector<CurveDay> curve;
    for (const auto& day : aging::curve(estimate, first, days))
        curve.push_back({day.day, day.low.value(), day.likely.value(), day.high.value()});
    return curve;
}

LotSheet sheet_of(App::State& s, const Lot& lot) {
    const auto& estimate = s.estimates.of(lot.id);
    const auto& outlook = s.estimates.outlook_today(lot.id);
    LotSheet sheet;
    sheet.row = row_of(s, lot);
    sheet.state_words = state_in_words(lot);
    sheet.certificate = lot.certificate;
    sheet.windows = windows_of(s.book, lot);
    sheet.fits = fits_of(s.book, lot);
    for (const auto& [place, mass] : s.book.stock.places_of(lot.id))
        sheet.places.push_back({place, s.book.name(place), to_kilograms(mass).value()});
    sheet.movements = movement_rows(s.book, lot.id);
    for (const auto& line : JournalStore(*s.connection).about("lot " + lot.code))
        sheet.history.push_back({line.id, iso(line.at), line.who, line.intent, line.subject, line.words});
    sheet.curve = curve_of(estimate, lot, s.today());
    for (const auto reservation : estimate.reservations(s.today()))
        sheet.reservations.push_back(aging::in_words(reservation));
    for (const auto to : {LotState::released, LotState::held, LotState::rejected})
        if (may_become(lot.state, to))
            sheet.state_choices.emplace_back(key_of(to));
    sheet.ladders = make_ladders(s, lot.id);
    for (const Substance substance : all_substances())
        if (substance == Substance::ascorbic_acid || dough::mg_per_milliequivalent(substance))
            sheet.substances.emplace_back(name_of(substance));
    sheet.bakes_logged = s.bakes_logged;
    sheet.ready = shown(outlook.mature);
    sheet.past_best = shown(outlook.past_best);
    return sheet;
}

std::string band_in_words(const ReadinessRow& row, double confidence) {
    std::string words =
        row.ready_at_confidence
            ? fmt::format("ready from {} ({:.0f} %)", short_day(*row.ready_at_confidence), confidence * 100)
            : "not ready within two years by the estimate";
    if (row.past_best_at_confidence)
        words += ", best until " + short_day(*row.past_best_at_confidence);
    return words;
}

ReadinessRow readiness_row(const App::State& s, const Lot& lot, const aging::Outlook& outlook) {
    const Flour* flour = s.book.flour(lot.flour);
    ReadinessRow row;
    row.id = lot.id;
    row.code = lot.code;
    row.flour = flour ? flour->name : "?";
    row.stock_kg = to_kilograms(s.book.stock.total(lot.id)).value();
    row.state = lot.state;
    row.now = shown(outlook.now);
    row.usable = shown(outlook.usable);
    row.ready = shown(outlook.mature);
    row.past_best = shown(outlook.past_best);
    row.ready_at_confidence = outlook.turns.mature_from;
    row.use_first_on = outlook.turns.use_first_from;
    row.past_best_at_confidence = outlook.turns.past_best_from;
    row.probability_mature = outlook.probability_mature;
    const auto advised =
        s.as_of && *s.as_of != s.today()
            ? aging::advise(outlook, moisture_alarms_on(s.estimates.of(lot.id).flour().path,
                                                        s.estimates.measured_moisture(lot.id), *s.as_of))
            : s.estimates.advice_today(lot.id);
    row.advice = shown(advised.advice);
    row.advice_words = advised.reasons.front();
    row.tests = static_cast<int>(s.estimates.results_counted(lot.id));
    row.asks_check = s.estimates.asks_check(lot.id);
    row.measured = s.estimates.of(lot.id).measured_share(s.today());
    row.words = band_in_words(row, s.estimates.confidence());
    return row;
}

std::vector<RunTick> ticks_of(const Book& book) {
    std::vector<RunTick> ticks;
    for (const auto& a : book.assignments) {
        const Run* run = book.run(a.run);
        if (!run)
            continue;
        const Product* product = book.product(run->product);
        const Line* line = book.line(run->line);
        ticks.push_back({a.run, a.lot, run->day,
                         fmt::format("{}, {}: {} kg", product ? product->name : "?", line ? line->name : "?",
                                     fixed(to_kilograms(a.mass).value(), 0))});
    }
    std::sort(ticks.begin(), ticks.end(), [](const RunTick& a, const RunTick& b) {
        return std::pair{a.lot, a.day} < std::pair{b.lot, b.day};
    });
    return ticks;
}

} // namespace

std::string_view in_words(Readiness readiness) {
    switch (readiness) {
    case Readiness::young:
        return "young";
    case Readiness::usable:
        return "usable";
    case Readiness::ready:
        return "ready";
    case Readiness::use_first:
        return "use first";
    case Readiness::past_best:
        return "past its best";
    }
    return "";
}

void make_lots(App::State& s) {
    s.lots.rows.clear();
    s.lots.rows.reserve(s.book.lots.size());
    for (auto lot = s.book.lots.rbegin(); lot != s.book.lots.rend(); ++lot)
        s.lots.rows.push_back(row_of(s, *lot));
    s.lots.places.clear();
    for (const auto& place : s.book.places)
        s.lots.places.emplace_back(place.id, place.name);
}

void make_lot_sheet(App::State& s) {
    const Lot* lot = s.opened_lot.is_known() ? s.book.lot(s.opened_lot) : nullptr;
    s.lots.opened.reset();
    if (lot)
        s.lots.opened = sheet_of(s, *lot);
}

void make_readiness(App::State& s) {
    ReadinessModel& model = s.readiness;
    model.today = s.today();
    model.as_of = s.as_of.value_or(model.today);
    model.confidence = s.estimates.confidence();
    model.rows.clear();
    for (const auto& lot : s.book.lots) {
        if (lot.state == LotState::rejected || s.book.stock.total(lot.id) <= Grams{0})
            continue;
        if (model.as_of == model.today) {
            model.rows.push_back(readiness_row(s, lot, s.estimates.outlook_today(lot.id)));
        } else {
            const auto as_of = aging::outlook(s.estimates.of(lot.id), model.as_of, model.confidence);
            model.rows.push_back(readiness_row(s, lot, as_of));
        }
    }
    model.ticks = ticks_of(s.book);
    model.tests.clear();
    for (const auto& test : aging::maturing_tests())
        model.tests.push_back(test.property);
    for (const auto property : {Property::moisture, Property::fat_acidity, Property::falling_number})
        model.tests.push_back(property);
    model.places = s.intake.places;
    model.bases = s.intake.bases;
    model.retests_logged = s.retests_logged;
}

} // namespace mellowbin::app
