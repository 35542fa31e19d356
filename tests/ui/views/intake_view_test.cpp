#include "app/acts/intake.h"
#include "app/acts/looking.h"
#include "support/catch.h"
#include "ui/views/whole_window.h"

using namespace mellowbin;
using test::WholeWindow;
using views::Screen;

namespace {

constexpr auto tab = ui::Key::tab;
constexpr auto enter = ui::Key::enter;

/// Tab until the thing of these words has the focus.
void tab_to(testing::Screen& screen, std::string_view words) {
    for (int presses = 0; presses < 80 && screen.focused() != words; ++presses)
        screen.press(tab);
    REQUIRE(screen.focused() == words);
}

const std::string* value_of(const LotDraft& draft, Property property) {
    for (const auto& figure : draft.figures)
        if (figure.property == property)
            return &figure.value;
    return nullptr;
}

} // namespace

TEST_CASE("An empty dock asks for the lot number first and says why nothing can be taken in yet") {
    WholeWindow window(Screen::intake);
    CHECK(window.screen.focused() == "Lot number");
    CHECK_FALSE(window.screen.is_enabled("Take in 1 lot"));
    CHECK(window.screen.says("Scan or type a lot number first"));
    CHECK(window.screen.value_of("Delivered on") == "2026-11-25");
}

TEST_CASE("A lot is taken in with the keyboard alone") {
    WholeWindow window(Screen::intake);
    auto& screen = window.screen;
    screen.type("W26-150");
    screen.press(tab);
    screen.type("1000");
    tab_to(screen, "Mill");
    screen.press(ui::Key::right);
    tab_to(screen, "Moisture");
    screen.type("14,1");
    screen.press(enter);

    const auto& act = window.last<app::TakeIn>();
    REQUIRE(act.lots.size() == 1);
    CHECK(act.lots[0].code == "W26-150");
    CHECK(act.lots[0].mass_kg == "1000");
    CHECK(act.lots[0].mill == "Harrow Mill");
    CHECK(act.lots[0].delivered_on == "2026-11-25");
    REQUIRE(value_of(act.lots[0], Property::moisture));
    CHECK(*value_of(act.lots[0], Property::moisture) == "14,1");
}

TEST_CASE("Comma and point stay as they were typed") {
    WholeWindow window(Screen::intake);
    window.screen.type("Lot number", "W26-150");
    window.screen.type("Moisture", "14,1");
    window.screen.type("Protein", "12.45");
    CHECK(window.screen.value_of("Moisture") == "14,1");
    CHECK(window.screen.value_of("Protein") == "12.45");
}

TEST_CASE("A scanned number fills the lot at hand, the next one begins the next lot, a known one is taken up "
          "again") {
    WholeWindow window(Screen::intake);
    auto& screen = window.screen;
    screen.press(ui::Key::f9);
    CHECK(screen.focused() == "Scan or lot number");
    screen.type("W26-150");
    screen.press(enter);
    CHECK(screen.value_of("Lot number") == "W26-150");
    CHECK(screen.value_of("Scan or lot number").empty());
    screen.type("Weight", "1000");

    screen.type("Scan or lot number", "W26-151");
    screen.press(enter);
    CHECK(screen.value_of("Lot number") == "W26-151");
    CHECK(screen.value_of("Weight").empty());
    CHECK(screen.offers("Take in 2 lots"));

    screen.type("Scan or lot number", "W26-150");
    screen.press(enter);
    CHECK(screen.value_of("Weight") == "1000");
    CHECK(screen.offers("Take in 2 lots"));
}

TEST_CASE("The next lot comes from the same mill, to the same place, on the same day") {
    WholeWindow window(Screen::intake);
    auto& line = window.screens.intake.delivery.at_hand().draft;
    line.code = "W26-150";
    line.mill = "Weir Mill";
    line.flour = "Hearth";
    line.place = "Bay 3";
    line.mass_kg = "1000";
    window.screen.settle();
    window.screen.click("Next lot");
    window.screen.type("Lot number", "W26-151");
    window.screen.click("Take in 2 lots");

    const auto& lots = window.last<app::TakeIn>().lots;
    REQUIRE(lots.size() == 2);
    CHECK(lots[1].mill == "Weir Mill");
    CHECK(lots[1].flour == "Hearth");
    CHECK(lots[1].place == "Bay 3");
    CHECK(lots[1].delivered_on == "2026-11-25");
    CHECK(lots[1].mass_kg.empty());
}

