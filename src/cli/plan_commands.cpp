#include "app/app.h"
#include "cli/as_json.h"
#include "cli/as_text.h"
#include "cli/grammar.h"
#include "exchange/instance.h"
#include "planning/make_plan.h"
#include "solver/clp_solver.h"

#include <fmt/format.h>
#include <fmt/ostream.h>

#include <fstream>
#include <future>
#include <ostream>

namespace mellowbin::cli {
namespace {

using namespace app;

struct RunTyped {
    std::string product, line, day, batches;
};

int add_run(Session& session, const RunTyped& typed) {
    App app(session.set_up());
    app.handle(AddRun{typed.product, typed.line, typed.day, typed.batches});
    return session.told(app);
}

struct PlanTyped {
    std::string from;
    int days = 7;
    bool make = false;
    std::string instance, out;
    bool without_bound = false;
};

planning::Outcome planned(const planning::Problem& problem, const PlanTyped& typed) {
    std::future<std::optional<double>> bound;
    if (!typed.without_bound) { // beside the plan, with a solver of its own
        bound = std::async(std::launch::async, [&problem] {
            solver::ClpSolver solver;
            return planning::prove_bound(problem, solver, {});
        });
    }
    solver::ClpSolver solver;
    planning::Effort effort;
    effort.bound = planning::BoundProof::leave_out;
    auto outcome = planning::make_plan(problem, solver, effort, nullptr, {});
    if (bound.valid())
        outcome.bound = bound.get();
    return outcome;
}

int plan_instance(Session& session, const PlanTyped& typed) {
    const auto problem = exchange::read_instance(bytes_of(typed.instance));
    if (!problem)
        return session.refused(problem.refusals());
    const auto outcome = planned(*problem, typed);
    const auto text = exchange::write_plan(*problem, outcome.plan, outcome.evaluation, outcome.bound);
    if (typed.out.empty()) {
        session.out() << text;
        return done;
    }
    std::ofstream file(typed.out, std::ios::binary);
    file << text;
    file.close();
    if (!file)
        throw Failed{fmt::format("\"{}\" cannot be written", typed.out)};
    fmt::print(session.out(), "Plan written to {}: objective {:.1f}\n", typed.out,
               outcome.evaluation.objective);
    return done;
}

int plan(Session& session, const PlanTyped& typed) {
    if (!typed.instance.empty())
        return plan_instance(session, typed);
    App app(session.set_up());
    const Day from = day_from(typed.from).value_or(app.overview().today);
    app.handle(ShowPlan{from, typed.days});
    if (typed.make) {
        app.handle(PlanRuns{from, typed.days});
        if (app.notice().kind != Notice::Kind::done)
            return session.told(app);
        app.finish_work();
        app.handle(AdoptPlan{});
        if (app.notice().kind != Notice::Kind::done)
            return session.told(app);
    }
    if (session.wants_json())
        session.out() << plan_as_json(app.plan());
    else
        print_plan(session.out(), app.plan());
    return done;
}

} // namespace

void add_plan_commands(Grammar& grammar) {
    auto run = grammar.command("add-run", "Add a run to the plan", add_run);
    run.words.add_option("--product", run.typed.product)->required();
    run.words.add_option("--line", run.typed.line)->required();
    run.words.add_option("--day", run.typed.day)->required();
    run.words.add_option("--batches", run.typed.batches)->required();
    auto [words, typed] = grammar.command("plan", "Show the plan; with --make, make and adopt one", plan);
    words.add_option("--from", typed.from, "First day; otherwise today");
    words.add_option("--days", typed.days, "How many days")->check(CLI::Range(1, 56));
    words.add_flag("--make", typed.make, "Assign lots to the runs anew, and adopt the plan");
    words.add_option("--instance", typed.instance, "Plan this planning instance (JSON) instead of the book");
    words.add_option("--out", typed.out, "Write the instance's plan into this file");
    words.add_flag("--without-bound", typed.without_bound,
                   "Do not prove how much better the instance's plan could be at most");
}

} // namespace mellowbin::cli
