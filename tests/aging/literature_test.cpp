#include "core/literature/constants.h"
#include "support/catch.h"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <sstream>

using namespace mellowbin::literature;

namespace {

std::string without_comments(const std::filesystem::path& path) {
    std::ifstream file{path};
    std::string code;
    for (std::string line; std::getline(file, line);)
        code += line.substr(0, line.find("//")) + "\n";
    return std::regex_replace(code, std::regex{R"("([^"\\]|\\.)*")"}, "");
}

} // namespace

TEST_CASE("Every published number has a source that the table of sources gives in full") {
    std::set<std::string_view> sources;
    for (const auto& source : all_sources) {
        CHECK(source.reference.size() > 10);
        CHECK(sources.insert(source.key).second);
    }
    for (const auto& constant : all_constants) {
        INFO(constant.key);
        CHECK(sources.contains(constant.source));
        CHECK(!constant.conditions.empty());
        CHECK(!constant.unit.empty());
    }
}

TEST_CASE("Every source is used by a number") {
    for (const auto& source : all_sources) {
        INFO(source.key);
        CHECK(std::any_of(all_constants.begin(), all_constants.end(),
                          [&](const Constant& c) { return c.source == source.key; }));
    }
}

TEST_CASE("Every published number lies in its own range") {
    for (const auto& constant : all_constants) {
        INFO(constant.key);
        CHECK(std::isfinite(constant.value));
        CHECK(constant.low <= constant.value);
        CHECK(constant.value <= constant.high);
    }
}

TEST_CASE("Keys are their own and name the part they belong to") {
    std::set<std::string_view> keys;
    for (const auto& constant : all_constants) {
        INFO(constant.key);
        CHECK(keys.insert(constant.key).second);
        CHECK((constant.key.starts_with("aging_") || constant.key.starts_with("dough_") ||
               constant.key.starts_with("logger_")));
    }
}

TEST_CASE("A figure without any source is called an assumption") {
    for (const auto& constant : all_constants) {
        INFO(constant.key);
        if (constant.source == "assumption")
            CHECK(constant.basis == FigureBasis::assumption);
    }
}

TEST_CASE("Aging has no number of its own: what is not plain arithmetic comes from the table") {
    // 10 and 20 are what "Q10" and "at 20 C" say; 100 is percent. The files apart hold mathematics: grids,
    // quadratures, the limits of a search, a made-up day by whose sums one form of them is told from another.
    const std::set<std::string> allowed{"0", "0.0", "1", "1.0", "1u", "2", "10", "20", "100"};
    // These also say which probabilities a spread is drawn from, or that its middle is taken: 0.1, 0.5, 0.9.
    const std::set<std::string> shares{"0.1", "0.5", "0.9"};
    const std::set<std::string> of_shares{"outlook.cpp", "retest_worth.cpp", "expected_change.cpp"};
    const std::set<std::string> apart{"normal.h",          "uncertain_clock.cpp", "uncertain_clock.h",
                                      "scenarios.cpp",     "scenarios.h",         "amplitude_table.cpp",
                                      "amplitude_table.h", "rate_belief.cpp",     "rate_belief.h",
                                      "clock_sums.h",      "clock_sums.cpp",      "learning.cpp",
                                      "learning.h",        "fat_acidity.cpp",     "climate_day.cpp"};
    const std::regex number{R"((^|[^\w.])(\d[\w.]*))"};
    int files = 0;
    for (const auto& entry : std::filesystem::directory_iterator{MELLOWBIN_SOURCE "/src/aging"}) {
        const auto name = entry.path().filename().string();
        if (apart.contains(name) || name == "CMakeLists.txt")
            continue;
        ++files;
        const auto code = without_comments(entry.path());
        for (std::sregex_iterator found{code.begin(), code.end(), number}, end; found != end; ++found) {
            INFO(name << ": " << (*found)[2]);
            const bool is_share = of_shares.contains(name) && shares.contains((*found)[2]);
            CHECK((is_share || allowed.contains((*found)[2])));
        }
    }
    CHECK(files > 5);
}

TEST_CASE("The table has a version that an estimate can be stored with") {
    CHECK(table_version.size() == 12);
}
