#pragma once

#include "app/plan/given.h"
#include "app/plan/order_advice.h"
#include "app/plan/view.h"

#include <string>
#include <vector>

/// What to order, and what is short until it comes.
namespace mellowbin::app {

/// Missing flour of these runs: what to order, how much, until when, and what it costs later.
std::vector<OrderAdvice> orders_for(PlanView& view, const std::vector<RunId>& short_runs,
                                    const GivenByRun& given);
/// A sentence for each of these runs that is short: how much, from when, what would cure it.
std::vector<std::string> shortages_of(PlanView& view, const std::vector<RunId>& short_runs,
                                      const GivenByRun& given);

} // namespace mellowbin::app
