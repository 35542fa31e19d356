#include "solver/plan_and_bound.h"

#include "solver/clp_solver.h"

#include <chrono>
#include <functional>
#include <future>
#include <optional>
#include <type_traits>
#include <utility>

namespace mellowbin::solver {

namespace {

using planning::BoundProof;
using planning::Tier;

/// How much longer than the plan its proofs may take, as a share of the time limit.
constexpr double proof_share = 0.2;

/// A proof on a thread of its own that ends when the caller's stop or its own time comes.
template <class Proof> class Beside {
public:
    Beside(const std::stop_token& callers, Proof proof)
        : passed_on_(callers, [this] { own_.request_stop(); }),
          proof_(std::async(std::launch::async, std::move(proof), own_.get_token())) {}

    /// Waits for it; with a limit above zero, no longer than that.
    auto get(double seconds) {
        if (seconds > 0 &&
            proof_.wait_for(std::chrono::duration<double>(seconds)) == std::future_status::timeout)
            own_.request_stop();
        return proof_.get();
    }

private:
    std::stop_source own_;
    std::stop_callback<std::function<void()>> passed_on_;
    std::future<std::invoke_result_t<Proof, std::stop_token>> proof_;
};

} // namespace

planning::TierBounds prove_tiers(const planning::Problem& problem, const planning::Outcome& outcome,
                                 std::stop_token stop) {
    ClpSolver clp;
    const planning::Parts& parts = outcome.evaluation.parts;
    planning::TierBounds tiers;
    tiers.shortage = prove_tier(problem, Tier::shortage, parts.shortage, clp, stop);
    tiers.windows = prove_tier(problem, Tier::windows, parts.windows, clp, stop);
    tiers.maturity = prove_tier(problem, Tier::maturity, parts.maturity, clp, stop);
    tiers.waste = prove_tier(problem, Tier::waste, parts.waste, clp, stop);
    return tiers;
}

planning::Outcome plan_and_bound(const planning::Problem& problem, planning::Effort effort,
                                 planning::Progress* progress, std::stop_token stop) {
    const bool wanted = std::exchange(effort.bound, BoundProof::leave_out) == BoundProof::prove;
    const auto prove_whole = [&problem, progress](std::stop_token own) {
        ClpSolver clp;
        const auto proven = prove_bound(problem, clp, std::move(own));
        if (progress && proven)
            progress->bound = *proven; // a watcher sees it while the plan is still improved
        return proven;
    };
    std::optional<Beside<decltype(prove_whole)>> bound;
    if (wanted)
        bound.emplace(stop, prove_whole);
    ClpSolver clp;
    planning::Outcome outcome = make_plan(problem, clp, effort, progress, stop);
    if (!wanted)
        return outcome;
    if (progress)
        progress->stage = planning::Stage::proving_bound;
    outcome.bound = bound->get(effort.seconds * proof_share);
    const auto prove_each = [&problem, &outcome](std::stop_token own) {
        return prove_tiers(problem, outcome, std::move(own));
    };
    outcome.tiers = Beside(stop, prove_each).get(effort.seconds * proof_share);
    if (progress)
        progress->stage = planning::Stage::done;
    if (!outcome.bound && stop.stop_requested())
        outcome.ending = planning::Ending::stopped;
    return outcome;
}

} // namespace mellowbin::solver
