#pragma once

#include "app/acts/act.h"
#include "core/stock.h"

#include <optional>
#include <string>

/// What lies where.
namespace mellowbin::app {

struct MoveLot {
    LotId lot;
    PlaceId from;
    PlaceId to;
    std::string kg;
};
struct CountLot {
    LotId lot;
    PlaceId place;
    std::string kg;
    std::string reason = {}; ///< needed where it is not what the book says
};
struct WasteLot {
    LotId lot;
    PlaceId place;
    std::string kg;
    std::string reason;
};
/// Flour that was taken out for a run and not mixed comes back to a place.
struct GiveBack {
    LotId lot;
    PlaceId to;
    std::string kg;
    std::optional<RunId> run; ///< nothing: the only one that the lot is out for
    std::string reason;
};
/// Takes a movement back by a second line.
struct CounterMovement {
    MovementId movement;
    std::string reason;
};

Result<Told> carry_out(State& state, const MoveLot& act);
Result<Told> carry_out(State& state, const CountLot& act);
Result<Told> carry_out(State& state, const WasteLot& act);
Result<Told> carry_out(State& state, const GiveBack& act);
Result<Told> carry_out(State& state, const CounterMovement& act);

} // namespace mellowbin::app
