#include "app/book/beliefs.h"

#include "core/decimal.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace mellowbin::app {
namespace {

/// Batches that may still be spoken of: a result comes minutes after its batch. Older ones are settled, so
/// many at a time.
constexpr std::size_t open_batches = 24;
/// A lot in stock that was in no dough for so long is a rest that nobody wrote off: not carried along for
/// ever.
constexpr Days left_lying{180};

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

Doughs::Seen Doughs::seen_of(const Batch& batch) {
    return {batch.id, batch.result.feel, batch.result.dough_temperature, batch.is_countered};
}

void Doughs::start(const Book& book) {
    products_ = book.products;
    seen_.clear();
    last_batch_.clear();
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
    if (batch.farinograph && batch.absorption && !batch.flour.empty()) {
        beliefs.water.observe({product->id, line->id, run->day, shares_of(book, batch), *batch.farinograph,
                               *batch.absorption, batch.result.feel});
        auto& newest = beliefs.newest[product->id];
        newest.clear();
        for (const auto& part : batch.flour)
            newest.push_back(part.lot);
    }
    if (const auto mixed = mixed_dough(batch, *product, *line))
        beliefs.mixing.observe(line->id, product->id, mixed->heat.mass(), dough::mixing_heat_of(*mixed));
}

void Doughs::follow(const Book& book) {
    follow_bakes(book);
    std::size_t same = 0;
    while (same < seen_.size() && same < book.batches.size() && seen_[same] == seen_of(book.batches[same]))
        ++same;
    if (products_ != book.products || same < settled_count_ || comes_back(book, same)) {
        start(book);
        same = 0;
    } else if (same < seen_.size()) {
        now_ = settled_;
        same = settled_count_;
    }
    for (std::size_t i = same; i < book.batches.size(); ++i)
        for (const auto& part : book.batches[i].flour)
            last_batch_[part.lot] = i;
    if (book.batches.size() >= settled_count_ + 2 * open_batches) {
        settle(book);
        now_ = settled_;
        same = settled_count_;
    }
    seen_.resize(std::min(seen_.size(), same));
    for (std::size_t i = seen_.size(); i < book.batches.size(); ++i) {
        if (i >= same)
            observe(book, book.batches[i], now_);
        seen_.push_back(seen_of(book.batches[i]));
    }
}

/// Far behind the newest nothing is said any more. A span of batches at a time, also where a whole book is
/// taken in: so nothing grows meanwhile, and looking for lots to let go costs little beside.
void Doughs::settle(const Book& book) {
    while (settled_count_ + 2 * open_batches <= book.batches.size()) {
        for (const auto end = settled_count_ + open_batches; settled_count_ < end; ++settled_count_)
            observe(book, book.batches[settled_count_], settled_);
        let_go(book);
    }
}

/// Of lots that no later batch is made from, nor any to come. Those of a product's newest dough stay: the
/// levers ask how far it lay from its optimum.
void Doughs::let_go(const Book& book) {
    std::set<LotId> asked_for;
    for (const auto& [product, lots] : settled_.newest)
        asked_for.insert(lots.begin(), lots.end());
    for (const auto lot : settled_.water.lots())
        if (last_batch_.at(lot) < settled_count_ && !asked_for.contains(lot) && !is_live(book, lot))
            settled_.water.let_go(lot);
}

/// Of a lot that was in a batch: whether a batch to come may be made from it.
bool Doughs::is_live(const Book& book, LotId id) const {
    const Lot* lot = book.lot(id);
    return lot && lot->state != LotState::used_up && lot->state != LotState::rejected &&
           book.batches.back().at - book.batches[last_batch_.at(id)].at < left_lying;
}

/// A lot that was let go is in one of the batches from there on, or may come to be: a count found more of it,
/// a batch of it was taken back, it is no longer rejected.
bool Doughs::comes_back(const Book& book, std::size_t from) const {
    const auto was_let_go = [&](LotId lot) { return settled_.water.was_let_go(lot); };
    for (; from < book.batches.size(); ++from)
        for (const auto& part : book.batches[from].flour)
            if (was_let_go(part.lot))
                return true;
    return std::any_of(book.lots.begin(), book.lots.end(),
                       [&](const Lot& lot) { return was_let_go(lot.id) && is_live(book, lot.id); });
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
