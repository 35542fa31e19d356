#pragma once

#include "app/plan/held_flour.h"
#include "core/result.h"

#include <optional>

/// A lot given to a run by hand.
namespace mellowbin::app {

/// Where a lot goes from and to, and how much of it.
struct Gift {
    const Lot* lot = nullptr;
    const Run* to = nullptr;
    const Run* from = nullptr; ///< null: from what no run has
    FlourPart part{};
    std::optional<Grams> most = {}; ///< none: as much as the run needs
    Grams mass;                     ///< what it comes to
};

/// Null where the run has nothing of the lot.
const Assignment* assignment_of(const Book& book, RunId run, LotId lot);

/// What both runs have after the gift; the lot's part is locked. What is open of the run's other lots is cut
/// in proportion. `offer` is what the other run or the store can give. Refused where the run needs none of
/// it, or would have more locked lots than its product takes.
Result<RunFlour> flour_after(const Book& book, Gift& gift, Grams offer);

} // namespace mellowbin::app
