#include "taught_bakery.h"

#include "app/acts/plant_set_up.h"
#include "app/book/clock.h"
#include "db/batch_store.h"
#include "db/plant_store.h"
#include "exchange/plant_file.h"
#include "support/catch.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace mellowbin::tests {
namespace {

using app::Doughs;
using app::Taught;

constexpr const char* plant_file = R"({
  "plant": "Two lines", "mills": ["Mill"], "flours": [{"name": "Strong white", "class": "white", "windows": []}],
  "places": [{"name": "Bay 1", "kind": "bay", "air": "breathable_bag", "temperature_c": 20}],
  "lines": [{"name": "Line 1", "friction_factor_c": 24}, {"name": "Line 2", "friction_factor_c": 24}],
  "products": [
    {"name": "Pan bread", "flour": "Strong white", "market": "Canada", "food": "bread", "windows": [],
     "maturity_target": 0.85, "most_lots": 3, "least_share": 0.1, "batch_flour_kg": 100,
     "ingredients": [{"name": "Salt", "percent_of_flour": 2}]},
    {"name": "Bun", "flour": "Strong white", "market": "Canada", "food": "bread", "windows": [],
     "maturity_target": 0.85, "most_lots": 3, "least_share": 0.1, "batch_flour_kg": 100}
  ]})";

const Day asked_on = day_from_iso("2026-04-01");

constexpr double unlike = std::numeric_limits<double>::infinity();

JournalLine line_of(Instant at) { return {0, at, "Ada", "log_batch", "run", "Something was done", ""}; }

double difference(const dough::WaterBelief& one, const dough::WaterBelief& other,
                  const std::vector<dough::LotShare>& shares, ProductId product, LineId line) {
    const auto x = one.predict(product, line, shares, asked_on);
    const auto y = other.predict(product, line, shares, asked_on);
    if (x.batches != y.batches || x.is_assumed != y.is_assumed)
        return unlike;
    return std::max({std::abs((x.offset - y.offset).value()), std::abs((x.deviation - y.deviation).value()),
                     std::abs(x.offset_sd - y.offset_sd), std::abs(x.deviation_sd - y.deviation_sd),
                     std::abs(x.sd - y.sd)});
}

double difference(const dough::MixingBelief& one, const dough::MixingBelief& other, ProductId product,
                  LineId line) {
    const auto x = one.predict(line, product, Kilograms{160});
    const auto y = other.predict(line, product, Kilograms{160});
    if (x.has_value() != y.has_value() || (x && x->batches != y->batches))
        return unlike;
    if (!x)
        return 0;
    return std::max(std::abs(x->kj_per_kg - y->kj_per_kg), std::abs(x->sd - y->sd));
}

double difference(const dough::WaterBelief& water, const dough::MixingBelief& mixing,
                  const dough::WaterBelief& other_water, const dough::MixingBelief& other_mixing,
                  const std::vector<LotId>& lots) {
    double largest = 0;
    for (const auto product : {pan, bun})
        for (int line = 1; line <= all_lines; ++line) {
            largest = std::max(largest, difference(mixing, other_mixing, product, LineId{line}));
            for (const auto a : lots)
                for (const auto b : lots) {
                    std::vector<dough::LotShare> shares{{a, 1}};
                    if (a != b)
                        shares = {{a, 0.4}, {b, 0.6}};
                    largest =
                        std::max(largest, difference(water, other_water, shares, product, LineId{line}));
                }
        }
    return largest;
}

} // namespace

TaughtBakery::TaughtBakery() {
    const auto clock = app::Clock::standing_at(asked_on);
    app::seed_law(connection, clock);
    const auto plant = exchange::read_plant_file(plant_file);
    REQUIRE(plant);
    REQUIRE(app::set_up_plant(connection, *plant, "test", clock));
    for (int run = 1; run <= 4; ++run)
        connection.execute("INSERT INTO run (id, code, product_id, line_id, day, sequence, batches, flour_g) "
                           "VALUES ($1, $2, $3, $4, '2026-03-01', 1, 1, 100000)",
                           {run, fmt::format("R{}", run), 1 + (run - 1) % 2, 1 + (run - 1) / 2});
}

template <class Act> void TaughtBakery::done(Act act) {
    Change change(connection, line_of(at));
    REQUIRE(act(change));
    change.commit();
}

LotId TaughtBakery::take_in() {
    Lot lot;
    lot.id = LotId{book.lots.empty() ? 1 : book.lots.back().id.number() + 1};
    lot.code = fmt::format("W{}", lot.id.number());
    lot.state = LotState::released;
    connection.execute(
        "INSERT INTO lot (id, code, mill_id, flour_id, delivered_on, delivery_note, received_g, bag_g, "
        "price_per_tonne_minor, state, state_reason, state_by, state_at, received_into_id) "
        "VALUES ($1, $2, 1, 1, '2026-02-20', '', 12000000, 0, 0, 'released', '', '', $3, 1)",
        {lot.id, lot.code, at});
    book.lots.push_back(lot);
    return lot.id;
}

