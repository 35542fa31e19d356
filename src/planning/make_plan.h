#pragma once

#include "planning/evaluate.h"
#include "planning/linear_program.h"

#include <atomic>
#include <cstdint>
#include <limits>
#include <optional>
#include <stop_token>

namespace mellowbin::planning {

enum class BoundProof { prove, leave_out };

/// How much work a plan is worth. Counted in steps the same problem, seed and effort give the same plan on any
/// machine; counted in seconds, as many steps as the machine does in them.
struct Effort {
    std::int64_t improvement_steps = 4000; ///< of ruin and recreate after the first plan, a thread; 0: none
    BoundProof bound = BoundProof::prove;
    std::uint64_t seed = 1;
    double seconds = 0; ///< above zero: improve for so long, and steps do not matter
    int threads = 1;    ///< chains that exchange their best plan; the same steps give the same plan for one seed
};

enum class Stage { first_plan, improving, polishing, proving_bound, done };

/// What a watcher on another thread may read while a plan is made.
struct Progress {
    std::atomic<Stage> stage = Stage::first_plan;
    std::atomic<std::int64_t> steps = 0;
    std::atomic<double> best_objective = std::numeric_limits<double>::infinity();
    std::atomic<double> bound =
        -std::numeric_limits<double>::infinity(); ///< proven; minus infinity until then
};

enum class Ending { finished, stopped };

/// A plan, always: flour that is short is a result and stands in the evaluation. It breaks no rule that the
/// locks do not break by themselves.
struct Outcome {
    Plan plan;
    Evaluation evaluation;
    std::optional<double> bound; ///< no plan can cost less; absent if left out or stopped
    Ending ending = Ending::finished;
    bool is_polished = false; ///< the tonnes are the best for these lots in these runs
    std::int64_t steps = 0;

    /// What a better plan could save at most, as a fraction of this one's objective; 0 where that is zero.
    [[nodiscard]] std::optional<double> gap() const;
};

/// Fills the runs in date order with the best blends, improves by ruin and recreate, polishes the tonnes by a
/// linear programme, proves the bound by another. A stop is obeyed within 0.1 s and keeps the best plan
/// found. The problem must have passed check(). `progress` may be null.
Outcome make_plan(const Problem& problem, LinearSolver& solver, const Effort& effort, Progress* progress,
                  std::stop_token stop);

/// The plan that the rule of thumb makes: in date order, each run from the lot that expires first, then the
/// next, as many as allowed. For comparison.
Plan first_expiring_plan(const Problem& problem);

/// The proven bound alone, for a second thread with a solver of its own. Absent when stopped.
std::optional<double> prove_bound(const Problem& problem, LinearSolver& solver, std::stop_token stop);

} // namespace mellowbin::planning
