// The evaluator against an independent scorer, run as a program of its own on the reference instances.

#include "exchange/instance.h"
#include "planning/evaluate.h"
#include "planning/make_plan.h"
#include "small_problems.h"
#include "solver/clp_solver.h"
#include "support/catch.h"

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <unistd.h>
#include <utility>

using namespace mellowbin;
using namespace mellowbin::planning;

namespace {

namespace fs = std::filesystem;

std::string bytes_of(const fs::path& path) {
    std::ifstream file(path, std::ios::binary);
    std::stringstream text;
    text << file.rdbuf();
    return text.str();
}

/// What the scorer says of a plan.
struct Score {
    double objective = 0;
    int broken = 0;
};

class Scorer {
public:
    Scorer() { fs::create_directories(folder_); }
    Scorer(const Scorer&) = delete;
    Scorer& operator=(const Scorer&) = delete;
    ~Scorer() { fs::remove_all(folder_); }

    [[nodiscard]] static fs::path data() { return fs::path(MELLOWBIN_REFERENCE_DATA); }
    [[nodiscard]] static fs::path script() { return data().parent_path() / "tools" / "score_plan.py"; }
    /// Says why when not.
    [[nodiscard]] static bool is_there() {
        const bool there =
            !data().empty() && fs::exists(script()) && std::system("python3 -c '' 2>/dev/null") == 0;
        if (!there)
            WARN("skipped: no reference data with a scorer beside it, or no python3");
        return there;
    }

    /// Asks the scorer's own function, so that no digit is lost in print.
    [[nodiscard]] Score score(const fs::path& instance, const std::string& plan) const {
        std::ofstream(folder_ / "plan.json") << plan;
        std::ofstream(folder_ / "ask.py")
            << "import json, sys, collections\n"
               "sys.path.insert(0, sys.argv[1])\n"
               "import score_plan\n"
               "uses = collections.defaultdict(lambda: collections.defaultdict(float))\n"
               "for a in json.load(open(sys.argv[3]))['assignments']:\n"
               "    uses[a['run']][a['lot']] += a['tonnes']\n"
               "total, part, broken = score_plan.score(json.load(open(sys.argv[2])), uses)\n"
               "print(repr(total), len(broken))\n";
        const std::string command = "python3 -B '" + (folder_ / "ask.py").string() + "' '" +
                                    script().parent_path().string() + "' '" + instance.string() + "' '" +
                                    (folder_ / "plan.json").string() + "'";
        std::FILE* pipe = popen(command.c_str(), "r");
        REQUIRE(pipe);
        Score score;
        const int read = std::fscanf(pipe, "%lf %d", &score.objective, &score.broken);
        pclose(pipe);
        REQUIRE(read == 2);
        return score;
    }

private:
    fs::path folder_ = fs::temp_directory_path() / ("mellowbin_score_" + std::to_string(getpid()));
};

Problem read(const fs::path& path) {
    auto problem = exchange::read_instance(bytes_of(path));
    if (!problem)
        FAIL(in_words(problem.refusals().front()));
    return std::move(*problem);
}

/// Anything at all: too much, too little, lots that are not there yet.
Plan wild_plan(const Problem& p, RandomProblems& random) {
    Plan plan;
    for (int r = 0; r < p.run_count(); ++r)
        for (int n = random.whole(5); n > 0; --n)
            plan.assignments.push_back(
                {r, random.whole(p.lot_count()), random.between(0, 0.6 * p.runs[r].demand_t)});
    return plan;
}

Outcome outcome_of(const Plan& plan, const Evaluation& evaluation) {
    Outcome outcome;
    outcome.plan = plan;
    outcome.evaluation = evaluation;
    return outcome;
}

} // namespace

TEST_CASE("The evaluator agrees with the independent scorer on any plan, broken ones too") {
    if (!Scorer::is_there())
        return;
    const Scorer scorer;
    RandomProblems random(21);
    for (const char* name : {"S-1.json", "M-1.json"}) {
        const fs::path path = Scorer::data() / "plan" / name;
        const Problem p = read(path);
        for (int i = 0; i < 4; ++i) {
            const Plan plan = wild_plan(p, random);
            const Evaluation ours = evaluate(p, plan);
            const Score theirs = scorer.score(path, exchange::write_plan(p, outcome_of(plan, ours)));
            CHECK(ours.objective == Approx(theirs.objective).epsilon(1e-9).margin(1e-6));
            CHECK(static_cast<int>(ours.broken.size()) == theirs.broken);
            CHECK(theirs.broken > 0);
        }
    }
}

TEST_CASE("The plans made for the reference instances break no rule for the independent scorer, and cost "
          "what they say") {
    if (!Scorer::is_there())
        return;
    const Scorer scorer;
    solver::ClpSolver clp;
    for (const auto& [name, at_most] : {std::pair("S-1.json", 6000.0), std::pair("M-1.json", 20000.0)}) {
        const fs::path path = Scorer::data() / "plan" / name;
        const Problem p = read(path);
        const Outcome outcome = make_plan(p, clp, {5000, BoundProof::leave_out, 1, 0, 1}, nullptr, {});
        const Score theirs = scorer.score(path, exchange::write_plan(p, outcome));
        CHECK(theirs.broken == 0);
        CHECK(outcome.evaluation.objective == Approx(theirs.objective).epsilon(1e-9).margin(1e-6));
        CHECK(theirs.objective < at_most);
    }
}
