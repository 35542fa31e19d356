#pragma once

#include "planning/linear_program.h"

namespace mellowbin::solver {

/// Linear programmes solved by COIN-OR Clp. One solver a thread; solve() keeps nothing from call to call.
class ClpSolver final : public planning::LinearSolver {
public:
    planning::LinearResult solve(const planning::LinearProgram& program, std::stop_token stop) override;
};

} // namespace mellowbin::solver
