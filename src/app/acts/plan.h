#pragma once

#include "app/acts/act.h"
#include "core/day.h"

#include <cstdint>

/// Plans made, adopted, discarded.
namespace mellowbin::app {

struct PlanRuns {
    Day from;
    int days = 7;
    double seconds = 0; ///< to search for; 0: as Settings say
    /// To search, whatever the clock says: the same book then gets the same plan on any machine; 0: by
    /// seconds.
    std::int64_t steps = 0;
};
/// A plan close to the one in the book: what no longer holds is mended first, then what lies near it.
struct Replan {
    Day from;
    int days = 7;
};
struct StopPlanning {}; ///< and keep the best plan found
struct AdoptPlan {};
struct DiscardPlan {};

Result<Told> carry_out(State& state, const PlanRuns& act);
Result<Told> carry_out(State& state, const Replan& act);
Result<Told> carry_out(State& state, const StopPlanning& act);
Result<Told> carry_out(State& state, const AdoptPlan& act);
Result<Told> carry_out(State& state, const DiscardPlan& act);

} // namespace mellowbin::app
