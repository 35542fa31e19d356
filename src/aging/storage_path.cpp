#include "aging/storage_path.h"

#include <algorithm>
#include <map>
#include <set>

namespace mellowbin::aging {
namespace {

/// What lies in one place: its mass, and the closed stays of its past; it has been here since its last
/// arrival of each share, written as open stays.
struct Heap {
    double mass = 0;
    StoragePath past;
};

bool is_same_stay(const Stay& a, const Stay& b) {
    return a.climate == b.climate && a.from == b.from && a.until == b.until;
}

/// Pasts of two heaps poured together.
StoragePath mixed(const StoragePath& a, double share_of_a, const StoragePath& b) {
    StoragePath sum;
    const auto add = [&](const Stay& stay, double share) {
        const auto same =
            std::find_if(sum.begin(), sum.end(), [&](const Stay& s) { return is_same_stay(s, stay); });
        if (same != sum.end())
            same->share += stay.share * share;
        else if (stay.share * share > 0) {
            sum.push_back(stay);
            sum.back().share = stay.share * share;
        }
    };
    for (const auto& stay : a)
        add(stay, share_of_a);
    for (const auto& stay : b)
        add(stay, 1 - share_of_a);
    return sum;
}

/// The past as it stands when the flour leaves: open stays end.
StoragePath closed_at(StoragePath past, double days) {
    for (auto& stay : past)
        stay.until = std::min(stay.until, days);
    std::erase_if(past, [](const Stay& stay) { return stay.until <= stay.from; });
    return past;
}

using Heaps = std::map<PlaceId, Heap>;

void pour(Heaps& heaps, PlaceId place, double mass, StoragePath past, double at, const ClimatePtr& climate) {
    past.push_back({climate, at, for_ever, 1});
    auto& heap = heaps[place];
    const double total = heap.mass + mass;
    heap.past = heap.mass > 0 ? mixed(heap.past, heap.mass / total, past) : std::move(past);
    heap.mass = total;
}

void take(Heaps& heaps, PlaceId place, double mass) {
    const auto at = heaps.find(place);
    if (at == heaps.end())
        return;
    at->second.mass -= mass;
    if (at->second.mass <= 0)
        heaps.erase(at);
}

StoragePath whole_of(const Heaps& heaps) {
    StoragePath path;
    double mass = 0;
    for (const auto& [place, heap] : heaps) {
        mass += heap.mass;
        path = path.empty() ? heap.past : mixed(heap.past, heap.mass / mass, path);
    }
    return path;
}

std::optional<StoragePath> sample_of(const Heaps& heaps, const SampleWish& wish, const StoragePath& last) {
    if (!wish.place)
        return heaps.empty() ? last : whole_of(heaps);
    const auto at = heaps.find(*wish.place);
    if (at == heaps.end())
        return {};
    return at->second.past;
}

/// The heaps as time goes on.
class Walk {
public:
    Walk(double delivered, PlaceId into, const ClimateOf& climate_of)
        : delivered_(delivered), received_into_(into), climate_of_(climate_of) {}

    void make(const Movement& movement) {
        const double at = std::max(days_of(movement.at), delivered_);
        const auto mass = static_cast<double>(movement.mass.count());
        StoragePath past;
        if (movement.from) {
            if (const auto heap = heaps_.find(*movement.from); heap != heaps_.end())
                past = closed_at(heap->second.past, at);
            take(heaps_, *movement.from, mass);
        } else if (!last_.empty()) {
            past = closed_at(last_, at); // comes back: as the rest of the lot
        }
        if (movement.to) {
            // The receipt is written when the lot is logged, which may be days after the delivery.
            const bool is_receipt = movement.kind == MovementKind::receipt && last_.empty();
            pour(heaps_, *movement.to, mass, std::move(past), is_receipt ? delivered_ : at,
                 climate_of_(*movement.to));
        }
        if (!heaps_.empty())
            last_ = whole_of(heaps_);
    }

    /// With nothing written yet, the lot lies where it was received.
    const StoragePath& last() {
        if (last_.empty())
            last_.push_back({climate_of_(received_into_), delivered_, for_ever, 1});
        return last_;
    }
    [[nodiscard]] const Heaps& heaps() const { return heaps_; }

private:
    double delivered_;
    PlaceId received_into_;
    const ClimateOf& climate_of_;
    Heaps heaps_;
    StoragePath last_;
};

} // namespace

LotPaths follow_lot(Day delivered_on, PlaceId received_into, std::span<const Movement* const> movements,
                    const ClimateOf& climate_of, std::span<const SampleWish> wishes) {
    Walk walk(days_of(delivered_on), received_into, climate_of);
    std::vector<std::size_t> order(wishes.size());
    for (std::size_t i = 0; i < order.size(); ++i)
        order[i] = i;
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return wishes[a].at < wishes[b].at; });
    LotPaths paths;
    paths.samples.resize(wishes.size());
    auto wish = order.begin();
    const auto sample_until = [&](double days) {
        for (; wish != order.end() && wishes[*wish].at < days; ++wish)
            paths.samples[*wish] = sample_of(walk.heaps(), wishes[*wish], walk.last());
    };
    std::set<MovementId> void_ones; // mistakes and what takes them back: the flour never went there
    for (const Movement* movement : movements)
        if (movement->counters)
            void_ones.insert({movement->id, *movement->counters});
    for (const Movement* movement : movements) {
        if (void_ones.contains(movement->id))
            continue;
        if (movement->kind != MovementKind::receipt)
            sample_until(days_of(movement->at));
        walk.make(*movement);
    }
    sample_until(for_ever);
    paths.whole = walk.last();
    for (const auto& [place, heap] : walk.heaps())
        paths.by_place.emplace_back(place, heap.past);
    return paths;
}

} // namespace mellowbin::aging
