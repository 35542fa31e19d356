#include "a_bakery.h"
#include "cli/command_line.h"
#include "exchange/csv.h"
#include "support/catch.h"
#include "support/epcis_rules.h"
#include "support/fixture_file.h"

using namespace mellowbin;
using Catch::Matchers::Contains;
using tests::ABakery;

TEST_CASE("A list is saved as CSV and as a spreadsheet, by its name") {
    ABakery bakery;
    const auto csv = bakery.terminal.file("lots.csv");
    CHECK_THAT(bakery.done({"save-list", "lots", "--to", csv}),
               Contains("Lots saved to " + csv + ": 6 rows"));
    const auto table = read_csv(testing::file_bytes(csv));
    REQUIRE(table);
    CHECK(table->heads.front() == "Lot");
    CHECK(table->rows.size() == 6);
    const auto xlsx = bakery.terminal.file("movements.XLSX");
    CHECK_THAT(bakery.done({"save-list", "movements", "--to", xlsx, "--from", "2026-11-01", "--to-day",
                            "2026-11-30"}),
               Contains("6 rows"));
    CHECK(testing::file_bytes(xlsx).starts_with("PK"));
    const auto record = bakery.terminal.file("record.csv");
    CHECK_THAT(bakery.done({"save-list", "mill-record", "--mill", "Weir Mill", "--to", record}),
               Contains("Record of Weir Mill saved") && Contains("6 rows"));
}

TEST_CASE("Which lists there are is said in the help, and a name that is none is refused with them") {
    ABakery bakery;
    CHECK(bakery.terminal.type({"save-list", "--help"}) == cli::done);
    CHECK_THAT(bakery.terminal.out, Contains("movements") && Contains("every movement of the span"));
    CHECK_THAT(bakery.refused({"save-list", "flowers", "--to", bakery.terminal.file("x.csv")}),
               Contains("Choose one of: lots, past-lots"));
    CHECK(bakery.terminal.on_book({"save-list", "lots"}) == cli::bad_usage);
}

TEST_CASE("A calendar and the events are saved by their commands") {
    ABakery bakery;
    const auto calendar = bakery.terminal.file("flour.ics"), events = bakery.terminal.file("flour.jsonld");
    CHECK_THAT(bakery.done({"calendar", "--to", calendar}),
               Contains("Calendar saved to " + calendar + ": 6 days"));
    CHECK(testing::file_bytes(calendar).starts_with("BEGIN:VCALENDAR\r\n"));
    CHECK_THAT(bakery.done({"events", "--to", events, "--from", "2026-11-01"}), Contains("6 events"));
    const auto document = nlohmann::json::parse(testing::file_bytes(events));
    CHECK(testing::EpcisRules::faults_of(document) == std::vector<std::string>{});
    CHECK(document["epcisBody"]["eventList"][0]["bizStep"] == "receiving");
    CHECK_THAT(bakery.refused({"events", "--to", bakery.terminal.file("x.txt")}),
               Contains(".jsonld or .json"));
}
