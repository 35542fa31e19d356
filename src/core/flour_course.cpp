#include "core/flour_course.h"

#include "core/promised.h"

#include <algorithm>

namespace mellowbin {
namespace {

Grams total_of(std::span<const Layer> layers) {
    Grams total;
    for (const auto& layer : layers)
        total += layer.mass;
    return total;
}

Grams total_of(std::span<const DrawnPart> parts) {
    Grams total;
    for (const auto& part : parts)
        total += part.mass;
    return total;
}

std::vector<DrawnPart> own(const Movement& movement, Grams mass) {
    if (mass <= Grams{0})
        return {};
    return {{movement.lot, mass, Certainty::contains}};
}

/// Takes grams of a lot, the topmost of it first; how many there were.
Grams take_of(std::vector<Layer>& layers, LotId lot, Grams mass) {
    Grams taken;
    for (auto layer = layers.rbegin(); layer != layers.rend(); ++layer) {
        if (layer->lot != lot)
            continue;
        const Grams now = std::min(mass - taken, layer->mass);
        layer->mass = layer->mass - now;
        taken += now;
    }
    std::erase_if(layers, [](const Layer& layer) { return layer.mass <= Grams{0}; });
    return taken;
}

void add(std::vector<DrawnPart>& parts, std::span<const DrawnPart> more) {
    for (const auto& part : more) {
        const auto known = std::ranges::find(parts, part.lot, &DrawnPart::lot);
        if (known == parts.end()) {
            parts.push_back(part);
            continue;
        }
        known->mass += part.mass;
        known->certainty = std::min(known->certainty, part.certainty); // contains is the surer one
    }
}

} // namespace

FlourCourse::Where FlourCourse::where(PlaceId place, LotId named) const {
    return silos_.contains(place) ? Where{place, LotId{}} : Where{place, named};
}

FlourCourse::Heap& FlourCourse::heap(PlaceId place, LotId named) {
    auto& heap = heaps_[where(place, named)];
    const auto silo = silos_.find(place);
    heap.zone = silo == silos_.end() ? MixingZone{} : silo->second;
    return heap;
}

void FlourCourse::put(Heap& heap, std::span<const DrawnPart> parts, bool below) {
    auto at = below ? heap.layers.begin() : heap.layers.end();
    for (const auto& part : parts) {
        const bool lies_there =
            std::ranges::any_of(heap.layers, [&](const Layer& layer) { return layer.lot == part.lot; });
        if (part.certainty == Certainty::may_contain && !lies_there)
            heap.doubtful.insert(part.lot);
        at = heap.layers.insert(at, {part.lot, part.mass}) + 1;
    }
}

namespace {

/// Draws from a heap as far as it reaches; what the book draws more than lies there is the named lot's own.
template <class Heap> std::vector<DrawnPart> draw(Heap& heap, const Movement& movement) {
    const Grams there = std::min(movement.mass, total_of(heap.layers));
    auto parts = *drawn(heap.layers, heap.zone, there);
    take_out(heap.layers, parts);
    for (auto& part : parts)
        if (heap.doubtful.contains(part.lot))
            part.certainty = Certainty::may_contain;
    std::erase_if(heap.doubtful, [&](LotId lot) {
        return std::ranges::none_of(heap.layers, [&](const Layer& layer) { return layer.lot == lot; });
    });
    add(parts, own(movement, movement.mass - there));
    return parts;
}

} // namespace

/// The same grams of the same lots as came, as far as they lie there still: the topmost of them first.
std::vector<DrawnPart> FlourCourse::take_back(Heap& heap, const Movement& movement) {
    const auto came = movement.counters ? moved_by(*movement.counters) : own(movement, movement.mass);
    std::vector<DrawnPart> parts;
    Grams rest = movement.mass;
    for (const auto& part : came) {
        const Grams taken = take_of(heap.layers, part.lot, part.mass);
        if (taken > Grams{0})
            parts.push_back({part.lot, taken, part.certainty});
        rest = rest - taken;
    }
    if (rest > Grams{0}) {
        Movement more = movement;
        more.mass = rest;
        add(parts, draw(heap, more));
    }
    return parts;
}

std::vector<DrawnPart> FlourCourse::take(const Movement& movement) {
    auto& from = heap(*movement.from, movement.lot);
    if (movement.counters || movement.kind == MovementKind::count)
        return take_back(from, movement);
    return draw(from, movement);
}

/// What comes from nowhere that the course knows: from a mill, a run, a count, or by a counter-entry.
std::vector<DrawnPart> FlourCourse::brought(const Movement& movement) {
    if (movement.counters) {
        const auto& before = moved_by(*movement.counters);
        return total_of(before) == movement.mass ? before : own(movement, movement.mass);
    }
    if (movement.kind == MovementKind::give_back && movement.run)
        return draw(out_[{movement.run->number(), movement.lot}], movement);
    return own(movement, movement.mass);
}

/// What is out for a run grows by what went to it, and by a return that is taken back; a use that is taken
/// back was never out. (What a return brings was drawn from it.)
void FlourCourse::note_out(const Movement& movement, std::span<const DrawnPart> parts) {
    if (!movement.run || (movement.kind != MovementKind::use && movement.kind != MovementKind::give_back))
        return;
    auto& out = out_[{movement.run->number(), movement.lot}];
    if (movement.from) {
        put(out, parts, false);
    } else if (movement.kind == MovementKind::use) {
        for (const auto& part : parts)
            take_of(out.layers, part.lot, part.mass);
    }
}

const std::vector<DrawnPart>& FlourCourse::enter(const Movement& movement) {
    auto parts = movement.from ? take(movement) : brought(movement);
    promised(total_of(parts) == movement.mass);
    if (movement.to)
        put(heap(*movement.to, movement.lot), parts, movement.counters.has_value());
    note_out(movement, parts);
    return moved_[movement.id] = std::move(parts);
}

const std::vector<DrawnPart>& FlourCourse::moved_by(MovementId movement) const {
    static const std::vector<DrawnPart> nothing;
    const auto found = moved_.find(movement);
    return found == moved_.end() ? nothing : found->second;
}

std::vector<DrawnPart> FlourCourse::lying(LotId named, PlaceId place) const {
    const auto found = heaps_.find(where(place, named));
    if (found == heaps_.end())
        return {};
    Heap all = found->second;
    Movement every;
    every.lot = named;
    every.mass = total_of(all.layers);
    if (every.mass == Grams{0})
        return {};
    all.zone = MixingZone{};
    return draw(all, every);
}

std::vector<Layer> FlourCourse::layers(PlaceId silo) const {
    const auto found = heaps_.find(where(silo, LotId{}));
    return found == heaps_.end() ? std::vector<Layer>{} : found->second.layers;
}

} // namespace mellowbin
