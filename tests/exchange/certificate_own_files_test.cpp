#include "exchange/certificate_file.h"
#include "exchange/certificate_paper.h"
#include "exchange/laid_out_text.h"
#include "support/certificate_reading.h"
#include "support/cgc_flours.h"
#include "support/fixture_file.h"
#include "support/made_certificates.h"

// The program's own certificate files, read as any other certificate, give the lots that their own reader
// gives; and so do the same tables as XLSX, as a PDF's words and as pasted text.

namespace mellowbin::exchange {
namespace {

using testing::all_words;
using testing::fixture;

const CertificateDefaults defaults{"Weir Mill", "Bread flour", "Bay 1", "2026-11-20"};

std::vector<Lot> by_their_own_reader(const std::string& bytes) {
    const auto file = read_certificates(bytes, defaults);
    REQUIRE(file);
    std::vector<Lot> lots;
    for (const auto& [line, lot] :
         accept_certificates(*file, testing::SmallPlant{}.context(), OnRefusedLine::take_the_good).lots)
        lots.push_back(lot);
    return lots;
}

std::vector<Lot> as_any_other(const std::vector<Sheet>& sheets) {
    const auto reading = understand(sheets, testing::request());
    INFO(all_words(reading.troubles));
    CHECK(reading.questions.empty());
    const auto outcome =
        accept_reading(reading, testing::SmallPlant{}.context(), OnRefusedLine::take_the_good);
    INFO(all_words(outcome.refused));
    CHECK(outcome.refused.empty());
    std::vector<Lot> lots;
    for (const auto& accepted : outcome.lots)
        lots.push_back(accepted.accepted);
    return lots;
}

std::vector<Lot> as_any_other(const std::string& bytes) {
    const auto sheets = read_paper(bytes);
    INFO((sheets ? "" : all_words(sheets.refusals())));
    REQUIRE(sheets);
    return as_any_other(*sheets);
}

/// Empty when the reference tables are not there.
std::string table_of_flours() {
    const std::filesystem::path folder(MELLOWBIN_REFERENCE_DATA);
    const auto path = folder / "flour_cgc.csv";
    return folder.empty() || !std::filesystem::exists(path) ? "" : testing::file_bytes(path);
}

/// As many lots, and each the same in every field.
void check_same(const std::vector<Lot>& lots, const std::vector<Lot>& expected) {
    REQUIRE(lots.size() == expected.size());
    for (std::size_t i = 0; i < lots.size(); ++i) {
        INFO(expected[i].code);
        CHECK(lots[i] == expected[i]);
    }
}

} // namespace

TEST_CASE("The program's own certificate files give the same lots as any other certificate") {
    for (const auto* name : {"certificates/three_lots.csv", "certificates/semicolon_decimal_comma.csv",
                             "certificates/as_is_tab.csv"}) {
        INFO(name);
        const auto expected = by_their_own_reader(fixture(name));
        CHECK(!expected.empty());
        check_same(as_any_other(fixture(name)), expected);
    }
}

TEST_CASE("The 56 published flours are the same lots as CSV, XLSX, PDF and pasted text") {
    const auto table = table_of_flours();
    if (table.empty()) {
        WARN("skipped: no flour_cgc.csv in MELLOWBIN_REFERENCE_DATA (\"" MELLOWBIN_REFERENCE_DATA "\")");
        return;
    }
    const auto csv = testing::certificates_of_cgc_flours(table);
    const auto expected = by_their_own_reader(csv);
    REQUIRE(expected.size() == 56);
    check_same(as_any_other(csv), expected);
    const auto cells = testing::cells_of_csv(csv);
    check_same(as_any_other(testing::xlsx_of(cells)), expected);
    check_same(as_any_other(testing::pasted_from_a_spreadsheet(cells)), expected);
    check_same(as_any_other(testing::pasted_in_blanks(cells)), expected);
    const auto words = read_laid_out_text(testing::page_words_of(cells), SheetKind::pages);
    REQUIRE(words);
    check_same(as_any_other(std::vector<Sheet>{*words}), expected);
}

TEST_CASE("A thousand lots of a file are all read") {
    const auto reading = understand(*read_paper(testing::made_certificates(1'000)), testing::request());
    CHECK(reading.questions.empty());
    REQUIRE(reading.lots.size() == 1'000);
    CHECK(reading.lots.back().draft.code == "M-1000");
    CHECK(accept_reading(reading, testing::SmallPlant{}.context(), OnRefusedLine::take_nothing).lots.size() ==
          1'000);
}

} // namespace mellowbin::exchange
