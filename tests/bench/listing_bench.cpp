// What it takes to save a list of 20,000 lots with 17 columns as a spreadsheet (written, then read back) and
// as CSV.
#include "core/listing.h"
#include "exchange/listing_csv.h"
#include "exchange/listing_xlsx.h"

#include <benchmark/benchmark.h>

#include <filesystem>
#include <stdexcept>

namespace {

using namespace mellowbin;

/// Of kinds as the list of lots has them.
Listing made_list(std::size_t rows) {
    using Holds = Listing::Holds;
    Listing list;
    list.name = "lots";
    list.title = "Lots";
    for (const auto holds :
         {Holds::text, Holds::text, Holds::text, Holds::text, Holds::day, Holds::day, Holds::number,
          Holds::text, Holds::number, Holds::number, Holds::number, Holds::number, Holds::text, Holds::text,
          Holds::number, Holds::day, Holds::instant})
        list.columns.push_back({"Column", "unit", holds, 1});
    const Day day{date::year{2026} / 11 / 25};
    for (std::size_t r = 0; r < rows; ++r) {
        auto& row = list.rows.emplace_back();
        for (std::size_t c = 0; c < list.columns.size(); ++c) {
            const auto n = r * 17 + c;
            switch (list.columns[c].holds) {
            case Holds::text:
                row.emplace_back("Мука W24-" + std::to_string(n % 977));
                break;
            case Holds::number:
                row.emplace_back(static_cast<double>(n % 9973) / 7);
                break;
            case Holds::day:
                row.emplace_back(day - Days{static_cast<int>(n % 700)});
                break;
            case Holds::instant:
                row.emplace_back(Instant(day) - std::chrono::seconds{n});
                break;
            }
        }
    }
    return list;
}

void spreadsheet_of_20000_lots(benchmark::State& state) {
    const auto list = made_list(20'000);
    const auto file = std::filesystem::temp_directory_path() / "mellowbin-listing-bench.xlsx";
    for (auto _ : state)
        if (!exchange::write_listing_xlsx(list, file))
            throw std::runtime_error("the spreadsheet was not written");
    state.counters["bytes"] = static_cast<double>(std::filesystem::file_size(file));
    std::filesystem::remove(file);
}

void csv_of_20000_lots(benchmark::State& state) {
    const auto list = made_list(20'000);
    for (auto _ : state)
        benchmark::DoNotOptimize(exchange::write_listing_csv(list));
}

BENCHMARK(spreadsheet_of_20000_lots)->Unit(benchmark::kMillisecond);
BENCHMARK(csv_of_20000_lots)->Unit(benchmark::kMillisecond);

} // namespace