TEST_CASE("A refusal stands beside its field, and everything typed is still there") {
    WholeWindow window(Screen::intake);
    auto& screen = window.screen;
    screen.type("Lot number", "W26-150");
    screen.type("Moisture", "140");
    screen.click("Take in 1 lot");
    window.tell(
        test::refused(1, {{"Moisture", "140 was read; from 0 to 30 % is expected", "Check the figure"},
                          {"Weight", "is empty; from 0.1 to 1000000 kg is expected", "Enter the figure"}}));

    CHECK(screen.value_of("Lot number") == "W26-150");
    CHECK(screen.value_of("Moisture") == "140");
    CHECK(screen.says("2 to mend"));
    const auto& field = screen.find("Moisture");
    const auto& refusal = screen.find("140 was read; from 0 to 30 % is expected. Check the figure");
    CHECK(refusal.rect.top >= field.rect.bottom - 1);
    CHECK(refusal.rect.top < field.rect.bottom + field.rect.height());
    CHECK(refusal.rect.left >= field.rect.left - 1);
}

TEST_CASE("Of several lots each refusal is put at its own, named by number or by place") {
    WholeWindow window(Screen::intake);
    auto& screen = window.screen;
    screen.type("Lot number", "W26-150");
    screen.click("Next lot");
    screen.type("Weight", "500");
    screen.click("Take in 2 lots");
    window.tell(test::refused(1, {{"2nd lot: Lot number", "is empty", "Read it from the label"},
                                  {"Lot W26-150: Weight", "is empty", "Enter the figure"}}));

    const auto& lines = window.screens.intake.delivery.lines();
    REQUIRE(lines.size() == 2);
    REQUIRE(lines[0].refusals.size() == 1);
    CHECK(lines[0].refusals[0].field == "Weight");
    REQUIRE(lines[1].refusals.size() == 1);
    CHECK(lines[1].refusals[0].field == "Lot number");
    CHECK(screen.says("is empty. Read it from the label"));
    CHECK_FALSE(screen.says("is empty. Enter the figure"));
    screen.click("W26-150");
    CHECK(screen.says("is empty. Enter the figure"));
    CHECK(screen.value_of("Lot number") == "W26-150");
}

TEST_CASE("A refusal of something else does not mark the delivery") {
    WholeWindow window(Screen::intake);
    window.screen.type("Lot number", "W26-150");
    window.tell(test::refused(1, {{"Weight", "is empty", "Enter the figure"}}));
    CHECK(window.screens.intake.delivery.at_hand().refusals.empty());
}

TEST_CASE("The form is emptied when the lots are in the book, and not before") {
    WholeWindow window(Screen::intake);
    auto& screen = window.screen;
    screen.type("Lot number", "W26-150");
    screen.click("Bags dry and not torn/No");
    screen.type("Bags dry and not torn/Bags", "3");
    screen.type("Bags dry and not torn/Note", "wet at one corner");
    window.screens.intake.delivery.at_hand().draft.mill = "Weir Mill";
    screen.click("Take in 1 lot");
    CHECK(screen.value_of("Lot number") == "W26-150");
    REQUIRE(window.last<app::TakeIn>().door.size() == 3);

    window.intake.taken_in = 1;
    window.tell(test::done(1, "Lot W26-150 taken in"));
    CHECK(screen.says("Lot W26-150 taken in"));
    CHECK(screen.value_of("Lot number").empty());
    CHECK(screen.value_of("Mill") == "Weir Mill");
    CHECK(screen.value_of("Bags dry and not torn") == "Not looked at");
    CHECK_FALSE(screen.offers("Bags dry and not torn/Bags"));
    CHECK(screen.focused() == "Lot number");
}

TEST_CASE("When the book cannot be written, the box says so and what was typed is still there") {
    WholeWindow window(Screen::intake);
    auto& screen = window.screen;
    screen.type("Lot number", "W26-150");
    screen.click("Take in 1 lot");
    window.tell(test::failed(1));
    CHECK(screen.says("The book could not be written: the disk is full"));
    screen.press(ui::Key::escape);
    CHECK(window.did.back().as<app::PutAwayNotice>());
    window.tell({});
    CHECK(screen.value_of("Lot number") == "W26-150");
    CHECK(screen.offers("Take in 1 lot"));
}

TEST_CASE("A certificate file is read for the mill at hand, and its lots join the list") {
    WholeWindow window(Screen::intake);
    auto& screen = window.screen;
    window.screens.intake.delivery.at_hand().draft.mill = "Harrow Mill";
    screen.type("Certificate file", "monday.csv");
    screen.press(enter);
    const auto& act = window.last<app::ReadCertificateFile>();
    CHECK(act.path == "monday.csv");
    CHECK(act.defaults.mill == "Harrow Mill");
    CHECK(act.defaults.delivered_on == "2026-11-25");

    window.intake = test::a_dock_with_a_file();
    window.tell(test::done(1, "2 lots read"));
    CHECK(screen.value_of("Lot number") == "W26-140");
    CHECK(screen.value_of("Moisture") == "14,1");
    CHECK(screen.value_of("Protein basis") == "dry matter");
    CHECK(screen.offers("Take in 2 lots"));
    screen.click("Read file");
    CHECK(screen.says("Column \"Colour\" is not known and was left out"));
}

