#include "app/book/taught.h"

#include <algorithm>
#include <map>
#include <optional>

namespace mellowbin::app {
namespace {

double dry_weight(const TaughtBatch::Part& part) {
    return to_kilograms(part.mass).value() * from_14_percent(part.moisture.value_or(Moisture{14}));
}

std::vector<dough::LotShare> shares_of(const TaughtBatch& batch) {
    std::vector<dough::LotShare> shares;
    double all = 0;
    for (const auto& part : batch.flour)
        all += dry_weight(part);
    for (const auto& part : batch.flour)
        shares.push_back({part.lot, dry_weight(part) / all});
    return shares;
}

/// Ingredients beside flour and water, and the water in them, both % of flour.
dough::HeatPart beside_part(Kilograms flour, double percent, double water_percent, Celsius temperature) {
    return dough::ingredient_part(flour * (percent / 100), percent > 0 ? 100 * water_percent / percent : 0,
                                  temperature);
}

/// The batch as the mixer's heat balance sees it; nothing where a temperature is missing.
std::optional<dough::MixedDough> mixed_dough(const TaughtBatch& batch) {
    if (!batch.dough_temperature || !batch.water_temperature || !batch.flour_temperature ||
        !batch.room_temperature)
        return {};
    Kilograms flour;
    for (const auto& part : batch.flour)
        flour += to_kilograms(part.mass);
    const auto& beside = batch.beside;
    dough::MixedDough mixed;
    mixed.heat.dough = *batch.dough_temperature;
    mixed.heat.water = batch.water + batch.ice + Kilograms{batch.poured_ml / 1000};
    mixed.heat.parts = {
        dough::flour_part(flour, *batch.flour_temperature),
        beside_part(flour, beside.percent - beside.tempered_percent,
                    beside.water_percent - beside.tempered_water_percent, *batch.room_temperature),
        beside_part(flour, beside.tempered_percent, beside.tempered_water_percent, beside.tempered)};
    mixed.water_temperature = *batch.water_temperature;
    mixed.ice = batch.ice;
    mixed.ice_temperature = batch.ice_temperature;
    if (mixed.heat.water.value() <= 0)
        return {};
    return mixed;
}

/// What was said last of each product, of what was said after `from` batches and, where it is known, before
/// that one.
std::map<ProductId, ExpectedOffset> heard(std::span<const ExpectedOffset> said, BatchId from,
                                          std::optional<BatchId> before) {
    std::map<ProductId, ExpectedOffset> last;
    auto next =
        std::lower_bound(said.begin(), said.end(), from,
                         [](const ExpectedOffset& one, BatchId wanted) { return one.after < wanted; });
    for (; next != said.end() && (!before || next->after < *before); ++next)
        last[next->product] = *next;
    return last;
}

/// Said again as it was, for instance when a change was taken back before any batch: nothing new.
void expect(dough::WaterBelief& water, const std::map<ProductId, ExpectedOffset>& last) {
    for (const auto& [product, one] : last)
        if (!water.expects(product, one.offset, one.is_assumed))
            water.expect(product, one.offset, one.is_assumed);
}

} // namespace

bool teaches_water(const TaughtBatch& batch) {
    return !batch.is_countered && batch.farinograph && batch.absorption && !batch.flour.empty();
}

Taught::Taught(BatchId through, const dough::TaughtState& state)
    : water(state.water), mixing(state.mixing), through_(through), newest_(state.newest) {}

dough::TaughtState Taught::state() const { return {water.state(), mixing.state(), newest_}; }

void Taught::take_in(const TaughtBatch& batch, std::span<const ExpectedOffset> said) {
    expect(water, heard(said, through_, batch.id));
    through_ = batch.id;
    if (batch.is_countered)
        return;
    if (teaches_water(batch))
        learn_water(batch);
    learn_mixing(batch);
}

void Taught::hear(std::span<const ExpectedOffset> said) { expect(water, heard(said, through_, {})); }

void Taught::learn_water(const TaughtBatch& batch) {
    water.observe({batch.product, batch.line, batch.day, shares_of(batch), *batch.farinograph,
                   *batch.absorption, batch.feel});
    auto& lots = newest_[batch.product];
    lots.clear();
    for (const auto& part : batch.flour)
        lots.push_back(part.lot);
}

void Taught::learn_mixing(const TaughtBatch& batch) {
    if (const auto mixed = mixed_dough(batch))
        mixing.observe(batch.line, batch.product, mixed->heat.mass(), dough::mixing_heat_of(*mixed));
}

} // namespace mellowbin::app
