#include "support/catch.h"
#include "ui/views/plant_window.h"

using namespace mellowbin;
using Catch::Matchers::Contains;
using tests::PlantWindow;

TEST_CASE("A mill is added in the window, and deliveries may come from it at once") {
    PlantWindow at;
    at.screen.click("Add a mill");
    CHECK(at.screen.focused() == "Name");
    CHECK_FALSE(at.screen.is_enabled("Add the mill"));
    CHECK(at.screen.says("nothing is typed yet"));
    at.screen.type("Fields/Name", "Harrow Mill");
    at.screen.click("Add the mill");
    CHECK(at.has(PlantKind::mill, "Harrow Mill"));
    CHECK(at.screen.offers("Keep Harrow Mill")); // its form goes on with the record
    CHECK_FALSE(at.screen.is_enabled("Keep Harrow Mill"));
    const auto& mills = at.plant.app().intake().mills;
    CHECK(std::find(mills.begin(), mills.end(), "Harrow Mill") != mills.end());
}

TEST_CASE("A record that was added is taken off again by the undo of the notice") {
    PlantWindow at;
    at.screen.click("Add a mill");
    at.screen.type("Fields/Name", "Harrow Mill");
    at.screen.click("Add the mill");
    at.screen.click("Undo: take it off again");
    CHECK_FALSE(at.has(PlantKind::mill, "Harrow Mill"));
    CHECK_FALSE(at.screen.offers("Keep Harrow Mill"));
}

TEST_CASE("A place is changed as it was typed, with comma or point, and nothing else of it") {
    PlantWindow at;
    at.open("Places", "Bay 1");
    CHECK(at.screen.value_of("Fields/Temperature") == "20");
    CHECK_FALSE(at.screen.is_enabled("Keep Bay 1"));
    CHECK(at.screen.says("nothing was changed"));
    at.screen.type("Fields/Temperature", "18,5");
    CHECK(at.screen.says("the book has 20"));
    at.screen.click("Keep Bay 1");
    CHECK(at.text(PlantKind::place, "Bay 1", "temperature_c") == "18.5");
    CHECK(at.text(PlantKind::place, "Bay 1", "air") == "Paper or woven bags");
    CHECK(at.screen.value_of("Fields/Temperature") == "18.5");
    CHECK_FALSE(at.screen.is_enabled("Keep Bay 1"));
}

TEST_CASE("What a field takes is chosen by its words, and what need not be said can be none") {
    PlantWindow at;
    at.open("Products", "Pan bread");
    CHECK(at.screen.value_of("Oxidant/Oxidant") == "Ascorbic acid");
    at.choose("Oxidant", "none");
    at.choose("One lot a batch", "yes");
    at.screen.click("Keep Pan bread");
    INFO(at.refusals());
    CHECK(at.text(PlantKind::product, "Pan bread", "oxidant").empty());
    CHECK(at.text(PlantKind::product, "Pan bread", "one_lot_a_batch") == "yes");
    CHECK(at.screen.value_of("Oxidant/Oxidant") == "none");
}

TEST_CASE("Every reason against a record is said at its own field, and all stays as typed") {
    PlantWindow at;
    at.screen.click("Places");
    at.screen.click("Add a place");
    at.screen.type("Fields/Temperature", "warm");
    at.screen.type("Fields/Humidity of the air", "162");
    at.screen.click("Add a day");
    at.screen.type("Climate 1/Temperature", "20");
    at.screen.click("Add the place");
    CHECK_THAT(at.refusals(), Contains("\"warm\" was read") && Contains("162 was read") &&
                                  Contains("from: is empty") && Contains("Choose one"));
    for (const char* field : {"Name", "What it is", "How air gets to the flour"}) {
        INFO(field);
        const auto& refused = at.plant.app().notice().refusals;
        CHECK(
            std::any_of(refused.begin(), refused.end(), [&](const Refusal& r) { return r.field == field; }));
    }
    const auto words = at.refusals();
    CHECK(std::count(words.begin(), words.end(), '\n') == 6);
    CHECK(at.screen.value_of("Fields/Temperature") == "warm");
    CHECK(at.screen.value_of("Humidity of the air") == "162");
    CHECK(at.screen.value_of("Climate 1/Temperature") == "20");
    CHECK(at.screen.focused() == "Name"); // the first that is refused
}

