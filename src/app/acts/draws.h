#pragma once

#include "app/acts/act.h"
#include "core/id.h"

#include <string>

/// From where flour is drawn at the bowl.
namespace mellowbin::app {

/// From now on the run draws the lot from this place, as long as some of it lies there.
struct DrawFrom {
    RunId run;
    LotId lot; ///< not known: every lot of the card that lies there
    std::string place;
};

Result<Told> carry_out(State& state, const DrawFrom& act);

} // namespace mellowbin::app
