#include "exchange/climate_day.h"
#include "exchange/kept_file.h"
#include "exchange/lesson.h"
#include "exchange/scan.h"
#include "exchange/taught.h"
#include "fuzz/target.h"
#include "support/catch.h"
#include "support/fixture_file.h"

#include <filesystem>
#include <map>

using namespace mellowbin;
using testing::fixture;

namespace {

namespace fs = std::filesystem;

/// The files of the folders that seeds.txt names, by name.
std::map<std::string, std::string> seeds() {
    std::map<std::string, std::string> all;
    std::istringstream folders(testing::file_bytes(fs::path(MELLOWBIN_SOURCE) / "tests/fuzz/seeds.txt"));
    for (std::string folder; std::getline(folders, folder);)
        for (const auto& entry : fs::directory_iterator(fs::path(MELLOWBIN_FIXTURES) / folder))
            if (entry.is_regular_file())
                all[folder + "/" + entry.path().filename().string()] = testing::file_bytes(entry.path());
    return all;
}

std::string times(std::size_t count, std::string_view text) {
    std::string all;
    for (std::size_t i = 0; i < count; ++i)
        all += text;
    return all;
}

/// "a0,a1,a2,…"
std::string counted(std::size_t count, std::string_view before, std::string_view behind) {
    std::string all;
    for (std::size_t i = 0; i < count; ++i)
        all += (i == 0 ? "" : ",") + std::string(before) + std::to_string(i) + std::string(behind);
    return all;
}

/// What is too much or too deep, and no file to keep. Whoever compares each with each is never done with it.
std::map<std::string, std::string> far_too_much() {
    constexpr std::size_t deep = 50'000, many = 20'000;
    const auto nested = times(deep, "[") + times(deep, "]");
    return {
        {"lists without an end", times(deep, "[")},
        {"an instance with lists in lists", R"({"horizon":)" + nested + "}"},
        {"a plant with lists in lists",
         R"({"plant":"P","places":[{"name":"A","temperature_c":)" + nested + "}]}"},
        {"a lesson with lists in lists",
         R"({"lot":1,"mill":1,"flour":1,"flour_class":"white","properties":[)" + nested + "]}"},
        {"a plant of many mills", R"({"plant":"P","mills":[)" + counted(many, "\"M", "\"") + "]}"},
        {"a plant of many faults",
         R"({"plant":"P","lines":[)" + counted(many / 2, R"({"nome":"L)", "\"}") + "]}"},
        {"a product of many ingredients", R"({"plant":"P","products":[{"name":"A","ingredients":[)" +
                                              counted(many, R"({"name":"I)", "\"}") + "]}]}"},
        {"a table of many heads", counted(5 * many, "h", "") + "\n"},
        {"a table of many empty heads", "lot number,weight kg" + times(5 * many, ",") + "\n"},
        {"a label of many lots", "]C1" + counted(many, "10A", "\x1d")},
        {"a typed label of one lot many times", times(many, "(10)A")},
        {"a scan of separators alone", "]C1" + times(many, "<GS>")},
    };
}

} // namespace

TEST_CASE("No reader of foreign bytes is brought down by a seed, whole or torn") {
    const auto all = seeds();
    CHECK(all.size() > 50);
    CHECK(fuzz::targets().size() >= 8);
    for (const auto& target : fuzz::targets())
        for (const auto& [name, bytes] : all)
            for (const auto length : {bytes.size(), bytes.size() / 2, bytes.size() - bytes.size() / 8}) {
                INFO(target.name << ", the first " << length << " bytes of " << name);
                CHECK_NOTHROW(target.take(std::string_view(bytes).substr(0, length)));
            }
}

TEST_CASE("No reader of foreign bytes is brought down, or held up, by far too much") {
    for (const auto& target : fuzz::targets())
        for (const auto& [name, bytes] : far_too_much()) {
            INFO(target.name << ": " << name);
            CHECK_NOTHROW(target.take(bytes));
        }
}

TEST_CASE("The seeds that are to be sound are") {
    CHECK(exchange::read_kept_file(fixture("seeds/kept_work.txt")));
    CHECK_NOTHROW(exchange::lesson_from_json(fixture("seeds/lesson.json")));
    CHECK_NOTHROW(exchange::taught_from_json(fixture("seeds/taught.json")));
    CHECK(exchange::climate_day_from_json(Day{}, fixture("seeds/climate_day.json")));
    for (const char* name : {"pallet", "bag", "printed", "link"}) {
        INFO(name);
        const auto scan = exchange::read_scan(fixture(std::string("seeds/scan_") + name + ".txt"));
        CHECK((scan && scan->is_gs1()));
    }
    CHECK(*exchange::lot_number_in(fixture("seeds/scan_typed.txt")) == "FL-240917A");
}
