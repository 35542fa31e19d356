#include "support/catch.h"
#include "support/screen.h"
#include "ui/views/lot_at_hand.h"

#include <string>
#include <vector>

using namespace mellowbin;
using namespace mellowbin::ui;
using mellowbin::test::LotForm;
using mellowbin::testing::NotOnScreen;
using mellowbin::testing::Screen;

TEST_CASE("A thing is found by its words, and what is not there fails with all words on the screen") {
    LotForm lot;
    Screen screen([&] { lot.draw(); });
    screen.click("Save lot");
    CHECK(lot.saved == 1);
    try {
        screen.click("Save the lot");
        FAIL("found what is not there");
    } catch (const NotOnScreen& refused) {
        CHECK_THAT(refused.what(), Catch::Contains("Save lot") && Catch::Contains("Moisture"));
    }
}

TEST_CASE("Words that are there twice are told apart by their place") {
    int first = 0, second = 0;
    Screen screen([&] {
        panel("Left", [&] {
            if (button("Go"))
                ++first;
        });
        panel("Right", [&] {
            if (button("Go"))
                ++second;
        });
    });
    CHECK_THROWS_AS(screen.click("Go"), NotOnScreen);
    screen.click("Right/Go");
    CHECK(first == 0);
    CHECK(second == 1);
}

TEST_CASE("A blocked button does nothing and says why") {
    LotForm lot;
    lot.blocked = "Give the lot code first";
    Screen screen([&] { lot.draw(); });
    CHECK(screen.says("Give the lot code first"));
    CHECK_FALSE(screen.is_enabled("Save lot"));
    screen.click("Save lot");
    CHECK(lot.saved == 0);
    screen.type("Lot code", "A");
    screen.press(Key::enter);
    CHECK(lot.saved == 0);
    lot.blocked.clear();
    screen.press(Key::enter);
    CHECK(lot.saved == 1);
}

TEST_CASE("A refusal stands at the field it is about") {
    LotForm lot;
    lot.refusals = {{"Moisture", "\"abc\" is not a number", "Enter it as 11,8 or 11.8"}};
    Screen screen([&] { lot.draw(); });
    const Note& refusal = screen.find("\"abc\" is not a number. Enter it as 11,8 or 11.8");
    CHECK(refusal.kind == Kind::refusal);
    CHECK(refusal.rect.top >= screen.find("Moisture").rect.bottom);
    CHECK(refusal.rect.bottom <= screen.find("Milled on").rect.top);
}

TEST_CASE("Tab reaches everything that can be pressed or typed into, and comes round") {
    LotForm lot;
    Screen screen([&] { lot.draw(); });
    std::vector<std::string> visited;
    for (int i = 0; i < 10; ++i) {
        screen.press(Key::tab);
        visited.push_back(screen.focused());
    }
    const std::vector<std::string> expected{"Lot code",
                                            "Moisture",
                                            "Milled on",
                                            "Milled on: a day earlier",
                                            "Milled on: a day later",
                                            "Kind",
                                            "Seal whole",
                                            "Remarks",
                                            "Save lot",
                                            "Reject lot"};
    CHECK(visited == expected);
    screen.press(Key::tab);
    CHECK(screen.focused() == "Lot code");
    screen.press(Key::tab, Mods::shift);
    CHECK(screen.focused() == "Reject lot");
}

TEST_CASE("Tab passes a blocked button by") {
    LotForm lot;
    lot.blocked = "Not yet";
    Screen screen([&] { lot.draw(); });
    screen.click("Remarks");
    screen.press(Key::tab);
    CHECK(screen.focused() == "Reject lot");
}

TEST_CASE("Space and Enter press what has the focus, and Tab opens a field for typing") {
    LotForm lot;
    Screen screen([&] { lot.draw(); });
    screen.press(Key::tab);
    screen.type("W24-118");
    screen.press(Key::tab);
    screen.type("11,8");
    CHECK(lot.code == "W24-118");
    CHECK(lot.moisture == "11,8");
    screen.press(Key::tab, Mods::shift);
    screen.press(Key::tab, Mods::shift); // back round to the last one
    CHECK(screen.focused() == "Reject lot");
    screen.press(Key::space);
    CHECK(lot.rejected == 1);
    screen.press(Key::enter);
    CHECK(lot.rejected == 2);
    CHECK(lot.saved == 0);
}

TEST_CASE("Enter in a field is the form's main action") {
    LotForm lot;
    Screen screen([&] { lot.draw(); });
    screen.type("Lot code", "W24-118");
    screen.press(Key::enter);
    CHECK(lot.saved == 1);
}

TEST_CASE("Enter in a field of one form leaves the other form alone") {
    LotForm here, there;
    Screen screen([&] {
        scope("Here", [&] { here.draw(); });
        scope("There", [&] { there.draw(); });
    });
    screen.type("There/Lot at hand/Lot code", "B");
    screen.press(Key::enter);
    CHECK(here.saved == 0);
    CHECK(there.saved == 1);
}

TEST_CASE("A scanner that sends Tab and Enter fills a form field by field, then saves it") {
    LotForm lot;
    Screen screen([&] { lot.draw(); });
    screen.click("Lot code");
    screen.ui().typed("W24-118");
    screen.ui().pressed(Key::tab);
    screen.ui().typed("11,8");
    screen.ui().pressed(Key::enter);
    screen.settle();
    CHECK(lot.code == "W24-118");
    CHECK(lot.moisture == "11,8");
    CHECK(lot.saved == 1);
}

TEST_CASE("The first empty field gets the focus when a form opens") {
    LotForm lot;
    lot.code = "W24-118";
    bool opens = true;
    Screen screen([&] {
        if (opens)
            focus_first_empty_field();
        opens = false;
        lot.draw();
    });
    CHECK(screen.focused() == "Moisture");
    screen.type("11.8");
    CHECK(lot.moisture == "11.8");
}
