#include "app/acts/follow_stock.h"

#include "app/acts/state.h"
#include "db/lot_store.h"

namespace mellowbin::app {

Refusals follow_the_stock(const State& state, Change& change, const Lot& lot, Grams left) {
    std::optional<LotState> next;
    if (left == Grams{0} && lot.state == LotState::released)
        next = LotState::used_up;
    else if (left > Grams{0} && lot.state == LotState::used_up)
        next = LotState::released;
    if (!next)
        return {};
    const auto done = LotStore(*state.connection).set_state(change, lot.id, *next, "");
    return done ? Refusals{} : done.refusals();
}

} // namespace mellowbin::app
