#include "cli/command_line.h"
#include "support/catch.h"
#include "terminal.h"

#include <nlohmann/json.hpp>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

using namespace mellowbin;
using tests::Terminal;

TEST_CASE("A planning instance read by the command line gives a plan that the independent scorer accepts") {
    const std::filesystem::path data = MELLOWBIN_REFERENCE_DATA;
    const auto instance = data / "plan" / "M-1.json";
    const auto scorer = data.parent_path() / "tools" / "score_plan.py";
    if (data.empty() || !std::filesystem::exists(instance) || !std::filesystem::exists(scorer)) {
        WARN("the reference tables are not here: skipped");
        return;
    }
    Terminal terminal;
    REQUIRE(terminal.type({"plan", "--instance", instance.string(), "--out", terminal.file("plan.json")}) ==
            cli::done);
    std::ostringstream command;
    command << "python3 '" << scorer.string() << "' '" << instance.string() << "' '"
            << terminal.file("plan.json") << "' > '" << terminal.file("score.txt") << "'";
    REQUIRE(std::system(command.str().c_str()) == 0); // 0: no rule broken
    std::ifstream score(terminal.file("score.txt"));
    std::string word;
    double objective = 0;
    score >> word >> objective;
    CHECK(word == "objective");
    CHECK(objective < 112'000);
    std::ifstream plan(terminal.file("plan.json"));
    CHECK(nlohmann::json::parse(plan)["objective"] == Approx(objective).epsilon(1e-6));
}

TEST_CASE("An instance that is none is refused by name") {
    Terminal terminal;
    terminal.write("broken.json", R"({"lots": [], "runs": 3})");
    CHECK(terminal.type({"plan", "--instance", terminal.file("broken.json")}) == cli::not_done);
    CHECK_FALSE(terminal.err.empty());
    CHECK(terminal.out.empty());
}
