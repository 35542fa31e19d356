#include "app/models/papers.h"

#include "app/book/clock.h"
#include "app/book/settings.h"
#include "app/book/station.h"
#include "app/models/deliveries.h"
#include "app/models/ladders.h"
#include "app/models/lot_standing.h"
#include "core/decimal.h"
#include "core/door.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

using print::Cell;

Cell cell(const std::string& words) { return {{words, false}}; }

std::string kg(double mass) { return fixed(mass, 1) + " kg"; }

std::string title_of(const PaperHead& head, const std::string& what) {
    return head.plant.empty() ? what : fmt::format("{}: {}", head.plant, what);
}

print::Table facts(const std::vector<std::pair<std::string, std::string>>& all) {
    print::Table table;
    table.columns = {{"", print::Side::left, 45}, {"", print::Side::left, 100}};
    table.has_heads = false;
    for (const auto& [name, words] : all)
        if (!words.empty())
            table.rows.push_back({{{name, true}}, cell(words)});
    return table;
}

std::string weight(const std::optional<double>& mass) { return mass ? kg(*mass) : ""; }

print::Table lots_of(const DeliveryRow& delivery) {
    print::Table table;
    table.columns = {{"Lot"}, {"Flour"}, {"Received", print::Side::right}, {"Pallets"}};
    for (const auto& lot : delivery.lots) {
        Cell pallets;
        for (const auto& pallet : delivery.pallets)
            if (pallet.lot == lot.code)
                pallets.push_back(
                    {sscc_in_words(pallet.sscc) + (pallet.kg ? ", " + kg(*pallet.kg) : std::string())});
        table.rows.push_back({{{lot.code, true}}, cell(lot.flour), cell(kg(lot.kg)), std::move(pallets)});
    }
    return table;
}

print::Table door_of(const Lot& lot) {
    print::Table table;
    table.columns = {{"At the door", print::Side::left, 70}, {"Found"}, {"Note", print::Side::left, 50}};
    for (const auto& check : lot.door)
        table.rows.push_back({cell(check.question),
                              {{std::string(name_of(check.answer)), check.answer == DoorAnswer::no}},
                              cell(check.bags > 0 ? fmt::format("{}{}{} bags", check.note,
                                                                check.note.empty() ? "" : ", ", check.bags)
                                                  : check.note)});
    return table;
}

/// Lines for names to be written on.
print::Table to_sign(const std::vector<std::string>& who) {
    print::Table table;
    table.has_heads = false;
    table.least_row_mm = 12;
    table.columns = {{"", print::Side::left, 50}, {"", print::Side::left, 100}};
    for (const auto& one : who)
        table.rows.push_back({cell(one), {}});
    return table;
}

print::Table baked(const LadderModel& ladder) {
    print::Table table;
    table.columns = {{"Day"},
                     {"Dose mg/kg", print::Side::right},
                     {"Loaf " + ladder.unit, print::Side::right},
                     {"By"},
                     {"Note", print::Side::left, 60}};
    for (const auto& row : ladder.rows)
        if (!row.is_withdrawn)
            table.rows.push_back({cell(iso(row.day)), cell(fmt::format("{:g}", row.dose)),
                                  cell(fmt::format("{:g}", row.size)), cell(row.who), cell(row.note)});
    return table;
}

print::Table to_bake() {
    constexpr int loaves = 8;
    print::Table table;
    table.least_row_mm = 10;
    table.columns = {{"No.", print::Side::right},
                     {"Oxidant, mg/kg flour", print::Side::left, 30},
                     {"Flour g", print::Side::left, 20},
                     {"Water g", print::Side::left, 20},
                     {"Loaf ml or mm", print::Side::left, 25},
                     {"What was seen", print::Side::left, 60}};
    for (int i = 1; i <= loaves; ++i)
        table.rows.push_back({cell(std::to_string(i)), {}, {}, {}, {}, {}});
    return table;
}

} // namespace

PaperHead make_paper_head(const Station& s) {
    const auto& clock = s.setup.clock;
    return {Choices(s.book.settings).words("plant"),
            fmt::format("{} by {}", clock.in_words(), s.setup.person), clock.now()};
}

