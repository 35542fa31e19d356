#include "solver/plan_and_bound.h"

#include "solver/clp_solver.h"

#include <future>
#include <utility>

namespace mellowbin::solver {

planning::Outcome plan_and_bound(const planning::Problem& problem, planning::Effort effort,
                                 planning::Progress* progress, std::stop_token stop) {
    using planning::BoundProof;
    const BoundProof wanted = std::exchange(effort.bound, BoundProof::leave_out);
    std::future<std::optional<double>> bound;
    if (wanted == BoundProof::prove)
        bound = std::async(std::launch::async, [&problem, stop] {
            ClpSolver clp;
            return prove_bound(problem, clp, stop);
        });
    ClpSolver clp;
    planning::Outcome outcome = make_plan(problem, clp, effort, progress, stop);
    if (!bound.valid())
        return outcome;
    if (progress)
        progress->stage = planning::Stage::proving_bound;
    outcome.bound = bound.get();
    if (progress) {
        if (outcome.bound)
            progress->bound = *outcome.bound;
        progress->stage = planning::Stage::done;
    }
    if (!outcome.bound && stop.stop_requested())
        outcome.ending = planning::Ending::stopped;
    return outcome;
}

} // namespace mellowbin::solver
