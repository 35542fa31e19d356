#include "exchange/certificate_paper.h"
#include "exchange/certificate_sheet.h"
#include "exchange/laid_out_text.h"
#include "support/certificate_reading.h"
#include "support/fixture_file.h"

namespace mellowbin::exchange {
namespace {

using testing::draft_of;
using testing::figure_in;
using testing::fixture;
using testing::read;
using testing::value_of;

/// A lot's draft with one figure, by its property.
std::string shown(const LotDraft& draft, Property property) {
    const auto* figure = figure_in(draft, property);
    return figure ? figure->value + "|" + figure->basis + "|" + figure->method : "none";
}

} // namespace

TEST_CASE("A table with a lot a row is read by its heads, in whatever order they stand") {
    const auto reading = read("Moisture %;Lot number;Protein % (dry matter);Milled "
                              "on\n14,2;W-1;13,9;16.11.2026\n14,0;W-2;13,7;17.11.2026\n");
    CHECK(reading.troubles.empty());
    CHECK(reading.questions.empty());
    REQUIRE(reading.lots.size() == 2);
    CHECK(reading.lots[1].where == "line 3");
    CHECK(draft_of(reading, 1).code == "W-2");
    CHECK(draft_of(reading, 1).milled_on == "2026-11-17");
    CHECK(shown(draft_of(reading, 1), Property::protein) == "13.7|dry matter|");
    const auto& value = value_of(reading, "protein", 1);
    CHECK(value.where == "line 3, column 3");
    CHECK(value.source_label == "Protein % (dry matter)");
    CHECK(value.source_text == "13,7");
    CHECK(value.source_line == "14,0;W-2;13,7;17.11.2026");
    CHECK(value.note == "N x 5.7, as for wheat flour: no factor is printed");
}

TEST_CASE("Heads over several rows are one: name, unit, and what stands over a group") {
    const auto reading = read("                 Farinograph\n"
                              "Lot     Protein  Absorption  Stability  Falling\n"
                              "number  (dm)     14 % mb                number\n"
                              "        %        %           min        s\n"
                              "W-1     13.9     61.2        9.5        320\n"
                              "W-2              60.8        10.0       331\n");
    CHECK(reading.questions.empty());
    REQUIRE(reading.lots.size() == 2);
    CHECK(shown(draft_of(reading, 0), Property::protein) == "13.9|dry matter|");
    CHECK(shown(draft_of(reading, 0), Property::absorption) == "61.2|14 % moisture|");
    CHECK(shown(draft_of(reading, 0), Property::falling_number) == "320||");
    // A missing field is found by its place.
    CHECK(shown(draft_of(reading, 1), Property::protein) == "none");
    CHECK(shown(draft_of(reading, 1), Property::stability) == "10.0||");
}

TEST_CASE("A table of properties is read whatever order its columns have") {
    const std::string facts = "Lot number\tW-1\t\t\t\n";
    const auto of = [&](const std::string& table) { return read(facts + table); };
    for (const auto* table : {"Parameter\tResult\tUnit\tBasis\tMethod\nProtein\t13.9\t%\tdry matter\tISO "
                              "20483\nStability\t9.5\tmin\t\t\n",
                              "Method\tUnit\tParameter\tBasis\tResult\nISO 20483\t%\tProtein\tdry "
                              "matter\t13.9\n\tmin\tStability\t\t9.5\n",
                              "Protein\tISO 20483\t13.9\tdry matter\t%\nStability\tmin\t9.5\t\t\n"}) {
        const auto reading = of(table);
        INFO(table);
        REQUIRE(reading.lots.size() == 1);
        CHECK(reading.questions.empty());
        CHECK(draft_of(reading, 0).code == "W-1");
        CHECK(shown(draft_of(reading, 0), Property::protein) == "13.9|dry matter|ISO 20483");
        CHECK(shown(draft_of(reading, 0), Property::stability) == "9.5||");
    }
}

TEST_CASE("What a specification allows is not taken for a result") {
    const auto reading =
        read("Lot number\tW-1\t\t\nParameter\tSpecification\tUnit\tResult\nMoisture\t15.5\t%\t14.2\nAsh "
             "(dm)\t0.50 - 0.60\t%\t\n"
             "Stability\tmin. 8\tmin\t9.5\n");
    REQUIRE(reading.lots.size() == 1);
    CHECK(shown(draft_of(reading, 0), Property::moisture) == "14.2||");
    CHECK(shown(draft_of(reading, 0), Property::ash) == "none");
    CHECK(shown(draft_of(reading, 0), Property::stability) == "9.5||");
}

TEST_CASE("Lots side by side are each read from their column") {
    const auto reading =
        read("Mill:\tWeir Mill\t\t\nLot number\t\tW-1\tW-2\nMilled "
             "on\t\t2026-11-16\t2026-11-17\nWeight\tkg\t5000\t6000\nMoisture\t%\t14.2\t14.0\n"
             "Protein (as is)\t%\t\t12.4\n");
    REQUIRE(reading.lots.size() == 2);
    CHECK(draft_of(reading, 0).code == "W-1");
    CHECK(draft_of(reading, 0).mill == "Weir Mill");
    CHECK(draft_of(reading, 1).mill == "Weir Mill");
    CHECK(draft_of(reading, 0).mass_kg == "5000");
    CHECK(draft_of(reading, 1).milled_on == "2026-11-17");
    CHECK(shown(draft_of(reading, 0), Property::protein) == "none");
    CHECK(shown(draft_of(reading, 1), Property::protein) == "12.4|as is|");
}

TEST_CASE("Certificates one below the other are each of their own lot") {
    const auto reading = read("Mill: Weir Mill\nLot number: W-1\nMilled on: 2026-11-16\nMoisture 14.2 "
                              "%\n\fMilled on: 2026-11-17\nLot number: W-2\nMoisture 14.0 %\n");
    REQUIRE(reading.lots.size() == 2);
    CHECK(draft_of(reading, 0).milled_on == "2026-11-16");
    CHECK(draft_of(reading, 1).milled_on == "2026-11-17"); // it stands above its lot's number
    CHECK(draft_of(reading, 1).mill == "Weir Mill");
    CHECK(shown(draft_of(reading, 0), Property::moisture) == "14.2||");
    CHECK(shown(draft_of(reading, 1), Property::moisture) == "14.0||");
    CHECK(value_of(reading, "moisture", 1).where == "page 2, line 3");
}

TEST_CASE("A line as it is pasted is taken apart by its words") {
    const auto reading =
        read("Lot number W26-118\nBest before 16 November 2027\nNet weight 12.5 t\nProtein (N x 6.25) 12.5 % "
             "14 % moisture ISO 20483\n"
             "Falling number ICC 107/1 320 s\nResistance = 420 BU\nThe flour was sampled at loading.\n");
    CHECK(reading.questions.empty());
    REQUIRE(reading.lots.size() == 1);
    const auto& draft = draft_of(reading, 0);
    CHECK(draft.code == "W26-118");
    CHECK(draft.best_before == "2027-11-16");
    CHECK(draft.mass_kg == "12500");
    CHECK(shown(draft, Property::protein) == "12.5|14 % moisture|ISO 20483");
    CHECK(figure_in(draft, Property::protein)->nitrogen_factor == "6.25");
    CHECK(shown(draft, Property::falling_number) == "320||ICC 107/1");
    CHECK(shown(draft, Property::extensograph_resistance) == "420||");
    CHECK(value_of(reading, "weight", 0).note == "12.5 t is 12500 kg");
}

TEST_CASE("A basis that the paper states of all figures holds where none stands at a figure") {
    const auto reading = read("All results on 14 % moisture basis\nLot number: W-1\nProtein 12.5 %\nAsh (dm) "
                              "0.55 %\nMoisture 14.2 %\n");
    CHECK(reading.questions.empty());
    CHECK(shown(draft_of(reading, 0), Property::protein) == "12.5|14 % moisture|");
    CHECK(shown(draft_of(reading, 0), Property::ash) == "0.55|dry matter|");
    CHECK(shown(draft_of(reading, 0), Property::moisture) == "14.2||");
    CHECK(testing::says(value_of(reading, "protein", 0).note, "basis as line 1 says of all figures"));
}

TEST_CASE("Rows that sum up, columns of the grain and unknown words are left out by name") {
    const auto reading =
        read("Lot number\tMoisture %\tWheat protein %\tHarmony\nW-1\t14.2\t13.1\t7\nMean\t14.2\t13.1\t7\n");
    CHECK(reading.lots.size() == 1);
    REQUIRE(reading.left_out.size() == 3);
    CHECK(reading.left_out[0].why == "sums up and is no lot");
    CHECK(reading.left_out[1].label == "Wheat protein %");
    CHECK(reading.left_out[1].why == "is of the grain, not of the flour");
    CHECK(reading.left_out[2].folded_label == "harmony");
    CHECK(reading.left_out[2].why == "is not understood");
}

TEST_CASE("The certificate that LibreOffice made a spreadsheet gives its three lots without a question") {
    const auto sheets = read_paper(fixture("certificates/spreadsheet.xlsx"));
    REQUIRE(sheets);
    const auto reading = understand(*sheets, testing::request());
    CHECK(reading.questions.empty());
    REQUIRE(reading.lots.size() == 3);
    const auto& draft = draft_of(reading, 1);
    CHECK(draft.code == "0422");
    CHECK(draft.mill == "Harrow Weir Mill");
    CHECK(draft.best_before == "2027-11-03");
    CHECK(draft.mass_kg == "6250");
    CHECK(draft.delivery_note == "DN 90431");
    CHECK(shown(draft, Property::moisture) == "13.95||");
    CHECK(shown(draft, Property::protein) == "13.65|dry matter|");
    CHECK(shown(draft, Property::wet_gluten) == "30.1|14 % moisture|");
    CHECK(value_of(reading, "moisture", 1).where == "Lots!E6");
}

TEST_CASE("A file without a certificate says so") {
    CHECK(testing::says(testing::all_words(read("Dear Sir,\nthe flour is on its way.\n").troubles),
                        "no lot and no result"));
    CHECK(read("").lots.empty());
}

} // namespace mellowbin::exchange
