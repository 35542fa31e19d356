#include "app/acts/print_papers.h"

#include "app/acts/intent.h"
#include "app/acts/paper_given.h"
#include "app/acts/state.h"
#include "app/models/card.h"
#include "app/models/deliveries.h"
#include "app/models/ladders.h"
#include "app/models/papers.h"
#include "app/models/trace.h"
#include "db/delivery_store.h"
#include "db/drill_store.h"
#include "db/lot_store.h"
#include "print/listing_sheet.h"

#include <fmt/format.h>

namespace mellowbin::app {
namespace {

Refusal unknown_lot() { return {"Lot", "is not in the book", "Choose a lot from the list"}; }

/// A lot's number as part of a file's name.
std::string in_a_file_name(std::string code) {
    for (auto& c : code)
        if (static_cast<unsigned char>(c) <= ' ' ||
            std::string_view("/\\:*?\"<>|").find(c) != std::string::npos)
            c = '-';
    return code;
}

Result<Told> give_listings(State& state, std::span<const Listing> listings, const std::string& title,
                           const PaperTo& to, const PaperName& name) {
    const auto page = print::read_page_size(to.paper, print::a4);
    if (!page)
        return page.refusals();
    const auto head = make_paper_head(state);
    const auto sheet = print::sheet_of(listings, title, *page, {head.made, head.at});
    return give(state, print::pdf_of(sheet, *page), *page, to, name);
}

} // namespace

Result<Told> carry_out(State& state, const PrintTrace& act) {
    if (!state.traced)
        return Refusal{"Trace", "none is shown", "Trace a lot, a product, a run or a customer first"};
    const auto trace = make_trace(state, *state.traced);
    return give_listings(state, listings_of(trace), "Trace: " + trace.title, act.to,
                         {"Trace", "trace-" + iso(state.today())});
}

Result<Told> carry_out(State& state, const PrintDrill& act) {
    const auto drill = DrillStore(*state.connection).find(act.drill);
    if (!drill || !drill->end)
        return Refusal{"Drill", drill ? "runs: its report is kept when it ends" : "is not in the book",
                       "Choose one that has ended"};
    const auto number = std::to_string(act.drill.number());
    const auto title =
        fmt::format("Drill {}: {} {}, {} s, by {} and {}, {}{}", number, key_of(drill->asks), drill->of,
                    drill->end->seconds, drill->who, drill->end->who, iso(drill->end->at),
                    drill->end->note.empty() ? "" : ": " + drill->end->note);
    return give_listings(state, drill->end->report, title, act.to, {"Drill " + number, "drill-" + number});
}

Result<Told> carry_out(State& state, const PrintCard& act) {
    const auto card = make_card(state, act.run);
    if (!card.refusals.empty())
        return card.refusals;
    return give_sheet(state, card_sheet(card, make_paper_head(state)), act.to,
                      {"Card of run " + card.run_code, "card-" + in_a_file_name(card.run_code)});
}

Result<Told> carry_out(State& state, const PrintStockToCount& act) {
    const auto page = print::read_page_size(act.to.paper, print::a4);
    if (!page)
        return page.refusals();
    const auto head = make_paper_head(state);
    const auto sheet = print::sheet_of(stock_to_count(state), *page, {head.made, head.at}, "Counted kg");
    return give(state, print::pdf_of(sheet, *page), *page, act.to,
                {"Stock to count", "stock-to-count-" + iso(state.today())});
}

Result<Told> carry_out(State& state, const PrintDelivery& act) {
    const auto record = DeliveryStore(*state.connection).find(act.delivery);
    if (!record)
        return Refusal{"Delivery", "is not in the book", "See mellowbin deliveries"};
    const auto delivery = make_delivery(state, *record);
    std::vector<Lot> lots;
    for (const auto& one : delivery.lots)
        if (auto lot = LotStore(*state.connection).find(one.id))
            lots.push_back(*std::move(lot));
    const auto number = std::to_string(act.delivery.number());
    return give_sheet(state, delivery_sheet(delivery, lots, make_paper_head(state)), act.to,
                      {"Delivery " + number, "delivery-" + number});
}

Result<Told> carry_out(State& state, const PrintTestBakes& act) {
    const Lot* lot = state.book.lot(act.lot);
    if (!lot)
        return unknown_lot();
    const auto label = labelled(state, *lot);
    const TestBakes bakes{label.lot, label.mill, label.flour, lot->milled_on ? iso(*lot->milled_on) : "",
                          make_ladders(state, act.lot)};
    return give_sheet(state, test_bake_sheet(bakes, make_paper_head(state)), act.to,
                      {"Test bakes of lot " + lot->code, "test-bakes-" + in_a_file_name(lot->code)});
}

} // namespace mellowbin::app
