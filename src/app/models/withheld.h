#pragma once

#include "app/models/planned_run.h"
#include "app/plan/problem.h"

#include <string>
#include <vector>

namespace mellowbin::app {

class PlanView;
struct Station;

/// Doses that law or house keep back from runs that are still to be mixed, a sentence each with its runs:
/// "Calcium propionate is withheld: … (2 runs: R1, R2)". No plan mends them.
std::vector<std::string> withheld_in(const Book& book, const std::vector<PlannedRun>& runs);

/// The same of the plan in the book for these days.
std::vector<std::string> withheld_in(const Station& station, PlanView& view, PlanSpan span);

} // namespace mellowbin::app
