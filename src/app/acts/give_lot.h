#pragma once

#include "app/acts/act.h"
#include "core/plant.h"
#include "core/quantity.h"

#include <optional>
#include <string>

/// A lot handed from run to run.
namespace mellowbin::app {

/// A lot of one run is wanted in another: as much as the other needs, or as is said, is locked to it there
/// and taken from where it stood; without `from` it comes from what no run has.
struct GiveLot {
    LotId lot;
    std::optional<RunId> from;
    RunId to;
    std::optional<Grams> most = {};  ///< no more than that; none: as much as it needs
    std::string longer_minutes = {}; ///< the other ferments so much beyond its product; empty: as before
};

Result<Told> carry_out(State& state, const GiveLot& act);

} // namespace mellowbin::app
