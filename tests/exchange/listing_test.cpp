#include "core/listing.h"
#include "exchange/csv.h"
#include "exchange/listing_csv.h"
#include "exchange/listing_xlsx.h"
#include "exchange/xlsx.h"
#include "support/catch.h"
#include "support/fixture_file.h"
#include "support/full_disk.h"
#include "support/iso.h"
#include "support/outside.h"
#include "support/temporary_folder.h"

#include <filesystem>

using namespace mellowbin;
using namespace mellowbin::exchange;
using Catch::Matchers::Contains;
using testing::is_at_hand;
using testing::run_outside;
using tests::TemporaryFolder;

namespace {

namespace fs = std::filesystem;
using Holds = Listing::Holds;
using Table = std::vector<std::vector<std::string>>;

Instant at(const char* day, int seconds) {
    return Instant(day_from_iso(day)) + std::chrono::seconds{seconds};
}

/// A list with all that may go wrong on the way.
Listing hostile_list() {
    Listing list;
    list.name = "lots: [all]/new";
    list.title = "Lots in stock";
    list.notes = {"As of 2026-11-25", "=1+1 is no formula here"};
    list.columns = {{"Lot", "", Holds::text},
                    {"Weight", "kg", Holds::number, 3},
                    {"Milled", "", Holds::day},
                    {"At", "UTC", Holds::instant}};
    list.rows = {
        {"W24-118", 1000.0, day_from_iso("2026-05-30"), at("2026-11-25", 4 * 3600 + 600)},
        {"a,b;c\t\"d\"", 0.1, std::monostate{}, std::monostate{}},
        {"=HYPERLINK(\"x\")", -5.0, day_from_iso("1900-01-05"), at("2026-03-29", 86399)},
        {"+1", 1.0 / 3, std::monostate{}, std::monostate{}},
        {"-1", 123456789.0, std::monostate{}, std::monostate{}},
        {"@x", 1e-7, std::monostate{}, std::monostate{}},
        {"two\r\nlines", std::monostate{}, std::monostate{}, std::monostate{}},
        {"Мука пшеничная \u2013 \u00bd \u2265 4 \u00b0C \U0001F33E", 2.0, std::monostate{}, std::monostate{}},
        {"0012", 1e5, day_from_iso("2028-02-29"), std::monostate{}},
        {"1E5", std::monostate{}, std::monostate{}, std::monostate{}},
        {" blanks ", std::monostate{}, std::monostate{}, std::monostate{}},
        {"<a href=\"x\">&amp; _x0041_", std::monostate{}, std::monostate{}, std::monostate{}},
    };
    return list;
}

Table table_of(const CsvTable& csv) {
    Table table;
    for (const auto& row : csv.rows)
        table.push_back(row.fields);
    return table;
}

/// By another reader of CSV: its fields as hex, so that nothing is lost on the way back.
Table read_by_python(const fs::path& file) {
    const auto read = run_outside("python3 -c 'import csv,sys\n"
                                  "for r in csv.reader(open(sys.argv[1],newline=\"\",encoding=\"utf-8-sig\"),"
                                  "strict=True): print(\" \".join(\"x\"+f.encode().hex() for f in r))' " +
                                  file.string());
    REQUIRE(read.code == 0);
    Table table;
    std::istringstream lines(read.out);
    for (std::string line; std::getline(lines, line);) {
        std::vector<std::string> fields;
        std::istringstream words(line);
        for (std::string word; words >> word;) {
            std::string field;
            for (std::size_t i = 1; i + 1 < word.size(); i += 2)
                field += static_cast<char>(std::stoi(word.substr(i, 2), nullptr, 16));
            fields.push_back(field);
        }
        table.push_back(fields);
    }
    return table;
}

Table expected_csv() {
    return {
        {"Lot", "Weight kg", "Milled", "At UTC"},
        {"W24-118", "1000", "2026-05-30", "2026-11-25T04:10:00Z"},
        {"a,b;c\t\"d\"", "0.1", "", ""},
        {"'=HYPERLINK(\"x\")", "-5", "1900-01-05", "2026-03-29T23:59:59Z"},
        {"'+1", "0.3333333333333333", "", ""},
        {"'-1", "123456789", "", ""},
        {"'@x", "0.0000001", "", ""},
        {"two\r\nlines", "", "", ""},
        {"Мука пшеничная \u2013 \u00bd \u2265 4 \u00b0C \U0001F33E", "2", "", ""},
        {"0012", "100000", "2028-02-29", ""},
        {"1E5", "", "", ""},
        {" blanks ", "", "", ""},
        {"<a href=\"x\">&amp; _x0041_", "", "", ""},
    };
}

std::vector<fs::path> files_in(const TemporaryFolder& folder) {
    std::vector<fs::path> files;
    for (const auto& entry : fs::directory_iterator(folder.path()))
        files.push_back(entry.path());
    return files;
}

Listing long_list(std::size_t rows) {
    Listing list;
    list.name = "lots";
    list.columns = {{"Lot", "", Holds::text}, {"Weight", "kg", Holds::number, 1}};
    for (std::size_t r = 0; r < rows; ++r)
        list.rows.push_back({"W24-" + std::to_string(r), static_cast<double>(r) / 3});
    return list;
}

} // namespace

