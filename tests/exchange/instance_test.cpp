#include "exchange/instance.h"
#include "planning/enumeration.h"
#include "planning/make_plan.h"
#include "solver/clp_solver.h"
#include "support/catch.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>

using namespace mellowbin;
using namespace mellowbin::planning;

namespace {

namespace fs = std::filesystem;
using nlohmann::json;

std::string bytes_of(const fs::path& path) {
    std::ifstream file(path, std::ios::binary);
    std::stringstream text;
    text << file.rdbuf();
    return text.str();
}

json sound() {
    return json::parse(bytes_of(fs::path(MELLOWBIN_FIXTURES) / "instances" / "first_expiring.json"));
}

std::string refusals_of(const json& file) {
    const auto problem = exchange::read_instance(file.dump());
    REQUIRE_FALSE(problem);
    std::string words;
    for (const Refusal& refusal : problem.refusals())
        words += in_words(refusal) + "\n";
    return words;
}

} // namespace

TEST_CASE("Each small instance has the best value its comment works out, and the plan reaches it") {
    int files = 0;
    for (const auto& entry : fs::directory_iterator(fs::path(MELLOWBIN_FIXTURES) / "instances")) {
        if (entry.path().extension() != ".json")
            continue;
        ++files;
        const std::string text = bytes_of(entry.path());
        DYNAMIC_SECTION(entry.path().filename().string()) {
            const json file = json::parse(text);
            const double best = file.at("bestObjective").get<double>();
            CHECK_FALSE(file.at("comment").empty());
            const auto problem = exchange::read_instance(text);
            REQUIRE(problem);
            CHECK(Enumeration(*problem).best() == Approx(best).epsilon(1e-6));
            solver::ClpSolver clp;
            const Outcome outcome = make_plan(*problem, clp, {}, nullptr, {});
            CHECK(outcome.evaluation.objective == Approx(best).epsilon(1e-6));
            CHECK(outcome.evaluation.broken.empty());
            CHECK(outcome.bound.value() <= best + 1e-6);
        }
    }
    CHECK(files >= 4);
}

TEST_CASE("What an instance says is what the problem holds") {
    json file = sound();
    file["runs"][0]["frozen"] = true;
    file["locks"] = {{{"run", "R1"}, {"lot", "late"}, {"tonnes", 2.5}}};
    const auto read = exchange::read_instance(file.dump());
    REQUIRE(read);
    const Problem& p = *read;
    CHECK(p.horizon_days == 7);
    CHECK(p.weights == Weights{});
    CHECK(p.products[0].windows[0] == Window{11.5, 12.5, 0.5});
    CHECK(p.products[0].oxidant == OxidantPolicy::allowed);
    CHECK(p.lots[0].values[2] == Approx(24)); // 6000/(300 - 50)
    CHECK(p.at(0, 0).maturity_points == Approx(90 * (1 - std::exp(-4.0))));
    CHECK(p.runs[0].state == RunState::frozen);
    CHECK(p.runs[1].state == RunState::open);
    REQUIRE(p.locks.size() == 1);
    CHECK(p.locks[0].lot == 1);
    CHECK(p.locks[0].tonnes == 2.5);
}

TEST_CASE("A lot that may not be used says which rule forbids it") {
    json file = sound();
    file["runs"][1]["day"] = 30;
    file["lots"][1]["released"] = 31;
    const auto p = exchange::read_instance(file.dump());
    REQUIRE(p);
    CHECK(p->at(0, 1).ban == Ban::past_use_by);
    CHECK(p->notes[p->at(0, 1).note] == "is past its use-by day 20");
    CHECK(p->at(1, 1).ban == Ban::not_released);
    CHECK(p->at(0, 0).ban == Ban::none);
    file["lots"][1]["arrived"] = 31;
    CHECK(exchange::read_instance(file.dump())->at(1, 1).ban == Ban::not_arrived);
    file["lots"][1]["arrived"] = file["lots"][1]["released"] = 0;
    file["lots"][1]["readyFrom"] = 31;
    CHECK(exchange::read_instance(file.dump())->at(1, 1).ban == Ban::not_ready);
}

