#include "app/acts/intake.h"
#include "app/acts/looking.h"
#include "support/catch.h"
#include "ui/views/intake_typing.h"
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
    CHECK(screen.focused() == "Flour");
    screen.press(ui::Key::right);
    tab_to(screen, "Weight");
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
    CHECK(act.lots[0].flour == "Strong white");
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
    CHECK(window.last<app::ReadScan>().scan == "W26-150");
    CHECK(screen.value_of("Lot number").empty()); // what it says, the application reads
    test::answer_label(window, "W26-150");
    CHECK(screen.value_of("Lot number") == "W26-150");
    CHECK(screen.value_of("Scan or lot number").empty());
    screen.type("Weight", "1000");

    test::enter_lot(window, "W26-151");
    CHECK(screen.value_of("Lot number") == "W26-151");
    CHECK(screen.value_of("Weight").empty());
    CHECK(screen.offers("Take in 2 lots"));
    CHECK_FALSE(screen.says("scanned before"));

    test::enter_lot(window, "W26-150");
    CHECK(screen.value_of("Weight") == "1000");
    CHECK(screen.offers("Take in 2 lots"));
    CHECK(screen.says("W26-150 was scanned before: it is on the list"));
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
