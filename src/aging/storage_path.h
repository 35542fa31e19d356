#pragma once

#include "aging/climate_course.h"
#include "core/stock.h"

#include <functional>
#include <optional>
#include <span>
#include <vector>

namespace mellowbin::aging {

/// So much of a lot's flour in one place for some time.
struct Stay {
    ClimatePtr climate;
    double from;             ///< days
    double until = for_ever; ///< days
    double share = 1;        ///< of the flour that the path is about
};
/// Where flour lay, from its delivery on. At every moment the shares add up to 1; a lot that was never split
/// has one stay at a time. The last stays go on for ever.
using StoragePath = std::vector<Stay>;

/// What was sampled, as far as it is known.
struct SampleWish {
    double at;                    ///< days
    std::optional<PlaceId> place; ///< none: the lot as a whole
};

/// The way of one lot through places, by its movements.
struct LotPaths {
    StoragePath
        whole; ///< of the flour still in stock, weighed by mass; of all that was received when none is
    std::vector<std::pair<PlaceId, StoragePath>> by_place; ///< of what lies in each place now
    std::vector<std::optional<StoragePath>>
        samples; ///< by wish; nothing where the lot did not lie in that place then
};

using ClimateOf = std::function<ClimatePtr(PlaceId)>;

/// Follows a lot through its movements, in the order in which they were made. A movement that was taken back,
/// and the one that takes it back, never happened. When flour of different pasts lies in one place, what
/// leaves it is taken evenly from all of them. Movements earlier than the delivery count as made on the
/// delivery.
LotPaths follow_lot(Day delivered_on, PlaceId received_into, std::span<const Movement* const> movements,
                    const ClimateOf& climate_of, std::span<const SampleWish> wishes = {});

} // namespace mellowbin::aging
