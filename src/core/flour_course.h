#pragma once

#include "core/silo.h"
#include "core/stock.h"

#include <map>
#include <set>
#include <span>
#include <utility>
#include <vector>

namespace mellowbin {

/// What really lies in places and left them, where the book can only say under which lot it was drawn. Silos
/// give what their mixing zone gives, whatever lot was named; in every other place flour lies apart by the
/// lot it is named by, and what came there out of a silo is one mixture. Movements are entered in the order
/// of the book, from an instant on when all its silos were empty; so the grams in a place are always the
/// book's. A counter-entry puts back what the movement it names took, and takes away what that one brought;
/// flour that comes back from a run is a mixture of what went to it. What a count found less is taken of the
/// lot itself before others, what it found more is the lot's own.
class FlourCourse {
public:
    /// The silos among the places, with their zones.
    explicit FlourCourse(std::map<PlaceId, MixingZone> silos) : silos_(std::move(silos)) {}

    /// What really moved by it, lot by lot; the grams add up to the movement's.
    const std::vector<DrawnPart>& enter(const Movement& movement);
    /// What moved by a movement that was entered; nothing for another.
    [[nodiscard]] const std::vector<DrawnPart>& moved_by(MovementId movement) const;
    /// What lies in a place under the name of a lot now; in a silo all that lies there, whatever the name.
    [[nodiscard]] std::vector<DrawnPart> lying(LotId named, PlaceId place) const;
    /// What lies in a silo now, the lowest first.
    [[nodiscard]] std::vector<Layer> layers(PlaceId silo) const;

private:
    /// Flour in one heap: a silo, or what lies elsewhere under the name of one lot.
    struct Heap {
        std::vector<Layer> layers; ///< bottom first
        MixingZone zone;           ///< elsewhere than in a silo: all
        std::set<LotId> doubtful;  ///< came as flour that may contain the lot
    };
    using Where = std::pair<PlaceId, LotId>; ///< of a silo without a lot

    [[nodiscard]] Where where(PlaceId place, LotId named) const;
    Heap& heap(PlaceId place, LotId named);
    std::vector<DrawnPart> take(const Movement& movement);
    std::vector<DrawnPart> take_back(Heap& heap, const Movement& movement);
    void note_out(const Movement& movement, std::span<const DrawnPart> parts);
    static void put(Heap& heap, std::span<const DrawnPart> parts, bool below);
    std::vector<DrawnPart> brought(const Movement& movement);

    std::map<PlaceId, MixingZone> silos_;
    std::map<Where, Heap> heaps_;
    std::map<MovementId, std::vector<DrawnPart>> moved_;
    /// What is out for a run under the name of a lot.
    std::map<std::pair<std::int64_t, LotId>, Heap> out_;
};

} // namespace mellowbin
