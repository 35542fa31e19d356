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
    window.screen.type("Weight", "2 500,5");
    window.screen.click("Take in 2 lots");

    const auto& lots = window.last<app::TakeIn>().lots;
    REQUIRE(lots.size() == 2);
    CHECK(lots[1].mill == "Weir Mill");
    CHECK(lots[1].flour == "Hearth");
    CHECK(lots[1].place == "Bay 3");
    CHECK(lots[1].delivered_on == "2026-11-25");
    CHECK(lots[1].mass_kg == "2 500,5");
}

TEST_CASE(
    "What is wrong with a figure is said when its field is left, at its right, and nothing moves for it") {
    WholeWindow window(Screen::intake);
    auto& screen = window.screen;
    screen.resize(1280, 1400); // nothing is scrolled to
    screen.type("Lot number", "W26-150");
    screen.type("Protein", "131");
    const auto before = screen.find("Protein").rect;
    const auto below = screen.find("Ash").rect;
    CHECK_FALSE(screen.says("131 was read"));
    screen.click("Ash");
    const auto& refusal =
        screen.find("131 was read; from 1 to 40 % is expected. Check the figure and its unit");
    CHECK(refusal.kind == ui::Kind::refusal);
    CHECK(refusal.rect.left >= before.right);
    CHECK(refusal.rect.top >= before.top - 1);
    CHECK(refusal.rect.bottom <= before.bottom + 1);
    CHECK(screen.find("Protein").rect.top == before.top);
    CHECK(screen.find("Ash").rect.top == below.top);
    CHECK(screen.says("1 to mend: protein"));

    screen.type("Protein", "13.1");
    CHECK_FALSE(screen.says("131 was read"));
    CHECK_FALSE(screen.says("to mend: protein"));
    CHECK(screen.find("Ash").rect.top == below.top);
}

TEST_CASE(
    "Pressed too early, the button says at each field what is missing, and what was typed is still there") {
    WholeWindow window(Screen::intake);
    auto& screen = window.screen;
    screen.type("Lot number", "W26-150");
    screen.type("Moisture", "140");
    CHECK(screen.says("still to fill in: mill, flour, place, weight"));
    screen.click("Take in 1 lot");
    window.tell(test::refused(1, {{"Moisture", "140 was read", "Check the figure"}}));
    CHECK(screen.value_of("Lot number") == "W26-150");
    CHECK(screen.value_of("Moisture") == "140");
    CHECK(screen.says("5 to mend: mill, flour, place, weight, moisture"));
    CHECK(screen.says("140 was read; from 0 to 30 % is expected"));
}

TEST_CASE("What the book alone refuses stands at its lot and field until it is mended") {
    WholeWindow window(Screen::intake);
    auto& screen = window.screen;
    type_whole_lot(screen, "W26-150");
    screen.click("Next lot");
    screen.type("Lot number", "W26-151");
    screen.type("Weight", "500");
    screen.click("Take in 2 lots");
    window.tell(test::refused(
        1, {{"Lot W26-151: Lot number", "is in the book already", "Read it from the label once more"}}));
    CHECK(screen.says("is in the book already. Read it from the label once more"));
    CHECK(screen.says("1 to mend: lot number"));
    CHECK(screen.offers("Take in 1 of 2"));
    screen.type("Lot number", "W26-157");
    CHECK_FALSE(screen.says("is in the book already"));
    CHECK(screen.offers("Take in 2 lots"));
}

TEST_CASE("Each lot keeps its own mark, and those that are whole are taken in alone") {
    WholeWindow window(Screen::intake);
    auto& screen = window.screen;
    type_whole_lot(screen, "W26-150");
    for (const char* code : {"W26-151", "W26-152", "W26-153", "W26-154"}) {
        screen.click("Next lot");
        screen.type("Lot number", code);
        screen.type("Weight", std::string_view(code) == "W26-153" ? "2 5OO" : "2 500,5");
    }
    screen.click("W26-152");
    screen.type("Protein", "131");
    screen.click("Ash");
    CHECK(screen.value_of("W26-151") == "W26-151 | 2 500.5 | whole");
    CHECK(screen.value_of("W26-152") == "W26-152 | 2 500.5 | 1 to mend: protein");
    CHECK(screen.value_of("W26-153") == "W26-153 | 2 5OO | 1 to mend: weight");
    CHECK(screen.says("5 lots"));
    CHECK(screen.says("2 lots stay here until they are mended"));

    screen.click("Take in 3 of 5");
    const auto& act = window.last<app::TakeIn>();
    REQUIRE(act.lots.size() == 3);
    CHECK(act.lots[2].code == "W26-154");
    window.intake.taken_in = 1;
    window.tell(test::done(1, "Lots W26-150, W26-151, W26-154 taken in"));
    CHECK_FALSE(screen.offers("W26-150"));
    screen.click("W26-152");
    CHECK(screen.value_of("Protein") == "131");
    screen.click("W26-153");
    CHECK(screen.value_of("Weight") == "2 5OO");
}

