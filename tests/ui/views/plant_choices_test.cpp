#include "support/catch.h"
#include "ui/views/plant/door.h"
#include "ui/views/plant_window.h"

using namespace mellowbin;
using Catch::Matchers::Contains;
using tests::PlantWindow;

// The checks at the door, the laboratory's errors, the plant's name.

namespace {

std::vector<std::string> asked(PlantWindow& at) { return at.plant.app().intake().door_questions; }

} // namespace

TEST_CASE("A check at the door is added, moved and kept, and asked of the next delivery in its place") {
    PlantWindow at;
    const auto before = asked(at);
    at.screen.click("At the door");
    CHECK(at.screen.value_of("Check 1") == before[0]);
    CHECK_FALSE(at.screen.is_enabled("Keep the checks"));
    at.screen.click("Add a check");
    CHECK(at.screen.is_enabled("Keep the checks"));
    at.screen.type("Check 6", "Driver signed");
    at.screen.click("Check 6/Move up");
    at.screen.click("Check 5/Move up");
    at.screen.click("Keep the checks");
    REQUIRE(asked(at).size() == before.size() + 1);
    CHECK(asked(at)[3] == "Driver signed");
    at.put_away();
    at.screen.click("Check 4/Take off");
    at.screen.click("Check 1/Move down");
    at.screen.click("Keep the checks");
    REQUIRE(asked(at).size() == before.size());
    CHECK(asked(at)[0] == before[1]);
}

TEST_CASE("The plant's limit of temperature stands in a check by its word") {
    PlantWindow at;
    at.screen.click("At the door");
    CHECK(at.screen.value_of("Check 4") == "Flour below [temperature]");
    CHECK(at.screen.says("Write [temperature] where the plant's limit is to stand, 30 °C now."));
    at.screen.type("Check 1", "Truck below [temperature]");
    at.screen.click("Keep the checks");
    CHECK(asked(at)[0] == "Truck below 30 °C");
}

TEST_CASE("The usual five are asked again at a press, once nothing is typed") {
    PlantWindow at;
    const auto usual = asked(at);
    at.screen.click("At the door");
    CHECK_FALSE(at.screen.is_enabled("The usual five"));
    at.screen.click("Check 5/Take off");
    at.screen.click("Keep the checks");
    REQUIRE(asked(at).size() == 4);
    at.put_away();
    at.screen.type("Check 1", "Seal");
    CHECK_FALSE(at.screen.is_enabled("The usual five"));
    at.screen.click("As it stands");
    at.screen.click("The usual five");
    CHECK(asked(at) == usual);
    CHECK(at.screen.value_of("Check 5") == usual[4]);
}

TEST_CASE("Checks that cannot be are refused beneath them and stay as typed; none at all cannot be kept") {
    PlantWindow at;
    at.screen.click("At the door");
    at.screen.type("Check 2", at.screen.value_of("Check 1"));
    at.screen.click("Keep the checks");
    CHECK(at.plant.was_refused());
    CHECK(at.screen.says("stands there twice"));
    CHECK(at.screen.value_of("Check 2") == at.screen.value_of("Check 1"));
    at.put_away();
    for (int i = 0; i < 5; ++i)
        at.screen.click("Check 1/Take off");
    CHECK_FALSE(at.screen.is_enabled("Keep the checks"));
    CHECK(at.screen.says("ask one thing at least"));
}

TEST_CASE("Typed checks stay when another page is looked at") {
    PlantWindow at;
    at.screen.click("At the door");
    at.screen.type("Check 1", "Seal");
    at.screen.click("Mills");
    at.screen.click("At the door");
    CHECK(at.screen.value_of("Check 1") == "Seal");
}

TEST_CASE("The lines of a text are its lines, blank ones too") {
    CHECK(views::lines_of("a\n\nb") == std::vector<std::string>{"a", "", "b"});
    CHECK(views::lines_of("") == std::vector<std::string>{""});
    CHECK(views::joined({"a", "", "b"}) == "a\n\nb");
}

TEST_CASE("The laboratory's own error of a test is kept as typed, refused at its field, and emptied again") {
    PlantWindow at;
    const auto row = [&] {
        for (const auto& one : at.plant.app().settings().settings)
            if (one.key.starts_with("test_error_"))
                return one;
        throw std::runtime_error("no test has an error of its own");
    };
    at.screen.click("Laboratory");
    at.screen.type(row().label, "3,5");
    at.screen.press(ui::Key::enter);
    CHECK(row().value == "3.5");
    at.put_away();
    at.screen.type(row().label, "500");
    at.screen.click(row().key + "/Keep");
    CHECK_THAT(at.refusals(), Contains("500 was read"));
    CHECK(at.screen.value_of(row().label) == "500");
    at.put_away();
    at.screen.type(row().label, "");
    at.screen.click(row().key + "/Keep");
    CHECK(row().value.empty());
}

TEST_CASE("The plant's name and time zone are kept here, and the other choices are one press away") {
    PlantWindow at;
    at.screen.click("The plant");
    at.screen.type("plant/Plant", "Corner Bakery");
    at.screen.click("plant/Keep");
    CHECK(at.plant.app().overview().plant == "Corner Bakery");
    at.put_away();
    at.screen.type("Time zone", "Lisbon");
    at.screen.click("time_zone/Keep");
    CHECK_THAT(at.refusals(), Contains("\"Lisbon\" is not in the zone tables"));
    CHECK(at.screen.value_of("Time zone") == "Lisbon");
    at.put_away();
    at.screen.click("Settings: the plant's choices");
    CHECK(at.screens.current() == views::Screen::settings);
    CHECK(at.screen.offers("Confidence of a ready date"));
}
