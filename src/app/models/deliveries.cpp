#include "app/models/deliveries.h"

#include "app/book/clock_words.h"
#include "app/book/station.h"
#include "db/supply_store.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace mellowbin::app {
namespace {

std::optional<double> kilograms_of(const std::optional<Grams>& mass) {
    return mass ? std::optional(to_kilograms(*mass).value()) : std::nullopt;
}

void tell_expected(const Station& s, const DeliveryRecord& record, DeliveryRow& row) {
    const auto expected = record.expected ? SupplyStore(*s.connection).find(*record.expected) : std::nullopt;
    if (!expected)
        return;
    row.expected = expected->code;
    row.expected_on = expected->arrives;
    row.expected_kg = to_kilograms(expected->mass).value();
}

void tell_lots(const Station& s, const DeliveryRecord& record, DeliveryRow& row) {
    std::map<LotId, std::string> codes;
    for (const auto& lot : DeliveryStore(*s.connection).lots_of(record.id)) {
        const Flour* flour = s.book.flour(lot.flour);
        row.lots.push_back(
            {lot.lot, lot.code, flour ? flour->name : "?", to_kilograms(lot.received).value()});
        row.lots_kg += row.lots.back().kg;
        codes[lot.lot] = lot.code;
    }
    for (const auto& pallet : record.pallets)
        row.pallets.push_back({pallet.sscc, codes[pallet.lot], kilograms_of(pallet.mass)});
}

} // namespace

DeliveryRow make_delivery_head(const Station& s, const DeliveryRecord& record) {
    const Mill* mill = s.book.mill(record.mill);
    DeliveryRow row;
    row.id = record.id;
    row.mill = mill ? mill->name : "?";
    row.note = record.note;
    row.order = record.order;
    row.delivered_on = record.delivered_on;
    row.on_note_kg = kilograms_of(record.on_note);
    row.weighed_kg = kilograms_of(record.weighed);
    row.weight_reason = record.weight_reason;
    row.remark = record.remark;
    row.who = record.who;
    row.at = record.at;
    row.at_words = time_in_words(s.setup.clock, record.at, s.today());
    tell_expected(s, record, row);
    return row;
}

DeliveryRow make_delivery(const Station& s, const DeliveryRecord& record) {
    auto row = make_delivery_head(s, record);
    tell_lots(s, record, row);
    return row;
}

std::vector<DeliveryRow> make_deliveries(const Station& s, const std::string& mill, int count) {
    DeliveryQuery query;
    query.count = count;
    if (!mill.empty()) {
        const auto at = std::find_if(s.book.mills.begin(), s.book.mills.end(),
                                     [&](const Mill& one) { return one.name == mill; });
        if (at == s.book.mills.end())
            return {};
        query.mill = at->id;
    }
    std::vector<DeliveryRow> rows;
    for (const auto& record : DeliveryStore(*s.connection).newest(query))
        rows.push_back(make_delivery(s, record));
    return rows;
}

std::string came_in_words(const DeliveryRow& delivery) {
    auto words = fmt::format("Came on {} from {}", short_day(delivery.delivered_on), delivery.mill);
    if (!delivery.note.empty())
        words += ", note " + delivery.note;
    if (!delivery.order.empty())
        words += ", order " + delivery.order;
    if (!delivery.expected.empty() && delivery.expected_on)
        words += fmt::format(", for {} ({})", delivery.expected,
                             days_beside(delivery.delivered_on, *delivery.expected_on));
    return words;
}

} // namespace mellowbin::app