print::Sheet delivery_sheet(const DeliveryRow& delivery, const std::vector<Lot>& lots,
                            const PaperHead& head) {
    print::Sheet sheet;
    sheet.title = title_of(head, fmt::format("Delivery {}", delivery.id.number()));
    sheet.made = head.made;
    sheet.made_at = head.at;
    sheet.blocks.emplace_back(facts({{"Mill", delivery.mill},
                                     {"Delivery note", delivery.note},
                                     {"Order", delivery.order},
                                     {"Delivered on", iso(delivery.delivered_on)},
                                     {"Expected as", delivery.expected},
                                     {"Logged", fmt::format("{} by {}", delivery.at_words, delivery.who)},
                                     {"Lots together", kg(delivery.lots_kg)},
                                     {"On the note", weight(delivery.on_note_kg)},
                                     {"Weighed", weight(delivery.weighed_kg)},
                                     {"Expected", weight(delivery.expected_kg)},
                                     {"Weight let be", delivery.weight_reason},
                                     {"Remark", delivery.remark}}));
    sheet.blocks.emplace_back(lots_of(delivery));
    for (const auto& lot : lots) {
        sheet.blocks.emplace_back(print::Heading{"Lot " + lot.code});
        sheet.blocks.emplace_back(print::Paragraph{fmt::format(
            "{}{}{}", name_of(lot.state), lot.state_reason.empty() ? "" : ": ", lot.state_reason)});
        if (lot.door.empty())
            sheet.blocks.emplace_back(print::Paragraph{"Nothing was asked at the door."});
        else
            sheet.blocks.emplace_back(door_of(lot));
    }
    sheet.blocks.emplace_back(print::Heading{"Signed"});
    sheet.blocks.emplace_back(to_sign({"Driver", "Received by", "Quality"}));
    return sheet;
}

print::Sheet test_bake_sheet(const TestBakes& bakes, const PaperHead& head) {
    print::Sheet sheet;
    sheet.title = title_of(head, "Test bakes of lot " + bakes.lot);
    sheet.made = head.made;
    sheet.made_at = head.at;
    sheet.blocks.emplace_back(
        facts({{"Flour", bakes.flour}, {"Mill", bakes.mill}, {"Milled on", bakes.milled_on}}));
    for (const auto& ladder : bakes.ladders) {
        sheet.blocks.emplace_back(print::Heading{ladder.substance});
        for (const auto& words : {ladder.best_words, ladder.fall_words, ladder.next_words})
            if (!words.empty())
                sheet.blocks.emplace_back(print::Paragraph{words});
        print::Bullets rest;
        for (const auto& permit : ladder.permits)
            rest.lines.push_back(permit.words);
        rest.lines.insert(rest.lines.end(), ladder.notes.begin(), ladder.notes.end());
        sheet.blocks.emplace_back(std::move(rest));
        sheet.blocks.emplace_back(baked(ladder));
    }
    sheet.blocks.emplace_back(print::Heading{"To bake"});
    sheet.blocks.emplace_back(
        print::Paragraph{"One loaf without oxidant among them, to compare. All else the same: flour, water, "
                         "times, temperatures, tin."});
    sheet.blocks.emplace_back(print::Table(to_bake()));
    sheet.blocks.emplace_back(print::Bullets{
        {"Oxidants: local law and qualified staff come first; weighed by trained staff with the supplier's "
         "safety data sheet at hand.",
         "Test loaves are not for sale."}});
    sheet.blocks.emplace_back(to_sign({"Baked by", "On"}));
    return sheet;
}

Listing stock_to_count(const Station& s) {
    Listing listing;
    listing.name = "stock-to-count";
    listing.title = title_of(make_paper_head(s), "Stock to count, " + iso(s.today()));
    listing.notes = {"Write what is there, as it was counted; a lot that is not on the list on a new line."};
    listing.columns = {{"Place", ""}, {"Lot", ""},    {"Mill", ""},
                       {"Flour", ""}, {"Stands", ""}, {"In the book", "kg", Listing::Holds::number, 1}};
    for (const auto& lot : s.book.lots) {
        if (s.book.is_aside(lot.id))
            continue;
        const Mill* mill = s.book.mill(lot.mill);
        const Flour* flour = s.book.flour(lot.flour);
        const auto stands = name_of(lot.state, standing_of(s.book, lot, s.today()));
        for (const auto& [place, mass] : s.book.stock.places_of(lot.id))
            listing.rows.push_back({s.book.name(place), lot.code, mill ? mill->name : "?",
                                    flour ? flour->name : "?", stands, to_kilograms(mass).value()});
    }
    std::stable_sort(listing.rows.begin(), listing.rows.end(), [](const auto& a, const auto& b) {
        return std::get<std::string>(a.front()) < std::get<std::string>(b.front());
    });
    return listing;
}

print::LabelledFlour labelled(const Station& s, const Lot& lot) {
    const Mill* mill = s.book.mill(lot.mill);
    const Flour* flour = s.book.flour(lot.flour);
    print::LabelledFlour label;
    label.lot = lot.code;
    label.flour = flour ? flour->name : "?";
    label.mill = mill ? mill->name : "?";
    label.milled_on = lot.milled_on;
    label.best_before = lot.best_before;
    if (lot.extension)
        label.remark = "May be used until " + iso(lot.extension->until);
    for (const auto& [place, mass] : s.book.stock.places_of(lot.id))
        label.place += (label.place.empty() ? "" : ", ") + s.book.name(place);
    label.plant = Choices(s.book.settings).words("plant");
    return label;
}

} // namespace mellowbin::app
