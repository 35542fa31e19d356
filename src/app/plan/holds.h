#pragma once

#include "app/plan/problem.h"
#include "app/plan/view.h"

#include <string>
#include <vector>

namespace mellowbin::app {

/// Every reason why the book's plan for these days holds no longer, a sentence each without its stop; empty
/// where it holds or where nothing is planned. A run that is being mixed is among them only where its market
/// forbids what is left of its flour. Looks at the assignments only, not at every lot for every run.
std::vector<std::string> why_no_longer(PlanView& view, PlanSpan span);

} // namespace mellowbin::app