TEST_CASE("A faulty instance is refused, naming what is wrong where") {
    json file = sound();
    SECTION("missing field") {
        file["lots"][1].erase("stockT");
        CHECK(refusals_of(file) == "late, stockT: is missing\n");
    }
    SECTION("every fault at once") {
        file["lots"][1].erase("stockT");
        file["runs"][0]["demandT"] = "six";
        CHECK(refusals_of(file) ==
              "late, stockT: is missing\nR1, demandT: reads \"six\", a number is expected\n");
    }
    SECTION("unknown product") {
        file["runs"][1]["product"] = 3;
        CHECK(refusals_of(file).find("R2: names a product that is not in the list") == 0);
    }
    SECTION("loop") {
        file["runs"][0]["prevOnLine"] = 1;
        CHECK(refusals_of(file).find("form a loop") != std::string::npos);
    }
    SECTION("window") {
        file["products"][0]["protein"] = {12.5, 11.5};
        CHECK(refusals_of(file) == "products, number 1, protein: the low 12.5 is not below the high 11.5\n");
    }
    SECTION("negative stock") {
        file["lots"][0]["stockT"] = -1;
        CHECK(refusals_of(file) == "soon: has -1 t in stock; zero or more is expected. Count the lot\n");
    }
    SECTION("falling number without a liquefaction number") {
        file["lots"][0]["fallingNumber"] = 50;
        CHECK(refusals_of(file) == "soon, fallingNumber: must be above 50 s\n");
    }
    SECTION("no weights") {
        file.erase("weights");
        CHECK(refusals_of(file) == "instance, weights: is missing\n");
    }
    SECTION("lots are not a list") {
        file["lots"] = 7;
        CHECK(refusals_of(file) == "lots: a list is expected\n");
    }
    SECTION("a lot is not an object") {
        file["lots"][0] = 7;
        CHECK(refusals_of(file).find("lots, number 1: an object is expected\n") == 0);
    }
    SECTION("a lock on a lot that is not there") {
        file["locks"] = {{{"run", "R1"}, {"lot", "L9"}, {"tonnes", 1}}};
        CHECK(refusals_of(file) == "locks, number 1, lot: reads \"L9\", which is not in the list\n");
    }
}

TEST_CASE("What is no instance at all is refused") {
    const auto words = [](const char* text) {
        const auto problem = exchange::read_instance(text);
        REQUIRE_FALSE(problem);
        return in_words(problem.refusals().front());
    };
    CHECK(words("").find("is not JSON") == 0);
    CHECK(words("{\"lots\": [").find("is not JSON: stopped at byte 11") == 0);
    CHECK(words("[]") == "an object with lots, products and runs is expected");
    CHECK(words("{}").find("is missing") != std::string::npos);
}

TEST_CASE("No lots and no runs are well") {
    json file = sound();
    file["lots"] = json::array();
    CHECK(exchange::read_instance(file.dump()));
    file["runs"] = json::array();
    CHECK(exchange::read_instance(file.dump()));
}

TEST_CASE("A plan is written by the names of runs and lots, with its objective, parts and bound") {
    const auto p = exchange::read_instance(sound().dump());
    REQUIRE(p);
    const Plan plan{{{0, 0, 6.0}, {1, 1, 4.0}}};
    planning::Outcome outcome;
    outcome.plan = plan;
    outcome.evaluation = evaluate(*p, plan);
    outcome.bound = 3.0;
    outcome.tiers.shortage = 0.0;
    outcome.steps = 7;
    const json out = json::parse(exchange::write_plan(*p, outcome));
    CHECK(out["assignments"] ==
          json::parse(R"([{"run":"R1","lot":"soon","tonnes":6.0},{"run":"R2","lot":"late","tonnes":4.0}])"));
    CHECK(out["objective"].get<double>() == Approx(25 + 4 * 0.0005 * (59 * 59 - 19 * 19)));
    CHECK(out["parts"]["lotChanges"] == 25);
    CHECK(out["bound"] == 3.0);
    CHECK(out["boundByPart"] == json::parse(R"({"shortage": 0.0})"));
    CHECK(out["steps"] == 7);
    outcome.bound.reset();
    CHECK_FALSE(json::parse(exchange::write_plan(*p, outcome)).contains("bound"));
}
