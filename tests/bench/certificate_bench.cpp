// What it takes to read a certificate of a thousand lots of eighteen columns and to accept them, from the
// file's bytes on. Asked for is less than 1 s.
#include "exchange/certificate_paper.h"
#include "exchange/certificate_sheet.h"
#include "support/made_certificates.h"
#include "support/packed_parts.h"

#include <benchmark/benchmark.h>

#include <stdexcept>

namespace {

using namespace mellowbin;

void read_lots(benchmark::State& state, const std::string& bytes) {
    exchange::CertificateRequest request;
    request.defaults = {"Weir Mill", "Bread flour", "Bay 1", "2026-11-20"};
    const std::vector<Mill> mills{{MillId{1}, "Weir Mill"}};
    const std::vector<Flour> flours{{FlourId{1}, "Bread flour", FlourClass::white, {}}};
    const std::vector<Place> places{
        {PlaceId{1}, "Bay 1", PlaceKind::bay, Air::breathable_bag, Celsius{20}, {}, {}}};
    const IntakeContext context{Day{date::year{2026} / 11 / 25}, mills, flours, places};
    for (auto _ : state) {
        const auto sheets = exchange::read_paper(bytes);
        const auto reading = exchange::understand(sheets.value(), request);
        const auto outcome = exchange::accept_reading(reading, context, OnRefusedLine::take_nothing);
        if (outcome.lots.size() != 1'000)
            throw std::logic_error("not all lots were read");
        benchmark::DoNotOptimize(outcome);
    }
}

void a_thousand_lots_of_text(benchmark::State& state) { read_lots(state, testing::made_certificates(1'000)); }

void a_thousand_lots_of_a_spreadsheet(benchmark::State& state) {
    testing::Cells cells(1, {""});
    for (const char c : testing::made_certificates(1'000)) {
        if (c == '\n')
            cells.push_back({""});
        else if (c == '\t')
            cells.back().emplace_back();
        else
            cells.back().back() += c;
    }
    read_lots(state, testing::xlsx_of(cells));
}

/// Ten million cells are refused, and it is found out after the first million.
void ten_million_cells(benchmark::State& state) {
    std::string rows;
    for (unsigned row = 1; row <= 500'000; ++row) {
        rows += "<row>";
        for (unsigned i = 0; i < 20; ++i)
            rows += "<c><v>" + std::to_string((row * 7919 + i * 31) % 100) + "</v></c>";
        rows += "</row>";
    }
    const auto bytes = testing::spreadsheet(rows);
    for (auto _ : state)
        if (exchange::read_paper(bytes))
            throw std::logic_error("ten million cells were read");
}

BENCHMARK(ten_million_cells)->Unit(benchmark::kMillisecond);
BENCHMARK(a_thousand_lots_of_text)->Unit(benchmark::kMillisecond);
BENCHMARK(a_thousand_lots_of_a_spreadsheet)->Unit(benchmark::kMillisecond);

} // namespace
