#include "exchange/application_identifier.h"
#include "exchange/csv.h"
#include "exchange/scan.h"
#include "support/catch.h"
#include "support/fixture_file.h"
#include "support/iso.h"
#include "support/refusal_words.h"

#include <filesystem>

using namespace mellowbin;
using namespace mellowbin::exchange;
using testing::all_words;
using testing::says;

namespace {

const Day today = day_from_iso("2026-11-25");

std::string refused(std::string_view bytes, const ScannerSetup& setup = {}) {
    const auto read = read_scan(bytes, setup);
    return read ? "" : all_words(read.refusals());
}

LabelFacts facts(std::string_view bytes, Day day = today) {
    const auto read = read_scan(bytes);
    REQUIRE(read);
    return facts_of(read->elements, day);
}

/// "01=…;10=…"
std::string in_words(const Elements& elements) {
    std::string words;
    for (const auto& one : elements)
        words += (words.empty() ? "" : ";") + one.identifier + "=" + one.value;
    return words;
}

/// With GTINs as the row says that the engine was set to take them.
Result<Scan> of_link(const std::string& uri) {
    auto read = read_digital_link(uri, ShortGtin::is_filled_up);
    if (!read)
        return read.refusals();
    return Scan{std::move(*read), ""};
}

std::string with_separators(std::string text) {
    for (auto at = text.find("{GS}"); at != std::string::npos; at = text.find("{GS}"))
        text.replace(at, 4, 1, group_separator);
    return text;
}

} // namespace

// GS1, "How to calculate a check digit manually", and the worked examples of GS1 Sweden and GS1 India.
TEST_CASE("The check digits of the standard's worked examples") {
    CHECK(check_digit_of("629104150021") == '3');
    CHECK(check_digit_of("730001100001") == '7');
    CHECK(check_digit_of("890400021003") == '7');
    CHECK(check_digit_of("501234567890") == '0');
}

// GS1 General Specifications 3.4 and 7.12: a day of 00 is the month's last; 49 years back, 50 ahead.
TEST_CASE("Days of a label have the century that the standard gives them") {
    CHECK(facts("(01)09521234543213(17)130200", day_from_iso("2013-01-01")).expires ==
          day_from_iso("2013-02-28"));
    CHECK(facts("(01)09521234543213(17)160200", day_from_iso("2016-01-01")).expires ==
          day_from_iso("2016-02-29"));
    CHECK(facts("(01)09521234543213(15)760131").best_before == day_from_iso("2076-01-31"));
    CHECK(facts("(01)09521234543213(15)770131").best_before == day_from_iso("1977-01-31"));
    CHECK(facts("(01)09521234543213(15)300131", day_from_iso("2080-06-01")).best_before ==
          day_from_iso("2130-01-31"));
    CHECK(facts("(01)09521234543213(15)310131", day_from_iso("2080-06-01")).best_before ==
          day_from_iso("2031-01-31"));
}

TEST_CASE("A label says the lot, its days and its weight, in kg and in lb") {
    const auto flour = facts("]C1010952123454321311261124152705243101010005"
                             "10SW-24140");
    CHECK(flour.lot == "SW-24140");
    CHECK(flour.produced == day_from_iso("2026-11-24"));
    CHECK(flour.best_before == day_from_iso("2027-05-24"));
    CHECK(flour.net == Grams{1000500});
    CHECK(flour.net_words == "1000.5 kg");
    // 55.11 lb are 24.997 477... kg: 1 lb = 453.59237 g by its definition of 1959.
    const auto pounds = facts("]Q30109521234543213320200551110FL-240917A\x1d"
                              "400PO-4711");
    CHECK(pounds.net == Grams{24997});
    CHECK(pounds.net_words == "55.11 lb");
    CHECK(pounds.order == "PO-4711");
    const auto pallet =
        facts("(00)095201234500000014(02)09521234543213(37)40(10)FL-240917A(412)9521234000020");
    CHECK(pallet.sscc == "095201234500000014");
    CHECK(pallet.content_gtin == "09521234543213");
    CHECK(pallet.count == 40);
    CHECK(pallet.purchased_from == "9521234000020");
    CHECK_FALSE(pallet.net);
}

TEST_CASE("What a person types or a plain symbol holds is the text itself, without the scanner's line end") {
    CHECK(*lot_number_in("W24-118") == "W24-118");
    CHECK(*lot_number_in("  W24-118\r\n") == "W24-118");
    CHECK(*lot_number_in("]C0FL-240917A") == "FL-240917A");
    CHECK(*lot_number_in("10") == "10");
    CHECK(*lot_number_in("0102") == "0102"); // begins as a label does, and is none
    CHECK_FALSE(lot_number_in(""));
    CHECK_FALSE(lot_number_in("]C10109521234543213")); // no lot in it
}

TEST_CASE("A separator is known as the scanner is set to send it, and as it stands in a field") {
    const auto lot = [](const std::string& text, const std::string& separator) {
        const auto read = lot_number_in(text, {separator});
        return read ? *read : all_words(read.refusals());
    };
    CHECK(lot("]C110FL-1~15270531", "~") == "FL-1");
    CHECK(lot("]C110FL-1<GS>15270531", "<GS>") == "FL-1");
    CHECK(lot("]C110FL-1\u241d15270531", "") == "FL-1");
    CHECK(lot("]C110FL-1<GS>15270531", "") == "FL-1<GS>15270531"); // all of it may be of a lot number
    CHECK(says(lot("]C110FL-1~15270531", ""), "a character that no such value can have"));
}

