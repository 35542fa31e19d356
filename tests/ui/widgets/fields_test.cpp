#include "support/catch.h"
#include "support/screen.h"
#include "ui/views/lot_at_hand.h"

#include <string>
#include <vector>

using namespace mellowbin;
using namespace mellowbin::ui;
using mellowbin::test::LotForm;
using mellowbin::testing::Screen;

TEST_CASE("A number typed with a comma stays as it was typed") {
    LotForm lot;
    Screen screen([&] { lot.draw(); });
    screen.type("Moisture", "11,85");
    CHECK(lot.moisture == "11,85");
    CHECK(screen.field_value("Moisture") == "11,85");
    screen.type("Moisture", "abc");
    CHECK(lot.moisture == "abc");
    screen.type("Moisture", "");
    CHECK(lot.moisture.empty());
}

TEST_CASE("Letters beyond Latin-1 are kept and get a glyph when they are typed") {
    LotForm lot;
    Screen screen([&] { lot.draw(); });
    screen.type("Lot code", "Łódź Ω жито 12");
    CHECK(lot.code == "Łódź Ω жито 12");
    CHECK(screen.ui().can_show(lot.code));
    CHECK_FALSE(screen.ui().can_show("\xF0\x9F\xA5\x90")); // a croissant is in no text font
}

TEST_CASE("A field is left by Tab to the field below it and to the one above, and by the pointer") {
    std::string first, second;
    std::vector<std::string> left;
    Screen screen([&] {
        if (number_field({.label = "First"}, first).left)
            left.emplace_back("first");
        if (number_field({.label = "Second"}, second).left)
            left.emplace_back("second");
    });
    screen.type("First", "1");
    CHECK(left.empty());
    screen.press(Key::tab);
    CHECK(left == std::vector<std::string>{"first"});
    screen.press(Key::tab, Mods::shift);
    CHECK(left == std::vector<std::string>{"first", "second"});
    screen.click("Second");
    CHECK(left == std::vector<std::string>{"first", "second", "first"});
}

TEST_CASE("Escape leaves a field without losing what was typed") {
    LotForm lot;
    Screen screen([&] { lot.draw(); });
    screen.type("Lot code", "W24-118");
    screen.press(Key::escape);
    CHECK(lot.code == "W24-118");
    CHECK(screen.field_value("Lot code") == "W24-118");
}

TEST_CASE("A scanner's characters and its Enter, all at once, lose nothing") {
    std::string scan;
    std::vector<std::string> scans;
    Screen screen([&] {
        if (search_field({.label = "Scan"}, scan).entered) {
            scans.push_back(scan);
            scan.clear();
        }
    });
    screen.click("Scan");
    for (const char* code : {"0109501101530003", "10W24-118"}) {
        for (const char* c = code; *c; ++c)
            screen.ui().typed(std::string(1, *c));
        screen.ui().pressed(Key::enter);
    }
    screen.settle();
    CHECK(scans == std::vector<std::string>{"0109501101530003", "10W24-118"});
}

TEST_CASE("A form that the program empties stays empty, even the field that is being typed into") {
    LotForm lot;
    Screen screen([&] { lot.draw(); });
    screen.type("Lot code", "W24-118");
    lot.code.clear();
    screen.settle();
    CHECK(screen.field_value("Lot code").empty());
    screen.type("W24-119");
    CHECK(lot.code == "W24-119");
}

TEST_CASE("A day is typed, or stepped from today") {
    LotForm lot;
    Screen screen([&] { lot.draw(); });
    screen.click("Milled on: a day earlier");
    CHECK(lot.milled_on == "2024-11-25");
    screen.click("Milled on: a day earlier");
    CHECK(lot.milled_on == "2024-11-24");
    screen.click("Milled on: a day later");
    CHECK(lot.milled_on == "2024-11-25");
    screen.type("Milled on", "25.11.24");
    CHECK_FALSE(screen.is_enabled("Milled on: a day later"));
    screen.click("Milled on: a day later");
    CHECK(lot.milled_on == "25.11.24");
}

TEST_CASE("A choice of many opens a list; the pointer, the arrows and Escape work it") {
    LotForm lot;
    Screen screen([&] { lot.draw(); });
    screen.click("Kind");
    screen.click("Spelt");
    CHECK(lot.kind == 3);
    CHECK(screen.value_of("Kind") == "Spelt");
    CHECK_FALSE(screen.offers("Rye")); // the list is closed
    screen.press(Key::down);
    CHECK(lot.kind == 4);
    screen.press(Key::space);
    REQUIRE(screen.offers("Rye"));
    screen.press(Key::up);
    screen.press(Key::up);
    screen.press(Key::enter);
    CHECK(lot.kind == 2);
    screen.press(Key::space);
    screen.press(Key::up);
    screen.press(Key::escape);
    CHECK(lot.kind == 2);
    CHECK_FALSE(screen.offers("Wholemeal"));
}

TEST_CASE("A choice of few stands side by side") {
    int verdict = 0;
    const std::vector<std::string> verdicts{"Hold", "Release", "Reject"};
    Screen screen([&] { choice({.label = "Verdict"}, verdicts, verdict); });
    screen.click("Release");
    CHECK(verdict == 1);
    CHECK(screen.is_chosen("Release"));
    screen.press(Key::right);
    CHECK(verdict == 2);
}

TEST_CASE("In a field of several lines Enter begins the next line and presses nothing; Tab leaves it") {
    std::string text, other;
    int presses = 0;
    bool was_left = false;
    Screen screen([&] {
        form("Form", [&] {
            was_left |= text_area({.label = "Pasted", .hint = "paste it here"}, text, Length{8}).left;
            text_field({.label = "Other"}, other);
            presses += button("Read it", {.kind = ButtonKind::primary}) ? 1 : 0;
        });
    });
    screen.type("Pasted", "Protein 11,8 %");
    screen.press(Key::enter);
    screen.type("Ash 0,55 %");
    CHECK(text == "Protein 11,8 %\nAsh 0,55 %");
    CHECK(screen.field_value("Pasted") == text);
    CHECK(presses == 0);
    screen.press(Key::home);
    screen.press(Key::up);
    screen.type("Lot W24-118\n");
    CHECK(text == "Lot W24-118\nProtein 11,8 %\nAsh 0,55 %");
    CHECK_FALSE(was_left);
    screen.press(Key::tab);
    CHECK(screen.is_focused("Other"));
    CHECK(was_left);
    screen.press(Key::enter);
    CHECK(presses == 1);
    CHECK(text == "Lot W24-118\nProtein 11,8 %\nAsh 0,55 %");
}

TEST_CASE("A field of several lines takes what was copied elsewhere, line ends and all, and what the program "
          "puts there") {
    std::string text;
    Screen screen([&] {
        copy_to_clipboard("Protein\t11,8\r\nAsh\t0,55\r\n");
        text_area({.label = "Pasted"}, text, Length{8});
    });
    screen.click("Pasted");
    screen.press(Key::v, Mods::ctrl);
    CHECK(text == "Protein\t11,8\nAsh\t0,55\n");
    text.clear();
    screen.settle();
    screen.type("Lot");
    CHECK(text == "Lot");
}
