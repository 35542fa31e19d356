#include "app/book/beliefs.h"

#include "core/decimal.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace mellowbin::app {
namespace {

/// Batches that may still be spoken of: a result comes minutes after its batch. Older ones are settled.
constexpr std::size_t open_batches = 24;

double dry_weight(const Book& book, const BatchFlour& part) {
    const Lot* lot = book.lot(part.lot);
    const auto moisture = lot ? lot->certificate.moisture() : std::nullopt;
    return to_kilograms(part.mass).value() * from_14_percent(moisture.value_or(Moisture{14}));
}

std::vector<dough::LotShare> shares_of(const Book& book, const Batch& batch) {
    std::vector<dough::LotShare> shares;
    double all = 0;
    for (const auto& part : batch.flour)
        all += dry_weight(book, part);
    for (const auto& part : batch.flour)
        shares.push_back({part.lot, dry_weight(book, part) / all});
    return shares;
}

/// The batch as the mixer's heat balance sees it; nothing where a temperature is missing.
std::optional<dough::MixedDough> mixed_dough(const Batch& batch, const Product& product, const Line& line) {
    if (!batch.result.dough_temperature || !batch.water_temperature || !batch.flour_temperature ||
        !batch.room_temperature)
        return {};
    Kilograms flour;
    for (const auto& part : batch.flour)
        flour += to_kilograms(part.mass);
    dough::MixedDough mixed;
    mixed.heat.dough = *batch.result.dough_temperature;
    mixed.heat.water = batch.water + batch.ice + Kilograms{batch.poured_ml / 1000};
    mixed.heat.parts = {dough::flour_part(flour, *batch.flour_temperature)};
    for (const auto& ingredient : product.ingredients)
        mixed.heat.parts.push_back(
            dough::flour_part(flour * (ingredient.percent_of_flour / 100), *batch.room_temperature));
    mixed.water_temperature = *batch.water_temperature;
    mixed.ice = batch.ice;
    mixed.ice_temperature = line.ice_temperature;
    if (mixed.heat.water.value() <= 0)
        return {};
    return mixed;
}

} // namespace

void Doughs::start(const Book& book) {
    products_ = book.products;
    seen_.clear();
    settled_count_ = 0;
    settled_ = Beliefs();
    for (const auto& product : book.products)
        settled_.water.expect(product.id, product.water_offset, product.is_offset_assumed);
    now_ = settled_;
}

void Doughs::observe(const Book& book, const Batch& batch, Beliefs& beliefs) const {
    if (batch.is_countered)
        return;
    const Run* run = book.run(batch.run);
    const Product* product = run ? book.product(run->product) : nullptr;
    const Line* line = run ? book.line(run->line) : nullptr;
    if (!product || !line)
        return;
    if (batch.farinograph && batch.absorption && !batch.flour.empty())
        beliefs.water.observe({product->id, line->id, run->day, shares_of(book, batch), *batch.farinograph,
                               *batch.absorption, batch.result.feel});
    if (const auto mixed = mixed_dough(batch, *product, *line))
        beliefs.mixing.observe(line->id, product->id, mixed->heat.mass(), dough::mixing_heat_of(*mixed));
}

void Doughs::follow(const Book& book) {
    follow_bakes(book);
    const auto seen_of = [](const Batch& batch) { return Seen{batch.id, batch.result, batch.is_countered}; };
    std::size_t same = 0;
    while (same < seen_.size() && same < book.batches.size() && seen_[same] == seen_of(book.batches[same]))
        ++same;
    if (products_ != book.products || same < settled_count_) {
        start(book);
        same = 0;
    } else if (same < seen_.size()) {
        now_ = settled_;
        same = settled_count_;
        seen_.resize(same);
    }
    for (std::size_t i = same; i < book.batches.size(); ++i) {
        observe(book, book.batches[i], now_);
        seen_.push_back(seen_of(book.batches[i]));
    }
    // Far behind the newest nothing is said any more; not after every batch, since it costs.
    if (seen_.size() < settled_count_ + 2 * open_batches)
        return;
    for (; settled_count_ + open_batches < seen_.size(); ++settled_count_)
        observe(book, book.batches[settled_count_], settled_);
}

void Doughs::follow_bakes(const Book& book) {
    if (bakes_ == book.bakes)
        return;
    bakes_ = book.bakes;
    std::map<std::pair<Substance, LoafMeasure>, std::map<LotId, dough::Ladder>> ladders;
    for (const auto& bake : bakes_) {
        if (bake.is_withdrawn)
            continue;
        auto& ladder = ladders[{bake.substance, bake.measure}][bake.lot];
        ladder.lot = bake.lot;
        ladder.loaves.push_back({bake.dose, bake.size});
    }
    responses_.clear();
    for (const auto& [kind, by_lot] : ladders) {
        std::vector<dough::Ladder> all;
        for (const auto& [lot, ladder] : by_lot)
            all.push_back(ladder);
        responses_.emplace(kind, dough::DoseResponse(all));
    }
}

const dough::DoseResponse* Doughs::response(Substance substance, LoafMeasure measure) const {
    const auto at = responses_.find({substance, measure});
    return at == responses_.end() ? nullptr : &at->second;
}

std::optional<dough::BestDose> Doughs::best_dose(LotId lot, Substance substance, OxidantPpm permitted) const {
    for (const LoafMeasure measure : {LoafMeasure::volume, LoafMeasure::height}) {
        const bool has_own = std::any_of(bakes_.begin(), bakes_.end(), [&](const Bake& bake) {
            return !bake.is_withdrawn && bake.lot == lot && bake.substance == substance &&
                   bake.measure == measure;
        });
        if (has_own)
            return responses_.at({substance, measure}).best_dose(lot, permitted);
    }
    return {};
}

std::optional<Day> Doughs::baked_on(LotId lot, Substance substance) const {
    std::optional<Day> newest;
    for (const auto& bake : bakes_)
        if (!bake.is_withdrawn && bake.lot == lot && bake.substance == substance)
            newest = newest ? std::max(*newest, bake.baked_on) : bake.baked_on;
    return newest;
}

} // namespace mellowbin::app
