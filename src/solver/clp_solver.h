#pragma once

#include "planning/linear_program.h"

namespace mellowbin::solver {

/// Linear programmes solved by COIN-OR Clp, with the machine's steady clock and threads. solve() keeps
/// nothing from call to call.
class ClpSolver final : public planning::LinearSolver {
public:
    planning::LinearResult solve(const planning::LinearProgram& program, std::stop_token stop) override;
    [[nodiscard]] std::optional<double> seconds() const override;
    void side_by_side(int count, const std::function<void(int)>& work) override;
};

} // namespace mellowbin::solver
