#pragma once

#include "planning/draft.h"

#include <cstdint>
#include <functional>
#include <stop_token>

namespace mellowbin::planning {

/// How long and how boldly the improvement goes on. Counted in steps, not seconds, so that it repeats itself.
struct Anneal {
    std::int64_t steps = 0;
    double warm = 0; ///< currency by which a step may worsen the plan at the start (in the mean)
    double cold = 0; ///< and at the end
    std::uint64_t seed = 1;
};

/// Ruin and recreate: empties one to three related runs, fills them again with the best blends, and keeps the
/// change when it is better, or with falling probability when it is not. Ends with the best plan found in the
/// draft. `watch(steps done, best objective)` is called now and then. Gives back the steps done.
std::int64_t improve(Draft& draft, const Anneal& anneal, const std::stop_token& stop,
                     const std::function<void(std::int64_t, double)>& watch);

} // namespace mellowbin::planning
