#include "app/models/supply_events.h"

#include "app/book/station.h"
#include "app/models/listing_makers.h"
#include "app/models/trace_page.h"
#include "core/fingerprint.h"
#include "db/batch_store.h"
#include "db/delivery_store.h"
#include "db/dispatch_store.h"
#include "db/journal_store.h"
#include "db/movement_store.h"
#include "db/run_store.h"

#include <date/tz.h>
#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace mellowbin::app {
namespace {

using exchange::SupplyEvent;

class Made {
public:
    Made(const Station& s, const ListingQuery& span)
        : s_(s), span_(span), mark_(plant_mark(s)), names_(*s.connection) {}

    void movements() {
        const SpanStore store(*s_.connection);
        const auto all = store.movements(before_span(span_), after_span(span_));
        for (const auto& row : all)
            if (is_of_span(s_, span_, row.movement.at))
                add_movement(row);
    }
    void batches() {
        // A batch may be logged on another day than its run's.
        for (const auto& run :
             RunStore(*s_.connection).between(span_.from - Days{31}, span_.until + Days{31}))
            for (const auto& batch : BatchStore(*s_.connection).of(run.id))
                if (is_of_span(s_, span_, batch.at))
                    add_batch(run, batch);
    }
    void dispatches() {
        // Bread may have left before it was logged.
        for (const auto& one : dispatches_of(s_, {span_.from - Days{31}, span_.until + Days{1}, {}, ""}))
            if (is_of_span(s_, span_, one.dispatch.at))
                add_dispatch(one);
    }
    /// In the order of time; a declaration after what it is about.
    std::vector<SupplyEvent> in_order() {
        const auto when = [](const SupplyEvent& event) { return event.declared_wrong.value_or(event.at); };
        std::stable_sort(events_.begin(), events_.end(),
                         [&](const SupplyEvent& a, const SupplyEvent& b) { return when(a) < when(b); });
        return std::move(events_);
    }

private:
    [[nodiscard]] std::string own(std::initializer_list<std::string_view> parts) const {
        return exchange::own_uri(mark_, parts);
    }
    [[nodiscard]] std::string id_of(std::string_view what, std::int64_t number) const {
        return exchange::uuid_uri(fmt::format("{}/{}/{}", mark_, what, number));
    }
    [[nodiscard]] std::chrono::minutes zone_at(Instant at) const {
        const auto* zone = s_.setup.clock.zone();
        return zone ? std::chrono::duration_cast<std::chrono::minutes>(zone->get_info(at).offset)
                    : std::chrono::minutes{0};
    }
    [[nodiscard]] std::string lot_uri(const LotNames& lot) const { return own({"lot", lot.mill, lot.code}); }

    void add_movement(const NamedMovement& row) {
        if (row.movement.counters) {
            add_declaration(*row.movement.counters, row);
            return;
        }
        if (auto event = event_of(row))
            events_.push_back(*std::move(event));
    }
    /// Nothing of a kind that is the plant's own.
    std::optional<SupplyEvent> event_of(const NamedMovement& row) {
        const auto& m = row.movement;
        if ((m.kind != MovementKind::receipt && m.kind != MovementKind::move) || !m.to)
            return {};
        SupplyEvent event;
        event.kind =
            m.kind == MovementKind::receipt ? SupplyEvent::Kind::receiving : SupplyEvent::Kind::storing;
        event.id = id_of("movement", m.id.number());
        event.at = m.at;
        event.zone = zone_at(m.at);
        event.quantities = {{lot_uri(row.lot), to_kilograms(m.mass).value()}};
        event.place = own({"place", row.to});
        if (m.kind == MovementKind::receipt)
            add_papers(m.lot, event);
        return event;
    }
    void add_papers(LotId lot, SupplyEvent& event) const {
        const DeliveryStore deliveries(*s_.connection);
        for (const auto& pallet : deliveries.pallets_of(lot))
            event.pallets.push_back(exchange::pallet_uri(pallet.sscc));
        const auto id = deliveries.of_lot(lot);
        const auto delivery = id ? deliveries.find(*id) : std::nullopt;
        if (!delivery)
            return;
        const Mill* mill = s_.book.mill(delivery->mill);
        if (!delivery->note.empty())
            event.despatch_advice = own({"note", mill ? mill->name : "?", delivery->note});
        if (!delivery->order.empty())
            event.order = own({"order", delivery->order});
    }
    /// What was written is told once more, with when it was taken back.
    void add_declaration(MovementId mistaken, const NamedMovement& counter) {
        NamedMovement row = counter;
        for (const auto& m : MovementStore(*s_.connection).of(counter.movement.lot))
            if (m.id == mistaken)
                row.movement = m;
        std::swap(row.from, row.to); // the counter-entry goes the other way
        if (auto event = event_of(row)) {
            event->declared_wrong = counter.movement.at;
            events_.push_back(*std::move(event));
        }
    }
    void add_batch(const Run& run, const Batch& batch) {
        const Line* line = s_.book.line(run.line);
        SupplyEvent event;
        event.kind = SupplyEvent::Kind::transforming;
        event.id = id_of("batch", batch.id.number());
        event.at = batch.at;
        event.zone = zone_at(batch.at);
        for (const auto& part : batch.flour)
            event.quantities.push_back({lot_uri(names_[part.lot]), to_kilograms(part.mass).value()});
        event.outputs = {{own({"dough", run.code}), {}}}; // nobody weighs the dough
        event.place = line ? own({"line", line->name}) : "";
        events_.push_back(event);
        if (!batch.is_countered)
            return;
        event.declared_wrong = SpanStore(*s_.connection).countered_at(batch.id);
        events_.push_back(std::move(event));
    }

    void add_dispatch(const TraceDispatch& one) {
        const auto& d = one.dispatch;
        SupplyEvent event;
        event.kind = SupplyEvent::Kind::dispatching;
        event.id = id_of("dispatch", d.id.number());
        event.at = d.at;
        event.zone = zone_at(d.at);
        event.quantities = {{own({"bread", one.product, one.run_code}), {}}};
        if (d.mass)
            event.quantities.front().kg = to_kilograms(*d.mass).value();
        event.place = own({"plant"});
        event.receiver = own({"customer", d.customer});
        events_.push_back(event);
        if (!d.is_countered)
            return;
        event.declared_wrong = DispatchStore(*s_.connection).countered_at(d.id);
        events_.push_back(std::move(event));
    }

    const Station& s_;
    const ListingQuery& span_;
    std::string mark_;
    LotNamesAtHand names_;
    std::vector<SupplyEvent> events_;
};

} // namespace

std::vector<SupplyEvent> make_supply_events(const Station& s, const ListingQuery& span) {
    Made made(s, span);
    made.movements();
    made.batches();
    made.dispatches();
    return made.in_order();
}

std::string plant_mark(const Station& s) {
    const auto first = JournalStore(*s.connection).before(2, 1);
    const auto words = first.empty() ? std::string() : iso(first[0].at) + first[0].who + first[0].words;
    return fmt::format("{:016x}", fingerprint(words));
}

} // namespace mellowbin::app
