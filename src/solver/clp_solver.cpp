#include "solver/clp_solver.h"

#include <ClpEventHandler.hpp>
#include <ClpSimplex.hpp>
#include <CoinPackedMatrix.hpp>

#include <chrono>
#include <cmath>
#include <thread>
#include <utility>
#include <vector>

namespace mellowbin::solver {

namespace {

using planning::LinearProgram;
using planning::LinearResult;
using planning::LinearStatus;

constexpr int stopped_by_event = 5; // Clp's status when an event handler asks for the end

class StopHandler final : public ClpEventHandler {
public:
    explicit StopHandler(std::stop_token stop) : stop_(std::move(stop)) {}
    int event(Event) override { return stop_.stop_requested() ? stopped_by_event : -1; }
    [[nodiscard]] ClpEventHandler* clone() const override { return new StopHandler(*this); }

private:
    std::stop_token stop_;
};

double bound(double value) { return std::isinf(value) ? std::copysign(COIN_DBL_MAX, value) : value; }

void load(ClpSimplex& model, const LinearProgram& lp) {
    std::vector<int> rows;
    std::vector<int> columns;
    std::vector<double> values;
    for (const LinearProgram::Entry& e : lp.entries) {
        rows.push_back(e.row);
        columns.push_back(e.column);
        values.push_back(e.value);
    }
    CoinPackedMatrix matrix(true, rows.data(), columns.data(), values.data(),
                            static_cast<CoinBigIndex>(values.size()));
    matrix.setDimensions(static_cast<int>(lp.rows.size()), static_cast<int>(lp.columns.size()));
    std::vector<double> low, high, cost, row_low, row_high;
    for (const LinearProgram::Column& c : lp.columns) {
        low.push_back(bound(c.lower));
        high.push_back(bound(c.upper));
        cost.push_back(c.cost);
    }
    for (const LinearProgram::Row& r : lp.rows) {
        row_low.push_back(bound(r.lower));
        row_high.push_back(bound(r.upper));
    }
    model.loadProblem(matrix, low.data(), high.data(), cost.data(), row_low.data(), row_high.data());
}

LinearStatus status_of(int status) {
    switch (status) {
    case 0:
        return LinearStatus::optimal;
    case 1:
        return LinearStatus::infeasible;
    case 2:
        return LinearStatus::without_bound;
    case stopped_by_event:
        return LinearStatus::stopped;
    default:
        return LinearStatus::failed;
    }
}

} // namespace

std::optional<double> ClpSolver::seconds() const {
    const auto now = std::chrono::steady_clock::now().time_since_epoch();
    return std::chrono::duration<double>(now).count();
}

void ClpSolver::side_by_side(int count, const std::function<void(int)>& work) {
    std::vector<std::jthread> others;
    for (int i = 1; i < count; ++i)
        others.emplace_back([&work, i] { work(i); });
    if (count > 0)
        work(0);
}

LinearResult ClpSolver::solve(const LinearProgram& program, std::stop_token stop) {
    if (program.columns.empty())
        return {LinearStatus::optimal, 0.0, {}, std::vector<double>(program.rows.size(), 0.0)};
    if (stop.stop_requested())
        return {LinearStatus::stopped, 0.0, {}, {}};
    ClpSimplex model;
    model.setLogLevel(0);
    load(model, program);
    StopHandler handler(stop);
    model.passInEventHandler(&handler);
    // The plan's programmes start feasible (all short), so the primal method walks straight on.
    model.primal();
    LinearResult result;
    result.status = status_of(model.status());
    if (result.status != LinearStatus::optimal)
        return result;
    result.objective = model.objectiveValue();
    result.x.assign(model.primalColumnSolution(), model.primalColumnSolution() + model.numberColumns());
    result.row_duals.assign(model.dualRowSolution(), model.dualRowSolution() + model.numberRows());
    return result;
}

} // namespace mellowbin::solver
