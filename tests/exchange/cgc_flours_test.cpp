#include "exchange/certificate_file.h"
#include "support/cgc_flours.h"
#include "support/fixture_file.h"
#include "support/good_lot.h"
#include "support/refusal_words.h"

namespace mellowbin {
namespace {

using testing::file_bytes;

/// Empty when the reference tables are not there.
std::string table_of_flours() {
    const std::filesystem::path folder(MELLOWBIN_REFERENCE_DATA);
    const auto path = folder / "flour_cgc.csv";
    return folder.empty() || !std::filesystem::exists(path) ? "" : file_bytes(path);
}

} // namespace

TEST_CASE("The 56 published flours of the Canadian Grain Commission become 56 lots") {
    const auto table = table_of_flours();
    if (table.empty()) {
        WARN("skipped: no flour_cgc.csv in MELLOWBIN_REFERENCE_DATA (\"" MELLOWBIN_REFERENCE_DATA "\")");
        return;
    }
    const auto file = read_certificates(testing::certificates_of_cgc_flours(table),
                                        {"Weir Mill", "Bread flour", "Bay 1", "2026-11-20"});
    REQUIRE(file);
    CHECK(file->notes.size() ==
          4); // period, sample, the wheat's falling number, loaf volume: no field of a lot
    const auto result =
        accept_certificates(*file, testing::SmallPlant{}.context(), OnRefusedLine::take_nothing);
    INFO(testing::all_words(with_line_numbers(result.refused)));
    CHECK(result.refused.empty());
    REQUIRE(result.lots.size() == 56);

    // Row 1: 2013 crop, No1 CWRS 12.5, laboratory mill A.
    const auto& first = result.lots.front().lot;
    CHECK(first.code == "CGC-1");
    CHECK(**value_at_14(first.certificate, Property::protein) == 12.1);
    CHECK(**value_at_14(first.certificate, Property::absorption) == 69.5);
    CHECK(first.certificate.find(Property::extensibility)->value == 205);
    CHECK(first.certificate.find(Property::alveograph_w)->value == 366);
    CHECK(!first.certificate.find(Property::gluten_index));   // not printed
    CHECK(!first.certificate.find(Property::falling_number)); // measured on the wheat, not on the flour
    CHECK(result.lots.back().lot.code == "CGC-56");
    CHECK(result.lots.back().lot.certificate.find(Property::gluten_index)->value == 90.7);

    double least_protein = 100;
    for (const auto& [line, lot] : result.lots)
        least_protein = std::min(least_protein, **value_at_14(lot.certificate, Property::protein));
    CHECK(least_protein > 9);
}

TEST_CASE("A table of flours without a needed column is not made into certificates") {
    CHECK_THROWS_AS(testing::certificates_of_cgc_flours("id,protein\n1,12\n"), std::runtime_error);
}

} // namespace mellowbin
