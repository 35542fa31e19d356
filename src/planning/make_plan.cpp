#include "planning/make_plan.h"

#include "core/promised.h"
#include "planning/judged_plan.h"
#include "planning/open_plan.h"
#include "planning/search.h"
#include "planning/supports.h"

#include <algorithm>
#include <cmath>
#include <tuple>
#include <utility>

namespace mellowbin::planning {

namespace {

/// Where annealing starts, in lot changes, when it has steps enough for a run; with fewer it has to start
/// warmer, for shortage is all it can mend. Found on generated problems of 20 x 30 to 150 x 300.
constexpr double warm_changes = 2.5;
constexpr double warmest_changes = 40;
constexpr double enough_steps = 600; ///< for a run
constexpr double cold_share = 0.02;  ///< of the start's warmth, at the end
constexpr double usual_steps_a_second = 100'000;

} // namespace

std::optional<double> Outcome::gap() const {
    if (!bound)
        return std::nullopt;
    if (evaluation.objective <= 0)
        return 0.0;
    return std::max(0.0, (evaluation.objective - *bound) / evaluation.objective);
}

std::pair<double, double> search_warmth(const Problem& problem, const Effort& effort, std::size_t open_runs) {
    const double change = std::max(1.0, problem.weights.lot_change);
    const double steps = effort.seconds > 0 ? effort.seconds * usual_steps_a_second
                                            : static_cast<double>(effort.improvement_steps);
    const double a_run = std::max(1.0, steps / static_cast<double>(std::max<std::size_t>(1, open_runs)));
    const double warm =
        std::clamp(warm_changes * std::pow(enough_steps / a_run, 0.9), warm_changes, warmest_changes);
    return {warm * change, cold_share * warm * change};
}

Outcome make_plan(const Problem& problem, LinearSolver& solver, const Effort& effort, Progress* progress,
                  std::stop_token stop) {
    promised(check(problem).empty());
    Progress unwatched;
    Progress& watched = progress ? *progress : unwatched;
    const Tables tables = make_tables(problem);
    JudgedPlan judged(problem, tables, solver, watched, stop);
    OpenPlan open_plan(problem, tables);
    const std::vector<int> order = in_date_order(problem);
    fill_in_order(open_plan, order, nullptr, stop);
    judged.adopt_if_better(open_plan.plan());
    if ((effort.improvement_steps > 0 || effort.seconds > 0) && !stop.stop_requested()) {
        watched.stage = Stage::improving;
        SearchTask task;
        task.start = judged.outcome().plan;
        for (const int r : order)
            if (tables.runs[r].fill_t > 0)
                task.open.push_back(r);
        task.effort = effort;
        std::tie(task.warm, task.cold) = search_warmth(problem, effort, task.open.size());
        SearchResult found = search(problem, tables, solver, task, watched, stop);
        judged.outcome().steps = found.steps;
        judged.adopt_if_better(std::move(found.plan));
    }
    judged.polish(nullptr);
    std::size_t pairs = 0;
    for (const RunTable& run : tables.runs)
        pairs += run.lot.size();
    if (pairs <= few_pairs && (effort.improvement_steps > 0 || effort.seconds > 0))
        improve_supports(problem, tables, solver, judged, stop);
    if (effort.bound == BoundProof::prove && !stop.stop_requested()) {
        watched.stage = Stage::proving_bound;
        judged.outcome().bound = prove_bound(problem, tables, solver, watched, stop);
    }
    return judged.finish();
}

} // namespace mellowbin::planning
