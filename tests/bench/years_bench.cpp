// What years of work before it cost a book that is in use: the demo's weeks alone, and with one, three and
// ten years before them, side by side. Every goal stands beside its figure.
//
//     years_bench [--books FOLDER] [--program FILE] [--years 0,1,3,10] [--times 5]
//                 [--only commands,window,acts,pages,migration]
//     years_bench --soak 10000
//
// The demo's runs of today have six batches each, one to warm up and five to count. The books stay in the
// folder; a second run finds them there. Under xvfb-run the window is measured, too.

#include "years_parts.h"

#include <fmt/format.h>

#include <cstdio>
#include <exception>
#include <sstream>
#include <string_view>

namespace {

namespace fs = std::filesystem;
using namespace mellowbin::bench;

struct Asked {
    fs::path books = fs::temp_directory_path() / "mellowbin-years";
    std::string program = MELLOWBIN_PROGRAM;
    std::vector<int> years{0, 1, 3, 10};
    int times = 5;
    int soak = 0;
    std::string only;

    [[nodiscard]] bool wants(std::string_view part) const {
        return only.empty() || ("," + only + ",").find(fmt::format(",{},", part)) != std::string::npos;
    }
};

std::vector<int> numbers_in(const std::string& text) {
    std::vector<int> numbers;
    std::istringstream words(text);
    for (std::string word; std::getline(words, word, ',');)
        numbers.push_back(std::stoi(word));
    return numbers;
}

Asked read(int argc, char** argv) {
    Asked asked;
    for (int i = 1; i + 1 < argc; i += 2) {
        const std::string_view name = argv[i];
        const std::string value = argv[i + 1];
        if (name == "--books")
            asked.books = value;
        else if (name == "--program")
            asked.program = value;
        else if (name == "--years")
            asked.years = numbers_in(value);
        else if (name == "--times")
            asked.times = std::stoi(value);
        else if (name == "--soak")
            asked.soak = std::stoi(value);
        else if (name == "--only")
            asked.only = value;
        else
            throw std::runtime_error(fmt::format("{} is not known; see the head of years_bench.cpp", name));
    }
    return asked;
}

int measure(const Asked& asked, const YearsBooks& books) {
    Measured measured{{}, asked.program, asked.times};
    for (const int years : asked.years)
        measured.books.push_back(books.with_years(years));
    YearsTable table(asked.years);
    if (asked.wants("commands"))
        measure_commands(table, measured);
    if (asked.wants("window"))
        measure_window(table, measured);
    if (asked.wants("acts"))
        measure_acts(table, measured);
    if (asked.wants("pages"))
        measure_pages(table, measured);
    if (asked.wants("migration"))
        measure_migration(table, books, 3);
    fmt::print("\n{}\n", table.missed() == 0 ? "All goals are met."
                                             : fmt::format("{} goals are not met.", table.missed()));
    return table.missed() == 0 ? 0 : 1;
}

} // namespace

int main(int argc, char** argv) {
    try {
        const auto asked = read(argc, argv);
        fs::create_directories(asked.books);
        const YearsBooks books(asked.books);
        if (asked.soak > 0)
            return soak(books.with_years(0), asked.soak) ? 0 : 1;
        return measure(asked, books);
    } catch (const std::exception& error) {
        fmt::print(stderr, "years_bench: {}\n", error.what());
        return 2;
    }
}
