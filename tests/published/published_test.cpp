#include "published/row_file.h"
#include "support/catch.h"

#include <charconv>
#include <cmath>
#include <set>

namespace mellowbin::published {
namespace {

std::map<std::string, Evaluator>& registry() {
    static std::map<std::string, Evaluator> all;
    return all;
}

const std::vector<RowFile>& all_files() {
    static const auto files = read_row_files(MELLOWBIN_FIXTURES "/published");
    return files;
}

double number_in(const std::string& words) {
    double value = std::nan("");
    const auto [end, fault] = std::from_chars(words.data(), words.data() + words.size(), value);
    return fault == std::errc{} && end == words.data() + words.size() ? value : std::nan("");
}

void check_answer(const Row& row, const Answer& answer) {
    if (row.tolerance == "exact") {
        REQUIRE(std::holds_alternative<std::string>(answer));
        CHECK(std::get<std::string>(answer) == row.expected);
        return;
    }
    REQUIRE(std::holds_alternative<double>(answer));
    const double ours = std::get<double>(answer);
    INFO("ours " << ours << ", published " << row.expected << ", tolerance " << row.tolerance);
    CHECK(std::abs(ours - number_in(row.expected)) <= number_in(row.tolerance));
}

} // namespace

Registered::Registered(const std::string& check, Evaluator evaluate) {
    registry()[check] = std::move(evaluate);
}

const std::map<std::string, Evaluator>& evaluators() { return registry(); }

TEST_CASE("Every file of published figures says its source, place, tolerance, check and status") {
    REQUIRE(!all_files().empty());
    for (const auto& file : all_files()) {
        INFO(file.name);
        for (const auto* key : {"source", "place", "tolerance", "check", "status"}) {
            INFO(key);
            CHECK(file.head.contains(key));
        }
        CHECK(evaluators().contains(file.head.at("check")));
        const auto& status = file.head.at("status");
        CHECK((status.starts_with("outside check") || status.starts_with("derived: arithmetic check")));
        CHECK(!file.rows.empty());
    }
}

TEST_CASE("Every published row has an id of its own and a tolerance one can fail") {
    for (const auto& file : all_files()) {
        std::set<std::string> ids;
        for (const auto& row : file.rows) {
            INFO(file.name << " " << row.id);
            CHECK(ids.insert(row.id).second);
            if (row.tolerance == "exact")
                continue;
            CHECK(number_in(row.tolerance) >= 0);
            CHECK(std::isfinite(number_in(row.expected)));
        }
    }
}

TEST_CASE("Every evaluator has rows to evaluate") {
    std::set<std::string> used;
    for (const auto& file : all_files())
        used.insert(file.head.at("check"));
    for (const auto& [check, evaluate] : evaluators()) {
        INFO(check);
        CHECK(used.contains(check));
    }
}

TEST_CASE("Our figures come as near to the published ones as each row asks") {
    for (const auto& file : all_files()) {
        const auto& evaluate = evaluators().at(file.head.at("check"));
        for (const auto& row : file.rows) {
            INFO(file.name << " " << row.id << " " << row.note);
            check_answer(row, evaluate(row));
        }
    }
}

} // namespace mellowbin::published
