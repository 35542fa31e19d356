// How good plans are after a time, and how fast: on made instances of a size or on one file, beside the rule
// of thumb, the proven bound and, if asked for, a general solver on the whole model, all in the same run.

#include "exchange/instance.h"
#include "made_instances.h"
#include "planning/make_plan.h"
#include "planning/replan.h"
#include "solver/clp_solver.h"
#include "support/first_expiring.h"
#include "whole_model.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <chrono>
#include <cstdio>
#include <fstream>
#include <optional>
#include <sstream>
#include <string>
#include <sys/resource.h>
#include <thread>
#include <vector>

using namespace mellowbin;
using namespace mellowbin::planning;

namespace {

constexpr const char* usage =
    "plan_study [--size S|M|L|XL] [--instance-seed 101] [--file instance.json] [--write instance.json]\n"
    "           [--seconds 5] [--seeds 5] [--threads 2] [--bound-seconds 60]\n"
    "           [--rival cbc|none] [--rival-seconds 60] [--replan]\n";

struct Asked {
    std::string size = "S";
    std::string file;
    std::string write; ///< where to put the made instance; nothing else is done then
    int instance_seed = 101;
    double seconds = 5;
    int seeds = 5;
    int threads = 2;
    double bound_seconds = 60;
    std::string rival = "none";
    double rival_seconds = 60;
    bool replan = false;
};

template <class Number> bool read(const std::string& text, Number& number) {
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    return error == std::errc{} && end == text.data() + text.size() && number >= 0;
}

/// Nothing, and why on stderr, if it cannot be understood.
std::optional<Asked> read_words(const std::vector<std::string>& words) {
    Asked asked;
    for (std::size_t i = 0; i < words.size(); ++i) {
        const std::string& name = words[i];
        if (name == "--replan") {
            asked.replan = true;
            continue;
        }
        const std::string value = i + 1 < words.size() ? words[++i] : "";
        const bool understood = name == "--size"            ? made_size(asked.size = value) != nullptr
                                : name == "--file"          ? !(asked.file = value).empty()
                                : name == "--write"         ? !(asked.write = value).empty()
                                : name == "--instance-seed" ? read(value, asked.instance_seed)
                                : name == "--seconds"       ? read(value, asked.seconds)
                                : name == "--seeds"         ? read(value, asked.seeds) && asked.seeds >= 1
                                : name == "--threads"       ? read(value, asked.threads) && asked.threads >= 1
                                : name == "--bound-seconds" ? read(value, asked.bound_seconds)
                                : name == "--rival-seconds" ? read(value, asked.rival_seconds)
                                : name == "--rival" ? (asked.rival = value) == "cbc" || value == "none"
                                                    : false;
        if (!understood) {
            fmt::print(stderr, "{} {} is not understood.\n{}", name, value, usage);
            return std::nullopt;
        }
    }
    return asked;
}

double since(std::chrono::steady_clock::time_point started) {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - started).count();
}

/// MiB of this process at its largest so far.
double peak_memory() {
    rusage use{};
    getrusage(RUSAGE_SELF, &use);
    return static_cast<double>(use.ru_maxrss) / 1024;
}

void tell(const Problem& p, const char* what, double seconds, const Evaluation& e) {
    const auto off = std::count_if(e.runs.begin(), e.runs.end(),
                                   [](const RunResult& r) { return r.parts.windows > 1e-6; });
    fmt::print(
        "  {:<26} {:>12.1f}   {:>8.3f} s   {:.1f} t short, {} of {} runs off a window, {} lot changes{}\n",
        what, e.objective, seconds, e.short_t, off, p.run_count(), e.lot_changes,
        e.keeps_the_rules() ? "" : "  BREAKS A RULE");
}

void study_first(const Problem& p) {
    solver::ClpSolver clp;
    auto started = std::chrono::steady_clock::now();
    const Outcome first = make_plan(p, clp, {0, BoundProof::leave_out, 1, 0, 1}, nullptr, {});
    tell(p, "first plan", since(started), first.evaluation);
    started = std::chrono::steady_clock::now();
    const Plan by_hand = first_expiring_plan(p);
    const double seconds = since(started);
    tell(p, "first expiring by date", seconds, evaluate(p, by_hand));
}

Plan study_search(const Problem& p, const Asked& asked) {
    struct Try {
        double seconds, steps;
        Outcome outcome;
    };
    std::vector<Try> tries;
    for (int seed = 1; seed <= asked.seeds; ++seed) {
        solver::ClpSolver clp;
        const auto started = std::chrono::steady_clock::now();
        Outcome outcome = make_plan(
            p, clp,
            {0, BoundProof::leave_out, static_cast<std::uint64_t>(seed), asked.seconds, asked.threads},
            nullptr, {});
        const double seconds = since(started);
        const double steps = static_cast<double>(outcome.steps) / seconds / asked.threads;
        for (const std::string& fault : outcome.faults)
            fmt::print("  seed {}: a plan was passed over because it broke a rule: {}\n", seed, fault);
        tries.push_back({seconds, steps, std::move(outcome)});
    }
    std::sort(tries.begin(), tries.end(), [](const Try& a, const Try& b) {
        return a.outcome.evaluation.objective < b.outcome.evaluation.objective;
    });
    const Try& median = tries[tries.size() / 2];
    tell(p, "search, best", tries.front().seconds, tries.front().outcome.evaluation);
    tell(p, "search, median", median.seconds, median.outcome.evaluation);
    tell(p, "search, worst", tries.back().seconds, tries.back().outcome.evaluation);
    fmt::print("  {:<26} {:>12.0f}   a second and thread, median run; {} seeds, {} threads\n", "steps",
               median.steps, asked.seeds, asked.threads);
    fmt::print("  {:<26} {:>12.0f}   MiB\n", "peak memory", peak_memory());
    return median.outcome.plan;
}

