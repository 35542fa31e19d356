#include "app/acts/intake.h"
#include "app/acts/notice.h"
#include "app/models/intake.h"
#include "small_plant.h"
#include "support/catch.h"

#include <filesystem>
#include <fstream>

using namespace mellowbin;
using namespace mellowbin::app;
using Catch::Matchers::Contains;
using tests::SmallPlant;

namespace fs = std::filesystem;

TEST_CASE("A folder is listed with folders first and of the files those that may be certificates, and is "
          "remembered") {
    SmallPlant plant;
    const auto folder = fs::path(plant.book_path()).parent_path() / "dock";
    fs::create_directories(folder / "Zebra");
    fs::create_directories(folder / ".hidden");
    for (const char* name : {"monday.CSV", "April.csv", "picture.png"})
        std::ofstream(folder / name) << "lot number\n";
    plant.app().handle(LookIntoFolder{folder.string()});
    plant.app().handle(LookIntoFolder{});
    const auto& list = plant.app().intake().folder;
    CHECK(fs::path(list.path).filename() == "dock");
    REQUIRE(list.entries.size() == 3);
    CHECK(list.entries[0].name == "Zebra");
    CHECK(list.entries[0].is_folder);
    CHECK(list.entries[1].name == "April.csv");
    CHECK(list.entries[2].name == "monday.CSV");

    plant.app().handle(LookIntoFolder{(folder / "gone").string()});
    CHECK_THAT(plant.app().intake().folder.trouble, Contains("gone") && Contains("cannot be read"));
    CHECK(fs::path(plant.app().intake().folder.path).filename() == "dock");
}

TEST_CASE("A label without a lot number is refused, and one with it says nothing of the notice") {
    SmallPlant plant;
    plant.app().handle(ReadLabel{"(01)09521234543213"});
    CHECK_THAT(plant.refusals(), Contains("Scan: the label has no lot number"));
    plant.app().handle(ReadLabel{"(01)09521234543213(10)W24-118(15)270524"});
    CHECK(plant.app().intake().labels == 1);
    CHECK(plant.app().intake().label.code == "W24-118");
    CHECK(plant.app().intake().label.best_before == "2027-05-24");
}

TEST_CASE("What a lot is checked against while it is typed is what intake checks it against") {
    SmallPlant plant;
    auto draft = plant.draft("W24-118");
    draft.delivered_c = "30";
    draft.mass_kg = "2\u2009500,5";
    const auto& records = plant.app().intake().records;
    const auto checked = accept(draft, records.context(day_from_iso("2026-11-25")));
    REQUIRE_FALSE(checked);
    plant.app().handle(TakeIn{{draft}});
    CHECK(plant.app().notice().refusals == checked.refusals());
    draft.delivered_c = "";
    plant.app().handle(TakeIn{{draft}});
    CHECK(plant.row("W24-118").stock_kg == 2500.5);
}
