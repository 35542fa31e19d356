#include "ui/models/trace.h"

#include "support/iso.h"

namespace mellowbin::test {
namespace {

using app::TraceRow;

app::TraceLot a_lot(std::int64_t id, const char* code, double kg, LotState state) {
    app::TraceLot lot;
    lot.lot.id = LotId{id};
    lot.lot.code = code;
    lot.lot.mill = "Harrow Mill";
    lot.lot.delivered_on = day_from_iso("2026-11-20");
    lot.lot.delivery_note = "N-4711";
    lot.lot.state = state;
    lot.in_stock = to_grams(Kilograms{kg});
    lot.can_be_held = state == LotState::released;
    return lot;
}

Drill a_drill(std::int64_t id) {
    Drill drill;
    drill.id = DrillId{id};
    drill.of = "W26-118";
    drill.at = instant_from_iso("2026-11-25T08:00:00Z");
    drill.who = "Ines";
    return drill;
}

app::TraceDispatch sent(std::int64_t id, const char* customer) {
    app::TraceDispatch one;
    one.dispatch.id = DispatchId{id};
    one.dispatch.customer = customer;
    one.dispatch.pieces = 100;
    one.dispatch.mass = Grams{80'000};
    one.dispatch.day = day_from_iso("2026-11-25");
    one.dispatch.who = "Dora";
    one.dispatch.note = "van 2";
    one.run_code = "R-1125-1";
    one.product = "Pan bread";
    return one;
}

app::StockModel what_lies() {
    app::StockModel stock;
    stock.as_of = "As of 2026-11-25";
    stock.rows = {
        {LotId{1}, "Bay 2", "W26-131", "Harrow Mill", "Strong white", "In quarantine", 5'000, 200.0, 21,
         day_from_iso("2026-12-01"), 6},
        {LotId{2}, "Silo 1", "W26-118", "Harrow Mill", "Strong white", "Released", 9'000, {}, 5, {}, {}}};
    stock.flours = {{"Strong white", 14'000}};
    stock.ages = {{"0 to 7 days", 9'000}, {"8 to 14 days", 0}, {"15 to 30 days", 5'000}};
    stock.kg = 14'000;
    return stock;
}

} // namespace

app::TracePage a_traced_lot() {
    app::TraceModel trace;
    trace.title = "Lot W26-118 of Harrow Mill, delivered 2026-11-20";
    trace.lots = {a_lot(1, "W26-118", 9000, LotState::released), a_lot(2, "W26-119", 4000, LotState::held)};
    trace.batches.resize(2);
    trace.dispatches.resize(2);
    trace.balances = {{LotId{1}, "W26-118", Grams{24'000'000}, Grams{-150'000}, Grams{14'800'000},
                       Grams{9'000'000}, Grams{50'000}, Grams{0}, Grams{}, 0}};
    trace.rows = {{TraceRow::Kind::lot, "Lot W26-118", "2026-11-20", 9000, 9000, Certainty::contains,
                   "Harrow Mill, delivery note N-4711", "9000 kg in stock, released", "Tomas"},
                  {TraceRow::Kind::batch, "Batch 1 of run R-1125-1", "2026-11-25 04:10", 100, 64.5,
                   Certainty::may_contain, "Pan bread", "a silo in which other lots lay", "Joris"},
                  {TraceRow::Kind::batch, "Batch 2 of run R-1125-1", "2026-11-25 04:30", 100, 100,
                   Certainty::contains, "Pan bread", "", "Joris"},
                  {TraceRow::Kind::dispatch,
                   "Pan bread, run R-1125-1, 100 pieces",
                   "2026-11-25",
                   80,
                   {},
                   Certainty::may_contain,
                   "customer K-17",
                   "not every batch of its run surely holds it",
                   "Dora"},
                  {TraceRow::Kind::dispatch,
                   "Pan bread, run R-1125-1",
                   "2026-11-25",
                   {},
                   {},
                   Certainty::may_contain,
                   "customer K-18",
                   "",
                   "Dora"}};
    trace.rules = {"Only batches, dispatches and rework that stand are counted."};
    trace.law = {"Said, not advice. Regulation (EC) No 178/2002, article 18."};
    app::TracePage page;
    page.trace = std::move(trace);
    page.summary =
        "Lot W26-118 of Harrow Mill, delivered 2026-11-20: 2 batches, 1 of them surely and 1 maybe; "
        "2 dispatches to 2 customers; 1 lot can be held";
    page.drills = {a_drill(2), a_drill(1)};
    page.drills[1].end = DrillEnd{instant_from_iso("2026-11-25T08:04:10Z"), "Ines", 250, 12, "by phone", {}};
    page.running = DrillId{2};
    app::SiloRow silo;
    silo.place = PlaceId{4};
    silo.name = "Silo 1";
    silo.zone = "its lowest 2500 kg are one mixture";
    silo.zone_typed = "2500";
    silo.capacity_kg = 30'000;
    silo.kg = 13'000;
    silo.layers = {{LotId{1}, "W26-118", 9'000, 69.2, ""}, {LotId{2}, "W26-119", 4'000, 30.8, ""}};
    silo.draw_kg = 1'000;
    silo.draw = {{LotId{1}, "W26-118", 1'000, 100, "contains"}};
    silo.figures = {{"Maturity", 0.91, 2, std::string(app::share_unit), "model, with the confidence set"},
                    {"Protein", 12.4, 1, "%", ""}};
    silo.care = {"cleaned on 2026-11-20 by Tomas: brushed", "emptied on 2026-11-20 by Tomas"};
    page.silos = {std::move(silo)};
    page.dispatches = {sent(2, "K-18"), sent(1, "K-17")};
    page.dispatches[0].dispatch.is_countered = true;
    page.stock = what_lies();
    return page;
}

} // namespace mellowbin::test
