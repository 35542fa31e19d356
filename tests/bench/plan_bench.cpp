// How long a plan takes and how good it is: on made problems and, where the reference data is given, on its
// instances. Beside each, in the same run, the rule of thumb (first expiring by date).

#include "exchange/instance.h"
#include "planning/make_plan.h"
#include "planning/reasons.h"
#include "planning/small_problems.h"
#include "solver/clp_solver.h"
#include "support/first_expiring.h"

#include <benchmark/benchmark.h>

#include <filesystem>
#include <fstream>
#include <optional>
#include <sstream>
#include <string>

using namespace mellowbin;
using namespace mellowbin::planning;

namespace {

void tell(benchmark::State& state, const Problem& p, const Outcome& outcome) {
    const double thumb = evaluate(p, first_expiring_plan(p)).objective;
    state.counters["objective"] = outcome.evaluation.objective;
    state.counters["short_t"] = outcome.evaluation.short_t;
    state.counters["rule_of_thumb"] = thumb;
    state.counters["times_better"] = thumb / outcome.evaluation.objective;
    state.counters["rules_broken"] = static_cast<double>(outcome.evaluation.broken.size());
    if (outcome.bound)
        state.counters["bound"] = *outcome.bound;
}

void plan_problem(benchmark::State& state, const Problem& p, const Effort& effort) {
    solver::ClpSolver clp;
    Outcome outcome;
    for (auto _ : state)
        outcome = make_plan(p, clp, effort, nullptr, {});
    tell(state, p, outcome);
}

void plan_made(benchmark::State& state) {
    RandomProblems random(51);
    plan_problem(state,
                 random.make(static_cast<int>(state.range(0)), static_cast<int>(state.range(1)), 3, 1.1),
                 {Effort{}.improvement_steps, BoundProof::leave_out, 1, 0, 1});
}

/// The bytes of a reference instance; nothing without the reference data.
std::optional<std::string> reference(const std::string& name) {
    const std::filesystem::path path =
        std::filesystem::path(MELLOWBIN_REFERENCE_DATA) / "plan" / (name + ".json");
    std::ifstream file(path, std::ios::binary);
    if (std::string(MELLOWBIN_REFERENCE_DATA).empty() || !file)
        return std::nullopt;
    std::stringstream text;
    text << file.rdbuf();
    return text.str();
}

void plan_reference(benchmark::State& state, const std::string& name, const Effort& effort) {
    const auto text = reference(name);
    if (!text) {
        state.SkipWithError("no reference data given");
        return;
    }
    plan_problem(state, *exchange::read_instance(*text), effort);
}

/// From the file's bytes to the plan's bytes, as the command line does it.
void plan_file(benchmark::State& state, const std::string& name) {
    const auto text = reference(name);
    if (!text) {
        state.SkipWithError("no reference data given");
        return;
    }
    solver::ClpSolver clp;
    for (auto _ : state) {
        const auto p = exchange::read_instance(*text);
        const Outcome outcome =
            make_plan(*p, clp, {Effort{}.improvement_steps, BoundProof::leave_out, 1, 0, 1}, nullptr, {});
        benchmark::DoNotOptimize(exchange::write_plan(*p, outcome));
    }
}

void bound_of(benchmark::State& state, const std::string& name) {
    const auto text = reference(name);
    if (!text) {
        state.SkipWithError("no reference data given");
        return;
    }
    const auto p = exchange::read_instance(*text);
    solver::ClpSolver clp;
    double bound = 0;
    for (auto _ : state)
        bound = prove_bound(*p, clp, {}).value_or(0);
    state.counters["bound"] = bound;
}

void explain_made(benchmark::State& state) {
    RandomProblems random(51);
    const Problem p = random.make(60, 100, 3, 1.1);
    solver::ClpSolver clp;
    const Outcome outcome =
        make_plan(p, clp, {Effort{}.improvement_steps, BoundProof::leave_out, 1, 0, 1}, nullptr, {});
    for (auto _ : state)
        benchmark::DoNotOptimize(explain(p, outcome.plan));
}

const Effort first_plan{0, BoundProof::leave_out, 1, 0, 1};
const Effort usual{Effort{}.improvement_steps, BoundProof::leave_out, 1, 0, 1};
const Effort patient{100000, BoundProof::leave_out, 1, 0, 1};

BENCHMARK(plan_made)->Args({20, 30})->Args({60, 100})->Args({150, 300})->Unit(benchmark::kMillisecond);
BENCHMARK(explain_made)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(plan_file, M, "M-1")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(plan_reference, S_first, "S-1", first_plan)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(plan_reference, M_first, "M-1", first_plan)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(plan_reference, L_first, "L-1", first_plan)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(plan_reference, S, "S-1", usual)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(plan_reference, M, "M-1", usual)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(plan_reference, L, "L-1", usual)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(plan_reference, S_patient, "S-1", patient)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(plan_reference, M_patient, "M-1", patient)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(bound_of, S, "S-1")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(bound_of, M, "M-1")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(bound_of, L, "L-1")->Unit(benchmark::kMillisecond)->Iterations(1);

} // namespace
