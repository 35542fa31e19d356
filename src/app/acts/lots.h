#pragma once

#include "app/acts/act.h"
#include "core/lot.h"

#include <string>

/// Quality's word on a lot.
namespace mellowbin::app {

struct ReleaseLot {
    LotId lot;
    std::string reason; ///< needed for a lot that was held
};
struct HoldLot {
    LotId lot;
    std::string reason;
};
struct RejectLot {
    LotId lot;
    std::string reason;
};

Result<Told> carry_out(State& state, const ReleaseLot& act);
Result<Told> carry_out(State& state, const HoldLot& act);
Result<Told> carry_out(State& state, const RejectLot& act);

} // namespace mellowbin::app
