#include "cli/instance_command.h"

#include "cli/say.h"
#include "exchange/instance.h"
#include "planning/plan_lp.h"
#include "solver/plan_and_bound.h"

#include <fmt/format.h>

#include <chrono>
#include <fstream>
#include <ostream>

namespace mellowbin::cli {
namespace {

void write_file(const std::string& path, const std::string& text) {
    std::ofstream file(path, std::ios::binary);
    file << text;
    file.close();
    if (!file)
        throw Failed{fmt::format("\"{}\" cannot be written", path)};
}

planning::Effort effort_of(const InstanceTyped& typed) {
    planning::Effort effort;
    effort.improvement_steps = typed.steps;
    effort.seconds = typed.seconds;
    effort.seed = typed.seed;
    effort.threads = typed.threads;
    effort.bound = typed.without_bound ? planning::BoundProof::leave_out : planning::BoundProof::prove;
    return effort;
}

} // namespace

int plan_instance(Session& session, const InstanceTyped& typed) {
    const auto problem = exchange::read_instance(bytes_of(typed.instance));
    if (!problem)
        return session.refused(problem.refusals());
    if (!typed.programme.empty()) {
        const auto tables = planning::make_tables(*problem);
        write_file(typed.programme, planning::write_cplex_lp(
                                        planning::bound_program(*problem, tables).program, problem->name));
    }
    const auto started = std::chrono::steady_clock::now();
    const auto outcome = solver::plan_and_bound(*problem, effort_of(typed), nullptr, {});
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - started;
    for (const auto& fault : outcome.faults)
        say(session.world().err, "A plan was passed over because it broke a rule; please report it: {}\n",
            fault);
    const auto text = exchange::write_plan(*problem, outcome);
    if (typed.out.empty()) {
        session.out() << text;
        return done;
    }
    write_file(typed.out, text);
    say(session.out(), "Plan written to {}: objective {:.1f}, {} steps in {:.2f} s{}\n", typed.out,
        outcome.evaluation.objective, outcome.steps, took.count(),
        outcome.bound ? fmt::format(", no plan can be below {:.1f}", *outcome.bound) : "");
    return done;
}

} // namespace mellowbin::cli
