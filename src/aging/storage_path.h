#pragma once

#include "core/plant.h"

#include <optional>
#include <span>
#include <vector>

namespace mellowbin::aging {

/// One temperature and one kind of air, from a day on until the next piece; the last one has no end.
struct StoragePiece {
    Day from;
    Celsius temperature{20};
    Air air{};
    friend bool operator==(const StoragePiece&, const StoragePiece&) = default;
};

/// Where a lot lay and will lie, in order of days.
using StoragePath = std::vector<StoragePiece>;

/// The lot came to this place on this day.
struct MoveTo {
    Day day;
    PlaceId place;
};

/// The path of a lot from its delivery on: the place it was received into, its moves (in order of days; the
/// last of a day counts; one before the delivery moves where it was received), and what the places' climates
/// say, the future included. Every place must be among `places`.
StoragePath storage_path(Day delivered_on, PlaceId received_into, std::span<const MoveTo> moves,
                         std::span<const Place> places);

} // namespace mellowbin::aging