TEST_CASE(
    "A list as CSV has its columns in the first line, text quoted, formulas guarded and numbers whole") {
    const auto bytes = write_listing_csv(hostile_list());
    CHECK(bytes.starts_with("\xEF\xBB\xBF\"Lot\",\"Weight kg\",\"Milled\",\"At UTC\"\r\n"
                            "\"W24-118\",1000,\"2026-05-30\",\"2026-11-25T04:10:00Z\"\r\n"));
    const auto csv = read_csv(bytes);
    REQUIRE(csv);
    auto expected = expected_csv();
    CHECK(csv->heads == expected.front());
    expected.erase(expected.begin());
    CHECK(table_of(*csv) == expected);
}

TEST_CASE("Another reader of CSV reads the same fields") {
    if (!is_at_hand("python3")) {
        WARN("python3 is not installed: skipped as second reader of CSV");
        return;
    }
    const TemporaryFolder folder;
    std::ofstream(folder / "list.csv", std::ios::binary) << write_listing_csv(hostile_list());
    CHECK(read_by_python(folder / "list.csv") == expected_csv());
}

TEST_CASE("A number that is none is missing in CSV, and all others read back to the last bit") {
    Listing list;
    list.columns = {{"x", "", Holds::number, 1}};
    for (const double value : {0.1 + 0.2, 5e-324, 1.7976931348623157e308, -0.0, 1e22})
        list.rows.push_back({value});
    list.rows.push_back({std::numeric_limits<double>::quiet_NaN()});
    const auto csv = read_csv(write_listing_csv(list));
    REQUIRE(csv);
    REQUIRE(csv->rows.size() == 5); // a line of one empty field is an empty line
    for (std::size_t i = 0; i < 5; ++i)
        CHECK(std::strtod(csv->rows[i].fields.at(0).c_str(), nullptr) == std::get<double>(list.rows[i][0]));
    CHECK(csv->rows[0].fields.at(0) == "0.30000000000000004");
    CHECK(csv->rows[2].fields.at(0).find('e') == std::string::npos);
}

TEST_CASE("A list as a spreadsheet keeps text as text, numbers as numbers and days as days") {
    const TemporaryFolder folder;
    const auto file = folder / "list.xlsx";
    const auto list = hostile_list();
    REQUIRE(write_listing_xlsx(list, file));
    const auto sheets = read_xlsx(testing::file_bytes(file));
    REQUIRE(sheets);
    REQUIRE(sheets->size() == 2);
    const auto& sheet = sheets->at(0);
    CHECK(sheet.name == "lots   all  new");
    REQUIRE(sheet.rows.size() == list.rows.size() + 1);
    CHECK(sheet.rows[0].cells.at(1).text == "Weight kg");
    CHECK(sheet.rows[1].cells.at(1).is_number);
    CHECK(sheet.rows[1].cells.at(2).text == "2026-05-30");
    CHECK(sheet.rows[3].cells.at(0).text == "=HYPERLINK(\"x\")");
    CHECK_FALSE(sheet.rows[3].cells.at(0).is_number);
    CHECK(sheet.rows[3].cells.at(0).trouble.empty()); // no formula
    CHECK_FALSE(sheet.rows[9].cells.at(0).is_number); // "0012"
    CHECK(sheet.rows[9].cells.at(2).text == "2028-02-29");
    CHECK(sheets->at(1).name == "About");
    CHECK(sheets->at(1).rows.at(0).cells.at(0).text == "Lots in stock");
    CHECK(sheets->at(1).rows.at(2).cells.at(0).text == "=1+1 is no formula here");
}

