#pragma once

#include "planning/evaluate.h"
#include "planning/linear_program.h"

#include <atomic>
#include <cstdint>
#include <limits>
#include <optional>
#include <stop_token>
#include <string>
#include <vector>

namespace mellowbin::planning {

enum class BoundProof { prove, leave_out };

/// How much work a plan is worth. Counted in steps the same problem, seed and effort give the same plan on
/// any machine; counted in seconds, as many steps as the machine does in them.
struct Effort {
    std::int64_t improvement_steps = 20000; ///< of ruin and recreate after the first plan, a thread; 0: none
    BoundProof bound = BoundProof::prove;
    std::uint64_t seed = 1;
    double seconds =
        0;           ///< above zero, where the machine has a clock: improve for so long, whatever the steps
    int threads = 1; ///< chains that exchange their best plan; the same steps give the same plan for one seed
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

/// Parts of the objective that people look at one by one.
enum class Tier { shortage, windows, maturity, waste };

/// What is proven of each tier, in currency; see prove_tier(). Absent: not proven in the time.
struct TierBounds {
    std::optional<double> shortage, windows, maturity, waste;
};

enum class Ending { finished, stopped };

/// A plan, always: flour that is short is a result and stands in the evaluation. It breaks no rule that the
/// locks do not break by themselves.
struct Outcome {
    Plan plan;
    Evaluation evaluation;
    std::optional<double> bound; ///< no plan can cost less; absent if left out or stopped
    TierBounds tiers;
    Ending ending = Ending::finished;
    std::vector<std::string>
        faults;               ///< rules that a plan of the engine broke and was passed over for: always empty
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

/// What no plan can be below in one tier, in currency; of windows and maturity: together with the least
/// shortage (trading flour short against them counts at the weights). `found` is what a plan has there: zero
/// needs no proof. Absent when stopped.
std::optional<double> prove_tier(const Problem& problem, Tier tier, double found, LinearSolver& solver,
                                 std::stop_token stop);

/// The proven bound alone, for a second thread with a solver of its own. Absent when stopped.
std::optional<double> prove_bound(const Problem& problem, LinearSolver& solver, std::stop_token stop);

} // namespace mellowbin::planning
