#pragma once

#include "app/acts/intent.h"
#include "app/book/book.h"
#include "app/plan/held_flour.h"
#include "core/plant.h"

#include <vector>

/// Which lots a run has.
namespace mellowbin::app {

/// Puts assignments in place of the open ones of these runs, and promises in the place of all of theirs:
/// takes an adopted plan back.
struct RestoreAssignments : RunFlour {};
struct LockAssignment {
    RunId run;
    LotId lot;
};
struct UnlockAssignment {
    RunId run;
    LotId lot;
};

Result<Told> carry_out(State& state, const RestoreAssignments& act);
Result<Told> carry_out(State& state, const LockAssignment& act);
Result<Told> carry_out(State& state, const UnlockAssignment& act);

/// All that these runs have, as RestoreAssignments puts it back.
RestoreAssignments as_they_stand(const Book& book, std::vector<RunId> runs);
/// The acts that put back what stood before. Locked assignments stand against being put back, so those of
/// the lot that the change was about are unlocked first, and locked again where they were.
Intents putting_back(RestoreAssignments before, const std::vector<Assignment>& after, LotId lot);

} // namespace mellowbin::app
