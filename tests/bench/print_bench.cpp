// A paper must be there when the hand leaves the button: a pallet's label in less than 50 ms.

#include "print/label.h"
#include "print/listing_sheet.h"

#include <benchmark/benchmark.h>

#include <cstdlib>

namespace {

using namespace mellowbin;
using namespace mellowbin::print;

const Day today{date::sys_days{date::year{2026} / 11 / 25}};

void label(benchmark::State& state) {
    LabelledFlour flour;
    flour.sscc = "095201234500000014";
    flour.gtin = "09521234543213";
    flour.lot = "FL-240917A";
    flour.flour = "Strong white";
    flour.mill = "Harrow Mill";
    flour.milled_on = today - Days{50};
    flour.best_before = today + Days{180};
    flour.net = Grams{900'000};
    flour.place = "Bay 2";
    for (auto _ : state) {
        const auto drawing = pallet_label(flour, usual_pallet_label, Instant{today}, today);
        const auto bytes = drawing ? drawing->pdf() : Result<std::string>(drawing.refusals());
        if (!bytes)
            std::abort();
        benchmark::DoNotOptimize(bytes->size());
    }
}
BENCHMARK(label)->Unit(benchmark::kMillisecond);

void list_of_a_thousand(benchmark::State& state) {
    Listing listing{"lots", "Lots in stock", {}, {{"Lot", ""}, {"Flour", ""}, {"Place", ""}}, {}};
    listing.columns.push_back({"Weight", "kg", Listing::Holds::number, 1});
    for (int i = 0; i < 1000; ++i)
        listing.rows.push_back(
            {"W26-" + std::to_string(i), std::string("Strong white"), std::string("Bay 2"), 25.0 * i});
    for (auto _ : state) {
        const auto bytes = pdf_of(listing, a4, {"Wed 25 Nov 2026, 04:10", Instant{today}});
        if (!bytes)
            std::abort();
        benchmark::DoNotOptimize(bytes->size());
    }
}
BENCHMARK(list_of_a_thousand)->Unit(benchmark::kMillisecond);

} // namespace
