#include "support/catch.h"
#include "ui/views/plant_window.h"

using namespace mellowbin;
using Catch::Matchers::Contains;
using tests::PlantWindow;

// What others change of a record, and how it stands.

TEST_CASE("A form follows what another station changes where nothing was typed, and says who it was") {
    PlantWindow at;
    at.open("Places", "Bay 1");
    at.office_changes(PlantKind::place, "Bay 1", "temperature_c", "17");
    CHECK(at.screen.value_of("Fields/Temperature") == "17");
    CHECK(at.screen.says("Changed elsewhere: "));
    CHECK(at.screen.says("Ines"));
    CHECK_FALSE(at.screen.is_enabled("Keep Bay 1"));
}

TEST_CASE("The list says who changed a record elsewhere, until it was opened and left") {
    PlantWindow at;
    at.screen.click("Places");
    at.office_changes(PlantKind::place, "Bay 1", "temperature_c", "17");
    CHECK_THAT(at.screen.value_of("Bay 1"), Contains("Ines"));
    at.screen.click("Bay 1");
    at.screen.click("Bay 2");
    CHECK_THAT(at.screen.value_of("Bay 1"), !Contains("Ines"));
}

TEST_CASE(
    "What only one of two people changed holds; what both changed is refused once with the book's value") {
    PlantWindow at;
    at.open("Places", "Bay 1");
    at.screen.type("Fields/Temperature", "18");
    at.office_changes(PlantKind::place, "Bay 1", "temperature_c", "17");
    at.office_changes(PlantKind::place, "Bay 1", "humidity_percent", "60");
    CHECK(at.screen.value_of("Fields/Temperature") == "18");
    CHECK(at.screen.value_of("Humidity of the air") == "60");
    CHECK(at.screen.says("What was typed here is kept."));
    CHECK(at.screen.says("the book has 17 now"));
    at.screen.click("Keep Bay 1");
    CHECK_THAT(at.refusals(), Contains("was changed meanwhile by") && Contains("it is 17 now, was 20"));
    CHECK(at.text(PlantKind::place, "Bay 1", "temperature_c") == "17");
    CHECK(at.screen.value_of("Fields/Temperature") == "18");
    at.screen.click("Keep Bay 1");
    INFO(at.refusals());
    CHECK(at.text(PlantKind::place, "Bay 1", "temperature_c") == "18");
    CHECK(at.text(PlantKind::place, "Bay 1", "humidity_percent") == "60");
    CHECK(at.refusals().empty());
}

TEST_CASE("What was typed of a record that another station took off becomes a new one") {
    PlantWindow at;
    at.screen.click("Add a mill");
    at.screen.type("Fields/Name", "Harrow Mill");
    at.screen.click("Add the mill");
    at.put_away();
    at.screen.type("Fields/Name", "Harrow and Sons");
    at.office.poll();
    at.office.handle(app::RemovePlantRecord{at.row(PlantKind::mill, "Harrow Mill").record});
    at.screen.settle();
    CHECK_FALSE(at.has(PlantKind::mill, "Harrow Mill"));
    CHECK(at.screen.value_of("Fields/Name") == "Harrow and Sons");
    at.screen.click("Add the mill");
    CHECK(at.has(PlantKind::mill, "Harrow and Sons"));
}

TEST_CASE("A record that something needs is not retired, and every reason is said in full") {
    PlantWindow at;
    at.open("Flours", "Strong white");
    at.screen.click("Retire");
    CHECK_FALSE(at.row(PlantKind::flour, "Strong white").is_retired);
    CHECK(
        at.screen.says("Flour: Pan bread is made of it. Give the product another flour, or retire it first"));
    CHECK(at.screen.says("Flour: Plain loaf is made of it"));
}

TEST_CASE("A retired record says so, goes to the end of its list, and comes back in use") {
    PlantWindow at;
    at.open("Places", "Bay 1");
    at.screen.click("Retire");
    CHECK(at.row(PlantKind::place, "Bay 1").is_retired);
    CHECK(at.screen.says("Retired: nothing new may name it"));
    CHECK_THAT(at.screen.value_of("Bay 1"), Contains("retired"));
    CHECK(at.screen.find("Bay 1").rect.top > at.screen.find("Bay 2").rect.top);
    at.screen.click("In use again");
    CHECK_FALSE(at.row(PlantKind::place, "Bay 1").is_retired);
    CHECK_FALSE(at.screen.says("nothing new may name it"));
}

TEST_CASE("A record that nothing ever named is taken off; of another the reason is said") {
    PlantWindow at;
    at.open("Flours", "Strong white");
    at.screen.click("Record/Take off");
    CHECK(at.has(PlantKind::flour, "Strong white"));
    CHECK(at.screen.says("is named by what was"));
    CHECK(at.screen.says("Retire it instead"));
    at.open("Places", "Bay 2");
    CHECK_FALSE(at.screen.says("is named by what was"));
    at.screen.click("Record/Take off");
    CHECK_FALSE(at.has(PlantKind::place, "Bay 2"));
    CHECK_FALSE(at.screen.offers("Keep Bay 2"));
    at.screen.click("Undo: add it again");
    CHECK(at.has(PlantKind::place, "Bay 2"));
}