TEST_CASE("What is wrong with a field is said when it is left, not of those that nobody was at yet") {
    PlantWindow at;
    at.screen.click("Places");
    at.screen.click("Add a place");
    at.screen.type("Fields/Humidity of the air", "162");
    CHECK_THAT(at.refusals(), !Contains("162 was read"));
    at.screen.press(ui::Key::tab);
    CHECK_THAT(at.refusals(), Contains("162 was read") && !Contains("Choose one"));
    at.screen.type("Fields/Humidity of the air", "62");
    CHECK_THAT(at.refusals(), !Contains("was read"));
}

TEST_CASE("A name that is there already is refused by the book at the name, until it is changed") {
    PlantWindow at;
    at.screen.click("Places");
    at.screen.click("Add a place");
    at.screen.type("Fields/Name", "Bay 1");
    at.choose("What it is", "Bay");
    at.choose("How air gets to the flour", "Sealed liner");
    at.screen.click("Add the place");
    CHECK(at.plant.was_refused());
    CHECK_FALSE(at.refusals().empty());
    at.put_away();
    at.screen.type("Fields/Name", "Bay 3");
    CHECK(at.refusals().empty());
    at.screen.click("Add the place");
    CHECK(at.has(PlantKind::place, "Bay 3"));
}

TEST_CASE(
    "What is typed of a record stays when another is looked at, the screen is left and the book changes") {
    PlantWindow at;
    at.open("Places", "Bay 1");
    at.screen.type("Fields/Temperature", "18,5");
    at.screen.click("Bay 2");
    CHECK(at.screen.value_of("Fields/Temperature") == "20");
    CHECK_THAT(at.screen.value_of("Bay 1"), Contains("not kept yet"));
    CHECK_THAT(at.screen.value_of("Bay 2"), !Contains("not kept yet"));
    at.screen.press(ui::Key::f1);
    at.screen.press(ui::Key::digit_7, ui::Mods::ctrl);
    at.office_changes(PlantKind::place, "Bay 2", "temperature_c", "17");
    at.screen.click("Bay 1");
    CHECK(at.screen.value_of("Fields/Temperature") == "18,5");
    CHECK(at.screen.is_enabled("Keep Bay 1"));
}

TEST_CASE("A new record that was begun stands in the list until it is added") {
    PlantWindow at;
    at.screen.click("Lines");
    at.screen.click("Add a line");
    at.screen.type("Fields/Room", "24");
    at.screen.click("Line 1");
    CHECK_THAT(at.screen.value_of("New line"), Contains("not kept yet"));
    at.screen.click("New line");
    CHECK(at.screen.value_of("Fields/Room") == "24");
}

TEST_CASE("What was typed is thrown away at a press, and brought back at another") {
    PlantWindow at;
    at.open("Places", "Bay 1");
    at.screen.type("Fields/Temperature", "18,5");
    at.screen.click("As it stands");
    CHECK(at.screen.value_of("Fields/Temperature") == "20");
    CHECK_FALSE(at.screen.is_enabled("Keep Bay 1"));
    at.screen.click("Bring back what was typed");
    CHECK(at.screen.value_of("Fields/Temperature") == "18,5");
    CHECK(at.screen.is_enabled("Keep Bay 1"));
}

TEST_CASE("Oxidants and allergens have their caution once on a form, where they are") {
    PlantWindow at;
    const auto times = [&](std::string_view words) {
        const auto& notes = at.screen.probe().notes();
        return std::count_if(notes.begin(), notes.end(), [&](const ui::Note& note) {
            return note.label.find(words) != std::string::npos;
        });
    };
    at.open("Products", "Pan bread");
    CHECK(times("Oxidants are hazards to weigh and to breathe") == 1);
    CHECK(times("have qualified staff confirm what is dosed") == 1);
    CHECK(times("Wheat is an allergen") == 1);
    at.open("Lines", "Line 1");
    CHECK(times("Oxidants are hazards to weigh and to breathe") == 1);
    CHECK(times("Wheat is an allergen") == 0);
}