void study_bound(const Problem& p, double seconds) {
    std::stop_source stop;
    std::atomic<bool> done = false;
    std::jthread limit([&] {
        const auto started = std::chrono::steady_clock::now();
        while (!done && since(started) < seconds)
            std::this_thread::sleep_for(std::chrono::milliseconds(5));
        stop.request_stop();
    });
    solver::ClpSolver clp;
    const auto started = std::chrono::steady_clock::now();
    const auto bound = prove_bound(p, clp, stop.get_token());
    const double took = since(started);
    done = true;
    if (bound)
        fmt::print("  {:<26} {:>12.1f}   {:>8.3f} s   no plan costs less\n", "bound", *bound, took);
    else
        fmt::print("  {:<26} {:>12}   {:>8.3f} s\n", "bound", "not proven", took);
}

void study_rival(const Problem& p, const Asked& asked) {
    const RivalResult rival = ask_cbc(p, asked.rival_seconds, asked.threads);
    fmt::print("  {:<26} {:>12}   {:>8.3f} s   {}\n", "CBC on the whole model",
               rival.objective ? fmt::format("{:.1f}", *rival.objective) : "no plan", rival.seconds,
               rival.words);
}

int lot_used_most(const Problem& p, const Plan& plan) {
    std::vector<int> runs(p.lots.size(), 0);
    for (const Assignment& a : plan.assignments)
        ++runs[a.lot];
    return static_cast<int>(std::max_element(runs.begin(), runs.end()) - runs.begin());
}

/// The lot that most runs have is held; the plan is mended at the usual charge.
void study_replan(Problem p, const Plan& plan, const Asked& asked) {
    if (plan.assignments.empty())
        return;
    const int lot = lot_used_most(p, plan);
    for (int r = 0; r < p.run_count(); ++r)
        p.ban(lot, r, Ban::held);
    Mending mending;
    mending.touched = touched_runs(p, plan);
    mending.charge_per_change = p.weights.lot_change;
    mending.effort = {0, BoundProof::leave_out, 1, 0, asked.threads};
    solver::ClpSolver clp;
    const double touched = std::max(1.0, static_cast<double>(mending.touched.size()));
    for (const double seconds : {0.0, 0.2, 0.4}) {
        mending.effort.seconds = seconds;
        const auto started = std::chrono::steady_clock::now();
        const Outcome mended = mend_plan(p, plan, clp, mending, nullptr, {});
        const double took = since(started);
        tell(p, seconds == 0 ? "replan, touched only" : fmt::format("replan, {} s", seconds).c_str(), took,
             mended.evaluation);
        const std::size_t changed = changed_runs(p, plan, mended.plan).size();
        fmt::print("  {:<26} {:>12.2f}   changed runs a touched one; {} changed, {} touched by holding {}\n",
                   "", static_cast<double>(changed) / touched, changed, mending.touched.size(),
                   p.lots[lot].id);
    }
}

void study(const Problem& p, const Asked& asked) {
    double stock = 0;
    double need = 0;
    for (const Lot& lot : p.lots)
        stock += lot.stock_t;
    for (const Run& run : p.runs)
        need += run.demand_t;
    fmt::print("{}: {} lots x {} runs, {:.0f} t in stock, {:.0f} t needed\n", p.name, p.lot_count(),
               p.run_count(), stock, need);
    study_first(p);
    const Plan plan = study_search(p, asked);
    study_bound(p, asked.bound_seconds);
    if (asked.rival == "cbc")
        study_rival(p, asked);
    if (asked.replan)
        study_replan(p, plan, asked);
}

std::optional<std::string> bytes_of(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    if (!file)
        return std::nullopt;
    std::stringstream text;
    text << file.rdbuf();
    return text.str();
}

} // namespace

int main(int count, char** given) {
    const auto asked = read_words({given + 1, given + count});
    if (!asked)
        return 2;
    std::optional<std::string> text =
        asked->file.empty()
            ? made_instance(*made_size(asked->size), static_cast<std::uint64_t>(asked->instance_seed))
            : bytes_of(asked->file);
    if (!text) {
        fmt::print(stderr, "{} cannot be read.\n", asked->file);
        return 1;
    }
    if (!asked->write.empty()) {
        std::ofstream file(asked->write, std::ios::binary);
        file << *text;
        file.close();
        return file ? 0 : 1;
    }
    const auto problem = exchange::read_instance(*text);
    if (!problem) {
        for (const Refusal& refusal : problem.refusals())
            fmt::print(stderr, "{}\n", in_words(refusal));
        return 1;
    }
    study(*problem, *asked);
    return 0;
}