TEST_CASE("A file that cannot be read is refused beside its field, and the delivery is untouched") {
    WholeWindow window(Screen::intake);
    auto& screen = window.screen;
    screen.type("Lot number", "W26-150");
    screen.type("Certificate file", "nothing.csv");
    screen.click("Read file");
    window.tell(test::refused(1, {{"Certificate file", "\"nothing.csv\" is not there", "Check the name"}}));
    CHECK(screen.value_of("Lot number") == "W26-150");
    CHECK(screen.find("\"nothing.csv\" is not there. Check the name").kind == ui::Kind::refusal);
}

TEST_CASE("What a file says and no list knows stays as it was read") {
    WholeWindow window(Screen::intake);
    window.intake = test::a_dock_with_a_file();
    window.intake.read_drafts[0].mill = "Old Mill";
    window.screen.settle();
    CHECK(window.screen.says("\"Old Mill\" was read; it is not in the list"));
    window.screen.click("Take in 2 lots");
    CHECK(window.last<app::TakeIn>().lots[0].mill == "Old Mill");
}

TEST_CASE("A filled lot leaves the list only after a question, and Escape keeps it") {
    WholeWindow window(Screen::intake);
    auto& screen = window.screen;
    screen.type("Lot number", "W26-150");
    screen.click("Take off the list");
    CHECK(screen.says("Take lot W26-150 off the delivery?"));
    screen.press(ui::Key::escape);
    CHECK(screen.value_of("Lot number") == "W26-150");
    screen.click("Take off the list");
    screen.click("Take it off");
    CHECK(screen.value_of("Lot number").empty());
}

TEST_CASE("A window that stays open over midnight begins the next delivery with the new day") {
    WholeWindow window(Screen::intake);
    window.overview.today += Days{1};
    window.screen.settle();
    CHECK(window.screen.value_of("Delivered on") == "2026-11-26");
    window.screen.type("Delivered on", "2026-11-20");
    window.overview.today += Days{1};
    window.screen.settle();
    CHECK(window.screen.value_of("Delivered on") == "2026-11-20");
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

TEST_CASE("A refusal of a check stands beside its field, with the answer and the lot as typed") {
    WholeWindow window(Screen::intake);
    auto& screen = window.screen;
    screen.type("Lot number", "W26-150");
    screen.click("Bags dry and not torn/No");
    screen.type("Bags dry and not torn/Bags", "some");
    screen.click("Take in 1 lot");
    window.tell(test::refused(1, {{"At the door: Bags dry and not torn: Bags",
                                   "\"some\" was read; a number is expected", "Type digits"},
                                  {"Weight", "is empty", "Enter the figure"}}));
    const auto& field = screen.find("Bags dry and not torn/Bags");
    const auto& refusal = screen.find("\"some\" was read; a number is expected. Type digits");
    CHECK(refusal.rect.top >= field.rect.bottom - 1);
    CHECK(refusal.rect.left >= field.rect.left - 1);
    CHECK(screen.value_of("Bags dry and not torn") == "No");
    CHECK(screen.value_of("Bags dry and not torn/Bags") == "some");
    CHECK(window.screens.intake.delivery.at_hand().refusals.size() == 1); // the weight's alone
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

TEST_CASE("Where something stands against a lot the form asks why it comes in all the same, and loses "
          "nothing typed") {
    WholeWindow window(Screen::intake);
    auto& screen = window.screen;
    CHECK_FALSE(screen.offers("Why take it in all the same"));
    screen.type("Lot number", "W26-150");
    screen.type("Best before", "2026-11-24");
    screen.type("Flour temperature", "31,5");
    screen.click("Take in 1 lot");
    window.tell(test::refused(
        1, {{"Best before", "2026-11-24 was read, which is over: today is 2026-11-25", "Correct it"},
            {"Why take it in all the same", "is empty", "Say it in a few words, or send the flour back"}}));
    CHECK(screen.says("Something stands against this lot"));
    CHECK(screen.find("2026-11-24 was read, which is over: today is 2026-11-25. Correct it").kind ==
          ui::Kind::refusal);
    CHECK(screen.value_of("Best before") == "2026-11-24");
    CHECK(screen.value_of("Flour temperature") == "31,5");
    screen.type("Why take it in all the same", "for the feed trial");
    screen.click("Take in 1 lot");
    const auto& lot = window.last<app::TakeIn>().lots.at(0);
    CHECK(lot.accept_reason == "for the feed trial");
    CHECK(lot.best_before == "2026-11-24");
    CHECK(lot.delivered_c == "31,5");
}

TEST_CASE("The next lot of a delivery is asked for its own reason") {
    WholeWindow window(Screen::intake);
    window.screens.intake.delivery.at_hand().draft.accept_reason = "for the feed trial";
    window.screens.intake.delivery.at_hand().draft.code = "W26-150";
    window.screen.settle();
    CHECK(window.screen.value_of("Why take it in all the same") == "for the feed trial");
    window.screen.click("Next lot");
    CHECK_FALSE(window.screen.offers("Why take it in all the same"));
}
