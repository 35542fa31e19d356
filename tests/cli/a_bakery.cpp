#include "a_bakery.h"

#include "cli/command_line.h"
#include "core/day.h"
#include "support/catch.h"
#include "support/iso.h"

#include <fmt/format.h>

#include <chrono>

namespace mellowbin::tests {
namespace {

constexpr const char* plant = R"({
  "plant": "Small plant", "mills": ["Weir Mill"],
  "flours": [{"name": "Strong white", "class": "white"}],
  "places": [{"name": "Bay 1", "kind": "bay", "air": "breathable_bag", "temperature_c": 20},
             {"name": "Bay 2", "kind": "bay", "air": "breathable_bag", "temperature_c": 12}],
  "lines": [{"name": "Line 1", "friction_factor_c": 24}],
  "products": [{"name": "Pan bread", "flour": "Strong white", "market": "Canada", "food": "bread",
                "maturity_target": 0.5, "oxidant": "ascorbic_acid", "house_maximum_ppm": 60,
                "batch_flour_kg": 100}]})";

} // namespace

ABakery::ABakery() {
    terminal.write("plant.json", plant);
    done({"plant", terminal.file("plant.json")});
    std::string lots = "lot number;mill;flour;place;milled on;delivered on;weight kg;moisture %;"
                       "protein % (14 % moisture);absorption % (14 % moisture)\n";
    for (int i = 201; i <= 206; ++i)
        lots +=
            fmt::format("W24-{};Weir Mill;Strong white;Bay 1;2026-10-30;2026-11-02;1000;13.6;12.5;61.0\n", i);
    terminal.write("lots.csv", lots);
    done({"take-in", terminal.file("lots.csv")});
}

std::string ABakery::done(std::vector<std::string> words) {
    const std::string command = words.front();
    const int code = terminal.on_book(std::move(words));
    INFO(command << ": " << terminal.err);
    REQUIRE(code == cli::done);
    return terminal.out;
}

nlohmann::json ABakery::json(std::vector<std::string> words) {
    words.emplace_back("--json");
    auto read = nlohmann::json::parse(done(std::move(words)), nullptr, false);
    REQUIRE_FALSE(read.is_discarded());
    return read;
}

std::string ABakery::refused(std::vector<std::string> words) {
    const int code = terminal.on_book(std::move(words));
    INFO(terminal.out << terminal.err);
    REQUIRE(code == cli::not_done);
    CHECK(terminal.out.empty());
    CHECK_FALSE(terminal.err.empty());
    return terminal.err;
}

void ABakery::retest(const std::string& lot, const std::string& day, const std::string& result) {
    done({"retest", lot, "--day", day, "--result", result});
}

std::size_t ABakery::journal_lines() { return json({"journal"}).size(); }

std::string a_log_with_a_gap(const std::string& heads, const std::string& values, int year) {
    const Day first = day_from_iso(fmt::format("{}-11-02", year));
    const Day gap = first + Days{8};
    const Instant end = Instant{first + Days{23}} + std::chrono::hours{9};
    std::string log = heads + "\n";
    for (Instant at{first}; at <= end; at += std::chrono::hours{1})
        if (at < Instant{gap} || at >= Instant{gap + Days{3}})
            log += fmt::format("{},{}\n", iso(at), values);
    return log;
}

} // namespace mellowbin::tests
