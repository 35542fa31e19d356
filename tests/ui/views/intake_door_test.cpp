#include "app/acts/intake.h"
#include "app/acts/looking.h"
#include "app/acts/read_scan.h"
#include "support/catch.h"
#include "ui/views/intake_typing.h"
#include "ui/views/whole_window.h"

using namespace mellowbin;
using test::type_whole_lot;
using test::WholeWindow;
using views::Screen;

namespace {

constexpr auto enter = ui::Key::enter;

} // namespace

TEST_CASE("A \"no\" at the door names its lot, which starts on hold, and the others keep a yes") {
    WholeWindow window(Screen::intake);
    auto& screen = window.screen;
    type_whole_lot(screen, "W26-150");
    screen.click("Next lot");
    screen.type("Lot number", "W26-151");
    screen.type("Weight", "500");
    screen.click("Bags dry and not torn/No");
    CHECK(screen.value_of("Bags dry and not torn/Lot/Lot") == "all lots");
    screen.click("Bags dry and not torn/Lot/Lot");
    screen.click("W26-151");
    screen.type("Bags dry and not torn/Bags", "2");
    screen.type("Bags dry and not torn/Note", "torn by the fork");
    CHECK(screen.says("starts on hold: 2 bags, torn by the fork"));
    CHECK_THAT(screen.value_of("W26-150"), Catch::Contains("whole"));

    screen.click("Take in 2 lots");
    const auto& door = window.last<app::TakeIn>().door;
    REQUIRE(door.size() == 4);
    CHECK(door[1].answer == "Yes");
    CHECK(door[1].lot.empty());
    CHECK(door[2].question == "Bags dry and not torn");
    CHECK(door[2].answer == "No");
    CHECK(door[2].lot == "W26-151");
    CHECK(door[2].bags == "2");
}

TEST_CASE("A label fills what it says of its lot, and leaves what was typed") {
    WholeWindow window(Screen::intake);
    auto& screen = window.screen;
    screen.type("Weight", "990");
    screen.type("Scan or lot number", "(10)W26-150(11)261120(3100)001000");
    screen.press(enter);
    CHECK(window.last<app::ReadScan>().scan == "(10)W26-150(11)261120(3100)001000");
    window.intake.label.code = "W26-150";
    window.intake.label.milled_on = "2026-11-20";
    window.intake.label.mass_kg = "1000";
    window.intake.labels = 1;
    screen.settle();
    CHECK(screen.value_of("Lot number") == "W26-150");
    CHECK(screen.value_of("Milled on") == "2026-11-20");
    CHECK(screen.value_of("Weight") == "990");
    CHECK(screen.says("W26-150 read, 2 fields filled"));
    CHECK(screen.says("from the scan"));
}

TEST_CASE("A certificate file is picked from folders by arrows and Enter, and its lots join the list") {
    WholeWindow window(Screen::intake);
    auto& screen = window.screen;
    window.screens.intake.delivery.at_hand().draft.mill = "Harrow Mill";
    screen.click("Read a file");
    CHECK(window.last<app::LookIntoFolder>().path.empty());
    window.intake.folder = {"/srv/dock", {{"2026", true}, {"monday.csv", false}}, ""};
    screen.settle();
    CHECK(screen.focused() == "Folders and files");
    screen.press(enter);
    CHECK(window.last<app::LookIntoFolder>().path == "/srv/dock/2026");
    screen.press(ui::Key::up);
    screen.press(enter);
    CHECK(window.last<app::LookIntoFolder>().path == "/srv");
    screen.press(ui::Key::end);
    screen.press(enter);
    const auto& act = window.last<app::ReadCertificateFile>();
    CHECK(act.path == "/srv/dock/monday.csv");
    CHECK(act.defaults.mill == "Harrow Mill");
    CHECK(act.defaults.delivered_on == "2026-11-25");
    CHECK_FALSE(screen.offers("Read none"));

    const auto folder = window.intake.folder;
    window.intake = test::a_dock_with_a_file();
    window.intake.folder = folder;
    window.tell(test::done(1, "2 lots read"));
    CHECK(screen.value_of("Lot number") == "W26-140");
    CHECK(screen.value_of("Moisture") == "14,1");
    CHECK(screen.value_of("Basis of all figures") == "dry matter");
    CHECK(screen.offers("Take in 2 lots"));
    CHECK(screen.says("Column \"Colour\" is not known and was left out"));
}

