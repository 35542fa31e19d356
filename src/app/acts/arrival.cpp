#include "app/acts/arrival.h"

#include "app/acts/state.h"
#include "app/book/door.h"
#include "app/book/settings.h"
#include "core/typed_text.h"
#include "db/delivery_store.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <tuple>

namespace mellowbin::app {
namespace {

Refusal not_this_one(std::string what, std::string remedy) {
    return {std::string(expected_field), std::move(what), std::move(remedy)};
}

/// The one of this code that is to come; null, and a refusal, where it is none. Null without a code, too.
const ExpectedDelivery* expected_named(const Book& book, std::string_view typed, Refusals& refusals) {
    const auto code = trimmed(typed);
    std::string codes;
    for (const auto& one : book.expected) {
        if (one.has_come)
            continue;
        if (one.code == code)
            return &one;
        codes += (codes.empty() ? "" : ", ") + one.code;
    }
    if (!code.empty())
        refusals.push_back(
            not_this_one(fmt::format("\"{}\" is not to come", excerpt(code)),
                         codes.empty() ? "None is to come: leave it empty" : "Choose one of: " + codes));
    return nullptr;
}

/// Lots of one mill, note and day, in the order they stand.
std::vector<Coming> grouped(std::span<const Arrival> arrivals) {
    std::vector<Coming> deliveries;
    std::map<std::tuple<MillId, std::string, Day>, std::size_t> places;
    for (std::size_t i = 0; i < arrivals.size(); ++i) {
        const Lot& lot = arrivals[i].delivered.lot;
        const auto [at, is_new] =
            places.try_emplace({lot.mill, lot.delivery_note, lot.delivered_on}, deliveries.size());
        if (is_new) {
            auto& record = deliveries.emplace_back().record;
            record.mill = lot.mill;
            record.note = lot.delivery_note;
            record.delivered_on = lot.delivered_on;
        }
        deliveries[at->second].lots.push_back(i);
    }
    return deliveries;
}

/// The delivery in the book that these lots join; what that says, holds where nothing else is said.
void find_what_it_joins(const State& state, DeliveryId joins, Coming& coming) {
    const DeliveryStore store(*state.connection);
    const auto& record = coming.record;
    coming.joins = joins.is_known() ? std::optional(joins)
                                    : store.of_note(record.mill, record.note, record.delivered_on);
    const auto before = coming.joins ? store.find(*coming.joins) : std::nullopt;
    if (!before || before->mill != record.mill) {
        coming.joins.reset();
        return;
    }
    coming.before = store.lots_of(before->id);
    coming.record.expected = before->expected;
    coming.record.on_note = before->on_note;
    coming.record.weighed = before->weighed;
}

/// Every flour of the delivery with its weight, those lots that came before too.
std::map<FlourId, Grams> by_flour(std::span<const Arrival> arrivals, const Coming& coming) {
    std::map<FlourId, Grams> sums;
    for (const auto i : coming.lots)
        sums[arrivals[i].delivered.lot.flour] += arrivals[i].delivered.lot.received;
    for (const auto& lot : coming.before)
        sums[lot.flour] += lot.received;
    return sums;
}

/// The expected delivery that it answers, from before or as it is said now; null: none.
const ExpectedDelivery* answered(const State& state, const OfDelivery& of, Coming& coming,
                                 const std::map<FlourId, Grams>& flours, Refusals& refusals) {
    const auto* before = coming.record.expected ? state.book.delivery(*coming.record.expected) : nullptr;
    const auto code = trimmed(of.said.expected);
    if (code.empty() || (before && before->code == code))
        return before;
    const auto* expected = expected_named(state.book, code, refusals);
    if (!expected)
        return nullptr;
    if (before)
        refusals.push_back(
            not_this_one(fmt::format("is {} already: lots of this delivery came in for it", before->code),
                         "Leave it as it is"));
    if (expected->mill != coming.record.mill) {
        const Mill* mill = state.book.mill(expected->mill);
        refusals.push_back(not_this_one(fmt::format("{} is to come from {}", code, mill ? mill->name : "?"),
                                        "Choose one of this mill, or none"));
    }
    if (!flours.contains(expected->flour)) {
        const Flour* flour = state.book.flour(expected->flour);
        refusals.push_back(
            not_this_one(fmt::format("{} is to be {}, and no lot here is", code, flour ? flour->name : "?"),
                         "Choose one of these lots' flour, or none"));
    }
    coming.record.expected = expected->id;
    return expected;
}

std::string doubts_in_words(const DeliveryContext& context, const std::string& reason) {
    std::string words;
    for (const auto& doubt : what_weights_say(context.weights, context.tolerance_percent, context.units))
        words += fmt::format("{}{}", words.empty() ? "" : "; ", doubt.what);
    return words.empty() ? words : fmt::format("Weight let be: {}; because: {}", words, reason);
}

DeliveryContext context_of(const State& state) {
    DeliveryContext context;
    context.units = house_units(state.book.settings);
    context.tolerance_percent = delivery_tolerance(state.book);
    return context;
}

void read_delivery(const State& state, std::span<const Arrival> arrivals, const OfDelivery& of,
                   Coming& coming, Refusals& refusals) {
    find_what_it_joins(state, of.joins, coming);
    const auto flours = by_flour(arrivals, coming);
    const auto* expected = answered(state, of, coming, flours, refusals);
    auto context = context_of(state);
    for (const auto& [flour, mass] : flours)
        context.weights.of_lots += mass;
    context.weights.on_note = coming.record.on_note;
    context.weights.weighed = coming.record.weighed;
    context.weights.rest = of.rest;
    if (expected && flours.contains(expected->flour)) {
        context.weights.expected = expected->mass;
        context.weights.of_expected_flour = flours.at(expected->flour);
    }
    const auto said = accept(of.said, context);
    if (!said) {
        append(refusals, said.refusals());
        return;
    }
    auto& record = coming.record;
    record.order = said->order;
    record.on_note = said->on_note;
    record.weighed = said->weighed;
    record.remark = said->remark;
    record.weight_reason = said->weight_reason;
    record.who = state.setup.person;
    record.at = state.setup.clock.now();
    if (said->on_note)
        context.weights.on_note = said->on_note;
    if (said->weighed)
        context.weights.weighed = said->weighed;
    coming.doubts = doubts_in_words(context, said->weight_reason);
}

} // namespace

Refusals why_not_these(const State& state, const LotDraft& draft, std::map<std::string, std::string>& seen) {
    Refusals refusals;
    const DeliveryStore store(*state.connection);
    std::map<std::string, std::string> own;
    for (std::size_t i = 0; i < draft.pallets.size(); ++i) {
        const auto sscc = sscc_digits(draft.pallets[i].sscc);
        if (why_no_sscc(sscc))
            continue; // the lot says so itself
        if (const auto at = seen.find(sscc); at != seen.end())
            refusals.push_back({pallet_field(i),
                                fmt::format("{} is with lot {}, too", sscc_in_words(sscc), at->second),
                                "Take it off one of the two"});
        else if (const auto known = store.pallet(sscc))
            refusals.push_back({pallet_field(i), came_before_in_words(sscc, *known), "Take it off the list"});
        own.emplace(sscc, draft.code);
    }
    seen.merge(own);
    return refusals;
}

Refusals add_pallets(const PalletsOfLots& said, std::span<LotDraft* const> drafts) {
    Refusals refusals;
    for (const auto& [code, pallets] : said) {
        const auto at = std::find_if(drafts.begin(), drafts.end(),
                                     [&wanted = code](const auto* one) { return one->code == wanted; });
        if (at != drafts.end())
            (*at)->pallets.insert((*at)->pallets.end(), pallets.begin(), pallets.end());
        else
            refusals.push_back({"Pallet", fmt::format("\"{}\" is no lot of these", excerpt(code)),
                                "Name a lot that is taken in"});
    }
    return refusals;
}

Result<std::vector<Coming>> read_deliveries(const State& state, std::span<const Arrival> arrivals,
                                            const OfDelivery& of) {
    auto deliveries = grouped(arrivals);
    if (deliveries.size() > 1 && !is_empty(of.said))
        return Refusal{"Delivery",
                       "has lots of more than one mill, note or day, and what is said of the whole is of one",
                       "Take in one delivery after the other"};
    auto each = of;
    if (deliveries.size() > 1)
        each.joins = {}; // which of them would it be
    Refusals refusals;
    for (auto& coming : deliveries)
        read_delivery(state, arrivals, each, coming, refusals);
    if (!refusals.empty())
        return refusals;
    return deliveries;
}

Refusals faults_of(const State& state, const OfDelivery& of) {
    auto context = context_of(state);
    context.weights.rest = Rest::follows;
    Refusals refusals;
    expected_named(state.book, of.said.expected, refusals);
    if (const auto said = accept(of.said, context); !said)
        append(refusals, said.refusals());
    return refusals;
}

} // namespace mellowbin::app
