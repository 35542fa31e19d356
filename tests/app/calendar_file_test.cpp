#include "app/acts/lots.h"
#include "app/acts/notice.h"
#include "app/acts/save_calendar.h"
#include "app/acts/settings.h"
#include "small_plant.h"
#include "support/catch.h"
#include "support/fixture_file.h"
#include "support/temporary_folder.h"

#include <filesystem>
#include <fstream>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;
using tests::TemporaryFolder;

namespace {

LotDraft with_last_day(const SmallPlant& plant) {
    auto draft = plant.draft("W24-118");
    draft.milled_on = "2026-11-20";
    draft.delivered_on = "2026-11-21";
    draft.best_before = "2027-05-31";
    return draft;
}

} // namespace

TEST_CASE("The calendar has the ready day and the last day of a lot, and the runs with their flour") {
    SmallPlant plant;
    const TemporaryFolder folder;
    plant.released_lot(with_last_day(plant));
    plant.add_run("Pan bread", "2026-11-27", "2");
    const auto file = folder / "flour.ics";
    plant.app().handle(SaveCalendar{file.string()});
    INFO(plant.refusals());
    REQUIRE(plant.was_done());
    const auto bytes = testing::file_bytes(file);
    CHECK_THAT(bytes, Contains("X-WR-CALNAME:Small plant: flour and runs") &&
                          Contains("SUMMARY:Lot W24-118 ready") &&
                          Contains("SUMMARY:Last day of lot W24-118") &&
                          Contains("DTSTART;VALUE=DATE:20270531") &&
                          Contains("SUMMARY:Pan bread on Line 1: 2 batches\\, 200 kg") &&
                          Contains("DTSTART;VALUE=DATE:20261127"));
    plant.app().handle(SaveCalendar{file.string()});
    CHECK(testing::file_bytes(file) == bytes);
}

TEST_CASE("A calendar is not written over a file that is none, nor under another ending") {
    SmallPlant plant;
    const TemporaryFolder folder;
    std::ofstream(folder / "x.ics") << "a letter";
    plant.app().handle(SaveCalendar{(folder / "x.ics").string()});
    CHECK(plant.was_refused());
    CHECK_THAT(plant.refusals(), Contains("no calendar has this name, and it is kept"));
    CHECK(testing::file_bytes(folder / "x.ics") == "a letter");
    plant.app().handle(SaveCalendar{(folder / "x.txt").string()});
    CHECK_THAT(plant.refusals(), Contains(".ics is expected"));
}

TEST_CASE(
    "A calendar file that the plant named is written anew after the acts that change it, and only these") {
    SmallPlant plant;
    const TemporaryFolder folder;
    const auto file = folder / "flour.ics";
    plant.app().handle(ChangeSetting{"calendar_file", file.string()});
    REQUIRE(plant.was_done());
    const auto lot = plant.released_lot(with_last_day(plant));
    const auto with_lot = testing::file_bytes(file);
    CHECK_THAT(with_lot, Contains("Lot W24-118 ready") && !Contains("CANCELLED"));
    plant.app().handle(ChangeSetting{"scanner_gap", "60"});
    CHECK(testing::file_bytes(file) == with_lot);
    plant.app().handle(RejectLot{lot, "mouldy"});
    REQUIRE(plant.was_done());
    CHECK_THAT(testing::file_bytes(file), Contains("Lot W24-118 ready") && Contains("STATUS:CANCELLED"));
    plant.app().handle(ChangeSetting{"calendar_file", (folder / "none" / "x.ics").string()});
    CHECK(plant.was_done()); // on a machine without the folder nothing is written, and nothing said
    CHECK_THAT(plant.said(), !Contains("calendar file is not"));
}

TEST_CASE("A calendar file that cannot be written is told beside the act, which is done all the same") {
    SmallPlant plant;
    const TemporaryFolder folder;
    std::filesystem::create_directory(folder / "x.ics");
    plant.app().handle(ChangeSetting{"calendar_file", (folder / "x.ics").string()});
    CHECK(plant.was_done());
    CHECK_THAT(plant.said(), Contains("The calendar file is not up to date") && Contains("it is a folder"));
    plant.released_lot(plant.draft("W24-119"));
    CHECK(plant.row("W24-119").stock_kg == 1000);
}
