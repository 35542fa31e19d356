#include "exchange/certificate_paper.h"
#include "support/certificate_reading.h"
#include "support/fixture_file.h"
#include "support/packed_parts.h"

namespace mellowbin::exchange {
namespace {

using testing::all_words;
using testing::draft_of;
using testing::fixture;
using testing::read;
using testing::refusals_in;
using testing::request;
using testing::says;

CertificateOutcome accepted(const CertificateReading& reading,
                            OnRefusedLine policy = OnRefusedLine::take_nothing) {
    return accept_reading(reading, testing::SmallPlant{}.context(), policy);
}

const std::string heads = "Lot number\tWeight kg\tMoisture %\tAsh % (dm)\n";

} // namespace

TEST_CASE("A figure that is none is refused by its cell, and the other lots are taken by choice") {
    const auto reading =
        read(heads + "W-1\t1000\t14.2\t0.55\nW-2\t1000\tdamp\t0.56\nW-3\t1000\t14.1\t0.57\n");
    CHECK(says(refusals_in(reading, 1),
               "line 3, column 3, Moisture: \"damp\" was read; a number such as 11.85"));
    CHECK(accepted(reading).lots.empty());
    const auto good = accepted(reading, OnRefusedLine::take_the_good);
    REQUIRE(good.lots.size() == 2);
    CHECK(good.lots[1].lot == 2);
    CHECK(good.lots[1].accepted.code == "W-3");
    REQUIRE(good.refused.size() == 1);
}

TEST_CASE("A formula without a result is named by its cell in the lot") {
    const auto sheets = read_paper(testing::spreadsheet(
        "<row r=\"1\"><c t=\"str\"><v>Lot number</v></c><c t=\"str\"><v>Weight kg</v></c><c "
        "t=\"str\"><v>Moisture %</v></c></row>"
        "<row r=\"2\"><c t=\"str\"><v>W-1</v></c><c><v>1000</v></c><c><f>A9/B9</f></c></row>"));
    REQUIRE(sheets);
    const auto reading = understand(*sheets, request());
    CHECK(says(refusals_in(reading, 0), "C2, Moisture: a formula without a result stands there"));
    CHECK(accepted(reading).lots.empty());
    CHECK(accepted(reading).refused.size() == 1); // a missing figure is not refused once more
}

TEST_CASE("Errors of formulas are named by their cells") {
    const auto sheets = read_paper(fixture("certificates/spreadsheet_errors.xlsx"));
    const auto reading = understand(*sheets, request());
    CHECK(says(refusals_in(reading, 0), "D2, Ash: #DIV/0! stands there"));
    CHECK(says(refusals_in(reading, 1), "E3, Stability: #N/A stands there"));
}

TEST_CASE("A unit that does not fit is named and never bent") {
    auto reading = read("Lot number: W-1\nMoisture: 14.2 lb\n");
    CHECK(says(
        refusals_in(reading, 0),
        "line 2, Moisture: the unit \"lb\" was read behind the figure; one of these is expected: %, g/kg"));
    reading = read("Lot number\tMoisture\tWeight\n\t%\ts\nW-1\t14.2\t500\n");
    CHECK(says(refusals_in(reading, 0), "Weight: the unit \"s\" was read in its label"));
    reading = read("Lot number: W-1\nProtein %: 125 g/kg as is\n");
    CHECK(says(refusals_in(reading, 0), "two units were read, g/kg and %"));
}

TEST_CASE("A weight in another unit is restated exactly, and a ton is asked") {
    CHECK(draft_of(read("Lot: W-1\nWeight: 50 lb\nMoisture 14 %\n"), 0).mass_kg ==
          "22.6796185"); // by definition
    CHECK(draft_of(read("Lot: W-1\nWeight: 24,5 t\nMoisture 14 %\n"), 0).mass_kg == "24500");
    const auto reading = read("Lot: W-1\nWeight: 20 tons\nMoisture 14 %\n");
    CHECK(testing::asked_in(reading) == std::vector<std::string>{"unit:weight"});
    CHECK(draft_of(
              read("Lot: W-1\nWeight: 20 tons\nMoisture 14 %\n", request({{"unit:weight", "short ton"}})), 0)
              .mass_kg == "18143.6948");
}

TEST_CASE("Figures of another order of size are refused by the core, by their cell") {
    const auto reading = read(heads + "W-1\t1000\t142\t0.55\n");
    const auto outcome = accepted(reading);
    CHECK(says(all_words(outcome.refused),
               "line 2, column 3, Moisture: 142 was read; from 0 to 30 % is expected"));
}

TEST_CASE("Days that are swapped are named with both places") {
    const auto reading =
        read("Lot number: W-1\nMilled on: 2027-11-16\nBest before: 2026-11-16\nMoisture 14.2 %\n");
    CHECK(says(refusals_in(reading, 0),
               "line 3, Best before: 2026-11-16 was read, which is before milled on (2027-11-16 at line 2)"));
    CHECK(says(refusals_in(reading, 0), "Are the two days swapped?"));
    CHECK(says(
        refusals_in(read("Lot: W-1\nMilled on 20.11.2026\nCertificate date: 19.11.2026\nMoisture 14 %\n"), 0),
        "Certificate date"));
}

TEST_CASE("A certificate of another lot, mill or flour is refused by name") {
    const std::string paper = "Mill: Weir Mill\nProduct: Bread flour\nLot number: W-1\nMoisture 14.2 %\n";
    auto asked = request();
    asked.must_be.lot = "W-2";
    auto reading = read(paper, asked);
    CHECK(says(all_words(reading.troubles), "the certificate is of W-1; W-2 is expected"));
    CHECK(accepted(reading, OnRefusedLine::take_the_good).lots.empty());

    asked.must_be = {"Ridge Mill", "Wholemeal flour", ""};
    reading = read(paper, asked);
    CHECK(says(refusals_in(reading, 0),
               "line 1, Mill: the certificate is of the mill \"Weir Mill\"; \"Ridge Mill\" is expected"));
    CHECK(says(refusals_in(reading, 0), "line 2, Flour: the certificate is of the flour \"Bread flour\""));

    asked.must_be = {"Weir Mill", "Bread flour", "W-1"};
    reading = read(paper, asked);
    CHECK(reading.troubles.empty());
    CHECK(reading.lots[0].refusals.empty());
}

TEST_CASE("Of a certificate of several lots only the one that is meant is read") {
    auto asked = request();
    asked.must_be.lot = "W-2";
    const auto reading = read(heads + "W-1\t1000\t14.2\t0.55\nW-2\t1000\t14.0\t0.56\n", asked);
    REQUIRE(reading.lots.size() == 1);
    CHECK(draft_of(reading, 0).code == "W-2");
    CHECK(reading.values.size() == 4);
    CHECK(says(reading.notes.back(), "has 2 lots; only W-2 was read"));
}

TEST_CASE("A lot number that stands twice, or was bent by a spreadsheet, is told") {
    const auto reading =
        read(heads + "W-1\t1000\t14.2\t0.55\nW-1\t1000\t14.0\t0.56\n1E+05\t1000\t14.0\t0.56\n");
    CHECK(says(refusals_in(reading, 1), "line 3, Lot number: \"W-1\" was read, which line 2 has already"));
    CHECK(says(testing::value_of(reading, "lot_number", 2).note, "turned it into a figure"));
}

TEST_CASE("A row that is cut off or has a field too many is refused by its line") {
    const auto reading =
        read("Lot number;Weight kg;Moisture %;Ash % (dm)\nW-1;1000;14.2;0.55;12\nW-2;1000;14\n");
    CHECK(says(refusals_in(reading, 0), "line 2, column 5: \"12\" was read under no head"));
    CHECK(says(refusals_in(reading, 1), "line 3: 3 fields were read; 4 are expected"));
}

TEST_CASE("A question that is open keeps its lots out, and no others") {
    const auto reading = read(heads + "W-1\t1000\t14.2\t0.55\n");
    CHECK(accepted(reading).lots.size() == 1);
    const auto open = read("Lot number\tWeight kg\tFalling number\nW-1\t1000\t320\nW-2\t1000\t\n");
    const auto outcome = accepted(open, OnRefusedLine::take_the_good);
    REQUIRE(outcome.lots.size() == 1);
    CHECK(outcome.lots[0].accepted.code == "W-2");
    CHECK(says(all_words(outcome.refused), "In which unit are the figures of \"Falling number\"?"));
}

TEST_CASE("A limit or a figure that was not measured is left out and said") {
    const auto reading = read(heads + "W-1\t1000\t< 14\t0.55\nW-2\t1000\tn.d.\t0.56\nW-3\t1000\t-\t0.57\n");
    CHECK(reading.lots[0].refusals.empty());
    REQUIRE(reading.left_out.size() == 2);
    CHECK(says(reading.left_out[0].why, "a limit or a range"));
    CHECK(says(reading.left_out[1].why, "nothing was measured"));
    for (std::size_t lot = 0; lot < 3; ++lot)
        CHECK(!testing::figure_in(draft_of(reading, lot), Property::moisture)); // missing, never zero
}

TEST_CASE("No hostile file of the project makes the reader fall") {
    for (const auto& entry :
         std::filesystem::directory_iterator(std::filesystem::path(MELLOWBIN_FIXTURES) / "hostile")) {
        const auto bytes = testing::file_bytes(entry.path());
        INFO(entry.path().filename().string());
        const auto reading = read(bytes);
        CHECK((!reading.lots.empty() || !reading.troubles.empty()));
    }
}

TEST_CASE("Hostile certificates are refused or asked by what is wrong with them") {
    const auto refused = [](const std::string& name) {
        const auto sheets = read_paper(fixture("hostile/" + name));
        return sheets ? "was read" : all_words(sheets.refusals());
    };
    CHECK(says(refused("xlsx_bomb.xlsx"), "would unpack from"));
    CHECK(says(refused("xlsx_torn.xlsx"), "the file is torn"));
    CHECK(says(refused("certificate_half_utf16.txt"), "ends within a character"));

    const auto formula = read(fixture("hostile/xlsx_formula_without_result.xlsx"));
    CHECK(says(refusals_in(formula, 0), "B1, Lot number: a formula without a result stands there"));

    const auto utf16 = read(fixture("hostile/certificate_utf16.txt"));
    REQUIRE(utf16.lots.size() == 1);
    CHECK(draft_of(utf16, 0).code == "W-1");

    const auto mixed = read(fixture("hostile/certificate_two_values_swapped_days.txt"));
    CHECK(says(refusals_in(mixed, 0), "line 3, Best before: 2026-11-16 was read, which is before milled on"));
    CHECK(says(refusals_in(mixed, 0), "line 4, Weight: the unit \"bushels\" was read behind the figure"));
    CHECK(testing::asked_in(mixed) == std::vector<std::string>{"which_value:moisture:line 5"});
}

} // namespace mellowbin::exchange
