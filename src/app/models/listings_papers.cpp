// Lists of what came and what was said of it: deliveries, retests, the journal, a mill's record.
#include "app/book/station.h"
#include "app/models/deliveries.h"
#include "app/models/journal.h"
#include "app/models/listing_makers.h"
#include "app/models/mill_record.h"
#include "app/models/trace_page.h"
#include "db/journal_store.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

constexpr int deliveries_a_page = 200;
constexpr int lines_a_page = 1'000;

const Mill* mill_named(const Book& book, const std::string& name) {
    const auto at = std::find_if(book.mills.begin(), book.mills.end(),
                                 [&](const Mill& mill) { return mill.name == name; });
    return at == book.mills.end() ? nullptr : &*at;
}

std::string lots_in_words(const DeliveryRow& row) {
    std::string words;
    for (const auto& lot : row.lots)
        words += (words.empty() ? "" : "; ") + lot.code;
    return words;
}

std::vector<Listing::Cell> cells_of(const DeliveryRow& row) {
    return {static_cast<double>(row.id.number()),
            row.delivered_on,
            row.mill,
            cell(row.note),
            cell(row.order),
            cell(row.expected),
            cell(row.expected_on),
            cell(row.expected_kg),
            cell(lots_in_words(row)),
            row.lots_kg,
            cell(row.on_note_kg),
            cell(row.weighed_kg),
            cell(row.weight_reason),
            static_cast<double>(row.pallets.size()),
            cell(row.remark),
            row.who,
            row.at};
}

void list_retest(const Station& s, const Retest& retest, LotNamesAtHand& names, Listing& list) {
    const auto& lot = names[retest.lot];
    for (const auto& value : retest.results.values()) {
        const auto& known = traits(value.property);
        list.rows.push_back(
            {retest.taken_on, lot.code, lot.mill, lot.flour, std::string(known.name), value.value,
             cell(std::string(known.unit)), cell(in_words(value.basis)), cell(value.method),
             retest.place ? Listing::Cell(s.book.name(*retest.place)) : Listing::Cell(), retest.who,
             retest.logged_at, cell(retest.note), std::string(retest.is_withdrawn ? "yes" : "no")});
    }
}

std::vector<Listing::Cell> cells_of(const MillLotRow& row) {
    std::vector<Listing::Cell> cells{row.code,
                                     row.flour,
                                     std::string(name_of(row.state)),
                                     row.delivered_on,
                                     row.kg,
                                     row.days_late ? Listing::Cell(static_cast<double>(*row.days_late))
                                                   : Listing::Cell(),
                                     std::string(row.was_held ? "yes" : "no")};
    for (const auto& value : row.values) {
        cells.push_back(cell(value.mill));
        cells.push_back(cell(value.own));
    }
    return cells;
}

} // namespace

Listing list_deliveries(const Station& s, const ListingQuery& query) {
    Listing list;
    list.columns = {number_column("No.", "", 0),
                    day_column("Delivered"),
                    text_column("Mill"),
                    text_column("Note"),
                    text_column("Order"),
                    text_column("Expected"),
                    day_column("Expected on"),
                    kg_column("Expected weight"),
                    text_column("Lots"),
                    kg_column("Weight of the lots", 3),
                    kg_column("Weight on the note", 3),
                    kg_column("Weighed", 3),
                    text_column("Why weights differ"),
                    number_column("Pallets", "", 0),
                    text_column("Remark"),
                    text_column("Who"),
                    instant_column("Taken in at")};
    DeliveryQuery page;
    page.count = deliveries_a_page;
    if (const Mill* mill = mill_named(s.book, query.mill))
        page.mill = mill->id;
    const DeliveryStore store(*s.connection);
    for (bool is_more = true; is_more; page.from += page.count) {
        const auto records = store.newest(page);
        for (const auto& record : records)
            if (record.delivered_on >= query.from && record.delivered_on <= query.until)
                list.rows.push_back(cells_of(make_delivery(s, record)));
        is_more = records.size() == static_cast<std::size_t>(page.count) &&
                  records.back().delivered_on >= query.from;
    }
    std::reverse(list.rows.begin(), list.rows.end());
    return list;
}

