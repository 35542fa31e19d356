#include "app/acts/looking.h"
#include "app/acts/lots.h"
#include "support/catch.h"
#include "ui/views/whole_window.h"

#include <utility>

using namespace mellowbin;
using test::WholeWindow;
using views::Screen;

TEST_CASE("The rail says what waits on each screen, and nothing where nothing waits") {
    WholeWindow window(Screen::intake);
    CHECK(window.screen.says("3 in quarantine"));
    CHECK(window.screen.says("1 short"));
    CHECK(window.screen.says("2 past best"));
    CHECK(window.screen.says("4 to mix"));
    window.overview.short_runs = 0;
    window.screen.settle();
    CHECK_FALSE(window.screen.says("short"));
}

TEST_CASE(
    "F1 to F6 lead to the six screens that have them, and what was typed is there when one comes back") {
    WholeWindow window(Screen::intake);
    window.screen.type("Lot number", "W26-150");
    constexpr std::pair<ui::Key, Screen> keys[]{
        {ui::Key::f6, Screen::settings},  {ui::Key::f5, Screen::mixer}, {ui::Key::f4, Screen::plan},
        {ui::Key::f3, Screen::readiness}, {ui::Key::f2, Screen::lots},  {ui::Key::f1, Screen::intake}};
    for (const auto& [key, screen] : keys) {
        window.screen.press(key);
        CHECK(window.screens.current() == screen);
    }
    CHECK(window.screen.value_of("Lot number") == "W26-150");
}

TEST_CASE("Every screen is reached by Ctrl and its place on the rail, Trace and Plant by no function key") {
    WholeWindow window(Screen::intake);
    constexpr ui::Key digits[]{ui::Key::digit_1, ui::Key::digit_2, ui::Key::digit_3, ui::Key::digit_4,
                               ui::Key::digit_5, ui::Key::digit_6, ui::Key::digit_7, ui::Key::digit_8};
    for (int i = 7; i >= 0; --i) {
        window.screen.press(digits[i], ui::Mods::ctrl);
        CHECK(window.screens.current() == static_cast<Screen>(i));
    }
    window.screen.press(ui::Key::f7);
    CHECK(window.screens.current() == Screen::intake);
}

TEST_CASE("Undo does what the notice says, in its order") {
    WholeWindow window(Screen::lots);
    auto notice = test::done(1, "Lot W26-131 released");
    notice.undo = "Undo: hold lot W26-131 again";
    notice.undoing = {app::HoldLot{LotId{6}, "release taken back"}};
    window.tell(notice);
    window.screen.click("Undo: hold lot W26-131 again");
    CHECK(window.last<app::HoldLot>().lot == LotId{6});
}

TEST_CASE("What was done or refused goes by itself after a while, but not while the pointer is on it") {
    WholeWindow window(Screen::lots);
    const auto wait = [&](float seconds) {
        window.screen.ui().set_elapsed(1);
        for (float waited = 0; waited < seconds; ++waited)
            window.screen.frame();
        window.screen.ui().set_elapsed(1.0F / 60);
    };
    const auto put_away = [&] { return !window.did.empty() && window.did.back().as<app::PutAwayNotice>(); };
    for (const auto& told :
         {test::done(1, "Lot W26-131 released"), test::refused(2, {{"Lot", "is gone", ""}})}) {
        window.tell(told);
        window.screen.point_at(5, 5);
        wait(8);
        CHECK_FALSE(put_away());
        wait(6);
        CHECK(put_away());
        window.did.clear();
    }
    window.tell(test::done(3, "Lot W26-131 released"));
    const auto over = window.screen.find("Lot W26-131 released").rect;
    window.screen.point_at(over.left + 20, over.top + 10);
    wait(30);
    CHECK_FALSE(put_away());
}

TEST_CASE("A search goes out as typed, and its answer leads to the screen that shows it") {
    WholeWindow window(Screen::plan);
    window.screens.workbench.search = "pan bread";
    window.screen.click("Search");
    window.screen.press(ui::Key::enter);
    CHECK(window.last<app::Search>().words == "pan bread");
    auto answer = test::done(1, "Run R-011: Pan bread on Wed 25 Nov");
    answer.screen = "Mixer";
    window.tell(answer);
    CHECK(window.screens.current() == Screen::mixer);
    window.screen.press(ui::Key::f1);
    CHECK(window.screens.current() == Screen::intake);
}

namespace {

/// A search that may have meant two lots of two mills.
struct TwoFound : WholeWindow {
    TwoFound() : WholeWindow(Screen::plan) {
        screens.workbench.search = "w26-131";
        screen.click("Search");
        screen.press(ui::Key::enter);
        overview.found = {"w26-131",
                          {{LotId{6}, {}, "W26-131", "Harrow Mill, Strong white, in quarantine, 9600 kg"},
                           {LotId{3}, {}, "W26-131", "Kestrel Mill, Hearth, released, 2150 kg"}},
                          false};
        screen.settle();
    }
};

} // namespace

TEST_CASE("Two lots that a search may have meant are both offered, each with what tells it from the other") {
    TwoFound window;
    CHECK(window.screen.says("\"w26-131\": which one?"));
    CHECK(window.screen.focused() == "W26-131, Harrow Mill, Strong white, in quarantine, 9600 kg");
    window.screen.press(ui::Key::down);
    CHECK(window.screen.focused() == "W26-131, Kestrel Mill, Hearth, released, 2150 kg");
    window.screen.press(ui::Key::enter);
    CHECK(window.last<app::OpenFound>().lot == LotId{3});
}

TEST_CASE("One of two that were found is taken by a press, or none by Escape") {
    TwoFound window;
    window.screen.click("W26-131, Harrow Mill, Strong white, in quarantine, 9600 kg");
    CHECK(window.last<app::OpenFound>().lot == LotId{6});
    window.screen.press(ui::Key::escape);
    CHECK(window.did.back().as<app::PutAwayFound>());
}

TEST_CASE("A lot that was closed is seen again when a search finds it") {
    WholeWindow window(Screen::lots);
    window.lots.opened = test::a_sheet();
    window.screen.settle();
    window.screen.press(ui::Key::escape);
    CHECK_FALSE(window.screen.offers("Page/Aging"));
    auto answer = test::done(1, "Lot W26-131");
    answer.screen = "Lots";
    window.tell(answer);
    CHECK(window.screen.offers("Page/Aging"));
}

TEST_CASE("A failure stands in front of everything, says what it means, and is put away with Escape") {
    WholeWindow window(Screen::lots);
    window.tell(test::failed(1));
    CHECK(window.screen.says("The book could not be written: the disk is full"));
    CHECK(window.screen.says("nothing of it is in the book"));
    window.screen.press(ui::Key::escape);
    CHECK(window.did.back().as<app::PutAwayNotice>());
}

TEST_CASE("Work in the background is said on top") {
    WholeWindow window(Screen::lots);
    window.overview.running = "Planning: 120 steps, 0.4 s";
    window.screen.settle();
    CHECK(window.screen.says("Planning: 120 steps, 0.4 s"));
}

TEST_CASE("Screens are named in any case, and no other word is one") {
    CHECK(views::screen_named("mixer") == Screen::mixer);
    CHECK(views::screen_named("LOTS") == Screen::lots);
    CHECK(views::screen_named("plant") == Screen::plant);
    CHECK(views::screen_names() == "Intake, Lots, Readiness, Plan, Mixer, Trace, Plant and Settings");
    CHECK_FALSE(views::screen_named("Lot"));
    CHECK_FALSE(views::screen_named(""));
}
