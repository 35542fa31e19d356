#include "support/catch.h"
#include "support/screen.h"
#include "ui/views/lot_at_hand.h"

#include <string>

using namespace mellowbin;
using namespace mellowbin::ui;
using mellowbin::test::LotForm;
using mellowbin::testing::Screen;

TEST_CASE("Escape in a dialog is the harmless answer, and nothing behind it can be pressed") {
    bool asking = false;
    Answer answer = Answer::none_yet;
    LotForm lot;
    Screen screen([&] {
        lot.draw();
        if (button("Ask"))
            asking = true;
        if (!asking)
            return;
        answer = ask({"Reject lot W24-118?", "Keep lot", "Reject it", ButtonKind::stop});
        if (answer != Answer::none_yet)
            asking = false;
    });
    screen.click("Ask");
    REQUIRE(screen.says("Reject lot W24-118?"));
    CHECK(screen.focused() == "Keep lot");
    CHECK_THROWS_WITH(screen.click("Save lot"), Catch::Contains("covered"));
    CHECK(lot.saved == 0);
    screen.press(Key::tab);
    CHECK(screen.focused() == "Reject it");
    screen.press(Key::tab);
    CHECK(screen.focused() == "Keep lot"); // the ring stays within the dialog

    screen.press(Key::escape);
    CHECK(answer == Answer::harmless);
    CHECK_FALSE(screen.says("Reject lot W24-118?"));
    CHECK(screen.focused() == "Ask"); // where the person was

    screen.press(Key::space);
    screen.click("Reject it");
    CHECK(answer == Answer::deed);
}

TEST_CASE("A dialog's field is ready for typing, and Enter in it does the deed once it may be done") {
    std::string reason;
    bool asking = true;
    Answer answer = Answer::none_yet;
    Screen screen([&] {
        button("Behind");
        if (!asking)
            return;
        answer = ask({.title = "Hold lot W24-118?",
                      .harmless = "Leave it",
                      .deed = "Put on hold",
                      .deed_blocked = reason.empty() ? "Give a reason" : ""},
                     [&] { text_field({.label = "Reason"}, reason); });
        if (answer != Answer::none_yet)
            asking = false;
    });
    CHECK(screen.focused() == "Reason");
    screen.press(Key::enter);
    CHECK(asking);
    screen.type("wet sacks");
    screen.press(Key::enter);
    CHECK(answer == Answer::deed);
    CHECK(reason == "wet sacks");
}

TEST_CASE("A failure says what it means and keeps its details folded, for copying") {
    bool shown = true;
    Screen screen([&] {
        if (shown && failure_box({"The book could not be written", "The lot was not taken in.",
                                  "Free some space.", "disk full, line 42"}))
            shown = false;
    });
    CHECK(screen.says("The lot was not taken in."));
    CHECK_FALSE(screen.says("disk full, line 42"));
    screen.click("Show details");
    CHECK(screen.says("disk full, line 42"));
    screen.press(Key::escape);
    CHECK_FALSE(shown);
}

TEST_CASE(
    "The rail answers to the pointer, to function keys and to Ctrl with a digit, but not behind a dialog") {
    int current = 0;
    bool asking = false;
    const RailItem rail[]{
        {"Intake", "F1", "3 in quarantine"}, {"Lots", "F2"}, {"Plant", "Ctrl+3"}, {"Readiness", "F3"}};
    Screen screen([&] {
        const auto events = workbench(rail, current, {.day_and_time = "Mon 25 Nov 09:14"}, {}, [&] {
            if (asking && ask({"Leave?", "Stay", "Leave"}) != Answer::none_yet)
                asking = false;
        });
        if (events.screen)
            current = *events.screen;
    });
    CHECK(screen.value_of("Intake") == "3 in quarantine");
    screen.click("Lots");
    CHECK(current == 1);
    screen.press(Key::f3);
    CHECK(current == 3); // its own key, whatever its place
    screen.press(Key::digit_3, Mods::ctrl);
    CHECK(current == 2);
    screen.press(Key::f4);
    CHECK(current == 2);
    screen.press(Key::digit_1, Mods::ctrl);
    CHECK(current == 0);
    asking = true;
    screen.settle();
    screen.press(Key::f2);
    CHECK(current == 0);
}

TEST_CASE("What was just done is said with its undo") {
    WorkbenchEvents last;
    const RailItem rail[]{{"Intake"}};
    Screen screen([&] {
        const auto events = workbench(rail, 0, {.day_and_time = "Mon 25 Nov 09:14"},
                                      {"Lot W24-118 taken in", Role::good, "Undo: withdraw W24-118"}, [] {});
        if (events.undo || events.notice_put_away)
            last = events;
    });
    CHECK(screen.says("Lot W24-118 taken in"));
    screen.click("Undo: withdraw W24-118");
    CHECK(last.undo);
    screen.click("Put away");
    CHECK(last.notice_put_away);
}

TEST_CASE(
    "What was just done lies over the lower edge and pushes nothing, above what is kept clear for pressing") {
    bool has_notice = false, keeps_clear = false;
    const RailItem rail[]{{"Intake"}};
    Screen screen([&] {
        const Notice done{"Lot W24-118 taken in", Role::good, "Undo: withdraw W24-118"};
        workbench(rail, 0, {}, has_notice ? done : Notice{}, [&] {
            if (keeps_clear)
                keep_clear_below({4});
            heading("Delivery");
        });
    });
    const Rect before = screen.find("Delivery").rect;
    has_notice = true;
    screen.settle();
    CHECK(screen.find("Delivery").rect.top == before.top);
    const Rect notice = screen.find("Lot W24-118 taken in").rect;
    CHECK(notice.bottom > 720 - 40);
    CHECK(notice.bottom < 720);
    keeps_clear = true;
    screen.settle();
    CHECK(screen.find("Lot W24-118 taken in").rect.bottom < 720 - 4 * 16);
}

TEST_CASE("Work that runs says how far it is and can be stopped") {
    int stopped = 0;
    Screen screen([&] {
        if (progress({.label = "Planning 14 days",
                      .words = "1204 nodes · 12 s · gap 1.4 %",
                      .stop_verb = "Stop and keep the best"}))
            ++stopped;
    });
    CHECK(screen.says("1204 nodes · 12 s · gap 1.4 %"));
    screen.click("Stop and keep the best");
    CHECK(stopped == 1);
}
