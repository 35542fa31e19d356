#pragma once

#include "planning/evaluate.h"
#include "planning/problem.h"

namespace mellowbin::planning {

/// The plan that a careful person with a spreadsheet makes: in date order, each run from the lot that expires
/// first among those that keep its windows, with one or a few simple splits where one lot alone does not. For
/// comparison.
Plan first_expiring_plan(const Problem& problem);

} // namespace mellowbin::planning
