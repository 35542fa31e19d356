#include "exchange/bag_scan.h"
#include "exchange/csv.h"
#include "support/catch.h"
#include "support/fixture_file.h"

#include <filesystem>

using namespace mellowbin;

TEST_CASE(
    "What a person types or a plain label says is the lot number itself, without the scanner's line end") {
    CHECK(lot_number_in("W24-118") == "W24-118");
    CHECK(lot_number_in("  W24-118\r\n") == "W24-118");
    CHECK(lot_number_in("10") == "10");
    CHECK_FALSE(lot_number_in(""));
    CHECK_FALSE(lot_number_in(" \t"));
}

TEST_CASE("The lot number of a GS1 element string is that of application identifier 10") {
    // GS1 General Specifications: identifiers of predefined length need no separator, the lot number ends at
    // one.
    CHECK(lot_number_in("]C1010952123454321310FL-240917A") == "FL-240917A");
    CHECK(lot_number_in("]C11526113010FL-1\x1d"
                        "3103012500") == "FL-1");
    CHECK(lot_number_in("010952123454321315261130"
                        "10FL-1") == "FL-1");
    CHECK(lot_number_in("(01)09521234543213(10)FL-240917A(15)261130") == "FL-240917A");
    CHECK_FALSE(lot_number_in("]C10109521234543213")); // no lot in it
}

TEST_CASE(
    "A label says the lot, the day of production, best before and the net weight, as one would type them") {
    const auto label = label_in("]C101095212345432131126112415270524"
                                "3101010005"
                                "10SW-24140");
    CHECK(label.lot == "SW-24140");
    CHECK(label.milled_on == "2026-11-24");
    CHECK(label.best_before == "2027-05-24");
    CHECK(label.kg == "1000.5");
    const auto bracketed = label_in("(11)261100(3103)000500(10)A-1");
    CHECK(bracketed.milled_on == "2026-11-30");
    CHECK(bracketed.kg == "0.5");
    CHECK(label_in("(10)A-1(3100)001000").kg == "1000");
}

TEST_CASE("What a label says wrongly or leaves open is empty") {
    CHECK(label_in("(10)A-1(11)261345(15)26113").milled_on.empty());
    CHECK(label_in("(10)A-1(15)26113").best_before.empty());
    CHECK(label_in("(02)09521234543213(37)40(3100)000025(10)A-1").kg.empty()); // of one bag, or of all?
    CHECK(label_in("W24-118").lot == "W24-118");
    CHECK(label_in("W24-118").kg.empty());
}

TEST_CASE("A quantity before the lot is passed over by its separator") {
    CHECK(lot_number_in("]C137"
                        "12\x1d"
                        "10AB1") == "AB1");
}

namespace {

std::string with_separators(std::string text) {
    for (auto at = text.find("{GS}"); at != std::string::npos; at = text.find("{GS}"))
        text.replace(at, 4, "\x1d");
    return text;
}

/// The lot in "01=…;10=…;99=…"; empty: none.
std::string lot_of(const std::string& parsed) {
    const auto all = ";" + parsed + ";";
    const auto at = all.find(";10=");
    return at == std::string::npos ? std::string{} : all.substr(at + 4, all.find(';', at + 4) - at - 4);
}

} // namespace

// Vectors of the GS1 syntax engine's and other open tests; the source of each stands in its row.
TEST_CASE("Published element strings give their lot") {
    const auto path = std::filesystem::path(MELLOWBIN_REFERENCE_DATA) / "gs1_vectors.csv";
    if (std::string(MELLOWBIN_REFERENCE_DATA).empty() || !std::filesystem::exists(path)) {
        WARN("the table of element strings is not at hand: skipped");
        return;
    }
    const auto table = read_csv(testing::file_bytes(path));
    REQUIRE(table);
    int seen = 0;
    for (const auto& row : table->rows) {
        const auto& cells = row.fields;
        const bool is_read = cells.at(1) == "bracket" || cells.at(1) == "]C1" || cells.at(1) == "]d2" ||
                             cells.at(1) == "]Q3" || cells.at(1) == "]J1" || cells.at(1) == "]e0";
        if (!is_read || cells.at(2) != "1" || lot_of(cells.at(3)).empty())
            continue;
        const bool is_bracket = cells.at(1) == "bracket";
        INFO(cells.at(0));
        CHECK(lot_number_in((is_bracket ? "" : cells.at(1)) + with_separators(cells.at(0))) ==
              lot_of(cells.at(3)));
        ++seen;
    }
    CHECK(seen >= 10);
}
