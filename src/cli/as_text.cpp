#include "cli/as_text.h"

#include "app/models/card.h"
#include "app/models/journal.h"
#include "app/models/lots.h"
#include "app/models/readiness.h"
#include "app/models/settings.h"
#include "cli/say.h"
#include "cli/text_table.h"
#include "core/decimal.h"

#include <fmt/format.h>

#include <ostream>

namespace mellowbin::cli {

using namespace app;

void print_lots(std::ostream& out, const LotsModel& lots) {
    if (lots.rows.empty()) {
        out << "No lots yet. Take one in: mellowbin take-in FILE.csv\n";
        return;
    }
    TextTable table({{"lot", Side::left},
                     {"mill", Side::left},
                     {"flour", Side::left},
                     {"state", Side::left},
                     {"stock kg", Side::right},
                     {"place", Side::left},
                     {"protein %", Side::right},
                     {"absorption %", Side::right},
                     {"falling no. s", Side::right},
                     {"moisture %", Side::right},
                     {"readiness", Side::left},
                     {"ready on", Side::left},
                     {"best until", Side::left}});
    for (const auto& row : lots.rows) {
        table.add({row.code, row.mill, row.flour, name_of(row.state, row.standing), fixed(row.stock_kg, 1),
                   row.places, number_or_dash(row.protein_14, 1), number_or_dash(row.absorption_14, 1),
                   number_or_dash(row.falling_number_s, 0), number_or_dash(row.moisture, 1),
                   std::string(in_words(row.readiness)), day_or_dash(row.ready_on),
                   day_or_dash(row.past_best_on)});
    }
    table.print(out);
    out << "Protein and absorption at 14 % moisture. Readiness is an estimate from natural aging time.\n";
}

namespace {

std::string shown_state(const PastLot& lot) {
    return name_of(lot.state, {lot.went_back ? std::string(returned_to_the_mill) : std::string()});
}

} // namespace

void print_past_lots(std::ostream& out, const PastLotsModel& past) {
    TextTable table({{"lot", Side::left},
                     {"mill", Side::left},
                     {"flour", Side::left},
                     {"state", Side::left},
                     {"delivered", Side::left},
                     {"received kg", Side::right},
                     {"ended", Side::left}});
    for (const auto& lot : past.page.lots)
        table.add({lot.code, lot.mill, lot.flour, shown_state(lot), iso(lot.delivered_on),
                   fixed(to_kilograms(lot.received).value(), 1), iso(lot.ended_at).substr(0, 10)});
    table.print(out);
    say(out, "{} to {} of {} lots that were used up or rejected.\n",
        past.page.lots.empty() ? past.query.from : past.query.from + 1,
        past.query.from + static_cast<int>(past.page.lots.size()), past.page.all);
}

namespace {

/// What stands otherwise than its state says comes before how far it is matured.
std::string now_words(const ReadinessRow& row) {
    const std::string now(in_words(row.now));
    return row.standing.words.empty() ? now : fmt::format("{}, {}", row.standing.words, now);
}

} // namespace

void print_readiness(std::ostream& out, const ReadinessModel& model) {
    say(out, "Readiness as of {} (ready = mature with {:.0f} % probability; a model, not a measurement)\n",
        iso(model.as_of), model.confidence * 100);
    if (model.rows.empty()) {
        out << "No lots in stock.\n";
        return;
    }
    TextTable table({{"lot", Side::left},
                     {"flour", Side::left},
                     {"stock kg", Side::right},
                     {"now", Side::left},
                     {"advice", Side::left},
                     {"mature %", Side::right},
                     {"ready on", Side::left},
                     {"earliest 10 %", Side::left},
                     {"latest 90 %", Side::left},
                     {"use first from", Side::left},
                     {"best until", Side::left},
                     {"tests", Side::right},
                     {"measured", Side::right},
                     {"because", Side::left}});
    for (const auto& row : model.rows) {
        table.add({row.code, row.flour, fixed(row.stock_kg, 1), now_words(row),
                   std::string(in_words(row.advice)), fixed(row.probability_mature * 100, 0),
                   day_or_dash(row.ready_at_confidence), day_or_dash(row.ready.early),
                   day_or_dash(row.ready.late), day_or_dash(row.use_first_on),
                   day_or_dash(row.past_best_at_confidence),
                   fmt::format("{}{}", row.tests, row.asks_check ? " check" : ""), as_percent(row.measured),
                   row.advice_words});
    }
    table.print(out);
    out << "Tests: results that count; check: one lies far from what the others predict. Measured: share of "
           "the storage that a logger saw.\n";
}

namespace {

void print_verdict(std::ostream& out, const CardModel& card) {
    if (card.is_finished)
        return;
    say(out, "{}{}\n", card.verdict.words,
        card.verdict.reasons.empty() ? ": nothing stands against it" : ":");
    for (const auto& reason : card.verdict.reasons)
        say(out, "  - {}\n    {}. ({})\n", reason.words, reason.lifted_by, reason.source);
    if (!card.scanned_words.empty())
        say(out, "{}\n", card.scanned_words);
}

} // namespace

void print_card(std::ostream& out, const CardModel& card) {
    say(out, "Run {}: {} on {}, {} ({})\n", card.run_code, card.product, card.line, short_day(card.day),
        card.market);
    if (!card.refusals.empty()) {
        out << "No card can be given:\n";
        print_verdict(out, card);
        return;
    }
    if (card.is_finished)
        say(out, "All {} batches are mixed.\n", card.batches);
    else
        say(out, "Batch {} of {}, {} flour\n", card.batch, card.batches,
            card.units.with_unit(Kilograms{card.flour_kg}));
    print_verdict(out, card);
    const HouseUnits& house = card.units;
    const auto mass = [&](double kg, int decimals) { return house.with_unit(Kilograms{kg}, decimals); };
    for (const auto& lot : card.lots) {
        const auto bags = lot.bags > 0 && !lot.is_withheld
                              ? fmt::format(" = {} {} + {}", lot.bags, lot.bags == 1 ? "bag" : "bags",
                                            mass(lot.loose_kg, 2))
                              : "";
        say(out, "  {:<14} {:>12}{}  {}  {}\n", lot.code, lot.is_withheld ? "withheld" : mass(lot.kg, 3),
            bags, lot.place, lot.readiness);
    }
    const auto told = [&](std::string_view label, const Figure& figure) {
        const auto [value, unit] = shown(figure, house);
        say(out, "  {:<14} {:>9} {}   {}\n", label, value, unit, figure.note);
    };
    told("WATER", card.water);
    if (!card.water_range_words.empty())
        say(out, "  {:<14} {}\n", "", card.water_range_words);
    told("water at", card.water_temperature);
    told("ice", card.ice);
    if (!card.oxidant.label.empty())
        told(card.oxidant.label, card.oxidant);
    if (!card.solution.empty())
        say(out, "  {:<14} {}\n", "solution", card.solution);
    told("dough at", card.dough_temperature);
    say(out, "  fermentation   {:>9}{}{}\n", card.fermentation, card.fermentation_why.empty() ? "" : ": ",
        card.fermentation_why);
    if (!card.next_words.empty())
        say(out, "  then           {}\n", card.next_words);
    if (card.change)
        for (const auto& [then, now] : card.change->lines) {
            const auto [value, unit] = shown(then, house);
            say(out, "    from batch {}: {} {} {} ({} now)\n", card.change->batch, then.label, value, unit,
                shown(now, house).value);
        }
    for (const auto* lines : {&card.ingredients, &card.figures})
        for (const auto& line : *lines) {
            const auto [value, unit] = shown(line, house);
            say(out, "  {:<26} {:>9} {:<5} {}\n", line.label, value, unit, line.note);
        }
    for (const auto& caution : card.cautions)
        say(out, "  Mind: {}\n", caution.words);
}

void print_journal(std::ostream& out, std::span<const JournalRow> journal) {
    for (const auto& row : journal)
        say(out, "{}, {}: {}\n", row.at, row.who, row.words);
    if (journal.empty())
        out << "Nothing has happened yet.\n";
}

void print_test_precision(std::ostream& out, std::span<const PrecisionLine> rows) {
    TextTable table({{"row", Side::right},
                     {"property", Side::left},
                     {"method", Side::left},
                     {"limits", Side::left},
                     {"of results", Side::left},
                     {"standing", Side::left},
                     {"source", Side::left}});
    for (const auto& line : rows)
        table.add({line.row == 0 ? "-" : std::to_string(line.row), line.property, line.method, line.limits,
                   line.range, line.standing, line.source});
    table.print(out);
    out << "r: within one laboratory, R: between two, in 95 of 100. Where no R is known nothing is said of "
           "contradiction. Your own rows go before the published ones.\n";
}

void print_limits(std::ostream& out, std::span<const LimitLine> limits) {
    TextTable table({{"no.", Side::right},
                     {"market", Side::left},
                     {"substance", Side::left},
                     {"food", Side::left},
                     {"limit", Side::left},
                     {"holds", Side::left},
                     {"standing", Side::left},
                     {"source", Side::left}});
    for (const auto& l : limits)
        table.add({in_words(l.id), l.market, l.substance, l.food, l.figure, l.holds, l.standing, l.source});
    table.print(out);
}

} // namespace mellowbin::cli
