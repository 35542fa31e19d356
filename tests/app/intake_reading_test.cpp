#include "app/acts/intake.h"
#include "app/acts/notice.h"
#include "app/acts/settings.h"
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

TEST_CASE("A label in pounds fills kilograms, and use-by is the last day where best before is not said") {
    SmallPlant plant;
    plant.app().handle(ReadLabel{"(01)09521234543213(3201)000551(17)270500(10)W24-118"});
    const auto& label = plant.app().intake().label;
    CHECK(label.mass_kg == "24.993"); // 55.1 lb at 453.59237 g
    CHECK(label.best_before == "2027-05-31");
}

TEST_CASE("A lot number that ends as a date would is asked about before it fills anything") {
    SmallPlant plant;
    auto& app = plant.app();
    const std::string scan = "]C1010952123454321310FL-240917A15270531";
    app.handle(ReadLabel{scan});
    CHECK(app.intake().labels == 0);
    CHECK(app.intake().doubt.as_read == "Lot FL-240917A15270531");
    CHECK(app.intake().doubt.otherwise == "Lot FL-240917A, best before 2027-05-31");
    app.handle(ReadLabel{scan, ReadLabel::Reading::parted});
    CHECK(app.intake().labels == 1);
    CHECK(app.intake().label.code == "FL-240917A");
    CHECK(app.intake().label.best_before == "2027-05-31");
    CHECK(app.intake().doubt.scan.empty());
    app.handle(ReadLabel{scan, ReadLabel::Reading::whole});
    CHECK(app.intake().label.code == "FL-240917A15270531");
}

TEST_CASE("A torn label, and one that another keyboard layout bent, are refused with the reason") {
    SmallPlant plant;
    plant.app().handle(ReadLabel{"]C10109521234543219"});
    CHECK_THAT(plant.refusals(), Contains("(01) GTIN") && Contains("check digit"));
    plant.app().handle(ReadLabel{"+C1010952123454321310FL/240917A"});
    CHECK_THAT(plant.refusals(), Contains("keyboard layout"));
    CHECK(plant.app().intake().labels == 0);
}

TEST_CASE("A separator is known as the plant says that its scanners send it") {
    SmallPlant plant;
    plant.app().handle(ChangeSetting{"scanner_separator", "A"});
    CHECK_THAT(plant.refusals(), Contains("Scanner's separator"));
    plant.app().handle(ChangeSetting{"scanner_separator", "~"});
    plant.app().handle(ReadLabel{"]C110FL-1~15270531"});
    CHECK(plant.app().intake().label.code == "FL-1");
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
