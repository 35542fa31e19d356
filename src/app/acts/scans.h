#pragma once

#include "app/acts/act.h"
#include "core/id.h"

#include <string>

/// Bags held against a card.
namespace mellowbin::app {

/// A bag's lot held against the card of a run's next batch. A wrong one is refused, and written down all the
/// same: it stands against the batch. The name of a place says where the batch's flour is drawn from.
struct ScanBag {
    RunId run;
    std::string scan; ///< a lot number, a GS1 element string with one, or a place
};
/// Quality lets wrong bags of a run's next batch be: they were put back, and nothing of them went in.
struct ClearBags {
    RunId run;
    std::string by; ///< who of quality
    std::string reason;
};

Result<Told> carry_out(State& state, const ScanBag& act);
Result<Told> carry_out(State& state, const ClearBags& act);

} // namespace mellowbin::app