TEST_CASE("A lot number that ends as a date would is doubted, and only one behind which nothing came") {
    const auto doubt = [](std::string_view text) { return separator_doubt(read_scan(text)->elements); };
    const auto lost = doubt("]C1010952123454321310FL-240917A15270531");
    REQUIRE(lost);
    CHECK(lost->as_read == "FL-240917A15270531");
    CHECK(lost->otherwise == "FL-240917A");
    CHECK(lost->behind == Element{"15", "270531"});
    CHECK_FALSE(doubt("]C1010952123454321310FL-240917A"));
    CHECK_FALSE(doubt("]C1010952123454321310FL-240917A15271331")); // no such month
    CHECK_FALSE(doubt("]C110FL-240917A15270531\x1d"
                      "0109521234543213"));
}

TEST_CASE("What Caps Lock or another keyboard layout made of a scan is told as that") {
    CHECK(says(refused("]c1010952123454321310fl-240917a"), "Caps Lock"));
    CHECK(says(refused("+C1010952123454321310FL/240917A"), "keyboard layout"));
}

TEST_CASE("What a label wants beside it is asked of all symbols together") {
    const auto missing = [](std::string_view text) {
        return all_words(missing_beside(read_scan(text)->elements));
    };
    CHECK(says(missing("(10)FL-1"), "(10) BATCH/LOT: wants one of 01, 02"));
    CHECK(missing("(01)09521234543213(10)FL-1").empty());
    CHECK(says(missing("(02)09521234543213"), "wants one of 37"));
    CHECK(missing("(00)095201234500000014(02)09521234543213(37)40(10)A").empty());
}

TEST_CASE("Two symbols of one pallet complete each other, in either order, and two pallets' do not") {
    const auto of = [](std::string_view text) { return read_scan(text)->elements; };
    const auto pallet = of("(00)095201234500000014"), other = of("(00)376104250021234569");
    const auto content = of("(02)09521234543213(37)40(15)270531(10)FL-1");
    CHECK(complete_each_other(pallet, content));
    CHECK(complete_each_other(content, pallet)); // (02) and (37) want the pallet's number
    CHECK(
        complete_each_other(of("(02)09521234543213(37)40(15)270531"), of("(00)095201234500000014(10)FL-1")));
    CHECK_FALSE(complete_each_other(pallet, other));
    CHECK_FALSE(complete_each_other(pallet, of("(00)376104250021234569(10)FL-1")));
    CHECK_FALSE(complete_each_other(content, of("(02)09521234543213(37)40(10)FL-2")));
    // A bag's label wants no pallet's number: the one scanned next is another's.
    CHECK_FALSE(complete_each_other(of("(01)09521234543213(10)FL-1"), pallet));
    CHECK_FALSE(complete_each_other(of("(15)270531"), of("(15)270601(10)FL-1"))); // two days
}

TEST_CASE("A lot number that no symbol of GS1 can hold is told as that") {
    CHECK_FALSE(why_not_on_label("FL-240917A"));
    CHECK_FALSE(why_not_on_label("12345678901234567890"));
    CHECK(why_not_on_label("123456789012345678901"));
    CHECK(why_not_on_label("LOT 5"));
    CHECK(why_not_on_label("M\u00dcHLE-7"));
}

// gs1_vectors.csv: of the GS1 Barcode Syntax Engine, its tests and those of other readers, named row by row.
TEST_CASE("The vectors of the syntax engine are read, or refused, as it does") {
    const std::filesystem::path folder(MELLOWBIN_REFERENCE_DATA);
    if (folder.empty() || !std::filesystem::exists(folder / "gs1_vectors.csv")) {
        WARN("no reference data: skipped");
        return;
    }
    const auto table = read_csv(testing::file_bytes((folder / "gs1_vectors.csv").string()));
    REQUIRE(table);
    int valid = 0, invalid = 0;
    for (const auto& row : table->rows) {
        const auto& cells = row.fields;
        const auto &kind = cells.at(1), &parsed = cells.at(3);
        const bool has_identifier = !kind.empty() && kind.front() == ']';
        const auto text = (has_identifier ? kind : "") + with_separators(cells.at(0));
        const std::string separator = kind != "wedge"                          ? ""
                                      : text.find("<GS>") != std::string::npos ? "<GS>"
                                                                               : "~";
        INFO("line " << row.line << ": " << text);
        const bool may_be_short = says(cells.at(4), "permit zero-suppressed GTIN");
        const auto read = may_be_short ? of_link(text) : read_scan(text, {separator});
        if (cells.at(2) == "1") {
            ++valid;
            INFO((read ? "" : all_words(read.refusals())));
            REQUIRE(read);
            CHECK((read->is_gs1() ? in_words(read->elements) : "raw=" + read->text) == parsed);
        } else {
            ++invalid;
            const bool is_taken = read && read->is_gs1() && missing_beside(read->elements).empty();
            CHECK_FALSE(is_taken);
        }
    }
    CHECK(valid == 66);
    CHECK(invalid == 87);
}
