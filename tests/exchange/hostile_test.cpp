#include "exchange/certificate_file.h"
#include "exchange/climate_day.h"
#include "exchange/climate_log.h"
#include "exchange/csv.h"
#include "exchange/instance.h"
#include "exchange/kept_file.h"
#include "exchange/lesson.h"
#include "exchange/plant_file.h"
#include "exchange/scan.h"
#include "support/fixture_file.h"
#include "support/good_lot.h"
#include "support/iso.h"
#include "support/refusal_words.h"

// What the files of fixtures/hostile are refused with; that nothing is brought down by them is in tests/fuzz.
namespace mellowbin::exchange {
namespace {

using testing::all_words;
using testing::fixture;

template <class Read> std::string words_of(const Result<Read>& read) {
    return read ? "read" : all_words(read.refusals());
}

std::string of_scan(const std::string& name) { return words_of(read_scan(fixture("hostile/scan_" + name))); }

/// Why the file's lots cannot all be taken; the whole file or nothing.
std::string of_certificate(const std::string& name) {
    const auto file =
        read_certificates(fixture("hostile/certificate_" + name), {"Weir Mill", "Bread flour", "Bay 1", ""});
    if (!file)
        return all_words(file.refusals());
    const testing::SmallPlant plant;
    const auto lots = accept_certificates(*file, plant.context(), OnRefusedLine::take_nothing);
    CHECK(lots.lots.empty() != lots.refused.empty());
    return lots.refused.empty() ? "read" : all_words(with_line_numbers(lots.refused));
}

std::string of_climate(const std::string& name) {
    const auto now = instant_from_iso("2026-11-25T12:00:00Z");
    return words_of(read_climate_log(fixture("hostile/climate_" + name),
                                     {date::locate_zone("Europe/Berlin"), now, std::nullopt}));
}

using Catch::Matchers::Contains;

} // namespace

TEST_CASE("Scans that were torn or bent are refused, and by what is wrong") {
    CHECK_THAT(of_scan("torn_in_a_number.txt"), Contains("(01) GTIN") && Contains("is too short"));
    CHECK_THAT(of_scan("torn_in_a_day.txt"), Contains("(17)") && Contains("is too short"));
    CHECK_THAT(of_scan("torn_before_a_value.txt"), Contains("(10) BATCH/LOT") && Contains("is too short"));
    CHECK_THAT(of_scan("wrong_check_digit.txt"), Contains("wrong: 3 is expected"));
    CHECK_THAT(of_scan("day_and_month_swapped.txt"), Contains("(15)") && Contains("no month 24"));
    CHECK_THAT(of_scan("two_lots.txt"), Contains("\"FL-240917A\" and \"FL-240917B\""));
    CHECK_THAT(of_scan("separator_as_another_sign.txt"), Contains("a character that no such value can have"));
    CHECK_THAT(of_scan("caps_lock.txt"), Contains("Caps Lock"));
    CHECK_THAT(of_scan("another_layout.txt"), Contains("keyboard layout"));
    CHECK_THAT(of_scan("no_utf8.txt"), Contains("a character that no such value can have"));
    CHECK_THAT(of_scan("of_two_pallets.txt"), Contains("begins with no application identifier"));
    CHECK_THAT(of_scan("link_without_key.txt"), Contains("without a key of GS1"));
    CHECK_THAT(of_scan("link_value_with_zero_byte.txt"), Contains("(10) has no value"));
    const auto lost = read_scan(fixture("hostile/scan_separator_lost.txt"));
    REQUIRE(lost);
    CHECK(separator_doubt(lost->elements));
}

TEST_CASE("A scan longer than any symbol is refused by its length") {
    CHECK_THAT(words_of(read_scan(std::string(longest_scan + 1, '1'))), Contains("16001 characters"));
    CHECK(*lot_number_in(std::string(longest_scan, '1')) == std::string(longest_scan, '1'));
}

TEST_CASE("A label that says many things of one identifier, or holds what may not stand together, is told "
          "each once") {
    const auto refused = read_element_string("10A\x1d"
                                             "10B\x1d"
                                             "10C\x1d"
                                             "0109521234543213"
                                             "0209521234543213");
    REQUIRE_FALSE(refused);
    REQUIRE(refused.refusals().size() == 2);
    CHECK(refused.refusals()[0].what == "says \"A\" and \"B\"");
    CHECK_THAT(refused.refusals()[1].what, Contains("may not stand beside (01)"));
}

TEST_CASE(
    "Certificates with days, weights or values that cannot be are refused by line, and nothing is kept") {
    CHECK_THAT(of_certificate("swapped_days.csv"), Contains("Line 2, Milled on"));
    CHECK_THAT(of_certificate("day_and_month_swapped.csv"),
               Contains("Line 2, Milled on") && Contains("Line 2, Delivered on"));
    CHECK_THAT(of_certificate("weight_in_tonnes.csv"), Contains("Column \"weight kg\": is missing"));
    CHECK_THAT(of_certificate("weight_in_pounds_under_kg.csv"), Contains("Line 2, Weight"));
    CHECK_THAT(of_certificate("two_values_for_one_property.csv"), Contains("Line 2, Moisture"));
    CHECK_THAT(of_certificate("lot_twice.csv"), Contains("Line 3, Lot number") && Contains("line 2"));
    CHECK(of_certificate("for_another_lot.csv") == "read"); // no line of a table says what was expected
    CHECK_THAT(of_certificate("text_utf16.txt"), Contains("UTF-16"));
    CHECK_THAT(of_certificate("text_utf16_torn.txt"), Contains("UTF-16"));
}

TEST_CASE("A table of more columns than a person makes is refused before they are compared") {
    std::string heads = "lot number,weight kg";
    for (std::size_t i = 2; i <= most_csv_columns; ++i)
        heads += "," + std::to_string(i);
    const auto refused = read_certificates(heads + "\n", {});
    CHECK_THAT(words_of(refused), Contains("Line 1: 1001 columns were read; up to 1000 are expected"));
    heads.erase(heads.rfind(','));
    CHECK_THAT(words_of(read_certificates(heads + "\n", {})), Contains("no lots"));
}

TEST_CASE(
    "A logger's file of another encoding is refused, and a torn line or a day out of all time is set aside") {
    CHECK_THAT(of_climate("utf16.csv"), Contains("UTF-16"));
    CHECK(of_climate("torn_in_a_line.csv") == "read");
    CHECK(of_climate("last_day_of_all.csv") == "read");
}

TEST_CASE("JSON with numbers that no number can hold, or lists in lists, is refused in words") {
    CHECK_THAT(words_of(read_instance(fixture("hostile/instance_number_too_large.json"))),
               Contains("larger than a number can be"));
    CHECK_THAT(words_of(read_instance(fixture("hostile/instance_no_maturity.json"))),
               Contains("A: its maturity comes to no number in R1"));
    const std::string nested = std::string(200'000, '[') + std::string(200'000, ']');
    CHECK_THAT(words_of(read_instance(R"({"horizon":)" + nested + "}")),
               Contains("horizon: reads […], a number"));
    CHECK_THAT(
        words_of(read_plant_file(R"({"plant":"P","places":[{"name":"A","temperature_c":)" + nested + "}]}")),
        Contains("places[0].temperature_c: […] was read"));
    CHECK_FALSE(climate_day_from_json(Day{}, fixture("hostile/climate_day_number_too_large.json")));
    CHECK_THROWS_WITH(lesson_from_json(fixture("hostile/lesson_number_too_large.json")),
                      Contains("1e+300 is no whole number that fits"));
    CHECK_THROWS_WITH(lesson_from_json(fixture("hostile/lesson_no_utf8.json")), Contains("it is no JSON"));
}

TEST_CASE("An instance of more lots for runs than can be held is refused by both counts") {
    std::string file = fixture("instances/short.json");
    const auto lots = file.find("\"lots\"");
    const auto one_lot = file.find('{', lots);
    const std::string lot = file.substr(one_lot, file.find('}', one_lot) + 1 - one_lot);
    const auto runs = file.find("\"runs\"");
    const auto one_run = file.find('{', runs);
    const std::string run = file.substr(one_run, file.find('}', one_run) + 1 - one_run);
    const auto with = [&](std::size_t at, const std::string& one) {
        std::string more;
        for (int i = 0; i < 2000; ++i)
            more += one + ",";
        file.insert(at, more);
    };
    with(one_run, run);
    with(one_lot, lot);
    CHECK_THAT(words_of(read_instance(file)), Contains("2002 lots for 2002 runs were read; up to 4000000"));
}

TEST_CASE("Kept work whose version is no text is refused in text") {
    CHECK_THAT(words_of(read_kept_file(fixture("hostile/kept_version_no_utf8.txt"))),
               Contains("is of version ??"));
    CHECK_THAT(words_of(read_kept_file(fixture("hostile/kept_torn.txt"))), Contains("is torn"));
}

TEST_CASE("Kept work whose instant has no time of day is refused before a parser makes no number of it") {
    CHECK_THAT(words_of(read_kept_file(fixture("hostile/kept_day_without_time.txt"))),
               Contains("has a line that this program does not know"));
}

} // namespace mellowbin::exchange
