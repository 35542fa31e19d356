#pragma once

#include "app/plan/given.h"
#include "app/plan/view.h"

#include <optional>
#include <string>
#include <vector>

/// What to order, and what is short until it comes.
namespace mellowbin::app {

/// What to order so that it can mature in time.
struct OrderAdvice {
    std::string flour;
    double kg = 0;
    std::optional<Day> order_by; ///< latest day to arrive naturally matured; none: it is too late for that
    std::string for_runs;        ///< "2 runs from Mon 7 Dec"
    std::string if_later;        ///< what oxidant or fermentation it costs if it comes later
};

/// Missing flour of these runs: what to order, how much, until when, and what it costs later.
std::vector<OrderAdvice> orders_for(PlanView& view, const std::vector<RunId>& short_runs,
                                    const GivenByRun& given);
/// A sentence for each of these runs that is short: how much, from when, what would cure it.
std::vector<std::string> shortages_of(PlanView& view, const std::vector<RunId>& short_runs,
                                      const GivenByRun& given);

} // namespace mellowbin::app