TEST_CASE("The basis is asked once, and of a figure where it differs") {
    WholeWindow window(Screen::intake);
    auto& screen = window.screen;
    type_whole_lot(screen, "W26-150");
    screen.type("Protein", "12,4");
    screen.type("Ash", "0,58");
    screen.click("Absorption");
    CHECK(screen.says("is empty; needed for protein, ash"));
    CHECK(screen.says("1 to mend: basis of all figures"));
    screen.click("Basis of all figures");
    screen.click("14 % moisture");
    CHECK_THAT(screen.value_of("W26-150"), Catch::Contains("whole"));
    CHECK_FALSE(screen.offers("Ash basis"));
    screen.click("Other basis");
    screen.click("Ash basis");
    screen.click("dry matter");
    screen.click("One for all");
    CHECK(screen.value_of("Ash basis") == "dry matter");
    CHECK_FALSE(screen.offers("Protein basis"));
    screen.click("Take in 1 lot");
    auto lot = window.last<app::TakeIn>().lots.at(0);
    CHECK(lot.figure(Property::protein).basis == "14 % moisture");
    CHECK(lot.figure(Property::ash).basis == "dry matter");
}

TEST_CASE("Beside a figure stands what the flour's specification expects, and that it lies outside") {
    WholeWindow window(Screen::intake);
    auto& screen = window.screen;
    type_whole_lot(screen, "W26-150");
    CHECK(screen.says("at most 14.5 %"));
    screen.click("Basis of all figures");
    screen.click("14 % moisture");
    screen.type("Protein", "11");
    CHECK(screen.says("below 11.5 to 13.0 %"));
}

TEST_CASE("A refusal of something else does not mark the delivery") {
    WholeWindow window(Screen::intake);
    window.screen.type("Lot number", "W26-150");
    window.tell(test::refused(1, {{"Weight", "is empty", "Enter the figure"}}));
    CHECK(window.screens.intake.delivery.at_hand().refusals.empty());
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

TEST_CASE("Where something stands against a lot the form asks why it comes in all the same, and loses "
          "nothing typed") {
    WholeWindow window(Screen::intake);
    auto& screen = window.screen;
    screen.resize(1280, 1600);
    type_whole_lot(screen, "W26-150");
    CHECK_FALSE(screen.offers("Why take it in all the same"));
    screen.type("Best before", "2026-11-24");
    screen.click("Weight");
    CHECK(screen.says("Something stands against this lot"));
    CHECK(screen.says("2026-11-24 was read, which is over: today is 2026-11-25"));
    CHECK(screen.says("1 to mend: best before"));
    screen.type("Why take it in all the same", "for the feed trial");
    CHECK(screen.says("taken in all the same: best before"));
    CHECK(screen.value_of("Best before") == "2026-11-24");
    screen.click("Take in 1 lot");
    const auto& lot = window.last<app::TakeIn>().lots.at(0);
    CHECK(lot.accept_reason == "for the feed trial");
    CHECK(lot.best_before == "2026-11-24");
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

TEST_CASE("Where a scanner may have lost a separator, a person says what the lot number is") {
    WholeWindow window(Screen::intake);
    auto& screen = window.screen;
    CHECK_FALSE(screen.says("did the scanner lose a separator?"));
    window.intake.doubt = {"]C110FL-1A15270531", "Lot FL-1A15270531", "Lot FL-1A, best before 2027-05-31"};
    screen.settle();
    CHECK(screen.says("did the scanner lose a separator?"));
    screen.click("Lot FL-1A, best before 2027-05-31");
    CHECK(window.last<app::ReadScan>().scan == "]C110FL-1A15270531");
    CHECK(window.last<app::ReadScan>().reading == app::ReadLabel::Reading::parted);
    screen.click("Lot FL-1A15270531");
    CHECK(window.last<app::ReadScan>().reading == app::ReadLabel::Reading::whole);
}
