#include "exchange/certificate_file.h"
#include "support/fixture_file.h"
#include "support/good_lot.h"
#include "support/refusal_words.h"

namespace mellowbin {
namespace {

using testing::all_words;
using testing::fixture;
using testing::says;
using testing::SmallPlant;

const CertificateDefaults defaults{"Weir Mill", "Bread flour", "Bay 1", ""};

CertificateFile file_of(std::string_view bytes) {
    auto file = read_certificates(bytes, defaults);
    INFO((file ? "" : all_words(file.refusals())));
    REQUIRE(file);
    return *std::move(file);
}

CertificateLots lots_of(std::string_view bytes, OnRefusedLine policy = OnRefusedLine::take_nothing) {
    return accept_certificates(file_of(bytes), SmallPlant{}.context(), policy);
}

/// The only lot of a file of this head and line.
Lot lot_of(const std::string& heads, const std::string& line) {
    const auto lots = lots_of("lot number,weight kg," + heads + "\nW-1,1000," + line + "\n");
    INFO(all_words(with_line_numbers(lots.refused)));
    REQUIRE(lots.lots.size() == 1);
    return lots.lots.front().lot;
}

std::string why_not(std::string_view bytes) {
    const auto file = read_certificates(bytes, defaults);
    REQUIRE(!file);
    return all_words(file.refusals());
}

} // namespace

TEST_CASE("A certificate file becomes lots, every figure with its basis and method") {
    const auto result = lots_of(fixture("certificates/three_lots.csv"));
    INFO(all_words(with_line_numbers(result.refused)));
    REQUIRE(result.refused.empty());
    REQUIRE(result.lots.size() == 3);
    CHECK(result.notes.empty());
    const Lot& lot = result.lots.front().lot;
    CHECK(result.lots.front().line == 2);
    CHECK(lot.code == "W26-118");
    CHECK(lot.mill == MillId{1});
    CHECK(lot.received == Grams{5'000'000});
    CHECK(lot.price_per_tonne_minor == 41050);
    CHECK(lot.certificate.find(Property::ash)->basis == Basis::dry_matter());
    CHECK(lot.certificate.find(Property::starch_damage)->method == "AACC 76-31");
    CHECK(lot.certificate.find(Property::starch_damage)->basis == Basis::at(Moisture{14}));
    CHECK(lot.certificate.find(Property::alveograph_w)->value == 310);
    REQUIRE(lot.mill_additions.size() == 1);
    CHECK(lot.mill_additions.front() == MillAddition{Substance::ascorbic_acid, OxidantPpm{20}});
    CHECK(result.lots[1].lot.mill_additions.empty()); // 0 mg/kg: none was added
    CHECK(!result.lots[1].lot.certificate.find(Property::alveograph_w));
    CHECK(!result.lots[2].lot.milled_on);
}

TEST_CASE("A file with semicolons, decimal commas and heads in another case is the same to intake") {
    const auto result = lots_of(fixture("certificates/semicolon_decimal_comma.csv"));
    INFO(all_words(with_line_numbers(result.refused)));
    REQUIRE(result.lots.size() == 2);
    const Lot& lot = result.lots.front().lot;
    CHECK(lot.mill == MillId{2});
    CHECK(lot.received_into == PlaceId{2});
    CHECK(lot.certificate.moisture() == Moisture{14.3});
    const auto* protein = lot.certificate.find(Property::protein);
    CHECK(protein->nitrogen_factor == 6.25);
    CHECK(protein->basis == Basis::dry_matter());
    // 15.2 % of dry matter by 6.25: 15.2 x 0.86 x 5.7/6.25 at 14 % by 5.7
    CHECK(**value_at_14(lot.certificate, Property::protein) == Approx(11.922).margin(0.001));
    CHECK(lot.certificate.find(Property::wet_gluten)->basis == Basis::at(Moisture{13.5}));
    CHECK(result.lots[1].lot.received == Grams{23'850'500});
    CHECK(!result.lots[1].lot.certificate.find(Property::falling_number));
}

TEST_CASE("Figures as is are restated with the moisture of the same line") {
    const auto lots = lots_of(fixture("certificates/as_is_tab.csv"));
    REQUIRE(lots.lots.size() == 1);
    CHECK(**value_at_14(lots.lots[0].lot.certificate, Property::absorption) == Approx(60.0).margin(0.001));
    CHECK(lots.lots[0].lot.delivered_on == SmallPlant{}.today);
}

TEST_CASE("A refused line is named with field, what was read and what is expected, all reasons at once") {
    const auto bytes = fixture("hostile/csv_five_bad_figures.csv");
    const auto nothing = lots_of(bytes);
    CHECK(nothing.lots.empty());
    const auto words = all_words(with_line_numbers(nothing.refused));
    INFO(words);
    CHECK(nothing.refused.size() == 6);
    CHECK(says(words, "Line 3, Moisture: 140 was read; from 0 to 30 % is expected"));
    CHECK(says(words, "Line 4, Absorption: \"abc\" was read; a number"));
    CHECK(says(words, "Line 5, Weight: \"1.234,5\" was read"));
    CHECK(says(words, "Line 6, Milled on: 2026-11-22 was read, which is after the delivery on 2026-11-20"));
    CHECK(says(words, "Line 7, Milled on: \"16.11.2026\" was read; a date such as"));
    CHECK(says(words, "Line 7, Delivered on: 2026-11-27 was read, which is after today"));
    CHECK(says(words, "Line 7, Weight: is empty"));
    CHECK(says(words, "Line 7, Moisture: -1 was read"));
    CHECK(says(words, "Line 7, Protein: \"1e1\" was read"));
    CHECK(!says(words, "Line 8")); // an empty figure is missing
    CHECK(says(words, "Line 9, Lot number: \"G-1\" was read, which line 2 has already"));
}

TEST_CASE("The good lines of such a file are taken when that is asked for, and the others still named") {
    const auto result = lots_of(fixture("hostile/csv_five_bad_figures.csv"), OnRefusedLine::take_the_good);
    REQUIRE(result.lots.size() == 2);
    CHECK(result.lots[0].lot.code == "G-1");
    CHECK(result.lots[1].lot.code == "G-2");
    CHECK(!result.lots[1].lot.certificate.find(Property::protein));
    CHECK(result.refused.size() == 6);
}

TEST_CASE("What was typed in a refused line is still in its draft") {
    const auto file = file_of(fixture("hostile/csv_five_bad_figures.csv"));
    REQUIRE(file.lines.size() == 7);
    auto draft = file.lines[2].draft;
    CHECK(draft.code == "B-2");
    CHECK(draft.figure(Property::absorption).value == "abc");
}

TEST_CASE("A certificate without a basis is refused as a whole, by the name of its column") {
    const auto words = why_not(fixture("hostile/csv_no_basis.csv"));
    CHECK(says(words, "Column \"protein %\": no moisture basis was read. Say in brackets"));
}

TEST_CASE("A missing needed column is refused by name, with the heads that were read") {
    const auto words = why_not(fixture("hostile/csv_missing_column.csv"));
    CHECK(says(words, "Column \"lot number\": is missing; the heads read are: lot, milled on, weight kg"));
    CHECK(!says(words, "\"weight kg\": is missing"));
    CHECK(says(why_not("a,b\n1,2\n"), "Column \"weight kg\": is missing"));
}

TEST_CASE("A line torn off is refused by its number, the whole ones before it can be taken") {
    const auto result = lots_of(fixture("hostile/csv_torn_in_a_line.csv"), OnRefusedLine::take_the_good);
    CHECK(result.lots.size() == 1);
    CHECK(says(all_words(with_line_numbers(result.refused)), "Line 3: 3 fields were read; 7 are expected"));
    CHECK(says(result.notes.front(), "The last line has no line break"));
    CHECK(says(why_not(fixture("hostile/csv_torn_in_a_quote.csv")), "Line 3: a quoted field"));
}

TEST_CASE("A unit that is not the expected one is refused, not converted in silence") {
    const auto words = why_not(fixture("hostile/csv_wrong_units.csv"));
    CHECK(says(words, "the unit \"g/kg\" was read; \"%\" is expected behind \"Protein\""));
    CHECK(says(words, "the unit \"cm\" was read; \"mm\" is expected behind \"Extensibility\""));
    CHECK(says(words, "Column \"ascorbic acid %\": the unit \"%\" was read; mg/kg is expected"));
    CHECK(says(words, "the unit \"%\" was read; none is expected behind \"Gluten index\""));
    CHECK(says(why_not("lot number,weight kg,moisture\n1,2,3\n"), "no unit was read; \"%\" is expected"));
    CHECK(says(why_not("lot number,weight lb\n1,2\n"), "Column \"weight kg\": is missing"));
}

TEST_CASE("A bracket that the separator cut is refused with the way out") {
    const auto words = why_not(fixture("hostile/csv_bracket_cut_by_separator.csv"));
    CHECK(says(words, "a bracket is opened and not closed"));
    CHECK(says(words, "put the head in quotation marks"));
}

TEST_CASE("A column nobody asked for is named in a note") {
    const auto file = file_of("lot number,weight kg,colour,\nW-1,1000,creamy,\n");
    REQUIRE(file.lines.size() == 1);
    REQUIRE(file.notes.size() == 1);
    CHECK(says(file.notes.front(), "The column \"colour\" was not read"));
}

TEST_CASE("A figure under no head is refused, not lost") {
    const auto file = file_of("lot number,weight kg,\nW-1,1000,14.2\nW-2,1000,\n");
    CHECK(file.lines.size() == 1);
    CHECK(says(all_words(with_line_numbers(file.refused)),
               "Line 2, Column 3: \"14.2\" was read under no head"));
}

TEST_CASE("A lot number that a spreadsheet may have bent is flagged, a wrapped one is unwrapped") {
    const auto file = file_of(fixture("hostile/csv_bent_lot_numbers.csv"));
    REQUIRE(file.lines.size() == 4);
    CHECK(file.lines[0].draft.code == "1E+05");
    CHECK(file.lines[2].draft.code == "0012");
    REQUIRE(file.notes.size() == 2);
    CHECK(says(file.notes[0], "Line 2: the lot number \"1E+05\" looks as if a spreadsheet"));
    CHECK(says(file.notes[1], "Line 3: the lot number \"1,2E+11\""));
}

TEST_CASE("An empty file, a head line alone and other encodings are refused with a sentence") {
    CHECK(says(why_not(fixture("hostile/csv_empty.csv")), "the file is empty"));
    CHECK(says(why_not(fixture("hostile/csv_head_only.csv")), "has a head line and no lots"));
    CHECK(says(why_not(fixture("hostile/csv_utf16.csv")), "UTF-16"));
}

TEST_CASE("A column wins over the default, even where its cell is empty") {
    const auto file = file_of("lot number,weight kg,mill\nW-1,1000,Ridge Mill\nW-2,1000,\n");
    CHECK(file.lines[0].draft.mill == "Ridge Mill");
    CHECK(file.lines[0].draft.flour == "Bread flour");
    CHECK(file.lines[1].draft.mill.empty());
    const auto lots = accept_certificates(file, SmallPlant{}.context(), OnRefusedLine::take_the_good);
    CHECK(lots.lots.size() == 1);
    CHECK(says(all_words(with_line_numbers(lots.refused)), "Line 3, Mill: is empty"));
}

TEST_CASE("One lot number of two mills is two lots") {
    const auto file = file_of("lot number,weight kg,mill\nW-1,1000,Ridge Mill\nW-1,1000,Weir Mill\n");
    CHECK(file.lines.size() == 2);
    CHECK(file.refused.empty());
}

TEST_CASE("Brackets give basis, method and nitrogen factor in any order") {
    for (const char* head :
         {"\"protein % (N x 6.25; as is; ISO 20483)\"", "\"protein % (ISO 20483, as is, Nx6.25)\"",
          "\"PROTEIN % ( as is ; N × 6,25; ISO 20483 )\""}) {
        INFO(head);
        const Lot lot = lot_of(std::string("moisture %,") + head, "14,12");
        const auto* protein = lot.certificate.find(Property::protein);
        REQUIRE(protein);
        CHECK(protein->basis == Basis::as_is());
        CHECK(protein->nitrogen_factor == 6.25);
        CHECK(protein->method == "ISO 20483");
    }
    CHECK(lot_of("stability min (ISO 5530-1)", "9.5").certificate.find(Property::stability)->method ==
          "ISO 5530-1");
    CHECK(says(why_not("lot number,weight kg,ash % (as is; dry matter)\n1,2,3\n"),
               "\"as is\" and \"dry matter\" were read; one of them is expected"));
}

TEST_CASE("A property by two bases is one figure or none, never the last one read") {
    const std::string heads = "lot number,weight kg,moisture %,protein % (as is),protein % (14 % moisture)\n";
    const auto lots = lots_of(heads + "W-1,1000,14,12,\nW-2,1000,14,,12\nW-3,1000,14,12,12\n",
                              OnRefusedLine::take_the_good);
    CHECK(lots.lots.size() == 2);
    CHECK(says(all_words(with_line_numbers(lots.refused)), "Line 4, Protein: stands twice"));
}

TEST_CASE("Every substance the mill added is kept, and a longer name is not taken for a shorter one") {
    const auto lot =
        lot_of("l-cysteine hydrochloride mg/kg,ascorbic_acid ppm,azodicarbonamide mg/kg", "50,30,12");
    REQUIRE(lot.mill_additions.size() == 3);
    CHECK(lot.mill_additions[0].substance == Substance::l_cysteine_hydrochloride);
    CHECK(lot.mill_additions[1] == MillAddition{Substance::ascorbic_acid, OxidantPpm{30}});
    CHECK(lot.mill_additions[2] == MillAddition{Substance::azodicarbonamide, OxidantPpm{12}});
}

TEST_CASE("Every property can be a column by its name or its key") {
    for (const auto& kind : all_properties()) {
        const std::string unit = kind.unit.empty() ? "" : " " + std::string(kind.unit);
        const std::string basis = kind.has_basis ? " (14 % moisture)" : "";
        for (const auto& name : {kind.name, kind.key}) {
            INFO(name);
            const auto value = std::to_string((kind.lowest + kind.highest) / 2);
            // In quotation marks: a name may hold a comma.
            const auto lot = lot_of("\"" + std::string(name) + unit + basis + "\"", value);
            REQUIRE(lot.certificate.values().size() == 1);
            CHECK(lot.certificate.values().front().property == kind.property);
        }
    }
}

TEST_CASE("What laboratories call the tests of aging is known in a head") {
    const auto property_of = [](const std::string& head) {
        const auto lot = lot_of(head + " (14 % moisture)", "20");
        REQUIRE(lot.certificate.values().size() == 1);
        return lot.certificate.values().front().property;
    };
    for (const char* head : {"Glutathione nmol/g", "GSH nmol/g", "reduced glutathione nmol/g"})
        CHECK(property_of(head) == Property::glutathione);
    for (const char* head : {"Free SH umol/g", "free SH groups \u00B5mol/g", "free sulfhydryl \u03BCmol/g"})
        CHECK(property_of(head) == Property::free_sulfhydryl);
    CHECK(property_of("Fat Acidity mg KOH/100 g") == Property::fat_acidity);
    CHECK(says(why_not("lot number,weight kg,GSH umol/g (as is)\n1,2,3\n"),
               "the unit \"umol/g\" was read; \"nmol/g\" is expected behind \"Glutathione, reduced\""));
    CHECK(says(why_not("lot number,weight kg,free SH umol/g\n1,2,3\n"), "no moisture basis was read"));
}

TEST_CASE("A certificate's date and the flour's temperature are read, in the unit of their head") {
    const auto lot = lot_of("certificate date,flour temperature °C", "2026-11-01,\"21,5\"");
    CHECK(lot.certified_on == Day{date::year{2026} / 11 / 1});
    CHECK(lot.delivered_at == Celsius{21.5});
    CHECK(lot_of("Flour temperature F", "77").delivered_at == Celsius{25});
    CHECK(!lot_of("flour temperature °C", "").delivered_at);
    CHECK(says(why_not("lot number,weight kg,flour temperature\nW-1,1000,21\n"),
               "Column \"flour temperature\": no unit was read; °C or °F is expected"));
}

TEST_CASE("Lots that a person must decide about are refused with line and field, and come in with a reason") {
    SmallPlant plant;
    plant.flours[0].specification = {{Property::moisture, {}, 14.5, ""}};
    auto file = file_of(fixture("hostile/csv_what_a_person_must_decide.csv"));
    const auto refused = accept_certificates(file, plant.context(), OnRefusedLine::take_the_good);
    const auto words = all_words(with_line_numbers(refused.refused));
    INFO(words);
    REQUIRE(refused.lots.size() == 1);
    CHECK(refused.lots[0].lot.code == "D-0");
    CHECK(says(words, "Line 3, Best before: 2026-11-24 was read, which is over"));
    CHECK(says(words, "Line 4, Certificate date: 2026-10-31 was read: the certificate is older"));
    CHECK(says(words, "Line 5, Flour temperature: 30.0 °C was read: the flour came warm"));
    CHECK(says(words, "Line 6, Moisture: 15.1 %, above at most 14.5 %"));
    CHECK(says(words, "Line 3, Why take it in all the same: is empty"));
    CHECK(says(words, "Line 7, Certificate date: 2026-11-26 was read, which is after today"));
    CHECK(says(words, "Line 7, Flour temperature: 99 was read"));

    for (auto& line : file.lines)
        line.draft.accept_reason = "for the feed trial";
    const auto taken = accept_certificates(file, plant.context(), OnRefusedLine::take_the_good);
    CHECK(taken.lots.size() == 5);
    REQUIRE(taken.refused.size() == 1);
    CHECK(taken.refused[0].line == 7);
}

} // namespace mellowbin
