#pragma once

#include "app/acts/act.h"
#include "core/stock.h"

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
};
struct WasteLot {
    LotId lot;
    PlaceId place;
    std::string kg;
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
Result<Told> carry_out(State& state, const CounterMovement& act);

} // namespace mellowbin::app
