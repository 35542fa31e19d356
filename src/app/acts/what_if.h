#pragma once

#include "app/acts/act.h"
#include "app/plan/what_if.h"

/// What if: tried on a copy, never in the book.
namespace mellowbin::app {

struct DropSupposition {
    int index = 0; ///< into PlanModel::suppositions
};
/// Plans with what is supposed, beside the plan in the book; the result can be looked at, not adopted.
struct PlanSuppositions {};

Result<Told> carry_out(State& state, const SupposeRunMoved& act);
Result<Told> carry_out(State& state, const SupposeOrder& act);
Result<Told> carry_out(State& state, const SupposeNoOxidant& act);
Result<Told> carry_out(State& state, const SupposeLotHeld& act);
Result<Told> carry_out(State& state, const DropSupposition& act);
Result<Told> carry_out(State& state, const PlanSuppositions& act);

} // namespace mellowbin::app
