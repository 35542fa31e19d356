#include "app/book/pdf_text.h"
#include "exchange/certificate_file.h"
#include "exchange/laid_out_text.h"
#include "support/certificate_reading.h"
#include "support/cgc_flours.h"
#include "support/fixture_file.h"
#include "support/made_certificates.h"

#include <filesystem>

namespace mellowbin::exchange {
namespace {

using testing::all_words;

std::vector<Lot> by_their_own_reader(const std::string& csv) {
    const auto file = read_certificates(csv, {"Weir Mill", "Bread flour", "Bay 1", "2026-11-20"});
    REQUIRE(file);
    std::vector<Lot> lots;
    for (const auto& [line, lot] :
         accept_certificates(*file, testing::SmallPlant{}.context(), OnRefusedLine::take_the_good).lots)
        lots.push_back(lot);
    return lots;
}

} // namespace

// Through pdftotext, as a mill's file comes; the same table as CSV, XLSX and pasted text stands in
// tests/exchange/certificate_own_files_test.cpp.
TEST_CASE("The 56 published flours are the same lots out of a PDF as out of CSV") {
    const auto path = std::filesystem::path(MELLOWBIN_REFERENCE_DATA) / "flour_cgc.csv";
    if (!std::filesystem::exists(path)) {
        WARN("skipped: no flour_cgc.csv in MELLOWBIN_REFERENCE_DATA (\"" MELLOWBIN_REFERENCE_DATA "\")");
        return;
    }
    const auto csv = testing::certificates_of_cgc_flours(testing::file_bytes(path));
    const auto expected = by_their_own_reader(csv);
    REQUIRE(expected.size() == 56);
    const auto words = app::pdf_text(testing::pdf_of(testing::cells_of_csv(csv)));
    INFO((words ? "" : all_words(words.refusals())));
    REQUIRE(words);
    const auto sheet = read_laid_out_text(*words, SheetKind::pages);
    REQUIRE(sheet);
    const auto reading = understand({&*sheet, 1}, testing::request());
    INFO(all_words(reading.troubles));
    CHECK(reading.questions.empty());
    const auto outcome =
        accept_reading(reading, testing::SmallPlant{}.context(), OnRefusedLine::take_the_good);
    CHECK(all_words(outcome.refused).empty());
    REQUIRE(outcome.lots.size() == 56);
    for (std::size_t i = 0; i < expected.size(); ++i) {
        INFO(expected[i].code);
        CHECK(outcome.lots[i].accepted == expected[i]);
    }
}

} // namespace mellowbin::exchange