void TaughtBakery::becomes(LotId lot, LotState state) {
    connection.execute("UPDATE lot SET state = $2 WHERE id = $1", {lot, key_of(state)});
    for (auto& one : book.lots)
        if (one.id == lot)
            one.state = state;
}

BatchId TaughtBakery::mix(ProductId product, const std::vector<LotId>& lots, double points,
                          std::optional<Feel> feel, int line) {
    connection.query("SELECT COALESCE(MAX(id), 0) + 1 FROM batch", {},
                     [&](const Row& row) { newest = row.id<BatchId>(0); });
    connection.execute(
        "INSERT INTO batch (id, run_id, number, at, who, checked_by, water_kg, ice_kg, water_c, dose_ppm, "
        "poured_ml, farinograph_pct, absorption_pct, flour_c, room_c, note) "
        "VALUES ($1, $2, $1, $3, 'Ada', '', 62, 2, $4, 0, 0, 61, $5, 20, 22, '')",
        {newest, 2 * (line - 1) + product.number(), at, 4 + static_cast<double>(newest.number() % 3),
         61 + points});
    int position = 0;
    for (const auto lot : lots)
        connection.execute(
            "INSERT INTO batch_flour (batch_id, position, lot_id, mass_g) VALUES ($1, $2, $3, 100000)",
            {newest, position++, lot});
    if (feel)
        say(newest, *feel);
    return newest;
}

LotId TaughtBakery::mix_of_a_lot(ProductId product, int batches, double points) {
    const auto lot = take_in();
    for (int i = 0; i < batches; ++i)
        mix(product, {lot}, points, Feel::right);
    becomes(lot, LotState::used_up);
    return lot;
}

void TaughtBakery::say(BatchId batch, Feel feel) {
    const BatchResult result{Celsius{26 + static_cast<double>(batch.number() % 2)}, {}, feel, {}, {}, ""};
    done([&](Change& change) { return BatchStore(connection).set_result(change, batch, result); });
}

void TaughtBakery::counter(BatchId batch) {
    done([&](Change& change) { return BatchStore(connection).counter(change, batch, "not mixed"); });
}

bool TaughtBakery::is_countered(BatchId batch) {
    const auto found = BatchStore(connection).find(batch);
    return !found || found->is_countered;
}

void TaughtBakery::expect(ProductId id, double points, bool is_assumed) {
    auto product = PlantStore(connection).products().at(static_cast<std::size_t>(id.number() - 1));
    product.water_offset = AbsorptionPoints{points};
    product.is_offset_assumed = is_assumed;
    done([&](Change& change) { return PlantStore(connection).save(change, product); });
}

void DicedWeeks::one_more() {
    while (in_use_.size() < 4)
        in_use_.push_back(take_in());
    std::shuffle(in_use_.begin(), in_use_.end(), dice_);
    const std::vector<LotId> of(in_use_.begin(), in_use_.begin() + 1 + up_to(2) % 2);
    const auto product = ProductId{up_to(2)};
    const double points = 2 + up_to(20) * 0.1;
    mix(product, of, points, {}, up_to(2));
    const BatchId earlier{std::max<std::int64_t>(1, newest.number() + 1 - up_to(4))};
    const auto feel = up_to(3) == 1 ? Feel::stiff : Feel::right;
    const bool slip = up_to(15) == 1;
    if (!is_countered(earlier)) { // nor a counter-entry
        say(earlier, feel);
        if (slip)
            counter(earlier);
    }
    if (up_to(4) == 1) {
        becomes(in_use_.back(), LotState::used_up);
        in_use_.pop_back();
    }
    at += std::chrono::minutes(30);
}

Doughs started(TaughtBakery& bakery) {
    Doughs doughs;
    doughs.follow(bakery.connection, bakery.book);
    return doughs;
}

Taught of_everything(TaughtBakery& bakery) {
    const TaughtStore store(bakery.connection);
    const auto said = store.expected();
    Taught taught;
    for (const auto& batch : store.after(BatchId{}, 1'000'000))
        taught.take_in(batch, said);
    taught.hear(said);
    return taught;
}

double difference(const Doughs& doughs, const Taught& everything, const std::vector<LotId>& lots) {
    return difference(doughs.water(), doughs.mixing(), everything.water, everything.mixing, lots);
}

double difference(const Doughs& one, const Doughs& other, const std::vector<LotId>& lots) {
    return difference(one.water(), one.mixing(), other.water(), other.mixing(), lots);
}

std::vector<LotId> live_lots(const app::Book& book) {
    std::vector<LotId> live{LotId{1'000'000}};
    for (const auto& lot : book.lots)
        if (lot.state == LotState::released)
            live.push_back(lot.id);
    return live;
}

double deviation(const Doughs& doughs, LotId lot) {
    const std::vector<dough::LotShare> alone{{lot, 1}};
    return doughs.water().predict(pan, LineId{1}, alone, asked_on).deviation.value();
}

} // namespace mellowbin::tests