TEST_CASE("Escape leaves the folders with nothing read") {
    WholeWindow window(Screen::intake);
    window.screen.click("Read a file");
    window.screen.press(ui::Key::escape);
    CHECK_FALSE(window.screen.offers("Read none"));
    CHECK(window.did.size() == 1);
}

TEST_CASE("Files dropped on the window are read on Intake, one after another") {
    WholeWindow window(Screen::lots);
    window.screens.drop_file("/srv/dock/monday.csv");
    window.screens.drop_file("/srv/dock/tuesday.csv");
    window.screen.settle();
    CHECK(window.screens.current() == Screen::intake);
    CHECK(window.last<app::ReadCertificateFile>().path == "/srv/dock/monday.csv");
    window.tell(test::done(1, "2 lots read"));
    CHECK(window.last<app::ReadCertificateFile>().path == "/srv/dock/tuesday.csv");
}

TEST_CASE("A file that cannot be read is told with its name, and the delivery is untouched") {
    WholeWindow window(Screen::intake);
    auto& screen = window.screen;
    screen.resize(1280, 1400);
    screen.type("Lot number", "W26-150");
    window.screens.drop_file("nothing.csv");
    screen.settle();
    window.tell(test::refused(1, {{"Certificate file", "\"nothing.csv\" is not there", "Check the name"}}));
    CHECK(screen.value_of("Lot number") == "W26-150");
    CHECK(screen.says("Certificate file: \"nothing.csv\" is not there. Check the name"));
}

TEST_CASE("What a file says and no list knows stays as it was read") {
    WholeWindow window(Screen::intake);
    window.intake = test::a_dock_with_a_file();
    window.intake.read_drafts[0].mill = "Old Mill";
    window.screen.settle();
    CHECK(window.screen.says("\"Old Mill\" is not known"));
    CHECK(window.screen.says("1 to mend: mill"));
    CHECK(window.screens.intake.delivery.at_hand().draft.mill == "Old Mill");
}

TEST_CASE(
    "Each check at the door is answered yes, no or not looked at; a \"no\" asks how many bags, and a note") {
    WholeWindow window(Screen::intake);
    auto& screen = window.screen;
    screen.type("Lot number", "W26-150");
    CHECK(screen.value_of("Bags dry and not torn") == "Not looked at");
    CHECK_FALSE(screen.offers("Bags dry and not torn/Bags"));
    screen.click("Seal whole, or bags closed/Yes");
    screen.click("Bags dry and not torn/No");
    screen.type("Bags dry and not torn/Bags", "3");
    screen.type("Bags dry and not torn/Note", "wet at one corner");
    screen.click("Add notes");
    screen.type("Free of insects and foreign smell/Note", "dark");
    screen.click("Take in 1 lot");

    const auto& door = window.last<app::TakeIn>().door;
    REQUIRE(door.size() == 3);
    CHECK(door[0].answer == "Yes");
    CHECK(door[1].question == "Bags dry and not torn");
    CHECK(door[1].answer == "No");
    CHECK(door[1].bags == "3");
    CHECK(door[1].note == "wet at one corner");
    CHECK(door[2].answer == "Not looked at");
    CHECK(door[2].note == "dark");
}

TEST_CASE("A count of bags that is none is refused beneath it, and the lot is not whole") {
    WholeWindow window(Screen::intake);
    auto& screen = window.screen;
    screen.resize(1280, 1600);
    type_whole_lot(screen, "W26-150");
    screen.click("Bags dry and not torn/No");
    screen.type("Bags dry and not torn/Bags", "some");
    CHECK(screen.says("\"some\" was read"));
    CHECK(screen.says("1 to mend: at the door"));
    CHECK(screen.value_of("Bags dry and not torn") == "No");
    screen.type("Bags dry and not torn/Bags", "3");
    CHECK(screen.says("starts on hold: 3 bags"));
}

TEST_CASE("When the plant asks something else at the door, what was answered to the rest stays") {
    WholeWindow window(Screen::intake);
    window.screen.click("Bags dry and not torn/No");
    window.intake.door_questions = {"Bags dry and not torn", "Flour below 25 °C"};
    window.screen.settle();
    CHECK(window.screen.value_of("Bags dry and not torn") == "No");
    CHECK(window.screen.value_of("Flour below 25 °C") == "Not looked at");
    CHECK_FALSE(window.screen.offers("Seal whole, or bags closed"));
}
