#pragma once

#include "planning/make_plan.h"

#include <stop_token>

namespace mellowbin::solver {

/// make_plan() with Clp; the bound is proven beside it on a thread of its own, and then what is proven of
/// each tier. With a time limit the proofs end shortly after the plan, whether they are there or not; a stop
/// ends all.
planning::Outcome plan_and_bound(const planning::Problem& problem, planning::Effort effort,
                                 planning::Progress* progress, std::stop_token stop);

/// What no plan can be below in each tier, given what this outcome has there.
planning::TierBounds prove_tiers(const planning::Problem& problem, const planning::Outcome& outcome,
                                 std::stop_token stop);

} // namespace mellowbin::solver
