#pragma once

#include "app/book/book.h"
#include "app/plan/problem.h"

namespace mellowbin::app {

/// Runs, products and oxidants of the problem: one need a flour of each run's formula.
void fill_runs(const Book& book, PlanProblem& problem);

/// The part's need has a target of maturity; see runs.cpp for why the second flour's may have none.
bool has_target(const Book& book, const Product& product, FlourPart part);

} // namespace mellowbin::app
