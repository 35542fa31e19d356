#include "app/models/trace_words.h"

#include "app/book/station.h"
#include "core/counted.h"
#include "core/lot_words.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

std::string joined(const std::string& a, const std::string& b, const char* between = ", ") {
    return a.empty() || b.empty() ? a + b : a + between + b;
}

std::string why_of(const TraceShare& share) {
    std::string why;
    if (share.certainty == Certainty::contains)
        return why;
    if (share.by_silo)
        why = "a silo in which other lots lay";
    if (share.by_rework)
        why = joined(why, "what was put back of an earlier batch", " and ");
    return why.empty() ? "not every batch of its run holds it" : why;
}

double kg(Grams mass) { return to_kilograms(mass).value(); }

/// By the plant's clock: "2026-11-25 04:10".
std::string at_in_words(const Station& s, Instant at, Day day) {
    return fmt::format("{} {}", iso(day), s.setup.clock.in_words(at, day));
}

TraceRow row_of(const TraceLot& lot) {
    TraceRow row;
    row.kind = TraceRow::Kind::lot;
    row.what = fmt::format("Lot {}", lot.lot.code);
    row.when = iso(lot.lot.delivered_on);
    row.kg = kg(lot.share.booked);
    row.likely = lot.share.likely_g / 1000;
    row.certainty = lot.share.certainty;
    row.where = fmt::format("{}{}{}", lot.lot.mill,
                            lot.lot.delivery_note.empty() ? "" : ", delivery note " + lot.lot.delivery_note,
                            lot.lot.order.empty() ? "" : ", order " + lot.lot.order);
    row.why = joined(why_of(lot.share),
                     lot.in_stock > Grams{}
                         ? fmt::format("{:g} kg in stock, {}", kg(lot.in_stock), in_words(lot.lot.state))
                         : "none in stock",
                     "; ");
    row.who = lot.lot.taken_in_by;
    return row;
}

TraceRow row_of(const Station& s, const TraceBatch& batch, const TraceShare& share, const std::string& lot) {
    TraceRow row;
    row.kind = TraceRow::Kind::batch;
    row.what = fmt::format("Batch {} of run {}{}", batch.batch.number, batch.batch.run_code,
                           lot.empty() ? "" : ", lot " + lot);
    row.when = at_in_words(s, batch.batch.at, batch.batch.day);
    row.kg = kg(share.booked);
    row.likely = share.likely_g / 1000;
    row.certainty = share.certainty;
    row.where = batch.batch.product_name;
    row.why = why_of(share);
    row.who = batch.batch.who;
    return row;
}

TraceRow row_of(const TraceDispatch& one) {
    TraceRow row;
    row.kind = TraceRow::Kind::dispatch;
    row.what = fmt::format("{}, run {}{}", one.product, one.run_code,
                           one.dispatch.pieces ? fmt::format(", {} pieces", *one.dispatch.pieces) : "");
    row.when = iso(one.dispatch.day);
    if (one.dispatch.mass)
        row.kg = kg(*one.dispatch.mass);
    row.certainty = one.certainty;
    row.where = "customer " + one.dispatch.customer;
    if (one.certainty == Certainty::may_contain)
        row.why = "not every batch of its run surely holds it";
    row.who = one.dispatch.who;
    return row;
}

std::string title_of(const Station& s, const TraceModel& trace) {
    const auto& query = trace.query;
    const auto product = [&] {
        const Product* known = s.book.product(query.product);
        return known ? known->name : std::string("?");
    };
    switch (query.asks) {
    case TraceOf::lot:
        return trace.lots.empty() ? "Lot"
                                  : fmt::format("Lot {} of {}, delivered {}", trace.lots[0].lot.code,
                                                trace.lots[0].lot.mill, iso(trace.lots[0].lot.delivered_on));
    case TraceOf::product:
        return fmt::format("{} of {}", product(), iso(query.day));
    case TraceOf::run:
        return trace.batches.empty() ? "Run without a batch"
                                     : fmt::format("Run {}, {}", trace.batches.back().batch.run_code,
                                                   trace.batches.back().batch.product_name);
    case TraceOf::customer:
        return fmt::format("What went to customer {} on {}", query.customer, iso(query.day));
    }
    return {};
}

} // namespace

void put_into_words(const Station& s, TraceModel& trace) {
    trace.title = title_of(s, trace);
    for (const auto& lot : trace.lots)
        trace.rows.push_back(row_of(lot));
    const bool is_of_a_lot = trace.query.asks == TraceOf::lot;
    for (const auto& batch : trace.batches)
        for (const auto& share : batch.shares) {
            const auto lot = std::ranges::find_if(
                trace.lots, [&](const TraceLot& one) { return one.lot.id == share.lot; });
            trace.rows.push_back(
                row_of(s, batch, share, is_of_a_lot || lot == trace.lots.end() ? "" : lot->lot.code));
        }
    for (const auto& dispatch : trace.dispatches)
        trace.rows.push_back(row_of(dispatch));
    trace.rules = {
        "Only batches, dispatches and rework that stand are counted; what was taken back is none.",
        std::string(
            "By the book is what was logged. What is likely follows what lay in the silos it was drawn "
            "from, each by its mixing zone (one of which nothing was said is one mixture), and what "
            "was put back."),
        "Flour is surely in a batch where it was drawn from a place of its own, or left its silo unmixed.",
        "Bread that left is of any batch of its run: it surely holds a lot where every batch does.",
        "Unexplained is what left as used and is in no batch that stands; counts are told apart.",
    };
    trace.law = {
        "Said, not advice. Regulation (EC) No 178/2002, article 18: food businesses can say from whom they "
        "were "
        "supplied and which businesses they supplied, on demand of the authority: one step back, one step "
        "forward.",
        "21 CFR part 1, subpart S asks more records of those who handle foods on the Food Traceability List, "
        "and "
        "to hand them over within 24 hours of being asked (the hours from memory). Whether a product is on "
        "that "
        "list is for qualified staff to say.",
    };
}

std::string summary_of(const TraceModel& trace) {
    const auto sure = std::ranges::count_if(trace.batches, [](const TraceBatch& batch) {
        return std::ranges::any_of(batch.shares,
                                   [](const auto& share) { return share.certainty == Certainty::contains; });
    });
    const auto all = static_cast<std::int64_t>(trace.batches.size());
    std::vector<std::string> customers;
    for (const auto& one : trace.dispatches)
        if (std::ranges::find(customers, one.dispatch.customer) == customers.end())
            customers.push_back(one.dispatch.customer);
    return fmt::format("{}: {}, {} of them surely and {} maybe; {} to {}; {} can be held", trace.title,
                       counted(all, "batch", "batches"), sure, all - sure,
                       counted(trace.dispatches.size(), "dispatch", "dispatches"),
                       counted(customers.size(), "customer", "customers"),
                       counted(trace.to_hold().size(), "lot", "lots"));
}

} // namespace mellowbin::app