Listing list_dispatches(const Station& s, const ListingQuery& query) {
    Listing list;
    list.notes = {"Nothing is edited: what did not leave is taken back by a later line"};
    list.columns = {number_column("No.", "", 0), day_column("Day"),        text_column("Customer"),
                    text_column("Product"),      text_column("Run"),       number_column("Pieces", "", 0),
                    kg_column("Weight", 3),      text_column("Note"),      text_column("Reason"),
                    text_column("Who"),          text_column("Taken back")};
    for (const auto& row : dispatches_of(s, {query.from, query.until, {}, ""})) {
        const auto& d = row.dispatch;
        list.rows.push_back({static_cast<double>(d.id.number()), d.day, d.customer, row.product, row.run_code,
                             d.pieces ? Listing::Cell(static_cast<double>(*d.pieces)) : Listing::Cell(),
                             kilograms(d.mass), cell(d.note), cell(d.reason), d.who,
                             cell(std::string(d.is_countered ? "yes" : ""))});
    }
    return list;
}

Listing list_retests(const Station& s, const ListingQuery& query) {
    Listing list;
    list.notes = {"A line a result, as it was reported"};
    list.columns = {day_column("Taken on"), text_column("Lot"),      text_column("Mill"),
                    text_column("Flour"),   text_column("Property"), number_column("Result", "", 2),
                    text_column("Unit"),    text_column("Basis"),    text_column("Method"),
                    text_column("Place"),   text_column("Who"),      instant_column("Logged at"),
                    text_column("Note"),    text_column("Withdrawn")};
    LotNamesAtHand names(*s.connection);
    for (const auto& retest : SpanStore(*s.connection).retests(query.from, query.until))
        list_retest(s, retest, names, list);
    return list;
}

Listing list_journal(const Station& s, const ListingQuery& query) {
    Listing list;
    list.columns = {number_column("Line", "", 0), instant_column("At"), text_column("Who"),
                    text_column("Act"),           text_column("About"), text_column("Words"),
                    text_column("Detail")};
    const JournalStore journal(*s.connection);
    auto lines = journal.newest(lines_a_page);
    while (!lines.empty()) {
        for (const auto& line : lines)
            if (is_of_span(s, query, line.at))
                list.rows.push_back({static_cast<double>(line.id), line.at, line.who,
                                     act_in_words(line.intent), cell(line.subject), line.words,
                                     cell(line.detail)});
        // Clocks of stations differ by little: a whole page before the span ends it.
        const bool is_before = std::all_of(lines.begin(), lines.end(), [&](const JournalLine& line) {
            return line.at < before_span(query);
        });
        const auto oldest = lines.back().id;
        lines = is_before ? std::vector<JournalLine>{} : journal.before(oldest, lines_a_page);
    }
    std::reverse(list.rows.begin(), list.rows.end());
    return list;
}

Listing list_mill_record(const Station& s, const ListingQuery& query) {
    MillRecordQuery asked{mill_named(s.book, query.mill)->id, query.from, query.until};
    auto record = make_mill_record(s, asked);
    Listing list;
    list.title = "Record of " + record.mill;
    list.notes = record.rules;
    list.columns = {text_column("Lot"),        text_column("Flour"),  text_column("State"),
                    day_column("Delivered"),   kg_column("Received"), number_column("Late", "days", 0),
                    text_column("Was on hold")};
    for (const auto property : record.page.properties) {
        const auto& known = traits(property);
        const auto column = [&](std::string_view whose) {
            return number_column(fmt::format("{} {}", known.name, whose), std::string(known.unit),
                                 known.decimals);
        };
        list.columns.push_back(column("by the mill"));
        list.columns.push_back(column("by own test"));
    }
    while (true) {
        for (const auto& row : record.page.rows)
            list.rows.push_back(cells_of(row));
        if (record.page.page + 1 >= record.page.pages)
            return list;
        asked.page = record.page.page + 1;
        record = make_mill_record(s, asked);
    }
}

} // namespace mellowbin::app
