#include "app/acts/looking.h"
#include "app/acts/notice.h"
#include "app/acts/plan.h"
#include "app/acts/print_plan.h"
#include "app/acts/runs.h"
#include "app/app.h"
#include "app/book/setup.h"
#include "app/models/overview.h"
#include "app/models/plan.h"
#include "cli/as_json.h"
#include "cli/as_text.h"
#include "cli/grammar.h"
#include "cli/instance_command.h"

#include <fmt/format.h>

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
    bool make = false, propose = false;
    double seconds = 0;
    std::string print;
    InstanceTyped instance;
};

int plan(Session& session, const PlanTyped& typed) {
    if (!typed.instance.instance.empty()) {
        InstanceTyped instance = typed.instance;
        instance.seconds = typed.seconds;
        return plan_instance(session, instance);
    }
    App app(session.set_up());
    const Day from = day_from(typed.from).value_or(app.overview().today);
    app.handle(ShowPlan{from, typed.days});
    if (typed.make || typed.propose) {
        app.handle(PlanRuns{from, typed.days, typed.seconds});
        if (app.notice().kind != Notice::Kind::done)
            return session.told(app);
        app.finish_work();
    }
    if (typed.make) {
        app.handle(AdoptPlan{});
        if (app.notice().kind != Notice::Kind::done)
            return session.told(app);
    }
    if (!typed.print.empty()) {
        app.handle(PrintPlan{typed.print});
        if (const int code = session.told_if_wrong(app); code != done)
            return code;
    }
    if (session.wants_json())
        session.out() << plan_as_json(app.plan());
    else
        print_plan(session.out(), app.plan());
    if (!typed.print.empty() && !session.wants_json())
        return session.told(app);
    return done;
}

} // namespace

void add_plan_commands(Grammar& grammar) {
    auto run = grammar.command("add-run", "Add a run to the plan", add_run);
    run.words.option("--product", run.typed.product).required();
    run.words.option("--line", run.typed.line).required();
    run.words.option("--day", run.typed.day).required();
    run.words.option("--batches", run.typed.batches).required();
    auto [words, typed] = grammar.command("plan", "Show the plan; with --make, make and adopt one", plan);
    words.option("--from", typed.from, "First day; otherwise today");
    words.option("--days", typed.days, "How many days").within(1, 56);
    words.flag("--make", typed.make, "Assign lots to the runs anew, and adopt the plan");
    words.flag("--propose", typed.propose,
               "The same, but show it beside the plan in the book and adopt nothing");
    words.option("--seconds", typed.seconds, "How long to search; otherwise as Settings say")
        .within(0.0, 600.0);
    const auto print =
        words.option("--print", typed.print, "Write what is shown into this file as a paper to print (PDF)");
    InstanceTyped& instance = typed.instance;
    words.option("--instance", instance.instance, "Plan this planning instance (JSON) instead of the book")
        .excludes(print);
    words.option("--out", instance.out, "Write the instance's plan into this file");
    words.option("--steps", instance.steps, "Of the instance's search, a thread, where no seconds are given")
        .within(std::int64_t{0}, std::int64_t{1'000'000'000});
    words.option("--seed", instance.seed, "Another seed, another search; the same one, the same plan");
    words.option("--threads", instance.threads, "Searches that go on side by side").within(1, 64);
    words.flag("--without-bound", instance.without_bound,
               "Do not prove how much better the instance's plan could be at most");
    words.option("--programme", instance.programme,
                 "Write the linear programme of the instance's bound into this file (CPLEX LP)");
}

} // namespace mellowbin::cli
