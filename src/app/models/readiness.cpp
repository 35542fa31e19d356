#include "app/models/readiness.h"

#include "app/book/book.h"
#include "app/book/station.h"
#include "app/models/aging_words.h"
#include "app/models/intake.h"
#include "core/decimal.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

std::string band_in_words(const ReadinessRow& row, double confidence) {
    std::string words =
        row.ready_at_confidence
            ? fmt::format("ready from {} ({:.0f} %)", short_day(*row.ready_at_confidence), confidence * 100)
            : "not ready within two years by the estimate";
    if (row.past_best_at_confidence)
        words += ", best until " + short_day(*row.past_best_at_confidence);
    return words;
}

ReadinessRow readiness_row(const Station& s, const Lot& lot, const aging::Outlook& outlook, Day as_of) {
    const Flour* flour = s.book.flour(lot.flour);
    ReadinessRow row;
    row.id = lot.id;
    row.code = lot.code;
    row.flour = flour ? flour->name : "?";
    row.stock_kg = to_kilograms(s.book.stock.total(lot.id)).value();
    row.state = lot.state;
    row.standing = standing_of(s.book, lot, as_of);
    row.now = shown(outlook.now);
    row.usable = shown(outlook.usable);
    row.ready = shown(outlook.mature);
    row.past_best = shown(outlook.past_best);
    row.usable_at_confidence = outlook.turns.usable_from;
    row.ready_at_confidence = outlook.turns.mature_from;
    row.use_first_on = outlook.turns.use_first_from;
    row.past_best_at_confidence = outlook.turns.past_best_from;
    row.probability_mature = outlook.probability_mature;
    const auto advised =
        as_of != s.today()
            ? aging::advise(outlook, moisture_alarms_on(s.estimates.of(lot.id).flour().path,
                                                        s.estimates.measured_moisture(lot.id), as_of))
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

void make_readiness(const Station& s, std::optional<Day> as_of, ReadinessModel& model) {
    model.today = s.today();
    model.as_of = as_of.value_or(model.today);
    model.confidence = s.estimates.confidence();
    model.rows.clear();
    for (const auto& lot : s.book.lots) {
        if (lot.state == LotState::rejected || s.book.stock.total(lot.id) <= Grams{0})
            continue;
        if (model.as_of == model.today) {
            model.rows.push_back(readiness_row(s, lot, s.estimates.outlook_today(lot.id), model.as_of));
        } else {
            const auto then = aging::outlook(s.estimates.of(lot.id), model.as_of, model.confidence);
            model.rows.push_back(readiness_row(s, lot, then, model.as_of));
        }
    }
    model.ticks = ticks_of(s.book);
    model.tests.clear();
    model.tests = {Property::moisture, Property::protein, Property::ash, Property::falling_number,
                   Property::absorption};
    for (const auto& test : aging::maturing_tests())
        if (std::find(model.tests.begin(), model.tests.end(), test.property) == model.tests.end())
            model.tests.push_back(test.property);
    model.tests.push_back(Property::fat_acidity);
    model.places.clear();
    for (const auto& place : s.book.places)
        model.places.push_back(place.name);
    model.bases = basis_choices();
}

} // namespace mellowbin::app
