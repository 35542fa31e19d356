#pragma once

#include "planning/make_plan.h"

namespace mellowbin::solver {

/// make_plan() with Clp, and the bound proven beside it on a second thread, so that the plan need not wait
/// for it longer than the longer of the two takes. Otherwise the same: same plan, same stop. The problem must
/// have passed check(); `progress` may be null.
planning::Outcome plan_and_bound(const planning::Problem& problem, planning::Effort effort,
                                 planning::Progress* progress, std::stop_token stop);

} // namespace mellowbin::solver
