// Lists of flour: lots, where they lie, what moved.
#include "app/book/station.h"
#include "app/models/listing_makers.h"
#include "app/models/lots.h"
#include "app/models/stock.h"

#include <algorithm>

namespace mellowbin::app {
namespace {

constexpr int past_lots_a_page = 500;

std::vector<Listing::Cell> cells_of(const LotRow& row) {
    return {row.code,
            row.mill,
            row.flour,
            name_of(row.state, row.standing),
            row.delivered_on,
            cell(row.milled_on),
            row.stock_kg,
            cell(row.places),
            cell(row.moisture),
            cell(row.protein_14),
            cell(row.absorption_14),
            cell(row.falling_number_s),
            cell(row.mill_additions),
            std::string(in_words(row.readiness)),
            100 * row.probability_mature,
            cell(row.ready_on),
            cell(row.past_best_on)};
}

/// A rejected lot whose flour went back is called so, as on the screen.
std::string state_of(const PastLot& lot) {
    return lot.went_back ? name_of(lot.state, {std::string(returned_to_the_mill)})
                         : std::string(name_of(lot.state));
}

} // namespace

Listing list_lots(const Station& s, const ListingQuery&) {
    LotsModel model;
    make_lots(s, model);
    Listing list;
    list.notes = {"Protein and absorption at 14 % moisture, as the certificate says; moisture as is",
                  "Readiness is an estimate; the days are those by which it holds with the confidence set"};
    list.columns = {text_column("Lot"),
                    text_column("Mill"),
                    text_column("Flour"),
                    text_column("State"),
                    day_column("Delivered"),
                    day_column("Milled"),
                    kg_column("Stock"),
                    text_column("Places"),
                    number_column("Moisture", "%", 1),
                    number_column("Protein", "%", 1),
                    number_column("Absorption", "%", 1),
                    number_column("Falling number", "s", 0),
                    text_column("Added by the mill"),
                    text_column("Readiness"),
                    number_column("Probably mature", "%", 0),
                    day_column("Ready on"),
                    day_column("Past its best on")};
    for (const auto& row : model.rows)
        list.rows.push_back(cells_of(row));
    return list;
}

Listing list_past_lots(const Station& s, const ListingQuery& query) {
    Listing list;
    list.columns = {text_column("Lot"),    text_column("Mill"),       text_column("Flour"),
                    text_column("State"),  text_column("Reason"),     day_column("Delivered"),
                    kg_column("Received"), instant_column("Ended at")};
    PastLotQuery page;
    page.words = query.words;
    page.count = past_lots_a_page;
    for (bool is_more = true; is_more; page.from += page.count) {
        const auto past = PastStore(*s.connection).lots(page).lots;
        for (const auto& lot : past)
            if (is_of_span(s, query, lot.ended_at))
                list.rows.push_back({lot.code, lot.mill, lot.flour, state_of(lot), cell(lot.state_reason),
                                     lot.delivered_on, kilograms(lot.received), lot.ended_at});
        // The last ended come first.
        is_more =
            past.size() == static_cast<std::size_t>(page.count) && past.back().ended_at >= before_span(query);
    }
    return list;
}

Listing list_stock(const Station& s, const ListingQuery& query) {
    const auto stock = make_stock(s, query.at);
    Listing list;
    list.notes = {"Age in days since it was delivered; states and last days are those of now"};
    list.columns = {text_column("Place"),         text_column("Lot"),
                    text_column("Mill"),          text_column("Flour"),
                    text_column("State"),         kg_column("Stock", 3),
                    number_column("Bags", "", 1), number_column("Age", "d", 0),
                    day_column("Last day"),       number_column("Days left", "", 0)};
    for (const auto& row : stock.rows)
        list.rows.push_back(
            {row.place, row.code, row.mill, row.flour, row.state, row.kg, cell(row.bags),
             static_cast<double>(row.age_days), cell(row.last_day),
             row.days_left ? Listing::Cell(static_cast<double>(*row.days_left)) : Listing::Cell()});
    if (query.at)
        list.notes.insert(list.notes.begin(), stock.as_of);
    return list;
}

Listing list_movements(const Station& s, const ListingQuery& query) {
    Listing list;
    list.notes = {"Nothing is edited: a mistake is taken back by a later movement that names it"};
    list.columns = {number_column("No.", "", 0),
                    instant_column("At"),
                    text_column("Kind"),
                    text_column("Lot"),
                    text_column("Mill"),
                    text_column("Flour"),
                    text_column("From"),
                    text_column("To"),
                    kg_column("Weight", 3),
                    text_column("Run"),
                    number_column("Takes back no.", "", 0),
                    text_column("Who"),
                    text_column("Note")};
    for (const auto& row : SpanStore(*s.connection).movements(before_span(query), after_span(query))) {
        const auto& m = row.movement;
        if (!is_of_span(s, query, m.at))
            continue;
        list.rows.push_back(
            {static_cast<double>(m.id.number()), m.at, std::string(in_words(m.kind)), row.lot.code,
             row.lot.mill, row.lot.flour, cell(row.from), cell(row.to), kilograms(m.mass), cell(row.run),
             m.counters ? Listing::Cell(static_cast<double>(m.counters->number())) : Listing::Cell(), m.who,
             cell(m.note)});
    }
    return list;
}

} // namespace mellowbin::app
