#include "app/acts/plant_records.h"
#include "support/catch.h"
#include "ui/views/plant_window.h"
#include "ui/views/whole_window.h"

using namespace mellowbin;
using test::WholeWindow;
using tests::PlantWindow;
using ui::Key;
using ui::Mods;

// How the screen is gone through, by key, by mouse and with large text.

TEST_CASE("An empty plant says of every kind what to do first") {
    WholeWindow window(views::Screen::plant);
    window.plant.rows = {};
    window.plant.flours.clear();
    window.screen.settle();
    CHECK(window.screen.says("Add whom you buy flour from"));
    window.screen.click("Flours");
    CHECK(window.screen.says("Add each kind you buy"));
    window.screen.click("Places");
    CHECK(window.screen.says("Add where flour lies"));
    window.screen.click("Lines");
    CHECK(window.screen.says("Add each line with the mixer at its head"));
    window.screen.click("Products");
    CHECK(window.screen.says("add a flour first, on Flours"));
}

TEST_CASE("A list has what each record is in words, and those retired last") {
    WholeWindow window(views::Screen::plant);
    window.screen.click("Flours");
    CHECK(window.screen.value_of("Strong white") == "Strong white |  | White, 3 properties specified");
    CHECK(window.screen.value_of("Hearth") == "Hearth | retired | White, 1 property specified");
    CHECK(window.screen.find("Hearth").rect.top > window.screen.find("Wholemeal").rect.top);
}

TEST_CASE("By keys alone a flour is found, changed and kept, and its form is closed again") {
    PlantWindow at;
    auto& screen = at.screen;
    screen.press(Key::f1);
    screen.press(Key::digit_7, Mods::ctrl);
    CHECK(screen.focused() == "Mills");
    screen.press(Key::tab, Mods::shift); // Add a mill
    screen.press(Key::tab, Mods::shift); // the pages
    screen.press(Key::right);
    screen.press(Key::tab);
    CHECK(screen.focused() == "Add a flour");
    screen.press(Key::tab);
    CHECK(screen.focused() == "Flours");
    screen.press(Key::down);
    CHECK_FALSE(screen.offers("Keep Strong white"));
    screen.press(Key::enter);
    CHECK(screen.focused() == "Name");
    screen.press(Key::a, Mods::ctrl);
    screen.type("Extra strong");
    screen.press(Key::enter);
    CHECK(at.has(PlantKind::flour, "Extra strong"));
    screen.press(Key::escape); // out of the field
    screen.press(Key::escape);
    CHECK_FALSE(screen.offers("Keep Extra strong"));
    CHECK(screen.focused() == "Flours");
}

TEST_CASE("Beside an open form the arrows open the next record; by mouse alone one is opened and closed") {
    WholeWindow window(views::Screen::plant);
    auto& screen = window.screen;
    screen.click("Products");
    screen.click("Pan bread");
    CHECK(screen.offers("Keep Pan bread"));
    screen.press(Key::down);
    CHECK(screen.offers("Keep Hearth loaf"));
    CHECK(screen.offers("Pan bread"));
    screen.click("Close");
    CHECK_FALSE(screen.offers("Keep Hearth loaf"));
}

TEST_CASE("What is kept goes out with what the form began with, without rows in which nothing is typed") {
    WholeWindow window(views::Screen::plant);
    auto& screen = window.screen;
    screen.click("Products");
    screen.click("Pan bread");
    screen.type("Mixing", "9,5");
    screen.click("Add an ingredient");
    screen.click("Keep Pan bread");
    const auto& row = window.plant.of(PlantKind::product)[0];
    const auto& act = window.last<app::KeepPlantRecord>();
    CHECK(act.record == row.record);
    CHECK(act.before == row.draft);
    auto expected = row.draft;
    expected.texts["mixing_minutes"] = "9,5";
    CHECK(act.draft == expected);
    CHECK_FALSE(screen.is_enabled("Keep Pan bread")); // not twice
}

TEST_CASE("What failed to be written stays typed and can be kept again") {
    WholeWindow window(views::Screen::plant);
    auto& screen = window.screen;
    screen.click("Products");
    screen.click("Pan bread");
    screen.type("Mixing", "9,5");
    screen.click("Keep Pan bread");
    window.tell(test::failed(1));
    window.tell({});
    CHECK(screen.value_of("Mixing") == "9,5");
    CHECK(screen.is_enabled("Keep Pan bread"));
}

TEST_CASE("At 200 % a form covers the list, and closing it leads back to it") {
    WholeWindow window(views::Screen::plant, {.width = 1280, .height = 720, .text_size = 2});
    auto& screen = window.screen;
    window.screens.plant.page = views::PlantView::products;
    screen.settle();
    screen.click("Pan bread");
    CHECK(screen.offers("Keep Pan bread"));
    CHECK_FALSE(screen.offers("Add a product"));
    screen.click("Close");
    CHECK(screen.offers("Add a product"));
    CHECK_FALSE(screen.offers("Keep Pan bread"));
}
