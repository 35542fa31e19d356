#pragma once

#include "app/acts/act.h"
#include "core/lot.h"

#include <optional>
#include <string>
#include <vector>

/// Flour that goes back to the mill.
namespace mellowbin::app {

/// Of a lot in quarantine, on hold or rejected. What is left of it in nothing is rejected with it.
struct ReturnToMill {
    LotId lot;
    std::optional<PlaceId> place; ///< that it leaves; nothing: every place it lies in
    std::string kg;               ///< empty: all that lies there
    std::string reason;
    std::string document = {}; ///< the paper it goes with; may be empty
};
/// The counter-entry: the flour lies where it lay. A lot that was rejected by it is on hold then.
struct TakeBackReturn {
    LotId lot;
    std::vector<MovementId> movements;
    bool was_rejected_by_it = false;
};

Result<Told> carry_out(State& state, const ReturnToMill& act);
Result<Told> carry_out(State& state, const TakeBackReturn& act);

} // namespace mellowbin::app
