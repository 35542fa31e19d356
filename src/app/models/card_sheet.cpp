#include "app/models/card.h"
#include "app/models/papers.h"
#include "core/decimal.h"

#include <fmt/format.h>

namespace mellowbin::app {
namespace {

using print::Cell;

Cell cell(const std::string& words, bool is_bold = false) { return {{words, is_bold}}; }

std::string figure_words(const Figure& figure, const HouseUnits& units) {
    const auto [value, unit] = shown(figure, units);
    return unit.empty() ? value : value + " " + unit;
}

void tell_verdict(const CardModel& card, print::Sheet& sheet) {
    if (card.verdict.ruling != CardVerdict::Ruling::mix)
        sheet.blocks.emplace_back(print::Loud{card.verdict.words});
    print::Bullets reasons;
    for (const auto& reason : card.verdict.reasons)
        reasons.lines.push_back(reason.lifted_by.empty()
                                    ? reason.words
                                    : fmt::format("{} Lifted by: {}", reason.words, reason.lifted_by));
    sheet.blocks.emplace_back(std::move(reasons));
}

Cell mass_of(const CardLot& lot, const HouseUnits& units) {
    if (lot.is_withheld)
        return cell("withheld", true);
    Cell words = cell(units.with_unit(Kilograms{lot.kg}, 3), true);
    if (lot.bags > 0)
        words.push_back({fmt::format("{} {} + {}", lot.bags, lot.bags == 1 ? "bag" : "bags",
                                     units.with_unit(Kilograms{lot.loose_kg}, 2))});
    return words;
}

/// What is weighed, in its order.
print::Table to_weigh(const CardModel& card) {
    print::Table table;
    table.points = 15;
    table.columns = {{"Weigh", print::Side::left, 40},
                     {"", print::Side::right, 38},
                     {"Where from", print::Side::left, 55},
                     {"Done", print::Side::left, 16}};
    for (const auto& lot : card.lots)
        table.rows.push_back({cell(lot.code, true), mass_of(lot, card.units), cell(lot.place), {}});
    const auto add = [&](const std::string& name, const Figure& figure, const std::string& note) {
        table.rows.push_back({cell(name), cell(figure_words(figure, card.units), true), cell(note), {}});
    };
    add("Water", card.water, "at " + figure_words(card.water_temperature, card.units));
    add("Ice", card.ice, "");
    if (!card.oxidant.label.empty())
        add(card.oxidant.label, card.oxidant, card.solution);
    for (const auto& one : card.ingredients)
        add(one.label, one, "");
    return table;
}

/// What is aimed at, and where figures come from, in small.
print::Table to_know(const CardModel& card) {
    print::Table table;
    table.has_heads = false;
    table.points = 9;
    table.columns = {{"", print::Side::left, 50}, {"", print::Side::right, 25}, {"", print::Side::left, 90}};
    const auto add = [&](const std::string& label, const Figure& figure) {
        table.rows.push_back({cell(label), cell(figure_words(figure, card.units)), cell(figure.note)});
    };
    add("Water", card.water);
    if (!card.oxidant.label.empty())
        add(card.oxidant.label, card.oxidant);
    for (const auto& figure : card.figures)
        add(figure.label, figure);
    for (const auto& lot : card.lots)
        table.rows.push_back({cell(lot.code), {}, cell(lot.readiness)});
    return table;
}

void tell_what_follows(const CardModel& card, print::Sheet& sheet) {
    print::Bullets lines;
    if (!card.next_words.empty())
        lines.lines.push_back(card.next_words);
    if (card.change)
        for (const auto& [then, now] : card.change->lines)
            lines.lines.push_back(fmt::format("From batch {}: {} {} ({} now)", card.change->batch, then.label,
                                              figure_words(then, card.units), figure_words(now, card.units)));
    sheet.blocks.emplace_back(std::move(lines));
}

} // namespace

print::Sheet card_sheet(const CardModel& card, const PaperHead& head) {
    print::Sheet sheet;
    sheet.title = fmt::format("{}: {}", card.run_code, card.product);
    sheet.made = head.plant.empty() ? head.made : fmt::format("{}, {}", head.made, head.plant);
    sheet.made_at = head.at;
    sheet.blocks.emplace_back(print::Paragraph{
        fmt::format("{} on {} ({})", card.line, short_day(card.day), card.market), false, 12});
    sheet.blocks.emplace_back(
        print::Paragraph{card.is_finished ? fmt::format("All {} batches are mixed", card.batches)
                                          : fmt::format("Batch {} of {}, {} flour", card.batch, card.batches,
                                                        card.units.with_unit(Kilograms{card.flour_kg})),
                         true, 15});
    tell_verdict(card, sheet);
    sheet.blocks.emplace_back(to_weigh(card));
    auto aims = fmt::format("Dough at {}", figure_words(card.dough_temperature, card.units));
    if (!card.mixing.empty())
        aims += ", mixed " + card.mixing;
    aims += ", fermented " + card.fermentation;
    if (!card.fermentation_why.empty())
        aims += ": " + card.fermentation_why;
    sheet.blocks.emplace_back(print::Paragraph{aims, true, 13});
    tell_what_follows(card, sheet);
    if (!card.water_range_words.empty())
        sheet.blocks.emplace_back(print::Paragraph{card.water_range_words});
    print::Bullets cautions;
    for (const auto& caution : card.cautions)
        cautions.lines.push_back(caution.words);
    if (!cautions.lines.empty()) {
        sheet.blocks.emplace_back(print::Heading{"Mind"});
        sheet.blocks.emplace_back(std::move(cautions));
    }
    sheet.blocks.emplace_back(print::Heading{"Where the figures come from"});
    sheet.blocks.emplace_back(to_know(card));
    return sheet;
}

} // namespace mellowbin::app
