#pragma once

#include "app/acts/act.h"
#include "core/lot.h"

#include <optional>
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

/// The lot may be used beyond the day its supplier printed.
struct ExtendBestBefore {
    LotId lot;
    std::string until; ///< the last day, as typed
    std::string reason;
};
/// The counter-entry of ExtendBestBefore: what held before holds again.
struct TakeBackExtension {
    LotId lot;
    std::optional<BestBeforeExtension> before;
};

Result<Told> carry_out(State& state, const ReleaseLot& act);
Result<Told> carry_out(State& state, const HoldLot& act);
Result<Told> carry_out(State& state, const RejectLot& act);
Result<Told> carry_out(State& state, const ExtendBestBefore& act);
Result<Told> carry_out(State& state, const TakeBackExtension& act);

} // namespace mellowbin::app
