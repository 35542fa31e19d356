#include "aging/storage_path.h"

#include <algorithm>
#include <cassert>

namespace mellowbin::aging {
namespace {

const Place& place_of(PlaceId id, std::span<const Place> places) {
    const auto found = std::find_if(places.begin(), places.end(), [&](const Place& p) { return p.id == id; });
    assert(found != places.end());
    return *found;
}

void add_piece(StoragePath& path, StoragePiece piece) {
    if (!path.empty() && path.back().from == piece.from)
        path.pop_back();
    if (path.empty() || path.back().temperature != piece.temperature || path.back().air != piece.air)
        path.push_back(piece);
}

void add_stay(StoragePath& path, const Place& place, Day from, std::optional<Day> until) {
    add_piece(path, {from, place.temperature_on(from), place.air});
    for (const auto& step : place.climate)
        if (step.from > from && (!until || step.from < *until))
            add_piece(path, {step.from, step.temperature, place.air});
}

} // namespace

StoragePath storage_path(Day delivered_on, PlaceId received_into, std::span<const MoveTo> moves,
                         std::span<const Place> places) {
    StoragePath path;
    Day from = delivered_on;
    PlaceId at = received_into;
    for (const auto& move : moves) {
        const Day day = std::max(move.day, delivered_on);
        assert(day >= from);
        if (day > from)
            add_stay(path, place_of(at, places), from, day);
        from = day;
        at = move.place;
    }
    add_stay(path, place_of(at, places), from, {});
    return path;
}

} // namespace mellowbin::aging
