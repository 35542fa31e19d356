#pragma once

#include "app/acts/act.h"
#include "core/lot.h"

#include <optional>
#include <string>

/// Quality's word on a lot.
namespace mellowbin::app {

/// One that fails its specification takes a reason or a concession, as one that was held does.
struct ReleaseLot {
    LotId lot;
    std::string reason;
    std::optional<ConcessionDraft> concession = {}; ///< nothing: for all dough
};
struct HoldLot {
    LotId lot;
    std::string reason;
};
struct RejectLot {
    LotId lot;
    std::string reason;
};
/// The counter-entry of a hold that ended a concession: released again, and it holds again.
struct TakeBackHold {
    LotId lot;
    Concession before;
};

/// A released lot is judged anew: from now on it goes into dough under this concession alone, wider or
/// narrower than before.
struct ConcedeLot {
    LotId lot;
    ConcessionDraft concession;
};
/// The same without any: it goes into all dough.
struct EndConcession {
    LotId lot;
    std::string reason;
};
/// The counter-entry of these two: what held before holds again.
struct RestoreConcession {
    LotId lot;
    std::optional<Concession> before;
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
Result<Told> carry_out(State& state, const TakeBackHold& act);
Result<Told> carry_out(State& state, const ConcedeLot& act);
Result<Told> carry_out(State& state, const EndConcession& act);
Result<Told> carry_out(State& state, const RestoreConcession& act);
Result<Told> carry_out(State& state, const ExtendBestBefore& act);
Result<Told> carry_out(State& state, const TakeBackExtension& act);

} // namespace mellowbin::app