TEST_CASE("LibreOffice opens the spreadsheet and shows the same, cell by cell") {
    if (!is_at_hand("soffice")) {
        WARN("LibreOffice is not installed: skipped as reader of spreadsheets");
        return;
    }
    const TemporaryFolder folder;
    const auto list = hostile_list();
    REQUIRE(write_listing_xlsx(list, folder / "list.xlsx"));
    const auto home = folder.path().string();
    // Comma, quotes, UTF-8, from line 1, all text quoted, cells as they are shown.
    const auto ran =
        run_outside("cd " + home + " && HOME=" + home + " soffice -env:UserInstallation=file://" + home +
                    "/profile --headless --convert-to "
                    "'csv:Text - txt - csv (StarCalc):44,34,76,1,,0,true,true' list.xlsx");
    INFO(ran.out);
    REQUIRE(fs::exists(folder / "list.csv"));
    const auto csv = read_csv(testing::file_bytes(folder / "list.csv"));
    REQUIRE(csv);
    CHECK(csv->heads == std::vector<std::string>{"Lot", "Weight kg", "Milled", "At UTC"});
    REQUIRE(csv->rows.size() == list.rows.size());
    for (std::size_t r = 0; r < list.rows.size(); ++r) {
        for (std::size_t c = 0; c < list.columns.size(); ++c) {
            auto expected = in_words(list.columns[c], list.rows[r][c]);
            if (list.columns[c].holds == Holds::instant && !expected.empty())
                expected = expected.substr(0, 10) + " " + expected.substr(11, 8);
            if (expected == "two\r\nlines")
                expected = "two\nlines"; // a cell's lines end so
            CHECK(csv->rows[r].fields.at(c) == expected);
        }
    }
}

TEST_CASE("A sheet's name is one that spreadsheets take") {
    CHECK(legal_sheet_name("lots") == "lots");
    CHECK(legal_sheet_name("a[b]:c*d?e/f\\g") == "a b  c d e f g");
    CHECK(legal_sheet_name("'quoted'") == "quoted");
    CHECK(legal_sheet_name("") == "List");
    CHECK(legal_sheet_name("[]") == "List");
    CHECK(legal_sheet_name("HISTORY") == "HISTORY list");
    const auto cut = legal_sheet_name("Мука пшеничная высшего сорта и еще много слов");
    CHECK(cut == "Мука пшеничная высшего сорта и");
}

TEST_CASE("Bytes that are no text and a text too long for a cell do no harm to the spreadsheet") {
    Listing list;
    list.name = "x";
    list.columns = {{"x", "", Holds::text}};
    list.rows = {{std::string("a\xFF\x01") + std::string(1, '\0') + "b"}, {std::string(40'000, 'y')}};
    const TemporaryFolder folder;
    REQUIRE(write_listing_xlsx(list, folder / "x.xlsx"));
    const auto sheets = read_xlsx(testing::file_bytes(folder / "x.xlsx"));
    REQUIRE(sheets);
    const auto& rows = sheets->at(0).rows;
    CHECK_THAT(rows.at(1).cells.at(0).text,
               Catch::Matchers::StartsWith("a?") && Catch::Matchers::EndsWith("b"));
    CHECK(rows.at(2).cells.at(0).text == std::string(32'766, 'y') + "…");
}

TEST_CASE(
    "A disk that takes no more, for the file or for what the library keeps meanwhile, is refused in words") {
    const TemporaryFolder folder;
    const auto bytes = GENERATE(0, 5'000, 60'000);
    const auto list = long_list(20'000);
    Result<Written> written = Written::whole;
    {
        const testing::FullDisk full(static_cast<rlim_t>(bytes));
        written = write_listing_xlsx(list, folder / "x.xlsx");
    }
    REQUIRE_FALSE(written);
    CHECK_THAT(in_words(written.refusals().front()), Contains("the spreadsheet could not be written whole"));
    CHECK_FALSE(write_listing_xlsx(list, folder / "nowhere" / "x.xlsx"));
}

TEST_CASE("Who waits for a long list hears how far it is, and may stop it") {
    const TemporaryFolder folder;
    const auto list = long_list(3'000);
    std::vector<double> shares;
    std::stop_source stop;
    REQUIRE(
        write_listing_xlsx(list, folder / "x.xlsx", {[&](double share) { shares.push_back(share); }, {}}));
    CHECK(std::is_sorted(shares.begin(), shares.end()));
    CHECK(shares.size() > 5);
    CHECK(shares.back() == 1);
    const auto written = write_listing_xlsx(list, folder / "y.xlsx",
                                            {[&](double share) {
                                                 if (share > 0.1)
                                                     stop.request_stop();
                                             },
                                             stop.get_token()});
    REQUIRE(written);
    CHECK(*written == Written::stopped);
    CHECK(files_in(folder) == std::vector<fs::path>{folder / "x.xlsx"});
}
